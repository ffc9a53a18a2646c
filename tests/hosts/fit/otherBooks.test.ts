import { describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Cell } from '../../../src/worksheet/cells/cell';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import type { TableName } from '../../../src/hosts/fit/jobs';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { inOwnCells } from '../../../src/hosts/fit/told';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { day, fitted, laidOut, opened, valuesOf } from './laidOut';
import { groupedBook, ledgerBook, monthlyBook, onePageBook } from './messyBooks';

// Books as unlike each other as those of four farms. Right answers are worked out by hand beside each.

const MONTHLY: Answers = {
  fill: {
    strains: [
      {
        strain: 'Cedar-4',
        earliest: 60,
        best: 75,
        latest: 95,
        'first pick': 7,
        'pick days': 4,
        efficiency: '80%',
      },
      {
        strain: 'Moss-1',
        earliest: 14,
        best: 18,
        latest: 40,
        'first pick': 6,
        'pick days': 3,
        efficiency: '90%',
      },
    ],
    rooms: [{ room: 'North', shelves: 10, 'blocks per shelf': 12 }],
  },
  figures: { today: '2026-04-01', days: 28 },
};
const GROUPED: Answers = {
  decimals: { 'orders, mass': 'comma' },
  figures: { today: '2026-03-28', days: 35 },
};
const ONE_PAGE: Answers = {
  columns: {
    lots: { moisture: 'Water' },
    strains: { earliest: 'from day', latest: 'to day' },
    rooms: { room: 'name' },
    orders: { product: 'what' },
  },
  figures: { today: '2026-04-01', days: 28 },
};
const LEDGER: Answers = {
  figures: { today: '2026-04-01', days: 28, blocks: 40, 'block mass': 2.5, moisture: '62%' },
};

describe('headers in two rows, strains as headings, decimal commas', () => {
  test('give the right list of ready lots, and list every cell that cannot be read', async () => {
    const [fit, prepared] = await laidOut(await groupedBook(), 'ready', GROUPED);
    expect(fit.unread.map(placeOfUnread)).toEqual(["'Fruiting blocks'!B9", "'Fruiting blocks'!E14"]);
    // Hazel-9 is ready 45 days on, Birch-1 12: 3 February + 45 is 20 March, 14 March + 12 is 26 March. B-01 is loaded.
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(
      rows.slice(0, 5).map(([lot, strain, , , from]) => [lot, strain, Math.floor(Number(from))]),
    ).toEqual([
      ['B-03', 'Birch-1', day(3, 26)],
      ['B-05', 'Birch-1', day(4, 2)],
      ['H-01', 'Hazel-9', day(3, 20)],
      ['H-02', 'Hazel-9', day(3, 27)],
      ['H-04', 'Hazel-9', day(4, 10)],
    ]);
    const notes = rows.slice(5).map(([words]) => inOwnCells(fit, words as string));
    expect(notes).toEqual([
      '1 lot is loaded already',
      "1 lot left out, H-03: blocks in lots holds the error #VALUE! ('Fruiting blocks'!B9)",
      "1 lot left out, B-02: inoculated in lots holds the error #VALUE! ('Fruiting blocks'!E14)",
    ]);
  });

  test('ask what begins the decimals of 12,500, and plan with the mass that was meant', async () => {
    const bytes = await groupedBook();
    const open = fitted(opened(bytes), 'plan', {});
    expect(open.questions).toMatchObject([
      { kind: 'decimals', about: 'orders, mass', texts: ['12,500', '25,000', '18,250'], elsewhere: 'comma' },
    ]);
    const [, prepared] = await laidOut(bytes, 'plan', { ...GROUPED, leaveOut: { lots: true } });
    const [, ...orders] = valuesOf(prepared, '"orders"');
    expect(orders.map(([product, , due, mass]) => [product, due, mass])).toEqual([
      ['Birch-1', day(4, 10), 25],
      ['Hazel-9', day(4, 24), 12.5],
      ['Hazel-9', day(5, 1), 18.25],
    ]);
    for (const [, , , mass, planned] of orders) expect(planned).toBeGreaterThan(0.99 * Number(mass));
  });

  test('a sheet of lots is not taken for picks as well', () => {
    return groupedBook().then((bytes) => {
      const { tables, questions } = fitted(opened(bytes), 'audit', {});
      expect([...tables.keys()]).toEqual(['lots', 'strains']);
      expect(questions.map(({ kind }) => kind)).toEqual(['table']);
    });
  });
});

