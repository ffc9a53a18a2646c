import ExcelJS from 'exceljs';
import { describe, expect, test } from '@jest/globals';
import { auditedFindings } from '../../../src/hosts/fit/audited';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { placeText } from '../../../src/hosts/fit/book';
import { loadTools } from '../../../src/worksheet/tools';
import { auditOf, LOTS, picksIn, STRAINS, type Rows } from './auditSetup';
import { bookWith, day, fitted, laidOut, opened, type Held } from './laidOut';

// Sheets of picks as they are kept beside a scale, a few cells each: every expected lot, day and mass is counted by hand.

describe('several picks in one row', () => {
  const diary: Rows = [
    ['What we picked'],
    [],
    ['Date', 'Lot', 'kg', 'Lot', 'kg', 'Notes'],
    ['2026-04-03', 'L1', 4.5, null, null, 'fan off'],
    ['2026-04-10', 'L1', 6, 'L2', 3.2],
    ['2026-04-11', 'L2', 5, null, 2.5],
    ['Total', null, 15.5, null, 5.7],
  ];

  test('are each a pick of the day of the row, a mass without a lot among them', async () => {
    const fit = await auditOf({ Diary: diary });
    expect(fit.questions.map(questionWords)).toEqual([]);
    expect(picksIn(fit, 'lot')).toEqual(['L1', 'L1', 'L2', 'L2', null]);
    expect(picksIn(fit, 'date')).toEqual([day(4, 3), day(4, 10), day(4, 11), day(4, 10), day(4, 11)]);
    expect(picksIn(fit, 'mass')).toEqual([4.5, 6, 5, 3.2, 2.5]);
    expect(fit.tables.get('harvests')!.candidate.ignored).toEqual(['Notes']);
    expect(fit.unread.map(({ sheet, row, column }) => placeText(sheet, row, column))).toEqual(['Diary!D6']);
  });

  test('are told apart by numbers behind their headers too', async () => {
    const numbered = diary.map((row, i) => (i === 2 ? ['Date', 'Lot 1', 'kg 1', 'Lot 2', 'kg 2'] : row));
    expect(picksIn(await auditOf({ Diary: numbered }), 'mass')).toEqual([4.5, 6, 5, 3.2, 2.5]);
  });

  test('give the same in the formulas that are written', async () => {
    const bytes = await bookWith({ Strains: STRAINS, Lots: LOTS, Diary: diary });
    const [, { columns }] = await laidOut(bytes, 'audit', {});
    const masses = columns.filter(({ table, header }) => table === 'harvests' && header === 'mass');
    expect(masses.map(({ cells }) => cells.filter((cell) => cell !== null))).toEqual([
      [4.5, 6, 5],
      [3.2, 2.5],
    ]);
  });
});

describe('picks in crates', () => {
  const crates = (gross: string, ...net: string[]): Rows => [
    ['Picked', 'Crate', 'Lot', gross, 'Tare kg', ...net],
    ['2026-04-03', 4, 'L1', 5.7, 1.2, ...net.map(() => 4.5)],
    ['2026-04-03', 9, 'L1', 4.4, 0.8, ...net.map(() => 3.6)],
    ['2026-04-10', 4, 'L2', 6.2, null, ...net.map(() => 6.2)],
  ];
  const masses = (fit: ReturnType<typeof fitted>): unknown[] =>
    picksIn(fit, 'mass')!.map((cell) =>
      typeof cell === 'number' ? Number(cell.toFixed(9)) : typeof cell === 'object' ? 'unread' : cell,
    );

  test('have their tare taken off a gross mass, and a blank one is told', async () => {
    const fit = await auditOf({ Picks: crates('Gross kg') });
    expect(fit.questions).toEqual([]);
    expect(masses(fit)).toEqual([4.5, 3.6, 'unread']);
    expect(fit.unread).toEqual([
      expect.objectContaining({ row: 3, column: 4, why: 'is blank: type 0 where Tare kg is none' }),
    ]);
    const bytes = await bookWith({ Strains: STRAINS, Lots: LOTS, Picks: crates('Gross kg') });
    const [, { columns }] = await laidOut(bytes, 'audit', {});
    expect(columns.find(({ header }) => header === 'mass')!.formula).toContain('NA()');
  });

  test('have their tare under a header of symbols too', async () => {
    expect(masses(await auditOf({ Picks: crates('m_gross [kg]') }))).toEqual([4.5, 3.6, 'unread']);
  });

  test('are read net where the book says so', async () => {
    expect(masses(await auditOf({ Picks: crates('Gross kg', 'Net kg') }))).toEqual([4.5, 3.6, 6.2]);
  });

  test('are asked about where nothing says whether a mass is with its crate, and either answer is taken', async () => {
    const sheets = { Picks: crates('Weight kg') };
    const fit = await auditOf(sheets);
    expect(fit.questions).toEqual([
      expect.objectContaining({ column: 'mass', choices: ['Weight kg', 'Weight kg less Tare kg'] }),
    ]);
    const said = (mass: string) => auditOf(sheets, { columns: { harvests: { mass } } });
    const [asItIs, less] = [await said('Weight kg'), await said('Weight kg less Tare kg')];
    expect([asItIs, less].flatMap(({ questions }) => questions)).toEqual([]);
    expect(masses(asItIs)).toEqual([5.7, 4.4, 6.2]);
    expect(masses(less)).toEqual([4.5, 3.6, 'unread']);
  });

  test('are corrected on the scale, crate and all', async () => {
    const rows: Rows = [
      ['Picked', 'Lot', 'Gross kg', 'Tare kg'],
      ...['L1', 'L2'].flatMap((lot, i) =>
        [5, 7, 6, 5].map((net, at): (Held | Date)[] => {
          const isSlip = i === 1 && at === 1;
          return [`2026-04-${String(3 + 7 * i + at).padStart(2, '0')}`, lot, isSlip ? 77 : net + 0.7, 0.7];
        }),
      ),
    ];
    const fit = await auditOf({ Picks: rows });
    const found = auditedFindings(fit, (await loadTools(['auditing'])).auditing!);
    expect(found.flatMap(({ corrections }) => corrections)).toEqual([
      expect.objectContaining({ sheet: 'Picks', row: 6, column: 2, before: 77, after: 7.7 }),
    ]);
    expect(found[0]!.told).toMatchObject({ value: 76.3, corrected: 7, tare: 0.7 });
    expect(found[0]!.told.evidence).toContain('With its tare of 0.7 it is 77 as typed and 7.7 if corrected.');
  });
});

