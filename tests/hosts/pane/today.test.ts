import { describe, expect, test } from '@jest/globals';
import { readFileSync } from 'node:fs';
import path from 'node:path';
import { textOf, type GrowersBook } from '../../../src/hosts/fit/book';
import { bookOf } from '../../../src/hosts/fit/content';
import type { FormulaCell } from '../../../src/hosts/pane/book';
import { todayList, type TodayList } from '../../../src/hosts/pane/today';
import { areaOf } from '../../../src/hosts/xlsx/address';
import { callsPinset } from '../../../src/hosts/xlsx/formula';
import { Package } from '../../../src/hosts/xlsx/package';
import { partsOf } from '../../../src/hosts/xlsx/parts';
import { readTables, readWorkbook } from '../../../src/hosts/xlsx/read';
import type { Cell } from '../../../src/worksheet/cells/cell';

interface Sample {
  readonly list: TodayList;
  /** What a formula's cells show, row by row. */
  readonly block: (call: RegExp) => readonly (readonly Cell[])[];
}

/** The committed file: tests of the samples hold that its stored results are what the functions give. */
function sample(file: string, deviceDay = 1): Sample {
  const bytes = new Uint8Array(
    readFileSync(path.join(__dirname, '../../../sample-workbooks', `${file}.xlsx`)),
  );
  const content = readWorkbook(bytes);
  const held = Package.open(bytes);
  const book = bookOf(content, readTables(held, partsOf(held)));
  const formulas = content.sheets.flatMap(({ name, cells }) =>
    cells.flatMap(({ address, written, formula }): FormulaCell[] => {
      const text = written ?? formula;
      return text !== undefined && callsPinset(text) ? [{ sheet: name, address, formula: text }] : [];
    }),
  );
  return {
    list: todayList(book, formulas, deviceDay),
    block: (call) => {
      const { sheet, address } = formulas.find(({ formula }) => call.test(formula))!;
      const at = content.sheets.find(({ name }) => name === sheet)!;
      const { top, left, bottom, right } = areaOf(at.cells.find((cell) => cell.address === address)!.spill!)!;
      const { rows } = book.sheets.find(({ name }) => name === sheet)!;
      return rows
        .slice(top, bottom + 1)
        .map((row) => Array.from({ length: right - left + 1 }, (_, n) => row[left + n] ?? ''));
    },
  };
}

describe('todayList(book, formulas, day) of the farm’s book', () => {
  const it = sample('farm-book');

  test('takes its day from the cell beside Today', () => {
    // 2026-03-16
    expect(it.list).toMatchObject({ day: 46097, dayFrom: { sheet: 'Start', address: 'B11' } });
  });

  test('opens the lots that READYLOTS gives as ready by then, and no others', () => {
    const [headers, ...rows] = it.block(/READYLOTS/);
    const at = (header: string): number => headers!.indexOf(header);
    const ripe = rows.filter(
      (row) => typeof row[at('ready')] === 'number' && Number(row[at('ready')]) <= 46097,
    );
    expect(ripe.length).toBeGreaterThan(2);
    const lines = it.list.lines.filter(({ job, day }) => job === 'open' && day === 46097);
    expect(lines.map(({ words }) => words)).toEqual(
      ripe.map(
        (row) => `${textOf(row[0]!)} ${textOf(row[1]!)}, ${textOf(row[at('blocks')]!)} blocks: may be opened`,
      ),
    );
  });

  test('says what it cannot tell, and invents nothing', () => {
    expect(it.list.untold).toEqual(['pick', 'inoculate']);
    expect(it.list.lines.some(({ job }) => job === 'pick' || job === 'inoculate')).toBe(false);
  });
});

