import { describe, expect, test } from '@jest/globals';
import { plainValues } from '../../../src/worksheet/cells/cell';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { TableName } from '../../../src/hosts/fit/jobs';
import { bookOf } from '../../../src/hosts/fit/content';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { turned } from '../../../src/hosts/fit/turned';
import { ignoredWords, sourceWords } from '../../../src/hosts/fit/told';
import { placeOfCells, placeOfUnread, unreadTogether } from '../../../src/hosts/fit/unreadTold';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Habits of farm books, a few cells each: every expected day and mass is counted by hand from the cells.

const STRAINS: readonly (readonly Held[])[] = [
  [
    'Species',
    'Code',
    'from',
    'best at',
    'toss after',
    '1st pick',
    'picking days',
    'breaks',
    'days between',
    'BE',
  ],
  ['Blue larch', 'BL', 18, 24, 45, 7, 4, 2, 12, '70%'],
  ['Fen grey', 'FG', 22, 28, 42, 10, 4, 1, 14, '55%'],
];
const SHARES = {
  shares: [
    { strain: 'Blue larch', 'flush 1': 60, 'flush 2': '40%' },
    { strain: 'Fen grey', 'flush 1': '100%' },
  ],
};
const ROOMS: readonly (readonly Held[])[] = [
  ['Shed', 'Shelves', 'Bags / shelf'],
  ['1', 10, 12],
];
const LOTS: readonly (readonly Held[])[] = [
  ['Block batch', 'Species', 'units_remaining', 'Bag wt', 'MC%', 'Made on'],
  ['B1', 'Blue larch', 40, '6 lb', '61%', '2026-03-02'],
  ['B2', 'Fen grey', 30, '5 lb', '60%', '2026-03-02'],
];
/** The formulas on the sheets give what was shown before they were written. */
async function doAgree(bytes: Uint8Array, prepared: Prepared, name: string): Promise<void> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const { address } = prepared.calls.find(({ formula }) => formula.includes(name))!;
  expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, name));
}
const questionsOf = (questions: readonly Parameters<typeof questionWords>[0][]): string[] =>
  questions.map(({ kind }) => kind);

