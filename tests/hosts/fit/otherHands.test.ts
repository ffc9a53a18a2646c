import ExcelJS from 'exceljs';
import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { answered } from '../../../src/hosts/fit/answered';
import { JOB } from '../../../src/hosts/fit/jobs';
import { ignoredWords, sourceWords } from '../../../src/hosts/fit/told';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { massUnitIn } from '../../../src/hosts/fit/units';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, fittedBare, laidOut, opened, valuesOf, type Held } from './laidOut';

// Books as other hands keep them, a few cells each: every expected day, lot and mass is counted by hand from the cells.

type Rows = readonly (readonly Held[])[];
const STRAINS: Rows = [
  ['Strain', 'Earliest', 'Best', 'Latest', 'First pick', 'Pick days', 'Flushes', 'Days between', 'BE'],
  ['Blue larch', 18, 24, 45, 7, 4, 1, 12, 0.7],
  ['Fen grey', 22, 28, 42, 10, 4, 1, 14, 0.55],
];
const headerOf = (fit: ReturnType<typeof fitted>, column: string): string | undefined =>
  fit.tables.get('lots')!.readings.find(({ name }) => name === column)?.match.header;

/** The bytes with the letters of these cells struck out. */
async function struck(bytes: Uint8Array, sheet: string, ...cells: string[]): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  await workbook.xlsx.load(bytes.slice().buffer);
  for (const cell of cells) workbook.getWorksheet(sheet)!.getCell(cell).font = { strike: true };
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

describe('what a header is not', () => {
  const lots = (mass: string): Rows => [
    ['Lot', 'Strain', 'Blocks', mass, 'Moisture', 'Inoculated', 'Remaining'],
    ['L1', 'Blue larch', 40, 5, 0.6, '2026-03-02', 18],
    ['L2', 'Fen grey', 44, 6, 0.6, '2026-03-09', 44],
  ];

  test('blocks made are never the mass of a block, although blocks are read from those that remain', async () => {
    const book = opened(await bookWith({ Lots: lots('lb'), Strains: STRAINS }));
    const fit = fitted(book, 'plan', {});
    expect(headerOf(fit, 'blocks')).toBe('Remaining');
    expect(headerOf(fit, 'block mass')).toBe('lb');
    const without = fitted(opened(await bookWith({ Lots: lots('Colour'), Strains: STRAINS })), 'plan', {});
    expect(headerOf(without, 'block mass')).toBeUndefined();
    expect(without.questions.map(questionWords)).toContain(
      'Which column of your lots holds “block mass”, wet mass of one block? If it is the same for all lots, give the figure: 5 lb or 2.5 kg. If it differs by strain, add a column to your list of strains, and choose the job again',
    );
  });

  test('an audit takes the blocks that were made, and none where only those left are told', async () => {
    const picks: Rows = [
      ['Date', 'Lot', 'kg'],
      ['2026-04-02', 'L1', 4],
      ['2026-04-03', 'L1', 5],
    ];
    const both = await bookWith({ Lots: lots('lb'), Strains: STRAINS, Picks: picks });
    expect(headerOf(fitted(opened(both), 'audit', {}), 'blocks')).toBe('Blocks');
    const left = lots('lb').map((row) => row.filter((_, at) => at !== 2));
    const one = await bookWith({ Lots: left, Strains: STRAINS, Picks: picks });
    expect(headerOf(fitted(opened(one), 'audit', {}), 'blocks')).toBeUndefined();
  });

  test('orders are not lots where a job asks for no orders', async () => {
    const bytes = await bookWith({
      Inventory: [
        ['Lot No.', 'Item No.', 'On Hand', 'Mfg. Date'],
        ['10001', 'Blue larch', 40, '2026-03-02'],
        ['10002', 'Fen grey', 30, '2026-03-02'],
      ],
      'Sales Orders': [
        ['No.', 'Name', 'Item', 'Ship Date', 'Qty. (LB)'],
        ['C1', 'Harbour', 'Blue larch', '2026-04-02', 10],
        ['C2', 'Metro', 'Fen grey', '2026-04-09', 12],
        ['C3', 'Inn', 'Fen grey', '2026-04-09', 12],
      ],
      Strains: STRAINS,
    });
    const { tables, questions } = fitted(opened(bytes), 'ready', {});
    expect(questions).toEqual([]);
    expect(tables.get('lots')!.values.get('lot')).toEqual(['10001', '10002']);
  });
});