describe('a form', () => {
  const answers = (day: string): Rows => [
    ['Timestamp', 'Which lot?', 'How many kg?', day],
    [new Date(Date.UTC(2026, 3, 3, 15, 2)), 'L1', 4.5, null],
    [new Date(Date.UTC(2026, 3, 4, 9, 40)), 'L1', 6, new Date(Date.UTC(2026, 3, 2))],
    [new Date(Date.UTC(2026, 3, 10, 16, 0)), 'L2', 3.2, null],
  ];

  test.each(['Date picked (if not today)', 'Picked on'])(
    'has the day of its stamp where “%s” is blank, without the time',
    async (header) => {
      const fit = await auditOf({ Form: answers(header) });
      expect([fit.questions, fit.unread]).toEqual([[], []]);
      expect(picksIn(fit, 'date')).toEqual([day(4, 3), day(4, 2), day(4, 10)]);
      const bytes = await bookWith({ Strains: STRAINS, Lots: LOTS, Form: answers(header) });
      const [, { columns }] = await laidOut(bytes, 'audit', {});
      const date = columns.find(({ table, header: own }) => table === 'harvests' && own === 'date')!;
      expect(date.formula).toMatch(/INT\(Form!\$A/);
      expect(date.cells.slice(0, 3)).toEqual([day(4, 3), day(4, 2), day(4, 10)]);
    },
  );
});

describe('lots that name their mix', () => {
  const lots: Rows = LOTS.map((row, i) => [...row.slice(0, 3), i === 0 ? 'Mix' : `HW-${i}`, ...row.slice(5)]);
  const mixes: Rows = [
    ['Mix', 'What is in it', 'Block (kg)', 'Moisture'],
    ['HW-1', 'oak and bran', 2.5, 0.6],
    ['HW-2', 'beech and bran', 3, 0.62],
    ['HW-3', 'straw', 4, 0.7],
  ];
  const picks: Rows = [
    ['Date', 'Lot', 'kg'],
    ['2026-04-03', 'L1', 4],
    ['2026-04-10', 'L2', 5],
  ];
  const readIn = (fit: ReturnType<typeof fitted>, column: string) =>
    fit.tables.get('lots')!.values.get(column);

  test('have the mass and the moisture of its blocks, in the formulas too', async () => {
    const sheets = { Lots: lots, Mixes: mixes, Picks: picks };
    const fit = await auditOf(sheets);
    expect([fit.questions, fit.unread]).toEqual([[], []]);
    expect(readIn(fit, 'block mass')).toEqual([2.5, 3]);
    expect(readIn(fit, 'moisture')).toEqual([0.6, 0.62]);
    const [, { columns }] = await laidOut(await bookWith({ Strains: STRAINS, ...sheets }), 'audit', {});
    expect(columns.find(({ header }) => header === 'block mass')!.formula).toContain(
      'VLOOKUP(TRIM(Lots!$D$2:$D$503),Mixes!$A$2:$C$54,3,FALSE)',
    );
  });

  test('have neither where the list does not know every mix, or knows one twice', async () => {
    for (const list of [mixes.slice(0, 2), [...mixes, mixes[1]!]])
      expect(readIn(await auditOf({ Lots: lots, Mixes: list, Picks: picks }), 'moisture')).toBeUndefined();
  });

  test('keep the mix as it is where a moisture would be corrected', async () => {
    const wrong = mixes.map((row) => (row[0] === 'HW-2' ? [...row.slice(0, 3), 0.06] : row));
    const fit = await auditOf({ Lots: lots, Mixes: wrong, Picks: picks });
    const found = auditedFindings(fit, (await loadTools(['auditing'])).auditing!);
    expect(found.flatMap(({ corrections }) => corrections)).toEqual([]);
  });
});

describe('lots that are numbered anew each year', () => {
  const lots: Rows = [
    ['Year', 'No.', ...LOTS[0]!.slice(1)],
    [2025, 1, ...LOTS[1]!.slice(1, 5), '2025-11-03', '2025-11-27'],
    [2025, 2, ...LOTS[1]!.slice(1, 5), '2025-11-10', '2025-12-04'],
    [2026, 1, ...LOTS[1]!.slice(1)],
    [2026, 2, ...LOTS[2]!.slice(1)],
  ];
  const picks: Rows = [
    ['Year', 'No.', 'Date', 'kg'],
    [2025, 1, '2025-12-05', 4],
    [2026, 1, '2026-04-03', 5],
    [2026, 22, '2026-04-10', 6],
    ...[9, 10, 11, 12].map((date): (Held | Date)[] => [2026, 2, `2026-04-${date}`, 3]),
  ];

  test('are named by both, in the picks as well', async () => {
    const fit = await auditOf({ Lots: lots, Picks: picks });
    expect(fit.questions).toEqual([]);
    expect(fit.tables.get('lots')!.values.get('lot')).toEqual(['2025-1', '2025-2', '2026-1', '2026-2']);
    expect(picksIn(fit, 'lot')!.slice(0, 3)).toEqual(['2025-1', '2026-1', '2026-22']);
    const [, { columns }] = await laidOut(
      await bookWith({ Strains: STRAINS, Lots: lots, Picks: picks }),
      'audit',
      {},
    );
    expect(columns.find(({ table, header }) => table === 'harvests' && header === 'lot')!.formula).toContain(
      'Picks!$A$2:$A$508&"-"&',
    );
  });

  test('are corrected in their number alone', async () => {
    const fit = await auditOf({ Lots: lots, Picks: picks });
    const found = auditedFindings(fit, (await loadTools(['auditing'])).auditing!);
    expect(found.flatMap(({ corrections }) => corrections)).toEqual([
      expect.objectContaining({ row: 3, column: 1, before: 22, after: 2 }),
    ]);
  });
});

test('lots go into a chamber, and the first harvest comes after days, in German', async () => {
  const lots = LOTS.map((row, i) => (i === 0 ? [...row.slice(0, 6), 'In die Kammer am'] : row));
  const [head, ...strains] = STRAINS;
  const fit = await auditOf({
    Strains: [
      head!.map((header) => (header === 'First pick' ? 'Erste Ernte nach Tagen' : header)),
      ...strains,
    ],
    Lots: lots,
    Picks: [
      ['Date', 'Lot', 'kg'],
      ['2026-04-03', 'L1', 4],
    ],
  });
  expect(fit.questions).toEqual([]);
  const headerOf = (table: 'lots' | 'strains', column: string) =>
    fit.tables.get(table)!.readings.find(({ name }) => name === column)?.match.header;
  expect(headerOf('lots', 'loaded')).toBe('In die Kammer am');
  expect(headerOf('strains', 'first pick')).toBe('Erste Ernte nach Tagen');
});

test('a sum that was not drawn out to the last picks is no pick, whatever stands beside it', async () => {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Picking book');
  sheet.addRows([
    ['Day', 'Batch', 'Flush', 'kg', 'Remark'],
    ...Array.from({ length: 12 }, (_, i) => [
      `2026-07-${String(i + 6).padStart(2, '0')}`,
      'P6',
      1,
      5 + i,
      'fine',
    ]),
    [],
    [null, null, 'so far', { formula: 'SUM(D2:D12)', result: 115 }],
  ]);
  const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
  const { tables } = fitted(opened(bytes), 'audit', {});
  expect(tables.get('harvests')!.candidate.dataRows).toHaveLength(12);
});
