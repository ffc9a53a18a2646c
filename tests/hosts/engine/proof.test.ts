import { describe, expect, test } from '@jest/globals';
import { openProven } from '../../../src/hosts/engine/openWorkbook';
import type { CellContent, WorkbookContent } from '../../../src/hosts/engine/workbook';
import { type Cell, cellError, isCellError } from '../../../src/worksheet/cells/cell';

// What is kept and what is believed follows from the rule at the head of proof.ts; arithmetic by hand.

const formula = (address: string, text: string, value: Cell): CellContent => ({
  address,
  value,
  formula: text,
});
const book = (cells: readonly CellContent[], more: Partial<WorkbookContent> = {}): WorkbookContent => ({
  dateSystem: 1900,
  sheets: [{ name: 'Data', cells: [{ address: 'A1', value: 3 }, { address: 'A2', value: 4 }, ...cells] }],
  ...more,
});
const shown = (value: Cell): unknown => (isCellError(value) ? value.code : value);

type Case = readonly [
  what: string,
  cells: readonly CellContent[],
  gives: Record<string, unknown>,
  kept: string[],
];

const CASES: readonly Case[] = [
  ['a formula that gives what the file stores', [formula('B1', '=A1*A2', 12)], { B1: 12 }, []],
  [
    'one that differs past fifteen digits: what reads it sees no change',
    [formula('B1', '=A1/10+0', 0.30000000000000004), formula('B2', '=B1', 0.30000000000000004)],
    { B1: 0.30000000000000004, B2: 0.30000000000000004 },
    [],
  ],
  [
    'one that gives another result: it keeps the file’s, and so do those that read it',
    [formula('B1', '=A1*A2', 13), formula('B2', '=B1+1', 14)],
    { B1: 13, B2: 14 },
    ['B1'],
  ],
  [
    'one whose stored text differs only in its case',
    [formula('B1', '=UPPER("oak")', 'Oak')],
    { B1: 'Oak' },
    ['B1'],
  ],
  ['one with another error', [formula('B1', '=A1/0', cellError('#NUM!'))], { B1: '#NUM!' }, ['B1']],
  ['one that the saving program did not know', [formula('B1', '=A1+A2', cellError('#NAME?'))], { B1: 7 }, []],
  [
    'one without a stored result, on functions the table proves',
    [formula('B1', '=SUM(A1:A2)', null)],
    { B1: 7 },
    [],
  ],
  [
    'one without a stored result on a function nobody has here: an error, never 0',
    [formula('B1', '=STOCKHISTORY(A1)', null)],
    { B1: '#N/A' },
    ['B1'],
  ],
  [
    'one that chance or the day changes: its result counts, and what reads it follows, by whatever way it reads',
    [
      formula('B1', '=0*RAND()+2', 5),
      formula('B2', '=B1+1', 6),
      formula('B3', '=INDIRECT("B"&1)+1', 6),
      formula('B4', '=OFFSET(A1,0,1)+1', 6),
    ],
    { B1: 2, B2: 3, B3: 3, B4: 3 },
    [],
  ],
  [
    'one that reads what the day changes and does not give the file’s result from the file’s day',
    [formula('B1', '=0*TODAY()+2', 5), formula('B2', '=B1*2', 11), formula('B3', '=B2+1', 12)],
    { B1: 2, B2: 11, B3: 12 },
    ['B2'],
  ],
  [
    'one that reads a call of Pinset whose stored result is old',
    [
      formula('B1', '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)', 9),
      formula('B2', '=B1*3', 1),
      formula('B3', '=A1*2', 6),
    ],
    { B1: 1.2 / 1.8, B2: 2, B3: 6 },
    [],
  ],
  [
    'zeros in place of results, as programs put that calculate nothing',
    [formula('B1', '=A1*A2', 0), formula('B2', '=B1/0', 0)],
    { B1: 12, B2: '#DIV/0!' },
    [],
  ],
];

describe('the file proves the calculation', () => {
  test.each(CASES)('%s', async (_what, cells, gives, kept) => {
    const { workbook, proof } = await openProven(book(cells));
    const results = Object.keys(gives).map((at) => [at, shown(workbook.result('Data', at).value)]);
    expect(Object.fromEntries(results)).toEqual(gives);
    expect(proof.kept.map(({ address }) => address)).toEqual(kept);
  });

  test('what reads a kept formula is told which', async () => {
    const { workbook } = await openProven(book([formula('B1', '=A1*A2', 13), formula('B2', '=B1+1', 14)]));
    expect(workbook.result('Data', 'B2').restsOn).toEqual({ sheet: 'Data', address: 'B1' });
  });

  test('where the file says that its results are old, the calculation counts', async () => {
    const { workbook, proof } = await openProven(book([formula('B1', '=A1*A2', 13)], { isStale: true }));
    expect([workbook.result('Data', 'B1').value, proof.kept]).toEqual([12, []]);
  });

  test('zeros of a file that asks to be calculated are no results, not even beside an error', async () => {
    const cells = [formula('B1', '=A1/0', 0), formula('B2', '=IFERROR(B1,"none")', 0)];
    const { workbook, proof } = await openProven(book(cells, { isStale: true }));
    expect(['B1', 'B2'].map((at) => shown(workbook.result('Data', at).value))).toEqual(['#DIV/0!', 'none']);
    expect(proof.kept).toEqual([]);
  });

  test('nor are those of arrays that such a file gives the one cell of their formula', async () => {
    const array = (address: string, text: string, spill: string): CellContent => ({
      ...formula(address, text, 0),
      spill,
    });
    const cells = [array('B1', '=XLOOKUP(9,A1:A2,A1:A2)', 'B1'), array('C1', '=SORT(A1:A2,,-1)', 'C1')];
    const { workbook, proof } = await openProven(book(cells, { isStale: true }));
    expect(shown(workbook.result('Data', 'B1').value)).toBe('#N/A');
    expect(workbook.result('Data', 'C1').block).toEqual([[4], [3]]);
    expect(proof.kept).toEqual([]);
    // Nothing says so of another file.
    const other = await openProven(book(cells));
    expect(['B1', 'C1'].map((at) => shown(other.workbook.result('Data', at).value))).toEqual([0, 0]);
  });

  test('no stored value gives way to an error that nothing proves', async () => {
    const { workbook } = await openProven(book([formula('B1', '=A1/0', 5)], { isStale: true }));
    expect(workbook.result('Data', 'B1').value).toBe(5);
  });
});