describe('rows that are no records', () => {
  test('a row of units under the headers is read as part of them', async () => {
    const bytes = await bookWith({
      'Incubator 1': [
        ['ID', 'Cultivar', 'm_block', 't_inoc', 'n remaining'],
        [null, null, '[kg]', '[date]', '[pcs]'],
        ['S1', 'Blue larch', 2.4, '2026-03-02', 22],
      ],
      'Incubator 2': [
        ['ID', 'Cultivar', 'm_block', 't_inoc', 'n remaining'],
        [null, null, '[kg]', '[date]', '[pcs]'],
        ['N1', 'Fen grey', 1.8, '2026-03-02', 42],
      ],
      Strains: STRAINS,
    });
    const { tables, questions } = fitted(opened(bytes), 'ready', {});
    expect(questions).toEqual([]);
    expect(tables.get('lots')!.values.get('lot')).toEqual(['S1', 'N1']);
    expect(headerOf(fitted(opened(bytes), 'plan', {}), 'block mass')).toBe('m_block [kg]');
  });

  test('sheets of one kind with a record in common are not read as one', async () => {
    const lots: Rows = [
      ['Lot', 'Strain', 'Blocks', 'Inoculated'],
      ['S1', 'Blue larch', 22, '2026-03-02'],
    ];
    const bytes = await bookWith({ 'Lots 1': lots, 'Lots 2': lots, Strains: STRAINS });
    expect(fitted(opened(bytes), 'ready', {}).questions.map(({ kind }) => kind)).toEqual(['table']);
  });

  test('a total of a label above, headers again and the number of the page are passed over, in the formulas too', async () => {
    const bytes = await bookWith({
      Inventory: [
        ['Lot', 'Strain', 'On Hand', 'Inoculated'],
        ['L1', 'Blue larch', '40.00 ', '2026-03-02'],
        ['L2', 'Blue larch', '0.00 ', '2026-02-02'],
        ['Total Blue larch', null, '40.00', null],
        ['Lot', 'Strain', 'On Hand', 'Inoculated'],
        ['L3', 'Fen grey', '30.00', '2026-03-02'],
        ['Total Fen grey', null, '30.00', null],
        ['Page 1 of 1', null, null, '4/1/2026 7:12'],
      ],
      Strains: STRAINS,
    });
    const [fit, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30' } });
    expect(fit.unread).toEqual([]);
    expect(sourceWords(fit.tables.get('lots')!)).toBe(
      '2 records in Inventory!A1:D8; 4 rows of months, totals or repeated headers are passed over; 1 lot with none left is passed over',
    );
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(rows.map(([lot]) => lot)).toEqual(['L3', 'L1']);
  });

  test('a total of a name that is no label above is a record', async () => {
    const bytes = await bookWith({
      Lots: [
        ['Lot', 'Strain', 'Blocks', 'Inoculated'],
        ['L1', 'Blue larch', 40, '2026-03-02'],
        ['Total-7', 'Fen grey', 30, '2026-03-02'],
      ],
      Strains: STRAINS,
    });
    expect(fitted(opened(bytes), 'ready', {}).tables.get('lots')!.values.get('lot')).toEqual([
      'L1',
      'Total-7',
    ]);
  });
});

describe('columns without a header', () => {
  test('the first names the records, one with few texts the strains', async () => {
    const bytes = await bookWith({
      Sheet1: [
        ['batch', null, 'bags', 'inoculated'],
        ['p1', 'Blue larch', 30, '2026-03-02'],
        ['p2', 'blue larch', 32, '2026-03-02'],
        ['k1', 'Fen grey', 24, '2026-03-02'],
        ['k2', 'fen grey', 24, '2026-03-02'],
      ],
      Times: [
        [null, 'from', 'best', 'until'],
        ['Blue larch', 18, 24, 45],
        ['Fen grey', 22, 28, 42],
      ],
    });
    const fit = fitted(opened(bytes), 'ready', {});
    expect([fit.questions, fit.unread]).toEqual([[], []]);
    expect(headerOf(fit, 'strain')).toBe('column B');
    expect(fit.tables.get('lots')!.values.get('strain')).toEqual([
      'Blue larch',
      'Blue larch',
      'Fen grey',
      'Fen grey',
    ]);
    expect(fit.tables.get('strains')!.readings.map(({ match }) => match.header)).toEqual([
      'column A',
      'from',
      'best',
      'until',
    ]);
  });

  test('remarks beside the records are taken for nothing', async () => {
    const bytes = await bookWith({
      Sheet1: [
        ['batch', null, 'bags', 'inoculated'],
        ['p1', 'by the door', 30, '2026-03-02'],
        ['p2', 'wet', 32, '2026-03-02'],
      ],
      Strains: STRAINS,
    });
    const fit = fitted(opened(bytes), 'ready', {});
    expect(fit.questions.map(({ kind }) => kind)).toEqual(['column']);
    expect(ignoredWords(fit.tables.get('lots')!)).toBe('Not used: column B');
  });
});

describe('dates without a year that pass New Year', () => {
  const lots = (...dates: string[]): Rows => [
    ['Lot', 'Strain', 'Blocks', 'Inoculated'],
    ...dates.map((date, i) => [`L${i + 1}`, 'Blue larch', 40, date]),
  ];
  const today = '2026-01-11';

  test('the year asked is that of the earlier ones; those after New Year are of the next', async () => {
    const bytes = await bookWith({ Lots: lots('Dec 14', 'Dec 28', 'Jan 4'), Strains: STRAINS });
    const open = fitted(opened(bytes), 'ready', {});
    expect(open.questions.map(questionWords)).toEqual([
      'The dates of “inoculated” of your lots have no year and pass New Year, from Dec 28 to Jan 4. Which year do they begin in? Those after New Year get the next year',
    ]);
    const [fit, prepared] = await laidOut(bytes, 'ready', {
      years: { 'lots, inoculated': 2025 },
      figures: { today },
    });
    // 1 January 2026 is 46023.
    const dates = [46023 - 18, 46023 - 4, day(1, 4)];
    expect(fit.tables.get('lots')!.values.get('inoculated')).toEqual(dates);
    const [column] = prepared.columns.filter(({ header }) => header === 'inoculated');
    expect(column!.formula).toMatch(/IF\(MONTH\(PINSET\.TODATES\(.*,2025\)\)<=\d,.*,2026\),.*,2025\)/);
    expect(column!.cells.slice(0, 3)).toEqual(dates);
  });

  test.each([
    ['newest first', ['1/4', '12/28', '12/14']],
    ['with a day written twice', ['12/14', '12/28', '12/28', '1/4']],
  ])('%s, too', async (_, dates) => {
    const bytes = await bookWith({ Lots: lots(...dates), Strains: STRAINS });
    const [question] = fitted(opened(bytes), 'ready', {
      dates: { 'lots, inoculated': 'month first' },
    }).questions;
    expect(question).toMatchObject({ kind: 'years', turn: { before: '12/28', after: '1/4' } });
  });

  test.each([
    ['one season', ['Mar 2', 'May 4', 'Oct 5']],
    ['months of one year with a gap', ['Jan 5', 'Oct 3', 'Nov 7']],
    ['no order at all', ['Dec 14', 'Jan 4', 'Dec 28', 'Jan 11']],
    ['two days alone', ['Dec 28', 'Jan 4']],
  ])('%s is asked for one year', async (_, dates) => {
    const bytes = await bookWith({ Lots: lots(...dates), Strains: STRAINS });
    const [question] = fitted(opened(bytes), 'ready', {}).questions;
    expect(question).toMatchObject({ kind: 'years', turn: undefined });
  });

  test('what no year makes a date is told before the year is', async () => {
    const told = await bookWith({ Lots: lots('10/14', 'autumn', 'mid October'), Strains: STRAINS });
    expect(fitted(opened(told), 'ready', {}).unread.map(placeOfUnread)).toEqual(['Lots!D3', 'Lots!D4']);
    // A week is asked about instead.
    const bytes = await bookWith({ Lots: lots('10/14', 'wk 43', 'mid October'), Strains: STRAINS });
    const { unread, questions } = fitted(opened(bytes), 'ready', {});
    expect(unread.map(placeOfUnread)).toEqual(['Lots!D4']);
    expect(questions).toContainEqual({ kind: 'weekdays', about: 'lots, inoculated', texts: ['wk 43'] });
  });
});

