import ExcelJS from 'exceljs';
import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { inOwnDigits } from '../../../src/hosts/fit/digits';
import type { JobName, TableName } from '../../../src/hosts/fit/jobs';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { sourceWords } from '../../../src/hosts/fit/told';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import type { Cell, Format } from '../../../src/worksheet/cells/cell';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// How tables lie on a sheet: on their side, side by side, as blocks. What is expected is read off the cells by eye.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Species', 'Open from', 'Best at', 'Toss after', '1st pick', 'Picking days', 'Between', 'BE'],
  ['Blue larch', 18, 24, 45, 7, 4, 12, 0.7],
  ['Fen grey', 22, 28, 42, 10, 4, 14, 0.55],
];
const turned = (rows: Rows): Rows => rows[0]!.map((_, column) => rows.map((row) => row[column] ?? null));

/** Two lots, of which B1 was loaded on 27 March. */
const LOTS: Rows = [
  ['Batch', 'Species', 'Bags', 'Bag wt', 'MC%', 'Made on', 'Into room'],
  ['B1', 'Blue larch', 40, '2.5 kg', 0.6, '2026-03-02', '2026-03-27'],
  ['B2', 'Fen grey', 30, '2.5 kg', 0.6, '2026-03-03', null],
];
const PICKS: Rows = [
  ['Picked on', 'Batch', 'kg'],
  ['2026-04-03', 'B1', 6.5],
  ['2026-04-04', 'B1', 11.7],
];

/** What a job reads of a table, a row a record. */
const readIn = (bytes: Uint8Array, job: JobName, table: TableName, answers: Answers = {}) => {
  const fit = fitted(opened(bytes), job, answers);
  const { readings, values, candidate } = fit.tables.get(table)!;
  return {
    fit,
    asked: fit.questions.map(questionWords),
    unread: fit.unread.map(placeOfUnread),
    from: sourceWords(fit.tables.get(table)!),
    rows: candidate.dataRows.map((_, i) =>
      Object.fromEntries(readings.map(({ name }) => [name, values.get(name)![i]!])),
    ),
  };
};

/** The formulas on the sheets give what was shown before they were written. */
async function doAgree(bytes: Uint8Array, prepared: Prepared, name: string): Promise<Prepared> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const { address } = prepared.calls.find(({ formula }) => formula.includes(name))!;
  expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, name));
  return prepared;
}

/** Each formula that reads a column of the grower's gives what was shown before it was written. */
async function doColumnsAgree(bytes: Uint8Array, prepared: Prepared): Promise<void> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const read = prepared.sheets.find(({ name }) => name !== prepared.answer)!;
  const filled = (cells: readonly Cell[]) => cells.filter((cell) => cell !== null && cell !== '');
  for (const { formula, cells } of prepared.columns) {
    const { at } = read.things.find((one) => one.kind === 'formula' && one.formula === formula) as {
      at: string;
    };
    const { value, block } = workbook.result(read.name, at);
    expect(filled((block ?? [[value]]).flat())).toEqual(filled(cells));
  }
}

const TODAY = { figures: { today: '2026-03-28', days: 7 } };

