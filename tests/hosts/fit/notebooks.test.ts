import { describe, expect, test } from '@jest/globals';
import { auditedFindings } from '../../../src/hosts/fit/audited';
import { placeText } from '../../../src/hosts/fit/book';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { loadTools } from '../../../src/worksheet/tools';
import { auditOf, LOTS, picksIn, STRAINS, type Rows } from './auditSetup';
import { bookWith, day, laidOut, valuesOf } from './laidOut';

// Picks on a sheet a month and in a notebook, a few cells each: every expected lot, day and mass is counted by hand.

describe('a sheet a month', () => {
  const month = (...rows: Rows): Rows => [['Day', 'Lot', 'kg', 'Who'], ...rows];

  test('has its month in its name, and the days as numbers', async () => {
    const sheets = {
      'March 2026': month([31, 'L1', 4.5, 'Io']),
      'Apr 26': month([2, 'L1', 6, 'Bo'], [31, 'L2', 5, 'Bo'], [10, 'L2', 3.2, 'Io']),
    };
    const fit = await auditOf(sheets);
    expect(fit.questions).toEqual([]);
    const dates = picksIn(fit, 'date')!;
    expect([dates[0], dates[1], dates[3]]).toEqual([day(3, 31), day(4, 2), day(4, 10)]);
    // April has no 31st.
    expect(fit.unread.map(({ sheet, row, why }) => [sheet, row, why])).toEqual([
      ['Apr 26', 2, 'dates: "31/4/2026", read day first, is not in the calendar'],
    ]);
    const [, { columns }] = await laidOut(
      await bookWith({ Strains: STRAINS, Lots: LOTS, ...sheets }),
      'audit',
      {},
    );
    const read = columns.filter(({ table, header }) => table === 'harvests' && header === 'date');
    expect(read.map(({ formula }) => /"\/\d\/2026"/.exec(formula)?.[0])).toEqual(['"/3/2026"', '"/4/2026"']);
  });

  test('may have its days across, under the month', async () => {
    const across = (title: string, ...lots: Rows): Rows => [
      [title],
      ['Lot', 1, 2, 3, 4, 5, 6, 7, 8, 'Total'],
      ...lots,
    ];
    const fit = await auditOf({
      Spring: across('April 2026', ['L1', 2, null, 4.5, 3, null, null, null, null, 9.5]),
      'May 2026': across('in kg', ['L2', null, null, null, null, 6, null, null, 7, 13]),
    });
    expect([fit.questions, fit.unread]).toEqual([[], []]);
    const lots = picksIn(fit, 'lot')!;
    const masses = picksIn(fit, 'mass')!;
    const picks = picksIn(fit, 'date')!.map((date, i) => [lots[i], date, masses[i]]);
    expect(picks).toEqual([
      ['L1', day(4, 1), 2],
      ['L1', day(4, 3), 4.5],
      ['L1', day(4, 4), 3],
      ['L2', day(5, 5), 6],
      ['L2', day(5, 8), 7],
    ]);
  });

  test('is asked about where nothing says which year it is', async () => {
    const { questions } = await auditOf({ March: month([3, 'L1', 4.5, 'Io'], [4, 'L2', 5, 'Io']) });
    expect(questions).toEqual([expect.objectContaining({ kind: 'years', about: 'harvests, date' })]);
  });
});

describe('a notebook with all picks of a day in one cell', () => {
  const daily: Rows = [
    ['Date', 'Picked', 'Jobs'],
    ['2026-04-03', 'L1 4.5kg', 'floor'],
    ['2026-04-04', 'L1 4 kg', null],
    ['2026-04-10', 'L1: 6 kg, L2: 3.2 kg', null],
    ['2026-04-11', 'L22 5kg, L1 2kg and L2 1kg', null],
    ['2026-04-12', 'nothing today', null],
  ];

  test('is read pick by pick, and what is no pick is told', async () => {
    const fit = await auditOf({ Daily: daily });
    expect(fit.questions).toEqual([]);
    expect(picksIn(fit, 'lot')).toEqual(['L1', 'L1', 'L1', 'L22', 'nothing', 'L2', 'L1', 'L2']);
    expect(picksIn(fit, 'mass')!.map((cell) => (typeof cell === 'object' ? 'unread' : cell))).toEqual([
      4.5,
      4,
      6,
      5,
      'unread',
      3.2,
      2,
      1,
    ]);
    const places = fit.unread.map(
      ({ sheet, row, column, about }) => `${placeText(sheet, row, column)} ${about}`,
    );
    expect(places.sort()).toEqual([
      'Daily!B5 harvests, lot',
      'Daily!B6 harvests, lot',
      'Daily!B6 harvests, mass',
    ]);
  });

  test('gives the same in the formulas that are written, and keeps its cells where a mass would be corrected', async () => {
    const sheets = { Daily: [...daily.slice(0, 5), ['2026-04-12', 'L2 55 kg, L1 3 kg', null]] };
    const fit = await auditOf(sheets);
    const found = auditedFindings(fit, (await loadTools(['auditing'])).auditing!);
    expect(found.some(({ told }) => told.corrections.length > 0)).toBe(true);
    expect(found.flatMap(({ corrections }) => corrections)).toEqual([]);
    const bytes = await bookWith({ Strains: STRAINS, Lots: LOTS, ...sheets });
    const [, prepared] = await laidOut(bytes, 'audit', {});
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const { address } = prepared.calls.find(({ formula }) => formula.includes('YIELDAUDIT'))!;
    expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, 'YIELDAUDIT'));
    // The slip of 55 kg is in the first pick of the last row.
    const places = workbook.result(prepared.answer, 'A5').block!.map(([place]) => place);
    expect(places).toContain('Daily!B6');
  });
});