describe('rows that are struck out', () => {
  const sheets = {
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Inoculated'],
      ['L1', 'Blue larch', 40, '2026-03-02'],
      ['L2', 'Blue larch', 36, '2026-03-02'],
      ['L3', 'Fen grey', 30, '2026-03-02'],
    ],
    Strains: STRAINS,
  } satisfies Readonly<Record<string, Rows>>;
  const figures = { today: '2026-03-30' };

  test('are asked about, and left out or counted as the grower says', async () => {
    const bytes = await struck(await bookWith(sheets), 'Lots', 'A3', 'B3', 'C3', 'D3');
    expect(fitted(opened(bytes), 'ready', {}).questions.map(questionWords)).toEqual([
      '1 row of your lots is struck out (Lots!A3). Should it be left out or counted?',
    ]);
    const [fit, prepared] = await laidOut(bytes, 'ready', { struck: { lots: 'left out' }, figures });
    expect(sourceWords(fit.tables.get('lots')!)).toBe('2 records in Lots!A1:D4; 1 struck-out row left out');
    expect(valuesOf(prepared, 'READYLOTS').map(([lot]) => lot)).toEqual(['lot', 'L3', 'L1']);
    const formulas = prepared.sheets.flatMap(({ things }) => JSON.stringify(things)).join();
    expect(formulas).toContain('<>ROW(Lots!$A$3)');
    const [, counted] = await laidOut(bytes, 'ready', { struck: { lots: 'counted' }, figures });
    expect(valuesOf(counted, 'READYLOTS').map(([lot]) => lot)).toEqual(['lot', 'L3', 'L1', 'L2']);
  });

  test('one cell of a row that is struck out is a correction, no row', async () => {
    const bytes = await struck(await bookWith(sheets), 'Lots', 'C3');
    expect(fitted(opened(bytes), 'ready', {}).questions).toEqual([]);
  });

  test('a lot that is struck out keeps its picks in an audit', async () => {
    const picks: Rows = [
      ['Date', 'Lot', 'kg'],
      ['2026-04-02', 'L2', 4],
    ];
    const bytes = await struck(await bookWith({ ...sheets, Picks: picks }), 'Lots', 'A3', 'B3', 'C3', 'D3');
    expect(fitted(opened(bytes), 'audit', {}).questions).toEqual([]);
  });
});

