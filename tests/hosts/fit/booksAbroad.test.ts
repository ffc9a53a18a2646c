import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import type { TableName } from '../../../src/hosts/fit/jobs';
import { placeOfUnread, unreadWords } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf } from './laidOut';

// Two farms whose books nobody laid out for Pinset: one keeps it in German, one writes picks beside their lots. Right answers
// are worked out by hand beside each; the day is 1 April 2026.

/** Weekdays before day-first dates, decimal commas, figures as text; one weekday (row 8) is not that of its date. */
const german = (): Promise<Uint8Array> =>
  bookWith({
    Chargen: [
      ['Chargenbuch'],
      [],
      ['Nr.', 'Sorte', 'Beimpft', 'Stück', 'Gewicht (kg)', 'Feuchte', 'ausgelegt am', 'Bemerkung'],
      ['26/01', 'Linde 3', 'Mo 12.1.26', 40, '2,4', '62 %', 'Mi 28.1.26', null],
      ['26/02', 'Linde 3', '20. März 26', 50, '2,4', '62 %', null, '2 Schimmel'],
      ['26/03', 'Ulme 9', 'Di 24.2.26', 30, 2.4, '58 %', null, null],
      ['26/04', 'LINDE 3', 'Fr 27.3.26', 60, '2,4', '62 %', null, null],
      ['26/05', 'Linde 3', 'Di 30.3.26', 45, '2,4', '62 %', null, null],
      ['Summe', null, null, 225],
    ],
    Sorten: [
      [
        ...[
          'Sorte',
          'verkauft als',
          'reif ab (Tage)',
          'reif am besten',
          'reif bis',
          '1. Ernte nach',
          'Erntetage',
        ],
        ...['Pause', 'Schub 1', 'Schub 2', 'BE'],
      ],
      ['Linde 3', 'Seitling', 10, 13, 18, 5, 3, 9, '70%', '30%', '80 %'],
      ['Ulme 9', 'Shiitake', 60, 70, 95, 7, 3, 18, '60%', '40%', '70 %'],
    ],
    Hallen: [
      ['Halle', 'Regale', 'Blöcke je Regal'],
      ['H1', 10, 24],
    ],
    Bestellungen: [
      ['Kunde', 'Artikel', 'Menge kg', 'Liefertag'],
      ['Markt', 'Seitling', '20,0', 'Sa 18.4.26'],
    ],
    Ernte: [
      ['Datum', 'Charge', 'Schub', 'kg', 'Güte'],
      ['Mo 2.2.26', '26/01', 1, '6,4', 'A'],
      ['Di 3.2.26', '26/01', 1, '7,1', 'A'],
      ['Mi 4.2.26', '26/01', 1, 68, 'A'],
      ['Mi 11.2.26', '26/01', 2, '2,9', 'A'],
      ['Do 12.2.26', '26/01', 2, '3,1', 'B'],
      ['Fr 13.2.26', '26/01', 2, '2,8', 'B'],
    ],
  });

const headers = [
  [null, null, null, null, null, 'Flush 1', null, 'Flush 2'],
  [
    'Bag code',
    'Inoculated',
    'Bags',
    'kg each',
    'To fruiting',
    'date',
    'kg',
    'date',
    'kg',
    'Water %',
    'Comments',
  ],
];

/** A sheet a month; the name of a lot begins with the code of its strain; picks in columns beside it, one of them ten times. */
const wide = (): Promise<Uint8Array> =>
  bookWith({
    Key: [
      ['Codes we use'],
      [],
      [
        ...[
          'Code',
          'Mushroom',
          'Ready from (days)',
          'Best',
          'No later than',
          'First pick (days)',
          'Picking days',
        ],
        ...['Flush gap (days)', 'F1 share', 'F2 share', 'Yield (BE)'],
      ],
      ['BO', 'Blue oyster', 14, 18, 26, 6, 2, 11, 0.68, 0.32, 0.95],
      ['LM', 'Lion’s mane', 18, 22, 32, 8, 2, 14, 0.7, 0.3, 0.75],
    ],
    'Feb 26': [
      ['February 2026'],
      ...headers,
      ['BO01', '2026-02-02', 30, 3, '2026-02-20', '2026-02-26', 19.9, '2026-03-09', 9.8, 0.62],
      ['BO02', '2026-02-03', 30, 3, '2026-02-21', '2026-02-27', 205, '2026-03-10', 9.4, 0.62],
      ['BO05', '2026-02-04', 30, 3, '2026-02-22', '2026-02-28', 21.1, '2026-03-11', 9.9, 0.62],
      ['BO06', '2026-02-05', 30, 3, '2026-02-23', '2026-03-01', 20.2, '2026-03-12', 10.3, 0.62],
      ['BO07', '2026-02-06', 30, 3, '2026-02-24', '2026-03-02', 19.4, '2026-03-13', 9.1, 0.62],
      ['LM01', '2026-02-23', 20, 3, '2026-03-17', '2026-03-25', 12.4, null, null, 0.6, 'slow'],
      [null, null, 170, null, null, null, 298, null, 48.5, null, 'total'],
    ],
    'Mar 26': [
      ['March 2026'],
      ...headers,
      ['LM02', '2026-03-09', 25, 3, null, null, null, null, null, 0.6],
      ['BO03', '2026-03-16', 40, 3, null, null, null, null, null, 0.62],
      ['BO04', '2026-03-30', 40, 3, null, null, null, null, null, 0.62],
    ],
    Space: [
      ['Tent', 'Shelves', 'Bags a shelf'],
      ['A', 10, 12],
    ],
    Sales: [
      ['Who', 'Code', 'kg', 'For', 'Paid'],
      ['Saturday market', 'BO', 15, '2026-04-18', null],
    ],
  });