describe('marks in cells', () => {
  test('a ditto mark says the same as the cell above, in a name, a weight and a date', async () => {
    const bytes = await bookWith({
      Bags: [
        ['Batch', 'Sp.', 'Left', 'Bag wt', 'MC%', 'Made on'],
        ['B1', 'BL', 40, '6 lb', '61%', '2026-03-02'],
        ['B2', '"', 30, '"', '〃', '"'],
        ['B3', 'FG', 20, '5 lb', '60%', 'ditto'],
      ],
      'How long': STRAINS,
    });
    const { tables, unread, questions } = fitted(opened(bytes), 'ready', {});
    expect([questions, unread]).toEqual([[], []]);
    expect(tables.get('lots')!.values.get('strain')).toEqual(['BL', 'BL', 'FG']);
    expect(tables.get('lots')!.values.get('inoculated')).toEqual([day(3, 2), day(3, 2), day(3, 2)]);
    const [, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30', days: 7 } });
    const [, strain] = prepared.columns.filter(({ header }) => header === 'strain');
    expect(strain!.formula).toContain('LOOKUP');
    expect(strain!.cells.slice(0, 3)).toEqual(['BL', 'BL', 'FG']);
  });

  test('a ditto mark with nothing above it is told', async () => {
    const bytes = await bookWith({
      Bags: [
        ['Batch', 'Sp.', 'Left', 'Made on'],
        ['B1', '"', 40, '2026-03-02'],
        ['B2', 'BL', 30, '2026-03-02'],
      ],
      'How long': STRAINS,
    });
    const { unread } = fitted(opened(bytes), 'ready', {});
    expect(unread.map((one) => [placeOfUnread(one), one.why])).toEqual([
      ['Bags!B2', 'repeats the cell above, and there is none'],
    ]);
  });

  test('a dash in a column that may be blank is a blank; in one that is needed it is told', async () => {
    const lots = (made: string) => ({
      Blocks: [
        ['Batch', 'Species', 'Bags', 'Made on', 'Into room'],
        ['B1', 'Blue larch', 40, '2026-03-02', '25.3.26'],
        ['B2', 'Blue larch', 30, made, '-'],
        ['B3', 'Blue larch', 30, '2026-03-05', '–'],
      ],
      'How long': STRAINS,
    });
    const whole = fitted(opened(await bookWith(lots('2026-03-03'))), 'ready', {});
    expect([whole.questions, whole.unread]).toEqual([[], []]);
    expect(whole.tables.get('lots')!.values.get('loaded')).toEqual([day(3, 25), '', '']);
    const { unread } = fitted(opened(await bookWith(lots('-'))), 'ready', {});
    expect(unread.map(placeOfUnread)).toEqual(['Blocks!D3']);
  });
});

describe('dates', () => {
  const book = () =>
    bookWith({
      'Mar 2026': [
        ['Batch', 'Species', 'Left', 'Spawned'],
        ['B1', 'Blue larch', 40, 'Mar 2'],
        ['B2', 'Fen grey', 30, 'Mar 13'],
      ],
      'How long': STRAINS,
    });

  test('without a year are asked about, with the year that the sheet’s name says', async () => {
    const { questions, unread } = fitted(opened(await book()), 'ready', {});
    expect([questions, unread]).toEqual([
      [{ kind: 'years', about: 'lots, inoculated', texts: ['Mar 2', 'Mar 13'], elsewhere: 2026 }],
      [],
    ]);
    const { tables } = fitted(opened(await book()), 'ready', { years: { 'lots, inoculated': 2026 } });
    expect(tables.get('lots')!.values.get('inoculated')).toEqual([day(3, 2), day(3, 13)]);
  });

  test('as headings over what was made or picked on that day are read for each record below', async () => {
    const bytes = await bookWith({
      'Inoc log': [
        ['No.', 'What', 'Bags', 'Left'],
        ['Monday 2 March 2026', null, null, null],
        [301, 'Blue larch', 30, 0],
        [302, 'Fen grey', 20, 20],
        ['Friday 13 March 2026', null, null, null],
        [303, 'Blue larch', 32, 14],
      ],
      'How long': STRAINS,
    });
    const { tables, questions, unread } = fitted(opened(bytes), 'ready', {});
    expect([questions, unread]).toEqual([[], []]);
    const { values } = tables.get('lots')!;
    expect([values.get('lot'), values.get('inoculated')]).toEqual([
      [302, 303],
      [day(3, 2), day(3, 13)],
    ]);
  });

  test('a list with dates filled in ahead keeps them: they are no headings', async () => {
    const bytes = await bookWith({
      Picked: [
        ['Date', 'Batch', 'lb'],
        ['2026-03-30', 'B1', 4],
        ['2026-03-31', null, null],
        ['2026-04-01', 'B2', 5],
      ],
      Bags: LOTS,
      'How long': STRAINS,
    });
    const { tables, questions } = fitted(opened(bytes), 'audit', {});
    expect(questions).toEqual([]);
    const { values } = tables.get('harvests')!;
    expect([values.get('date'), values.get('lot')]).toEqual([
      [day(3, 30), day(4, 1)],
      ['B1', 'B2'],
    ]);
  });
});

describe('orders', () => {
  const planned = async (orders: readonly (readonly Held[])[], name = 'Orders') => {
    const bytes = await bookWith({ Bags: LOTS, 'How long': STRAINS, Sheds: ROOMS, [name]: orders });
    const answers = { fill: SHARES, figures: { today: '2026-04-01', days: 7 } };
    const [fit, prepared] = await laidOut(bytes, 'plan', answers);
    expect(fit.unread).toEqual([]);
    const rows = valuesOf(prepared, '"orders"').slice(1);
    return { fit, rows: rows.map(([product, , due, mass]) => [product, due, mass]) };
  };

  test('on weekdays across are due on each of them, every week; the price beside them is read', async () => {
    // 1 April 2026 is a Wednesday: the first Monday is the 6th, the first Friday the 3rd.
    const { fit, rows } = await planned([
      ['Weekly, lb'],
      ['Customer', 'Type', 'Mon', 'Wed', 'Fri', '$/lb'],
      ['Cafe', 'Blue larch', 3, null, 4, 22],
      ['Noodle bar', 'Fen grey', null, 5, null, 20],
    ]);
    expect(rows).toEqual([
      ['Fen grey', day(4, 1), 5],
      ['Blue larch', day(4, 3), 4],
      ['Blue larch', day(4, 6), 3],
    ]);
    expect(fit.tables.get('orders')!.values.get('price')).toEqual([22, 20, 22]);
    expect(ignoredWords(fit.tables.get('orders')!)).toBe('Not used: Customer');
  });

  test('a row of prices below products across is no order: it is the price of each', async () => {
    const { fit, rows } = await planned([
      ['Day', 'For', 'Blue larch', 'Fen grey'],
      ['Fri', 'Pub', 4, 3],
      ['price per kilo', null, 10, 14],
    ]);
    expect(rows).toEqual([
      ['Blue larch', day(4, 3), 4],
      ['Fen grey', day(4, 3), 3],
    ]);
    expect(fit.tables.get('orders')!.values.get('price')).toEqual([10, 14]);
  });

  test('a column of prices that belongs to no one product is told as unread', async () => {
    const { fit } = await planned([
      ['Customer', 'Delivery', 'Blue larch', 'Fen grey', 'Price'],
      ['Pub', '2026-04-03', 4, 3, 50],
      ['Box', '2026-04-04', 2, 1, 20],
    ]);
    expect(ignoredWords(fit.tables.get('orders')!)).toBe('Not used: Customer, Price');
  });

  test('two days in a cell, in Spanish, are two orders', async () => {
    const { rows } = await planned([
      ['Cliente', 'Producto', 'lb', 'Día de entrega'],
      ['Sol', 'Blue larch', 6, 'martes y viernes'],
      ['Mar', 'Fen grey', 2, 'sábado'],
    ]);
    expect(rows).toEqual([
      ['Blue larch', day(4, 3), 6],
      ['Fen grey', day(4, 4), 2],
      ['Blue larch', day(4, 7), 6],
    ]);
  });
});

describe('what only the grower knows is asked, and nothing else', () => {
  test('how many flushes there are, but not what share each gives: the shares are asked, once a strain', async () => {
    const bytes = await bookWith({
      Bags: LOTS,
      'How long': STRAINS,
      Sheds: ROOMS,
      Orders: [
        ['Item', 'lb', 'Needed by'],
        ['Blue larch', 4, '2026-04-12'],
      ],
    });
    const { questions } = fitted(opened(bytes), 'plan', {});
    expect(questions).toHaveLength(1);
    expect(questions[0]).toMatchObject({
      kind: 'fill',
      table: 'shares',
      numbers: 2,
      rows: [{ strain: 'Blue larch' }, { strain: 'Fen grey', 'flush 1': '100%' }],
    });
    const [, prepared] = await laidOut(bytes, 'plan', { fill: SHARES, figures: { today: '2026-04-01' } });
    const [, first] = valuesOf(prepared, '"orders"');
    expect(first!.slice(0, 4)).toEqual(['Blue larch', day(4, 6), day(4, 12), 4]);
  });

  test('a day of picks beside a lot is not taken for the day it was loaded, nor is it asked about', async () => {
    const bytes = await bookWith({
      'Grow sheet': [
        ['Lot', 'Type', 'Bags', 'Made on', '1st flush date', '1st flush lb'],
        ['A', 'Blue larch', 30, '2026-03-02', '2026-03-30', 22],
        ['B', 'Fen grey', 30, '2026-03-05', null, null],
      ],
      'How long': STRAINS,
    });
    expect(questionsOf(fitted(opened(bytes), 'ready', {}).questions)).toEqual([]);
  });

  test('a list of lots without a count of blocks is asked for one', async () => {
    const bytes = await bookWith({
      Bags: [
        ['Batch', 'Species', 'Made on', 'Stack'],
        ['B1', 'Blue larch', '2026-03-02', 40],
        ['B2', 'Fen grey', '2026-03-02', 30],
      ],
      'How long': STRAINS,
    });
    const { questions } = fitted(opened(bytes), 'ready', {});
    expect(questions).toMatchObject([
      { kind: 'column', table: 'lots', column: 'blocks', choices: ['Stack'] },
    ]);
  });
});

test.each<[TableName, string, string]>([
  ['lots', 'lot', 'Block batch'],
  ['lots', 'blocks', 'units_remaining'],
  ['lots', 'inoculated', 'Made on'],
  ['strains', 'latest', 'toss after'],
  ['rooms', 'room', 'Shed'],
])('%s, %s is found under “%s”', async (table, column, header) => {
  const bytes = await bookWith({ Bags: LOTS, 'How long': STRAINS, Sheds: ROOMS });
  const { tables } = fitted(opened(bytes), 'plan', {});
  const reading = tables.get(table)!.readings.find(({ name }) => name === column);
  expect(reading?.match.header).toBe(header);
});

test('the number of a record is no weight: harvest_id is passed over for weight_g', async () => {
  const bytes = await bookWith({
    harvests: [
      ['harvest_id', 'batch_id', 'harvest_ts', 'weight_g'],
      [700, 'B1', '2026-04-09T10:30:00Z', 4200],
      [701, 'B1', '2026-04-10T10:30:00Z', 3100],
    ],
    Bags: LOTS,
    'How long': STRAINS,
  });
  const { tables } = fitted(opened(bytes), 'audit', {});
  expect(tables.get('harvests')!.values.get('mass')).toEqual([4200, 3100]);
});

describe('rows that are not all records', () => {
  const LOG: readonly (readonly Held[])[] = [
    ['Date', 'What we did', 'Lot', 'Kind', 'Bags', 'Pounds', 'Notes'],
    ['2026-03-02', 'made', 'B1', 'Blue larch', 30, null, null],
    ['2026-03-03', 'misted', null, null, null, null, null],
    ['2026-03-04', 'Made', 'B2', 'Fen grey', 20, null, null],
    ['2026-03-20', 'opened', 'B1', 'Blue larch', 12, null, null],
    ['2026-03-21', 'tossed', 'B1', 'Blue larch', 3, null, 'green'],
    ['2026-03-22', 'opened', 'B2', 'Fen grey', 20, null, null],
    ['2026-03-28', 'picked', 'B1', 'Blue larch', null, 4.5, null],
    ['2026-03-29', 'misted', null, null, null, null, null],
  ];
  const ALL = { figures: { today: '2026-04-01' } };
  const book = () => bookWith({ Log: LOG, 'How long': STRAINS });

  test('a log asks which of its rows are the lots, and which take blocks off them', async () => {
    const { questions, unread } = fitted(opened(await book()), 'ready', {});
    expect(questions).toMatchObject([
      { kind: 'rows', header: 'What we did', proposed: ['made'], isLog: true },
      { kind: 'taken', words: new Map(Object.entries({ opened: 2, tossed: 1 })) },
    ]);
    // What is proposed is read at once: nothing of other rows is told.
    expect(unread).toEqual([]);
  });

  test('what is left of a lot is what was made less what was opened and thrown away; the formulas say the same', async () => {
    const answers = {
      ...ALL,
      rows: { lots: { 'What we did': ['made'] } },
      taken: { lots: ['opened', 'tossed'] },
    };
    const [fit, prepared] = await laidOut(await book(), 'ready', answers);
    const lots = valuesOf(prepared, 'READYLOTS');
    expect(lots.slice(1).map(([lot, , blocks]) => [lot, blocks])).toEqual([['B1', 15]]);
    expect(fit.tables.get('lots')!.evidence).toMatchObject([{ lot: 'B1', blocks: '30 − 15' }]);
    expect(sourceWords(fit.tables.get('lots')!)).toBe(
      '1 record in Log!A1:G9; 1 lot with none left is passed over; 6 rows left out by “What we did”',
    );
    await doAgree(await book(), prepared, 'READYLOTS');
  });

  test('lots and picks may be rows of one log', async () => {
    const { tables, questions } = fitted(opened(await book()), 'audit', {});
    expect(questionsOf(questions)).toEqual(['rows', 'rows']);
    expect(tables.get('harvests')!.values.get('mass')).toEqual([4.5]);
    expect(tables.get('lots')!.values.get('lot')).toEqual(['B1', 'B2']);
  });

  const ORDERS: readonly (readonly Held[])[] = [
    ['Customer', 'Species', 'lb', 'Due', 'Status', 'Delivered'],
    ['Inn', 'Blue larch', 5, '2026-04-04', 'open', false],
    ['Inn', 'Blue larch', 6, '2026-04-05', 'cancelled', false],
    ['Box', 'Fen grey', 7, '2026-04-06', 'open', true],
    ...Array.from({ length: 5 }, (): Held[] => [null, null, null, null, null, false]),
  ];
  const withOrders = () => bookWith({ Bags: LOTS, 'How long': STRAINS, Rooms: ROOMS, Orders: ORDERS });

  test('orders that are cancelled or delivered are proposed to be left out; boxes nobody ticked are no orders', async () => {
    const { questions, tables, unread } = fitted(opened(await withOrders()), 'plan', { fill: SHARES });
    expect(questions).toMatchObject([
      { kind: 'rows', header: 'Status', proposed: ['open'] },
      { kind: 'rows', header: 'Delivered', proposed: ['not ticked'] },
    ]);
    expect(unread).toEqual([]);
    expect(tables.get('orders')!.values.get('mass')).toEqual([5]);
  });

  test('what was said of them is kept on the sheet of readings', async () => {
    const rows = { orders: { Status: ['open'], Delivered: ['not ticked', 'ticked'] } };
    const [fit, prepared] = await laidOut(await withOrders(), 'plan', { ...ALL, fill: SHARES, rows });
    expect(fit.tables.get('orders')!.values.get('mass')).toEqual([5, 7]);
    const read = bookOf(readWorkbook(withSheets(await withOrders(), prepared.sheets)), []);
    expect(keptAnswers(read, 'plan').rows).toEqual(rows);
  });

  test('a lot whose remark says that it was thrown away is asked about; nothing is asked where all are well', async () => {
    const lots = (note: string) =>
      bookWith({
        Bags: [
          [...LOTS[0]!, 'Notes'],
          [...LOTS[1]!, note],
          [...LOTS[2]!, null],
        ],
        'How long': STRAINS,
      });
    const { questions } = fitted(opened(await lots('tossed, trich')), 'ready', {});
    expect(questions).toMatchObject([{ kind: 'rows', header: 'Notes', proposed: ['blank'] }]);
    expect(fitted(opened(await lots('looks fine')), 'ready', {}).questions).toEqual([]);
  });
});

describe('cells in a form of their own', () => {
  test('each pick is in the unit that stands beside it; a row without one is told', async () => {
    const bytes = await bookWith({
      Picked: [
        ['Day', 'Lot', 'Qty', 'UOM'],
        ['2026-03-28', 'B1', 2, 'LB'],
        ['2026-03-29', 'B1', 40, 'oz'],
        ['2026-03-30', 'B1', 3, 'lbs'],
        ['2026-03-31', 'B1', 1, null],
      ],
      Bags: LOTS,
      'How long': STRAINS,
    });
    const { tables, unread } = fitted(opened(bytes), 'audit', {});
    const [, prepared] = await laidOut(bytes, 'audit', {});
    await doAgree(bytes, prepared, 'YIELDAUDIT');
    // 16 ounces are a pound.
    expect(tables.get('harvests')!.values.get('mass')!.slice(0, 3)).toEqual([2, 2.5, 3]);
    expect(unread.map((one) => [placeOfUnread(one), one.why])).toEqual([
      ['Picked!C5', 'has no unit under UOM'],
    ]);
  });

  test('eight figures are a day where that is needed, and a name where a name is', async () => {
    const bytes = await bookWith({
      Bags: [
        ['Batch', 'Species', 'Left', 'PROD_DT'],
        [20260302, 'Blue larch', 40, 20260302],
        [20260303, 'Fen grey', 30, 20261303],
      ],
      'How long': STRAINS,
    });
    const [, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30', days: 7 } });
    await doAgree(bytes, prepared, 'READYLOTS');
    const { tables, unread } = fitted(opened(bytes), 'ready', {});
    expect(tables.get('lots')!.values.get('lot')).toEqual([20260302, 20260303]);
    expect(tables.get('lots')!.values.get('inoculated')![0]).toBe(day(3, 2));
    // There is no month 13.
    expect(unread.map(placeOfUnread)).toEqual(['Bags!D3']);
  });

  test('days of the week among dates stand every week; a date is one order', async () => {
    const bytes = await bookWith({
      Bags: LOTS,
      'How long': STRAINS,
      Rooms: ROOMS,
      Orders: [
        ['Customer', 'Species', 'lb', 'When'],
        ['Inn', 'Blue larch', 5, 'Wed, Sat'],
        ['Box', 'Fen grey', 7, '4/18/26'],
        ['Box', 'Fen grey', 8, '4/4/26'],
      ],
    });
    const answers = { fill: SHARES, figures: { today: '2026-04-01', days: 14 } };
    const [fit, prepared] = await laidOut(bytes, 'plan', answers);
    expect(fit.unread).toEqual([]);
    const orders = valuesOf(prepared, '"orders"');
    expect(orders.slice(1).map(([product, , due, mass]) => [product, due, mass])).toEqual([
      ['Blue larch', day(4, 1), 5],
      ['Blue larch', day(4, 4), 5],
      ['Fen grey', day(4, 4), 8],
      ['Blue larch', day(4, 8), 5],
      ['Blue larch', day(4, 11), 5],
      ['Fen grey', day(4, 18), 7],
    ]);
    await doAgree(bytes, prepared, 'LOADPLAN');
  });

  test('what colours mean is told once, with the cell that says it', async () => {
    const bytes = await bookWith({
      Bags: [['red = mouldy, green = growing'], [], ...LOTS],
      'How long': STRAINS,
    });
    const { colourKeys } = fitted(opened(bytes), 'ready', {});
    expect(colourKeys).toEqual([{ sheet: 'Bags', row: 0, column: 0, says: 'red = mouldy, green = growing' }]);
  });

  test('cells one below the other that cannot be read are told together', async () => {
    const bytes = await bookWith({
      Bags: [
        LOTS[0]!,
        ...['B1', 'B2', 'B3'].map((lot) => [lot, 'Blue larch', null, '6 lb', '61%', '2026-03-02']),
      ],
      'How long': STRAINS,
    });
    const { unread } = fitted(opened(bytes), 'ready', {});
    expect(unreadTogether(unread).map(placeOfCells)).toEqual(['Bags!C2:C4']);
  });
});

test('a week is the day of it that the grower says, beside dates; both are asked', async () => {
  const bytes = await bookWith({
    Bags: LOTS,
    'How long': STRAINS,
    Rooms: ROOMS,
    Orders: [
      ['Customer', 'Species', 'lb', 'Due'],
      ['Inn', 'Blue larch', 5, 'wk 15'],
      ['Box', 'Fen grey', 7, '18 April 2026'],
      ['Box', 'Fen grey', 8, 'Week 16'],
    ],
  });
  const { questions, unread } = fitted(opened(bytes), 'plan', { fill: SHARES });
  expect([questionsOf(questions), unread]).toEqual([['weekdays', 'years'], []]);
  const about = 'orders, due';
  const [fit, prepared] = await laidOut(bytes, 'plan', {
    fill: SHARES,
    figures: { today: '2026-04-01', days: 28 },
    years: { [about]: 2026 },
    weekdays: { [about]: 'Friday' },
  });
  expect(fit.unread).toEqual([]);
  // ISO 8601: 1 January 2026 is a Thursday, so week 1 begins on 29 December 2025 and week 15 on 6 April.
  expect(fit.tables.get('orders')!.values.get('due')).toEqual([day(4, 10), day(4, 18), day(4, 17)]);
  await doAgree(bytes, prepared, 'LOADPLAN');
});

describe('what no formula could read as a list', () => {
  const asked = async (sheets: Parameters<typeof bookWith>[0]): Promise<string[]> =>
    fitted(opened(await bookWith({ ...sheets, 'How long': STRAINS })), 'ready', {}).questions.map(
      questionWords,
    );

  test('a sheet of as many rows as a sheet can have is looked at as any other', () => {
    const rows = Array.from<readonly string[]>({ length: 1_048_576 }).fill([]);
    expect(turned({ name: 'Far', rows, formatAt: () => undefined, isFormula: () => false })).toBeUndefined();
  });

  test('counts by strain and day without names are told, with the list to write', async () => {
    expect(
      await asked({
        Board: [
          [null, '2026-03-02', '2026-03-09', '2026-03-16'],
          ['Blue larch', 40, null, 38],
          ['Fen grey', 20, 30, null],
          ['TOTAL', 60, 30, 38],
        ],
      }),
    ).toEqual([
      expect.stringMatching(/^Your lots: Board!A1:D3 counts them by strain and day, .*lot, strain,/),
    ]);
  });
});

test('days behind figures and pages behind labels are left out, in the formulas too', async () => {
  const bytes = await bookWith({
    Bags: [
      ['Name', 'Species', 'Left', 'Made on'],
      ['B1', 'Blue larch (pages/blue-larch)', 40, '2026-03-02'],
      ['B2', 'Fen grey (pages/fen-grey)', 30, '2026-03-03'],
    ],
    'How long': [
      ['Species', 'from', 'best at', 'toss after'],
      ['Blue larch', '18 days', '24 days', '45 days'],
      ['Fen grey', '22 days', '28 days', '42 d'],
    ],
  });
  const [fit, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30', days: 7 } });
  expect(fit.tables.get('lots')!.values.get('lot')).toEqual(['B1', 'B2']);
  expect(fit.tables.get('lots')!.values.get('strain')).toEqual(['Blue larch', 'Fen grey']);
  expect(fit.tables.get('strains')!.values.get('latest')).toEqual([45, 42]);
  await doAgree(bytes, prepared, 'READYLOTS');
});

describe('strains whose sheet says less than a job takes', () => {
  const bags: readonly (readonly Held[])[] = [
    ['Blk ID', 'Species', 'Var.', '# blks', 'Left', 'Blk wt (lb)', 'H2O', "Inoc'd"],
    ['B0302', 'Shiitake', 'SH-Fen', 40, null, 10, 62, '2026-03-02'],
    ['B0309', 'Shiitake', 'SH Larch', 30, null, 10, 62, '2026-03-09'],
    ['O0309', 'Oyster', 'OY-Mill', 20, null, 10, 62, '2026-03-09'],
  ];
  const waits: readonly (readonly Held[])[] = [
    ['Var.', 'Species', 'Spawn run (days)', 'Browning (days)', 'Days to fruit', 'Flushes', 'BE'],
    ['SH-Fen', 'Shiitake', 30, 20, 50, 2, '80%'],
    ['SH-Larch', 'Shiitake', 28, 14, 42, 1, '70%'],
    ['OY-Mill', 'Oyster', 14, null, 14, 1, '90%'],
  ];

  test('the days until a block fruits are the whole wait: the days of the spawn run are a part of it', async () => {
    const bytes = await bookWith({ 'Grow log': bags, Strains: waits });
    const [fit, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-04-20', days: 7 } });
    expect(fit.questions).toEqual([]);
    // 9 March and 42 days, 2 March and 50, 9 March and 14; a column of what is left that is empty is none.
    expect(valuesOf(prepared, 'READYLOTS').map(([lot, , blocks, , ready]) => [lot, blocks, ready])).toEqual([
      ['lot', 'blocks', 'ready'],
      ['O0309', 20, day(3, 23)],
      ['B0309', 30, day(4, 20)],
      ['B0302', 40, day(4, 21)],
    ]);
  });

  const sheds: readonly (readonly Held[])[] = [
    ['Room', 'Racks', 'Shelves per rack', 'Blocks per shelf'],
    ['North', 2, 5, 6],
    ['South', 1, 4, 6],
  ];
  const orders: readonly (readonly Held[])[] = [
    ['Customer', 'Item', 'lb', 'Needed by'],
    ['Inn', 'shiitake', 20, '2026-05-10'],
    ['Box', 'Oysters', 12, '2026-05-04'],
    ['Box', 'Oyster mushrooms', 6, '2026-05-05'],
  ];
  const book = bookWith({ 'Grow log': bags, Strains: waits, Sheds: sheds, Orders: orders });

  test('what no column of them could be is typed for each, all at once; another column may still be named', async () => {
    const { questions } = fitted(opened(await book), 'plan', {});
    expect(
      questions.map((one) => (one.kind === 'fill' ? one.columns.map(({ name }) => name) : one)),
    ).toMatchObject([
      { kind: 'column', column: 'latest', choices: ['Spawn run (days)', 'Browning (days)'], mayBeNone: true },
      { kind: 'column', column: 'first pick' },
      { kind: 'column', column: 'pick days' },
      ['strain', 'flush gap', 'flush'],
      { kind: 'products', words: ['Oysters'] },
    ]);
    const none = { strains: { latest: null, 'first pick': null, 'pick days': null } };
    const [typed] = fitted(opened(await book), 'plan', { columns: none }).questions;
    expect(typed).toMatchObject({ kind: 'fill', table: 'shares', rows: [{ strain: 'SH-Fen' }, {}, {}] });
    expect(typed?.kind === 'fill' && typed.columns.map(({ name }) => name)).toEqual([
      'strain',
      'latest',
      'first pick',
      'pick days',
      'flush gap',
      'flush',
    ]);
    expect(questionWords(typed!)).toContain('“pick days”, days that the picking of one flush takes');
  });

  test('a plan takes them, all the shelves of all racks, and two words for one strain as one product', async () => {
    const often = { 'first pick': 7, 'pick days': 3, 'flush gap': 12 };
    const [fit, prepared] = await laidOut(await book, 'plan', {
      columns: { strains: { latest: null, 'first pick': null, 'pick days': null } },
      products: { Oysters: ['OY-Mill'] },
      fill: {
        shares: [
          { strain: 'SH-Fen', latest: 80, ...often, 'flush 1': '60%', 'flush 2': '40%' },
          { strain: 'SH-Larch', latest: 70, ...often, 'flush 1': '100%' },
          { strain: 'OY-Mill', latest: 60, ...often, 'flush 1': '100%' },
        ],
      },
      figures: { today: '2026-04-21' },
    });
    await doAgree(await book, prepared, '"orders"');
    // The oysters' own name is in the strains' sheet: both words are read as it.
    const filled = valuesOf(prepared, '"orders"').slice(1);
    expect(filled.map(([product, , , mass, planned]) => [product, mass, planned])).toEqual([
      ['Oyster', 12, 12],
      ['Oyster', 6, 6],
      ['Shiitake', 20, 20],
    ]);
    expect(fit.tables.get('rooms')?.values.get('shelves')).toEqual([10, 4]);
    // What was typed is in the book: the next time nothing is asked.
    const again = opened(withSheets(await book, prepared.sheets));
    expect(fitted(again, 'plan', keptAnswers(again, 'plan')).questions.map(questionWords)).toEqual([]);
  });

  test.each<[string, string, Held, Held, number, number]>([
    [
      'a range is open from its first day and best until its second',
      'Incubation',
      '18–22 days',
      '30 to 36 days',
      18,
      22,
    ],
    ['weeks are seven days', 'Incubation', '2 weeks', '40 d', 14, 14],
    ['weeks of the header are seven days, in figures', 'Incubation (weeks)', 2, 5, 14, 14],
    ['and in ranges', 'Incubation, weeks', '2-3', '5-6', 14, 21],
  ])('%s', async (_, header, first, second, opens, best) => {
    const lots = [bags[0]!, ['A1', 'Oyster', 'OY-Mill', 20, null, 10, 62, '2026-03-02']];
    const bytes = await bookWith({
      'Grow log': lots,
      Strains: [
        ['Var.', header, 'BE'],
        ['OY-Mill', first, '90%'],
        ['SH-Fen', second, '80%'],
      ],
    });
    const [, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-04-20', days: 7 } });
    const [, ready] = valuesOf(prepared, 'READYLOTS');
    expect(ready!.slice(4, 6)).toEqual([day(3, 2) + opens, day(3, 2) + best]);
    await doAgree(bytes, prepared, 'READYLOTS');
  });

  test('of a range of days or per cent the middle is expected, and a room’s whole capacity is one shelf on a click', async () => {
    const bytes = await bookWith({
      'Grow log': bags,
      Strains: [
        ['Var.', 'Days to fruit', 'Too old', '1st pick', 'Picking days', 'BE'],
        ['SH-Fen', 50, 90, '8-10 days', 3, '70–80%'],
        ['SH-Larch', 42, 80, '7 days', 3, '70%'],
        ['OY-Mill', 14, 30, '6 days', 3, '90%'],
      ],
      Sheds: [
        ['Room', 'Capacity (blocks)'],
        ['North', 90],
      ],
      Orders: orders.slice(0, 2),
    });
    const [shelves, ...others] = fitted(opened(bytes), 'plan', {}).questions;
    expect([shelves, others.map(({ kind }) => kind)]).toMatchObject([
      { kind: 'column', column: 'shelves', proposed: '1' },
      ['products'],
    ]);
    const [fit] = await laidOut(bytes, 'plan', {
      figures: { today: '2026-04-20', 'rooms, shelves': 1 },
      products: { shiitake: ['SH-Fen', 'SH-Larch'] },
    });
    const strains = fit.tables.get('strains')!.values;
    expect([strains.get('first pick'), strains.get('efficiency')]).toEqual([
      [9, 7, 6],
      [0.75, 0.7, 0.9],
    ]);
  });

  test('what a room may hold is read as the strains it names, or none at all: other words stay and are told', async () => {
    const bytes = await bookWith({
      'Grow log': bags,
      Strains: [
        ['Var.', 'Species', 'Days to fruit', 'Too old', '1st pick', 'Picking days', 'BE'],
        ['SH-Fen', 'Shiitake', 50, 90, 8, 3, '75%'],
        ['SH-Larch', 'Shiitake', 42, 80, 7, 3, '70%'],
        ['OY-Mill', 'Blue oyster', 14, 60, 6, 3, '90%'],
      ],
      Sheds: [
        ['Room', 'Shelves', 'Per shelf', 'Only for'],
        ['North', 4, 20, 'oysters only'],
        ['South', 4, 20, 'Shiitake'],
        ['East', 4, 20, 'any'],
        ['Loft', 4, 20, 'sh-fen & Oyster'],
      ],
      Orders: [orders[0]!, ['Inn', 'Shiitake', 20, '2026-05-10']],
    });
    const [fit, prepared] = await laidOut(bytes, 'plan', { figures: { today: '2026-04-20' } });
    expect(fit.tables.get('rooms')!.values.get('strains')).toEqual([
      'OY-Mill',
      'SH-Fen, SH-Larch',
      '',
      'SH-Fen, OY-Mill',
    ]);
    await doAgree(bytes, prepared, '"orders"');
    const loads = valuesOf(prepared, 'LOADPLAN(').slice(1);
    expect(loads.filter(([, , strain, room]) => room === 'North' && strain !== 'OY-Mill')).toEqual([]);
  });

  test('a header that says one thing of a strain is not read as another, whatever the job asks for', async () => {
    const bytes = await bookWith({
      'Grow log': [
        [...bags[0]!, 'Opened'],
        [...bags[1]!, '2026-04-22'],
        [...bags[3]!, '2026-03-24'],
      ],
      Strains: [
        [
          'Var.',
          'Days to fruit',
          'First flush (days after opening)',
          'Pick over',
          'Yield 1st',
          'Yield 2nd',
          'BE',
        ],
        ['SH-Fen', 50, 8, 3, '60%', '40%', '75%'],
        ['OY-Mill', 14, 6, 3, '70%', '30%', '90%'],
      ],
      Picks: [
        ['Day', 'Blk ID', 'lb'],
        ['2026-03-30', 'O0309', 9.5],
        ['2026-04-30', 'B0302', 21],
      ],
    });
    const read = (job: 'audit' | 'plan'): Record<string, string> =>
      Object.fromEntries(
        fitted(opened(bytes), job, {})
          .tables.get('strains')!
          .readings.map(({ name, match }) => [name, match.header]),
      );
    expect(read('audit')).toMatchObject({
      'first pick': 'First flush (days after opening)',
      earliest: 'Days to fruit',
    });
    expect(read('plan')).toMatchObject({
      'flush 1': 'Yield 1st',
      'flush 2': 'Yield 2nd',
      best: 'Days to fruit',
    });
  });

  test('lots that say when they were loaded and into which room stand there: their shelves are taken, their picks count', async () => {
    const lots: readonly (readonly Held[])[] = [
      [...bags[0]!.filter((header) => header !== 'Left'), 'Opened', 'Shed'],
      ['O0309', 'Oyster', 'OY-Mill', 20, 10, 62, '2026-03-09', '2026-04-16', 'north'],
      ['O0330', 'Oyster', 'OY-Mill', 30, 10, 62, '2026-03-30', null, null],
    ];
    const strains = [
      ['Var.', 'Species', 'Days to fruit', 'Too old', '1st pick', 'Picking days', 'BE'],
      ['OY-Mill', 'Oyster', 14, 60, 6, 2, '100%'],
      ['SH-Fen', 'Shiitake', 50, 90, 8, 3, '75%'],
    ];
    const book = (rooms: readonly (readonly Held[])[]): Promise<Uint8Array> =>
      bookWith({
        'Grow log': lots,
        Strains: strains,
        Sheds: rooms,
        // Six days after 16 April; a load of 20 April is picked from the 26th.
        Orders: [orders[0]!, ['Inn', 'Oyster', 30, '2026-04-23']],
      });
    const today = { figures: { today: '2026-04-20', days: 14 } };
    const bytes = await book([
      ['Room', 'Shelves', 'Per shelf'],
      ['North', 1, 30],
    ]);
    const [fit, prepared] = await laidOut(bytes, 'plan', today);
    expect([fit.hasShelves, fit.tables.get('lots')!.values.get('room')]).toEqual([true, ['North', '']]);
    // 20 blocks of 10 lb with 3.8 lb of dry mass give 76 lb on two days, the 22nd and the 23rd.
    expect(valuesOf(prepared, '"orders"')[1]!.slice(3, 6)).toEqual([30, 30, 0]);
    const [, ...picks] = valuesOf(prepared, '"picks"');
    expect(
      picks.filter(([, , standing]) => standing !== 0).map(([date, , standing]) => [date, standing]),
    ).toEqual([
      [day(4, 22), expect.closeTo(38, 9)],
      [day(4, 23), expect.closeTo(38, 9)],
    ]);
    // Of the 30 places 20 are taken until the last pick.
    const early = valuesOf(prepared, 'LOADPLAN(').filter(
      ([date]) => typeof date === 'number' && date <= day(4, 23),
    );
    expect(early.reduce((sum, [, , , , blocks]) => sum + Number(blocks), 0)).toBeLessThanOrEqual(10);
    await doAgree(bytes, prepared, '"picks"');
    // What the book keeps is what was matched: the next time gives the same.
    const kept = withSheets(bytes, prepared.sheets);
    const [, later] = await laidOut(kept, 'plan', { ...keptAnswers(opened(kept), 'plan'), ...today });
    expect(later.calls.map(({ block }) => plainValues(block))).toEqual(
      prepared.calls.map(({ block }) => plainValues(block)),
    );
    // A room that is none of the list's says nothing of its shelves.
    const other = await book([
      ['Room', 'Shelves', 'Per shelf'],
      ['Barn', 1, 30],
    ]);
    const [without] = await laidOut(other, 'plan', today);
    expect([without.hasShelves, ignoredWords(without.tables.get('lots')!)]).toEqual([
      false,
      'Not used: Var., Shed',
    ]);
  });
});