describe('a sheet a month, counted from 1904', () => {
  test('is one table of lots, of which those that are ready are listed', async () => {
    const [fit, prepared] = await laidOut(await monthlyBook(), 'ready', MONTHLY);
    expect(fit.unread).toEqual([]);
    // 3 March + 14, 13 January + 60, 16 March + 14, 3 February + 60; 17 February + 40 is past by 1 April.
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(rows.map(([lot, , , , from]) => [lot, from])).toEqual([
      ['2607', day(3, 17, 1904)],
      ['2602', day(3, 14, 1904)],
      ['2608', day(3, 30, 1904)],
      ['2604', day(4, 4, 1904)],
      ['1 lot is past the latest day: 2605', ''],
      ['1 lot is loaded already', ''],
    ]);
  });

  test('an audit finds each slip in pounds and ounces, and the cell of the sheet that it is on', async () => {
    const bytes = await monthlyBook();
    const [fit, prepared] = await laidOut(bytes, 'audit', MONTHLY);
    expect(fit.unread.map(placeOfUnread)).toEqual(["'Mar 2026'!F4", 'Picked!B6']);
    const [header, ...rows] = valuesOf(prepared, 'YIELDAUDIT');
    const column = (name: string) => rows.map((row) => row[header!.indexOf(name)]);
    expect(column('what is wrong')).toEqual([
      'this lot is not in lots',
      'text or an error where a number should be',
      'the mass does not fit the lot’s other picks',
    ]);
    expect(column('if corrected')).toEqual(['2601', '', 23.1]);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const places = ['A5', 'A6', 'A7'].map((address) => workbook.result('Audit', address).value);
    expect(places).toEqual(['Picked!B6', "'Mar 2026'!F4", 'Picked!C5']);
  });
});

describe('everything on one page', () => {
  test('finds four tables beside and below each other, and asks nothing', async () => {
    const bytes = await onePageBook();
    const { tables, questions } = fitted(opened(bytes), 'plan', {});
    expect([...tables].map(([name, { candidate }]) => [name, candidate.dataRows.length])).toEqual([
      ['lots', 4],
      ['strains', 2],
      ['rooms', 1],
      ['orders', 2],
    ]);
    expect(
      questions.flatMap((one) => (one.kind === 'column' ? `${one.table}, ${one.column}` : one.kind)),
    ).toEqual([]);
    const headerOf = (table: TableName, wanted: string) =>
      tables.get(table)!.readings.find(({ name }) => name === wanted)!.match.header;
    expect(headerOf('strains', 'earliest')).toBe('from day');
    expect(headerOf('strains', 'latest')).toBe('to day');
    expect(headerOf('lots', 'loaded')).toBe('In room since');
    expect(headerOf('lots', 'moisture')).toBe('Water');
    expect(headerOf('rooms', 'room')).toBe('name');
    // What customers ordered are names of strains.
    expect(headerOf('orders', 'product')).toBe('what');
    const [, prepared] = await laidOut(bytes, 'ready', ONE_PAGE);
    // 10 March + 12, 10 January + 60, 26 March + 12, 24 January + 60.
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(rows.map(([lot, , , , from]) => [lot, from])).toEqual([
      ['c', day(3, 22)],
      ['a', day(3, 11)],
      ['d', day(4, 7)],
      ['b', day(3, 25)],
    ]);
  });
});