describe('a book in German', () => {
  test('is asked nothing, and lists the lots that are ready', async () => {
    const [fit, prepared] = await laidOut(await german(), 'ready', {});
    expect(fit.unread.map((cell) => `${placeOfUnread(cell)} ${unreadWords(cell)}`)).toEqual([
      'Chargen!C8 dates: "Di 30.3.26" is 2026-03-30, a Monday: correct the weekday or the date',
    ]);
    // From the 10th to the 18th day: 20 March + 10 is 30 March, 27 March + 10 is 6 April; 24 February + 60 is 25 April.
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(rows.slice(0, 3).map(([lot, , , , from]) => [lot, from])).toEqual([
      ['26/02', day(3, 30)],
      ['26/04', day(4, 6)],
      ['1 lot is loaded already', ''],
    ]);
  });

  test('is planned for what its strains are sold as, without the lot that is on the shelves', async () => {
    const [, prepared] = await laidOut(await german(), 'plan', { leaveOut: { lots: true } });
    const [, ...loads] = valuesOf(prepared, 'LOADPLAN');
    expect(loads.map(([, lot]) => lot)).not.toContain('26/01');
    const [, order] = valuesOf(prepared, '"orders"');
    expect(order!.slice(0, 4)).toEqual(['Seitling', day(4, 12), day(4, 18), 20]);
    expect(order![4]).toBeGreaterThan(19.8);
  });

  test('is audited: the comma that was lost is found in its cell', async () => {
    const bytes = await german();
    const [, prepared] = await laidOut(bytes, 'audit', {});
    const [, ...rows] = valuesOf(prepared, 'YIELDAUDIT');
    const slip = rows.findIndex(
      ([table, , lot, wrong]) =>
        table === 'harvests' && lot === '26/01' && typeof wrong === 'string' && wrong.includes('mass'),
    );
    expect(rows[slip]![6]).toBeCloseTo(6.8, 6);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    expect(workbook.result('Audit', `A${5 + slip}`).value).toBe('Ernte!D4');
  });
});