describe('todayList(book, formulas, day) of the loading plan', () => {
  const it = sample('loading-plan');

  test('opens what LOADPLAN opens in seven days, each line at its row', () => {
    const { day, lines } = it.list;
    const [headers, ...rows] = it.block(/LOADPLAN\(.*"plan"|LOADPLAN\([^"]*\)/);
    expect(headers!.slice(0, 5)).toEqual(['loaded', 'lot', 'strain', 'room', 'blocks']);
    const due = rows.filter(
      ([loaded, lot]) => lot !== '' && Number(loaded) >= day && Number(loaded) <= day + 6,
    );
    expect(due.length).toBeGreaterThan(1);
    expect(lines.filter(({ job }) => job === 'open').map(({ words, day: on }) => [on, words])).toEqual(
      due.map(([loaded, lot, strain, room, blocks]) => [
        loaded,
        `${textOf(lot!)} ${textOf(strain!)}, ${textOf(blocks!)} blocks, ${textOf(room!)}`,
      ]),
    );
  });

  test('picks on the days on which an answer expects picks', () => {
    const picks = it.list.lines.filter(({ job }) => job === 'pick');
    expect(picks.length).toBeGreaterThan(0);
    expect(picks.every(({ words }) => /^\d+(\.\d+)? expected in all$/.test(words))).toBe(true);
  });
});

describe('a book that tells little', () => {
  const plain = (rows: readonly (readonly Cell[])[], isFormula = false): GrowersBook => ({
    dateSystem: 1900,
    tables: [],
    sheets: [{ name: 'Mine', rows, formatAt: () => 'yyyy-mm-dd', isFormula: () => isFormula }],
  });
  const HEADERS = ['lot', 'strain', 'blocks', 'inoculated', 'ready', 'best', 'latest', 'age', 'state'];
  const row = (lot: string, ready: Cell, latest: Cell): Cell[] => [
    lot,
    'Alder-3',
    40,
    46000,
    ready,
    46105,
    latest,
    100,
    'ready',
  ];
  const call = { sheet: 'Mine', address: 'A1', formula: '=PINSET.READYLOTS(A,B,C,D)' };

  test('has no lines, and the day is the computer’s', () => {
    expect(todayList(plain([['notes']]), [], 46100)).toEqual({
      day: 46100,
      dayFrom: undefined,
      lines: [],
      untold: ['open', 'pick', 'inoculate', 'look at'],
    });
  });

  test('values that no formula gave tell nothing', () => {
    expect(todayList(plain([HEADERS, row('L-1', 46090, 46110)]), [call], 46100).lines).toEqual([]);
  });

  test('a lot whose last day is near is to be looked at on that day, a later one is not', () => {
    const rows = [HEADERS, row('L-1', 46090, 46103), row('L-2', 46102, 46140), row('L-3', 46108, 46150)];
    const { lines } = todayList(plain(rows, true), [call], 46100);
    expect(lines.map(({ day, job, words, place }) => [day, job, words, place.address])).toEqual([
      [46100, 'open', 'L-1 Alder-3, 40 blocks: may be opened', 'A2'],
      [46102, 'open', 'L-2 Alder-3, 40 blocks: comes ready', 'A3'],
      [46103, 'look at', 'L-1 Alder-3, 40 blocks: the last day to open it', 'A2'],
    ]);
  });

  test('a lot that is past its last day, and rows of words, give no line', () => {
    const rows = [HEADERS, row('1 lot is loaded already', '', ''), row('L-4', 46050, 46090)];
    expect(todayList(plain(rows, true), [call], 46100).lines.map(({ job }) => job)).toEqual([]);
  });

  test('answers that are errors are something to look at, once for each function, and others tell in their place', () => {
    const fault = { ...call, error: '#VALUE!' };
    const { lines, untold } = todayList(plain([[null]], true), [fault, { ...fault, address: 'K1' }], 46100);
    expect(lines.map(({ job, words }) => `${job}: ${words}`)).toEqual([
      'look at: Mine: the answer in A1 is #VALUE!; select it to read why',
    ]);
    expect(untold).toEqual(['pick', 'inoculate']);
    const plan = { sheet: 'Mine', address: 'K1', formula: '=PINSET.LOADPLAN(A,B)', error: '#VALUE!' };
    const both = todayList(plain([HEADERS, row('L-1', 46090, 46110)], true), [plan, call], 46100);
    expect(both.lines.map(({ job, place }) => `${job} ${place.address}`)).toEqual(['look at K1', 'open A2']);
    expect(both.untold).toEqual(['inoculate']);
  });
});