test('a limit of picking that the book names is asked, and each view of the plan keeps to it', async () => {
  const bytes = await bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated'],
      ['L1', 'Blue larch', 40, 2, 0.6, '2026-03-02'],
    ],
    Strains: STRAINS.map((row) => row.filter((_, at) => at !== 6 && at !== 7)),
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf', 'Max. picked a day'],
      ['North', 4, 10, 12],
    ],
    Orders: [
      ['Product', 'kg', 'Due'],
      ['Blue larch', 4, '2026-04-14'],
    ],
  });
  const open = fittedBare(opened(bytes), 'plan', {});
  expect(open.questions.map(questionWords)).toEqual([
    'Rooms!D1 says “Max. picked a day”: 12. How much can you pick in a day, in all rooms together? Write none for no limit',
  ]);
  expect(open.questions[0]).toMatchObject({
    rows: [{ day: 'every day', 'pick limit': 12, 'load limit': 'none' }],
  });
  const calendar = [{ day: 'every day', 'pick limit': 12, 'load limit': 'none' }];
  const [, prepared] = await laidOut(bytes, 'plan', {
    fill: { calendar },
    figures: { today: '2026-03-30', days: 14 },
  });
  expect(prepared.calls.map(({ formula }) => formula.includes('Calendar[#All]'))).toEqual(
    prepared.calls.map(() => true),
  );
  const [headers, ...picks] = valuesOf(prepared, '"picks"');
  const at = headers!.indexOf('limit');
  expect(new Set(picks.map((row) => row[at]))).toEqual(new Set([12]));
});

test('lots on sheets that are named after their strains have these strains', async () => {
  const lots = (name: string): Rows => [
    ['Lot', 'Bags set', 'Set on', 'Bags standing'],
    [`${name}1`, 42, '2026-03-02', 22],
    [`${name}2`, 40, '2026-02-23', 40],
  ];
  const bytes = await bookWith({ 'Blue larch': lots('BL'), 'Fen grey': lots('FG'), 'Know-how': STRAINS });
  const [fit, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30' } });
  expect(fit.tables.get('lots')!.values.get('strain')).toEqual([
    'Blue larch',
    'Blue larch',
    'Fen grey',
    'Fen grey',
  ]);
  const strains = prepared.columns.filter(({ header, table }) => table === 'lots' && header === 'strain');
  expect(strains.map(({ formula }) => /"(?:Blue larch|Fen grey)"\)$/.exec(formula)?.[0])).toEqual([
    '"Blue larch")',
    '"Fen grey")',
  ]);
  // 23 February + 42 and + 45, 2 March + 42 and + 45.
  expect(valuesOf(prepared, 'READYLOTS').map(([lot]) => lot)).toEqual(['lot', 'FG2', 'BL2', 'FG1', 'BL1']);
});