describe('picks beside their lots, a sheet a month', () => {
  test('lots without a column of strains are of those that their names begin with', async () => {
    const [fit, prepared] = await laidOut(await wide(), 'ready', {});
    expect(fit.unread).toEqual([]);
    // 9 March + 18 is 27 March, 16 March + 14 is 30 March; 30 March + 14 is 13 April.
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(rows.map(([lot, strain, , , from]) => [lot, strain, from])).toEqual([
      ['LM02', 'LM', day(3, 27)],
      ['BO03', 'BO', day(3, 30)],
      ['6 lots are loaded already', '', ''],
    ]);
  });

  test('the plan reads orders by their codes', async () => {
    const [, prepared] = await laidOut(await wide(), 'plan', {});
    const [, order] = valuesOf(prepared, '"orders"');
    expect(order!.slice(0, 4)).toEqual(['BO', day(4, 12), day(4, 18), 15]);
    expect(order![4]).toBeGreaterThan(14.8);
  });

  test('each flush is read as a list of picks, and a slip is told by the cell it is in', async () => {
    const bytes = await wide();
    const [fit, prepared] = await laidOut(bytes, 'audit', {});
    expect(fit.tables.get('harvests')!.candidate.dataRows).toHaveLength(11);
    const [, ...rows] = valuesOf(prepared, 'YIELDAUDIT');
    expect(rows.map(([, , lot, , , , meant]) => [lot, meant])).toEqual([['BO02', 20.5]]);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    expect(workbook.result('Audit', 'A5').value).toBe("'Feb 26'!G5");
    expect(workbook.result('Audit', 'B5').value).toBe('harvests');
  });

  test('no formula needs a function that older spreadsheets lack', async () => {
    for (const job of ['ready', 'audit'] as const) {
      const [, { sheets }] = await laidOut(await wide(), job, {});
      const formulas = sheets.flatMap(({ things }) =>
        things.flatMap((thing) => (thing.kind === 'formula' ? [thing.formula] : [])),
      );
      expect(formulas.filter((one) => /VSTACK|HSTACK|XLOOKUP|FILTER|SORT|LET\(|LAMBDA/.test(one))).toEqual(
        [],
      );
    }
  });
});

test('codes are found beside the names of the strains, and picks are never taken for orders', async () => {
  const answers: Answers = {};
  const bytes = await bookWith({
    Batches: [
      ['Batch no.', 'Variety', 'Date spawned', 'Bags made', 'kg/bag', 'Moisture content', 'Moved to fruit'],
      ['FB001', 'GD', '2026-02-02', 40, 2.5, 0.62, '2026-02-20'],
      ['FB002', 'K', '2026-02-25', 40, 2.5, 0.64, null],
    ],
    Varieties: [
      [
        'Abbr',
        'Variety',
        'We sell it as',
        'Earliest day',
        'Best day',
        'Last day',
        '1st pick',
        'Pick days',
        'Rest',
        'Efficiency',
      ],
      ['GD', 'Grey Dove', 'Oyster', 15, 19, 27, 6, 3, 11, 0.9],
      ['K', 'King', 'King Oyster', 28, 34, 45, 10, 3, 16, 0.65],
    ],
    Tunnels: [
      ['Name', 'Shelves', 'Bags/shelf'],
      ['PT1', 10, 18],
    ],
    Harvest: [
      ['Day', 'Batch', 'Variety', 'Flush', 'Net (g)'],
      ['2026-02-26', 'FB001', 'GD', 1, 9050],
      ['2026-02-27', 'FB001', 'GD', 1, 8200],
    ],
  });
  const { tables, questions } = fitted(opened(bytes), 'plan', answers);
  const headerOf = (table: TableName, wanted: string) =>
    tables.get(table)!.readings.find(({ name }) => name === wanted)!.match.header;
  expect(headerOf('strains', 'strain')).toBe('Abbr');
  expect(headerOf('strains', 'latest')).toBe('Last day');
  expect(headerOf('rooms', 'room')).toBe('Name');
  expect(tables.has('orders')).toBe(false);
  // The days between flushes are there, and not how many there are.
  expect(questions).toMatchObject([
    { kind: 'column', table: 'strains', column: 'flushes' },
    { kind: 'table', table: 'orders', choices: [] },
  ]);
});

test('a Danish book is read by its own headers, its sum passed over, weekdays in Danish', async () => {
  const bytes = await bookWith({
    Partier: [
      ['Parti', 'Sort', 'Antal poser', 'Vægt pr. pose (kg)', 'Vandindhold', 'Podet', 'Rest'],
      ['Ø1', 'Østershat', 40, '2,5', '62 %', '02-03-2026', 15],
      ['Ø2', 'Østershat', 42, '2,5', '62 %', '13-03-2026', 42],
      ['I alt', null, 82, null, null, null, 57],
    ],
    Sorter: [
      [
        'Sort',
        'Tidligst (dage)',
        'Bedst (dage)',
        'Senest (dage)',
        'Dage til første høst',
        'Høstdage',
        'Dage mellem bølger',
        'Udbytte',
        '1. bølge',
        '2. bølge',
      ],
      ['Østershat', 18, 23, 42, 7, 4, 12, '65 %', '60 %', '40 %'],
    ],
    Rum: [
      ['Rum', 'Hylder', 'Poser pr. hylde'],
      ['Rum 1', 8, 10],
    ],
    Ordrer: [
      ['Kunde', 'Sort', 'Mængde kg', 'Levering'],
      ['Torvet', 'Østershat', '6,5', 'lørdag'],
    ],
  });
  const { tables, questions, unread } = fitted(opened(bytes), 'plan', {});
  expect([questions, unread]).toEqual([[], []]);
  expect(tables.get('lots')!.values.get('blocks')).toEqual([15, 42]);
  expect(tables.get('strains')!.values.get('flush 2')).toEqual([0.4]);
  expect(tables.get('orders')!.values.get('mass')!.slice(0, 1)).toEqual([6.5]);
});