describe('tables of the workbook’s own', () => {
  test('lots that went into fruiting are not ready', async () => {
    const [, prepared] = await laidOut(await ledgerBook(), 'ready', LEDGER);
    const [, ...rows] = valuesOf(prepared, 'READYLOTS');
    expect(rows.map(([lot]) => lot)).toEqual(['E-202', 'R-103', '2 lots are loaded already']);
  });

  test('a column of days that nothing reads is asked about before lots are called ready', async () => {
    const book = opened(await ledgerBook());
    const [lots, ...others] = book.sheets;
    const renamed = lots!.rows.map((row, r) =>
      r === 0 ? row.map((cell) => (cell === 'Into fruiting' ? 'Bench since' : cell)) : row,
    );
    const { questions } = fitted({ ...book, sheets: [{ ...lots!, rows: renamed }, ...others] }, 'ready', {});
    expect(questions).toMatchObject([
      { kind: 'column', table: 'lots', column: 'loaded', choices: ['Bench since'], mayBeNone: true },
    ]);
  });

  test('a recipe in whole per cent gives the weighing list', async () => {
    const [, prepared] = await laidOut(await ledgerBook(), 'mix', LEDGER);
    const byName = new Map(valuesOf(prepared, 'MIX').map(([name, dry, mass]) => [name, [dry, mass]]));
    // 40 blocks of 2.5 at 62% hold 38 dry; sawdust is 78% of it, at 22% moisture.
    expect(byName.get('oak sawdust')![0]).toBeCloseTo(0.78 * 38, 9);
    expect(byName.get('oak sawdust')![1]).toBeCloseTo((0.78 * 38) / 0.78, 9);
    expect(byName.get('wheat bran')![1]).toBeCloseTo((0.2 * 38) / 0.88, 9);
  });
});

describe.each([
  ['grouped headers', groupedBook, 'ready', GROUPED],
  ['grouped headers', groupedBook, 'plan', { ...GROUPED, leaveOut: { lots: true } }],
  ['a sheet a month', monthlyBook, 'ready', MONTHLY],
  ['a sheet a month', monthlyBook, 'plan', { ...MONTHLY, leaveOut: { lots: true } }],
  ['a sheet a month', monthlyBook, 'audit', MONTHLY],
  ['one page', onePageBook, 'plan', ONE_PAGE],
  ['tables', ledgerBook, 'audit', LEDGER],
  ['tables', ledgerBook, 'mix', LEDGER],
] as const)('%s: what is shown before it is written', (_, book, job, answers) => {
  test(`is what the sheets of ${job} give, formula by formula, and the next time asks nothing`, async () => {
    const bytes = await book();
    const [, prepared] = await laidOut(bytes, job, answers);
    const written = withSheets(bytes, prepared.sheets);
    const workbook = await openWorkbook(readWorkbook(written));
    const blockAt = (sheet: string, address: string): readonly (readonly Cell[])[] => {
      const { value, block } = workbook.result(sheet, address);
      return block ?? [[value]];
    };
    // A message counts rows in the table that it was given, which is longer on the sheet: only codes are compared.
    const plain = (cell: Cell): Cell | string => (isCellError(cell) ? cell.code : cell);
    for (const { address, block } of prepared.calls) {
      expect(blockAt(prepared.answer, address).map((row) => row.map(plain))).toEqual(
        plainValues(block).map((row) => row.map(plain)),
      );
    }
    const read = prepared.sheets.find(({ name }) => name !== prepared.answer)!;
    for (const { formula, cells } of prepared.columns) {
      const thing = read.things.find((one) => one.kind === 'formula' && one.formula === formula);
      const given = blockAt(read.name, (thing as { at: string }).at).flat();
      const filled = (all: readonly Cell[]) => all.filter((cell) => cell !== null && cell !== '').map(plain);
      expect(filled(given)).toEqual(filled(cells));
    }
    const results = (sheet: string, address: string) => blockAt(sheet, address);
    const kept = opened(withSheets(bytes, prepared.sheets, results));
    const again = fitted(kept, job, {
      ...keptAnswers(kept, job),
      figures: answers.figures ?? {},
    });
    expect(again.questions.map(questionWords)).toEqual([]);
  });
});