describe('a day that only the names of the lots say', () => {
  const book = (...names: string[]) =>
    bookWith({
      Lots: [['Lot', 'Strain', 'Bags'], ...names.map((name) => [name, 'Blue larch', 40])],
      Strains: STRAINS,
    });

  test.each([
    [
      'DDMM',
      ['BL-0203-A', 'BL-2303-A'],
      { years: { 'lots, inoculated': 2026 } },
      'The name BL-0203-A may say it: 2 March as DDMM',
    ],
    ['YYYYMMDD', ['BL20260302', 'BL20260323'], {}, 'The name BL20260302 may say it: 2026-03-02 as YYYYMMDD'],
    ['YYMMDD', ['BL260302', 'BL260323'], {}, 'The name BL260302 may say it: 2026-03-02 as YYMMDD'],
    // The first week of 2026 begins on 29 December 2025, as 4 January is a Sunday; the tenth on 2 March.
    ['YYWW', ['BL2610', 'BL2613'], {}, 'The name BL2610 may say it: the Monday of week 10 as YYWW'],
  ])('is asked with what the first name would be, as %s', async (pattern, names, more, hint) => {
    const bytes = await book(...names);
    const [question, ...others] = fitted(opened(bytes), 'ready', {}).questions;
    expect(others).toEqual([]);
    expect(questionWords(question!)).toBe(
      `Which column of your lots holds “inoculated”, day of inoculation? ${hint}`,
    );
    const inoculated = `${pattern} in the lot’s name`;
    expect(question).toMatchObject({ choices: [inoculated] });
    const [fit, prepared] = await laidOut(bytes, 'ready', {
      columns: { lots: { inoculated } },
      figures: { today: '2026-03-30' },
      ...more,
    });
    expect(fit.tables.get('lots')!.values.get('inoculated')).toEqual([day(3, 2), day(3, 23)]);
    const [column] = prepared.columns.filter(({ header }) => header === 'inoculated');
    expect(column!.formula).toContain('MID(');
    expect(column!.cells.slice(0, 2)).toEqual([day(3, 2), day(3, 23)]);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const shown = workbook.result(prepared.answer, prepared.calls[0]!.address).block!;
    expect(shown.slice(0, 3)).toEqual(valuesOf(prepared, 'READYLOTS').slice(0, 3));
    expect(shown.slice(1).map((row) => row[3])).toContain(day(3, 2));
  });

  test.each([
    ['figures that are no day in one name', ['BL-0203-A', 'BL-4703-B']],
    ['figures in another place', ['BL-0203-A', 'B-1603-A']],
    ['a number that goes on', ['BL-02035', 'BL-16031']],
  ])('%s are asked about without it', async (_, names) => {
    const [question] = fitted(opened(await book(...names)), 'ready', {}).questions;
    expect(question).toMatchObject({ kind: 'column', column: 'inoculated', choices: [] });
  });
});

test('an audit is told the unit that the grower’s own header names', async () => {
  const bytes = await bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture'],
      ['L1', 'Blue larch', 40, 2, 0.6],
    ],
    Strains: STRAINS,
    Picks: [
      ['Date', 'Lot', 'weight_g'],
      ['2026-04-02', 'L1', 4000],
    ],
  });
  const [, prepared] = await laidOut(bytes, 'audit', {});
  expect(prepared.calls[0]!.formula).toMatch(/,\{"setting","value";"unit","g"\}\)$/);
});