describe('a table on its side', () => {
  test('is read as it lies, and its formulas say so', async () => {
    const bytes = await bookWith({ Cards: [['All batches'], [], ...turned(LOTS)], Kinds: turned(STRAINS) });
    const { rows, asked, unread, from } = readIn(bytes, 'ready', 'lots');
    expect([asked, unread, from]).toEqual([[], [], '2 records in Cards!A3:C9']);
    expect(rows.map(({ lot, blocks, inoculated }) => [lot, blocks, inoculated])).toEqual([
      ['B1', 40, day(3, 2)],
      ['B2', 30, day(3, 3)],
    ]);
    const [, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(prepared.columns.find(({ header }) => header === 'lot')!.formula).toContain(
      'TRANSPOSE(Cards!$B$3',
    );
    await doAgree(bytes, prepared, 'READYLOTS');
  });

  test('has its findings at the cells that they are about', async () => {
    const picks = [...PICKS, ['2026-04-05', 'B7', 8]];
    const bytes = await bookWith({ Cards: turned(LOTS), Kinds: STRAINS, Picked: turned(picks) });
    const [, prepared] = await laidOut(bytes, 'audit', TODAY);
    await doAgree(bytes, prepared, 'YIELDAUDIT');
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    // B7 is the third pick across, in the row of the batches.
    expect(workbook.result(prepared.answer, 'A5').block![0]).toEqual(['Picked!D2']);
  });

  test('is none where labels of records only happen to be like headers', async () => {
    const log = [
      ['Batch', 'Day', 'kg'],
      ...['B1', 'Date', 'B1', 'weight'].map((lot, i) => [lot, day(4, i + 1), 5]),
    ];
    const bytes = await bookWith({ Bags: LOTS, Kinds: STRAINS, Picked: log });
    expect(readIn(bytes, 'audit', 'harvests').from).toBe('4 records in Picked!A1:C5');
  });
});

describe('the same table side by side', () => {
  const beside = (left: Rows, right: Rows): Rows => left.map((row, i) => [...row, null, ...right[i]!]);
  const [head, b1, b2] = LOTS as [readonly Held[], readonly Held[], readonly Held[]];

  test('is one table, the cells of each part its own', async () => {
    const right = [head, ['B3', ...b2.slice(1)], ['B4', ...b1.slice(1, 5), 'soon', null]];
    const bytes = await bookWith({ Bags: beside(LOTS, right), Kinds: STRAINS });
    const { rows, asked, unread } = readIn(bytes, 'ready', 'lots');
    expect([asked, rows.map(({ lot }) => lot), unread]).toEqual([[], ['B1', 'B2', 'B3', 'B4'], ['Bags!N3']]);
    const whole = await bookWith({
      Bags: beside(LOTS, [head, ['B3', ...b2.slice(1)], ['B4', ...b2.slice(1)]]),
      Kinds: STRAINS,
    });
    const [, prepared] = await laidOut(whole, 'ready', TODAY);
    await doAgree(whole, prepared, 'READYLOTS');
  });

  test('is asked about where both have a lot of the same name', async () => {
    const bytes = await bookWith({ Bags: beside(LOTS, [head, b1, ['B4', ...b2.slice(1)]]), Kinds: STRAINS });
    expect(fitted(opened(bytes), 'ready', {}).questions.map(questionWords)).toEqual([
      'Which of these are your lots?',
    ]);
  });
});

describe('units that only the format of a cell names', () => {
  const book = async (formats: readonly string[]): Promise<Uint8Array> => {
    const workbook = new ExcelJS.Workbook();
    const sheets = {
      Bags: LOTS,
      Kinds: STRAINS,
      Picked: [['Picked on', 'Batch', 'Weight'], ...PICKS.slice(1)],
    };
    for (const [name, rows] of Object.entries(sheets)) workbook.addWorksheet(name).addRows(rows as Held[][]);
    formats.forEach((format, i) => (workbook.getWorksheet('Picked')!.getCell(i + 2, 3).numFmt = format));
    return new Uint8Array(await workbook.xlsx.writeBuffer());
  };

  test.each([
    ['0.0" kg"', 'kg'],
    ['#,##0 "lb"', 'lb'],
    ['0.0\\ \\g', 'g'],
    ['0.00', 'number'],
    ['[Red]0.0', 'number'],
  ])('%s is in %s', async (format, unit) => {
    const { fit, unread } = readIn(await book([format, format]), 'audit', 'harvests');
    expect(fit.tables.get('harvests')!.readings.find(({ name }) => name === 'mass')!.unit).toBe(unit);
    expect(unread).toEqual([]);
  });

  test('a cell that is shown in another unit than the others is told', async () => {
    const { fit } = readIn(await book(['0.0" kg"', '0.0" kg"', '0" g"'].slice(1)), 'audit', 'harvests');
    expect(fit.unread.map((one) => [placeOfUnread(one), one.why])).toEqual([
      ['Picked!C3', 'is shown in g, the column in kg: type it in kg'],
    ]);
  });
});

describe('what is left of lots', () => {
  const lots = (header: string): Rows => [
    ['Batch', 'Species', 'Bags', header, 'Made on'],
    ['B1', 'Blue larch', 40, 0, '2026-03-02'],
    ['B2', 'Blue larch', 30, 12, '2026-03-03'],
    ['B3', 'Fen grey', 30, 30, '2026-03-05'],
  ];

  test('a second count that is never above the first is asked about, and 0 of it is a lot used up', async () => {
    const bytes = await bookWith({ Bags: lots('Hanging'), Kinds: STRAINS });
    const [question] = fitted(opened(bytes), 'ready', {}).questions;
    expect(question).toMatchObject({ kind: 'column', column: 'blocks', choices: ['Hanging', 'Bags'] });
    const said = { columns: { lots: { blocks: 'Hanging' } } };
    const { rows, asked, unread } = readIn(bytes, 'ready', 'lots', said);
    expect([asked, unread, rows.map(({ lot, blocks }) => [lot, blocks])]).toEqual([
      [],
      [],
      [
        ['B2', 12],
        ['B3', 30],
      ],
    ]);
  });
});

describe('days of the week across, under their week', () => {
  const week = (
    title: Held,
    picks: readonly Held[],
    days: Rows[number] = ['Mon', 'Tue', 'Wed', 'Thu', 'Fri'],
  ): Rows => [[title], ['Batch', ...days, 'Total'], ['B1', ...picks, null], []];
  const book = (...weeks: Rows[]) => bookWith({ Bags: LOTS, Kinds: STRAINS, 'Picks (kg)': weeks.flat() });

  // By the calendar: 6 and 13 April 2026 are Mondays, those of ISO weeks 15 and 16.
  test.each<[string, Held, Held, Answers]>([
    [
      'a day of it in words',
      'Week of 6th April',
      'Week of 13th April',
      { years: { 'harvests, date': 2026 } },
    ],
    ['any day of it', 'w/c 7/4/2026', 'w/c 15/4/2026', {}],
    ['its number and year', 'Week 15, 2026', 'Week 16, 2026', {}],
    ['its number', 'KW 15', 'KW 16', { years: { 'harvests, date': 2026 } }],
  ])('are days by %s', async (_, first, second, answers) => {
    const bytes = await book(
      week(first, [null, 2.5, null, null, 3]),
      week(second, [1.5, null, null, null, null]),
    );
    const open = readIn(bytes, 'audit', 'harvests');
    expect(open.fit.questions.map(({ kind }) => kind)).toEqual(Object.keys(answers));
    const { rows, unread } = readIn(bytes, 'audit', 'harvests', answers);
    expect(unread).toEqual([]);
    expect(rows.map(({ date, mass }) => [date, mass])).toEqual([
      [day(4, 7), 2.5],
      [day(4, 10), 3],
      [day(4, 13), 1.5],
    ]);
    const [, prepared] = await laidOut(bytes, 'audit', { ...TODAY, ...answers });
    await doColumnsAgree(bytes, prepared);
  });

  test('begin on Sunday where that comes first, and then no number of a week is read', async () => {
    const days = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
    const picks = [2, 3, null, null, null, null, 4];
    const dated = readIn(await book(week('Week of April 5, 2026', picks, days)), 'audit', 'harvests');
    expect(dated.rows.map(({ date }) => date)).toEqual([day(4, 5), day(4, 6), day(4, 11)]);
    const numbered = readIn(await book(week('Week 15, 2026', picks, days)), 'audit', 'harvests');
    expect(numbered.unread).toEqual(["'Picks (kg)'!A1"]);
  });

  test('have their week in a column, or in the name of the sheet', async () => {
    const column = await bookWith({
      Bags: LOTS,
      Kinds: STRAINS,
      'Picks (kg)': [
        ['Week', 'Batch', 'Mon', 'Tue', 'Wed'],
        ['Week 15, 2026', 'B1', 2, null, 3],
        ['Week 16, 2026', 'B1', null, 4, null],
      ],
    });
    const named = await bookWith({
      Bags: LOTS,
      Kinds: STRAINS,
      'Week 15 2026': [
        ['Batch', 'Mon', 'Tue', 'Wed'],
        ['B1', 2, null, 3],
        ['B2', null, 4, null],
      ],
    });
    const daysOf = (bytes: Uint8Array) =>
      readIn(bytes, 'audit', 'harvests').rows.map(({ lot, date, mass }) => [lot, date, mass]);
    expect(daysOf(column)).toEqual([
      ['B1', day(4, 6), 2],
      ['B1', day(4, 14), 4],
      ['B1', day(4, 8), 3],
    ]);
    expect(daysOf(named)).toEqual([
      ['B1', day(4, 6), 2],
      ['B2', day(4, 7), 4],
      ['B1', day(4, 8), 3],
    ]);
  });
});

describe('blocks of figures', () => {
  const ROOMS: Rows = [
    ['Room', 'Shelves', 'Blocks per shelf'],
    ['Shed', 6, 8],
  ];
  const plan = (orders: Record<string, Rows>) =>
    bookWith({
      Bags: LOTS,
      Kinds: STRAINS.map((row, i) => [...row, ...(i === 0 ? ['Flush 1', 'Flush 2'] : [0.6, 0.4])]),
      Rooms: ROOMS,
      ...orders,
    });
  const PRODUCTS = { products: { blue: ['Blue larch'], 'blue larch': ['Blue larch'], grey: ['Fen grey'] } };

  test.each<[string, Rows, readonly (readonly [string, Held, number])[]]>([
    [
      'days down and customers across',
      [
        ['Day', 'Deli', 'Inn'],
        ['2026-04-10', '3 blue', null],
        ['2026-04-11', '2.5 kg grey', '4 blue, 1 grey'],
        ['2026-04-12', null, '2 blue'],
      ],
      [
        ['blue', '3', day(4, 10)],
        ['grey', '2.5 kg', day(4, 11)],
        ['blue', '4', day(4, 11)],
        ['blue', '2', day(4, 12)],
        ['grey', '1', day(4, 11)],
      ],
    ],
    [
      'customers down and days across',
      [
        ['Customer', '2026-04-10', '2026-04-11'],
        ['Deli', '3 blue', '2 grey'],
        ['Inn', null, '4 blue + 1 grey'],
      ],
      [
        ['blue', '3', day(4, 10)],
        ['grey', '2', day(4, 11)],
        ['blue', '4', day(4, 11)],
        ['grey', '1', day(4, 11)],
      ],
    ],
  ])('whose cells say how much of what are orders: %s', async (_, rows, expected) => {
    const bytes = await plan({ 'Promised (kg)': rows });
    const read = readIn(bytes, 'plan', 'orders', { ...TODAY, ...PRODUCTS });
    expect([read.asked, read.unread]).toEqual([[], []]);
    expect(read.rows.map(({ product, due, mass }) => [product, `${mass as number}`, due])).toEqual(
      expected.map(([product, mass, due]) => [product, Number.parseFloat(String(mass)).toString(), due]),
    );
    const [, prepared] = await laidOut(bytes, 'plan', { ...TODAY, ...PRODUCTS });
    await doColumnsAgree(bytes, prepared);
  });

  test('with customers down and days of the week across are standing orders, whatever the sheet is called', async () => {
    const bytes = await plan({
      'Every week': [
        ['Customer', 'Kind', 'Mon', 'Thu'],
        ['Deli', 'Blue larch', 2, null],
        ['Inn', 'Fen grey', null, 3],
      ],
    });
    const { rows, asked } = readIn(bytes, 'plan', 'orders', {
      ...TODAY,
      figures: { ...TODAY.figures, days: 14 },
    });
    expect([asked, rows.map(({ product, mass }) => [product, mass])]).toEqual([
      [],
      [
        ['Blue larch', 2],
        ['Fen grey', 3],
        ['Blue larch', 2],
        ['Fen grey', 3],
      ],
    ]);
  });

  test('end above a row that the sheet calculates from the others, whatever it is called', async () => {
    const workbook = new ExcelJS.Workbook();
    const sheets = {
      Bags: LOTS,
      Kinds: STRAINS,
      Picked: [
        ['Batch', '2026-04-03', '2026-04-04', '2026-04-05'],
        ['B1', 2, 3, null],
        ['B2', 1, null, 4],
      ],
    };
    for (const [name, rows] of Object.entries(sheets)) workbook.addWorksheet(name).addRows(rows as Held[][]);
    const sheet = workbook.getWorksheet('Picked')!;
    sheet.getCell('A4').value = 'All';
    ['B', 'C', 'D'].forEach((letter, i) => {
      sheet.getCell(`${letter}4`).value = { formula: `SUM(${letter}2:${letter}3)`, result: [3, 3, 4][i]! };
    });
    const { rows } = readIn(new Uint8Array(await workbook.xlsx.writeBuffer()), 'audit', 'harvests');
    expect(rows.map(({ lot, mass }) => [lot, mass])).toEqual([
      ['B1', 2],
      ['B2', 1],
      ['B1', 3],
      ['B2', 4],
    ]);
  });
});

describe('masses of what came off beside their lots are never the mass of a block', () => {
  test.each([
    [['F1 date', 'F1 kg', 'F2 date', 'F2 kg']],
    [['1st flush on', '1st flush kg', '2nd flush on', '2nd flush kg']],
    [['Last pick', 'Picked (kg)', 'Over', 'Yield kg']],
    [['Erntetag', 'Ernte (kg)', 'Ende', 'Ertrag kg']],
  ])('%p', async (headers) => {
    const lots: Rows = [
      ['Batch', 'Species', 'Bags', 'Spawned', 'Opened', ...headers],
      ['B1', 'Blue larch', 40, '2026-03-02', '2026-03-20', '2026-03-28', 14.2, '2026-04-09', 7.1],
      ['B2', 'Fen grey', 30, '2026-03-03', '2026-03-25', '2026-04-05', 13.6, '2026-04-19', 6.6],
      ['B3', 'Fen grey', 30, '2026-03-10', '2026-04-01', '2026-04-12', 12.9, null, null],
    ];
    const fit = fitted(opened(await bookWith({ Lots: lots, Kinds: STRAINS })), 'plan', {});
    const { matches } = fit.tables.get('lots')!.candidate;
    expect(matches.map(({ wanted }) => wanted)).not.toContain('block mass');
    expect(answersTemplate(fit).columns!['lots']).toEqual({ 'block mass': '?', moisture: '?' });
  });
});

describe('previews', () => {
  // Masses of 2.5, 6.5 and 11.7: two decimals at the fewest, and three digits below 1.
  test.each<[number, Format, number]>([
    [1.13208, 'plain', 1.13],
    [0.0474999, 'plain', 0.0475],
    [0.9999, 'plain', 0.9999],
    [12, 'plain', 12],
    [0.707799145, 'percent', 0.7078],
    [46113.604, 'dateTime', 46113.604],
  ])('show %d (%s) as %d', async (cell, format, expected) => {
    const fit = fitted(opened(await bookWith({ Bags: LOTS, Kinds: STRAINS, Picked: PICKS })), 'audit', {});
    expect(inOwnDigits(fit)(cell, format)).toBe(expected);
  });

  test('of hundreds of kilograms show no more decimals than these have', async () => {
    const picks = PICKS.map(([...row]) => row.map((cell) => (cell === 6.5 ? 650.5 : cell)));
    const fit = fitted(opened(await bookWith({ Bags: LOTS, Kinds: STRAINS, Picked: picks })), 'audit', {});
    expect(inOwnDigits(fit)(1.13208, 'plain')).toBe(1.13);
  });

  test('show what a blank below stands for', async () => {
    const [head, b1, b2] = LOTS as [readonly Held[], readonly Held[], readonly Held[]];
    const of = (name: string, from: readonly Held[], strain: Held) => [name, strain, ...from.slice(2)];
    const lots = [head, b1, of('B3', b2, null), of('B4', b2, null), b2];
    const bytes = await bookWith({ Bags: lots, Kinds: STRAINS });
    const fit = fitted(opened(bytes), 'ready', { blanks: { 'lots, strain': 'as above' } });
    expect(fit.tables.get('lots')!.evidence.map((row) => row['strain'])).toEqual([
      ...['Blue larch', 'Blue larch', 'Blue larch', 'Fen grey'],
    ]);
  });
});

test('blocks opened so far are taken off what was made, and none is no fault', async () => {
  const [head, b1, b2] = LOTS as [readonly Held[], readonly Held[], readonly Held[]];
  const lots = [
    [...head.slice(0, 6), 'Opened so far'],
    [...b1.slice(0, 6), 40],
    [...b2.slice(0, 6), 0],
    ['B3', 'Fen grey', 30, '2.5 kg', 0.6, '2026-03-03', 12],
  ];
  const bytes = await bookWith({ Bags: lots, Kinds: STRAINS });
  const read = readIn(bytes, 'ready', 'lots', TODAY);
  expect([read.asked, read.unread]).toEqual([[], []]);
  const [, prepared] = await laidOut(bytes, 'ready', TODAY);
  const ready = valuesOf(prepared, 'READYLOTS(');
  expect(ready.slice(1).map(([lot, , blocks]) => [lot, blocks])).toEqual([
    ['B2', 30],
    ['B3', 18],
    ['1 lot is loaded already', ''],
  ]);
});

/** How often the fit of a plan reads a row and compares a text. */
function workOf(cells: Cell[][]): number {
  let work = 0;
  const rows = new Proxy(cells, {
    get: (target, key): unknown => {
      work++;
      return Reflect.get(target, key);
    },
  });
  const toLowerCase = Object.getOwnPropertyDescriptor(String.prototype, 'toLowerCase')!;
  const own = toLowerCase.value as () => string;
  Object.defineProperty(String.prototype, 'toLowerCase', {
    ...toLowerCase,
    value(this: string): string {
      work++;
      return own.call(this);
    },
  });
  const log = { name: 'Log', rows, formatAt: () => undefined, isFormula: () => false };
  const strains = { ...log, name: 'Strains', rows: STRAINS };
  try {
    fitted({ dateSystem: 1900, sheets: [log, strains], tables: [] }, 'plan', {});
  } finally {
    Object.defineProperty(String.prototype, 'toLowerCase', toLowerCase);
  }
  return work;
}

test('each fifty lots more are the same work more, with days, labels and remarks of their own', () => {
  const days = (i: number): string[] =>
    [0, 18, 24, 45].map((after) => new Date(Date.UTC(2026, 0, 1 + i + after)).toISOString().slice(0, 10));
  const lots = (records: number): Cell[][] => [
    ['Lot', 'Strain', 'Product', 'Inoculated', 'Earliest', 'Best', 'Latest', 'Blocks', 'Note'],
    ...Array.from({ length: records }, (_, i): Cell[] => [
      ...[`B${i}`, 'Fen grey', 'Fen grey', ...days(i)],
      ...[40, `${i}x`],
    ]),
  ];
  // What follows from a text is worked out with its first use.
  workOf(lots(150));
  const [a, b, c] = [50, 100, 150].map((records) => workOf(lots(records))) as [number, number, number];
  expect((c - b) / (b - a)).toBeLessThan(1.3);
});