test('a mass and a moisture that no column says may be one figure for all lots, kept for the next time', async () => {
  const bytes = await bookWith({
    Lots: [
      ['Lot', 'Strain', 'Bags', 'Inoculated'],
      ['L1', 'Blue larch', 40, '2026-03-02'],
      ['L2', 'Blue larch', 30, '2026-03-02'],
    ],
    Strains: STRAINS.map((row) => row.filter((_, at) => at !== 6 && at !== 7)),
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf'],
      ['North', 8, 10],
    ],
    Orders: [
      ['Product', 'kg', 'Due'],
      ['Blue larch', 4, '2026-04-14'],
    ],
  });
  expect(fitted(opened(bytes), 'plan', {}).questions.map(questionWords)).toEqual([
    'Which column of your lots holds “block mass”, wet mass of one block? If it is the same for all lots, give the figure: 5 lb or 2.5 kg. If it differs by strain, add a column to your list of strains, and choose the job again',
    'Which column of your lots holds “moisture”, water share of the wet block? If it is the same for all lots, give the figure: 62%. If it differs by strain, add a column to your list of strains, and choose the job again',
  ]);
  const [fit, prepared] = await laidOut(bytes, 'plan', {
    figures: { 'lots, block mass': '5 lb', 'lots, moisture': '62%', today: '2026-03-30' },
  });
  const columns = new Map(
    prepared.columns.flatMap((one) => (one.table === 'lots' ? [[one.header, one]] : [])),
  );
  // Orders are in kilograms: 5 × 0.45359237.
  expect(columns.get('block mass')!.cells[1]).toBeCloseTo(2.26796185, 8);
  expect(columns.get('block mass')!.formula).toMatch(/^=IF\(.*="","",2\.26796185\)$/);
  expect(columns.get('moisture')!.cells.slice(0, 2)).toEqual([0.62, 0.62]);
  expect(fit.tables.get('lots')!.evidence[0]).toMatchObject({ 'block mass': '5 lb', moisture: '62%' });
  expect(valuesOf(prepared, '"orders"')[1]![4]).toBe(4);
  const again = opened(withSheets(bytes, prepared.sheets));
  const kept = keptAnswers(again, 'plan');
  expect(kept.figures).toEqual({ 'lots, block mass': '5 lb', 'lots, moisture': '62%' });
  expect(fitted(again, 'plan', kept).questions).toEqual([]);
});

test.each([
  ['efficiency', '80%', 0.8],
  ['efficiency', '0.8', 0.8],
  ['efficiency', 80, 0.8],
  // An efficiency may pass 100%, but not 500%.
  ['efficiency', 1.2, 1.2],
  ['loss', '3,5%', 0.035],
  ['first pick', '7', 7],
  ['first pick', '7%', 7],
  ['first pick', '', null],
  ['strain', '12', '12'],
])('an answer for %s typed as %p is %p', (header, typed, held) => {
  const strains = JOB.plan.tables.find(({ name }) => name === 'strains')!;
  expect(answered(strains, header, typed)).toBe(held);
});

test.each([
  ['kg', 'Kilos · kg · KGS · kilogram'],
  ['g', 'Grams · gr · g'],
  ['lb', 'lbs · pounds · LB'],
  ['oz', 'ounces · oz'],
])('%s is the unit of %s', (unit, words) => {
  for (const word of words.split(' · ')) expect([word, massUnitIn(`weight (${word})`)]).toEqual([word, unit]);
});

test('months on sheets are read in the order of their sheets, whichever has more records', async () => {
  const head = ['Lot', 'Strain', 'Bags', 'Inoculated'];
  const month = (name: string, of: number, count: number): Rows => [
    head,
    ...Array.from({ length: count }, (_, i) => [`${name}${i}`, 'Blue larch', 40, day(of, i + 2)]),
  ];
  const bytes = await bookWith({ Jan: month('J', 1, 2), Feb: month('F', 2, 5), Strains: STRAINS });
  const { tables } = fitted(opened(bytes), 'ready', {});
  expect(tables.get('lots')!.values.get('lot')).toEqual(['J0', 'J1', 'F0', 'F1', 'F2', 'F3', 'F4']);
});

test('lots under the usual headers are read in the spelling of the strains, where theirs is another', async () => {
  const bytes = await bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Inoculated'],
      ['A', 'blue-larch', 40, day(3, 2)],
      ['B', 'Blue larch', 44, day(3, 3)],
    ],
    Strains: STRAINS,
  });
  const [, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30' } });
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const ready = workbook.result(prepared.answer, prepared.calls[0]!.address).block!;
  expect(ready.slice(1, 3).map(([lot, strain]) => [lot, strain])).toEqual([
    ['A', 'Blue larch'],
    ['B', 'Blue larch'],
  ]);
});
