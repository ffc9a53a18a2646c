import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { zipSync } from 'fflate';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import type { Solve } from '../../../src/hosts/worker/solver';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { findingsIn } from '../../../src/hosts/workbench/findings';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { partsIn } from '../xlsx/packages';

// What the workbench saves of a book that somebody else wrote: opened, edited and saved as the page does it. Expected
// results: ISO/IEC 29500-1:2016, 18.17.7, worked out by hand from the six picks below.

const PICKS = [
  ['Oak', 4],
  ['Ash', 2],
  ['Oak', 6],
  ['Ash', 3],
  ['Oak', 7],
  ['Elm', 5],
] as const;

interface Case {
  readonly formula: string;
  /** The result that Excel stored. */
  readonly stored: number | string;
  /** The result after the third pick, of Oak, has become 12. */
  readonly after: number | string;
  /** The cells that the formula fills; `{=…}` in Excel. */
  readonly array?: string;
  readonly at?: string;
}

const CASES: readonly Case[] = [
  { formula: 'AVERAGE(IF(D2:D7="Oak",C2:C7))', stored: 17 / 3, after: 23 / 3, array: 'F2' },
  { formula: 'SUM(IF(D2:D7="Oak",C2:C7))', stored: 17, after: 23, array: 'F3' },
  { formula: 'MAX(IF(D2:D7="Oak",C2:C7))', stored: 7, after: 12, array: 'F4' },
  { formula: "SUM('Grower''s picks'!C2:C7)", stored: 27, after: 33, at: 'F5' },
  // Row 5, an Ash of 3, is hidden by hand: 109 leaves it out and 9 does not.
  { formula: 'SUBTOTAL(109,C2:C7)', stored: 24, after: 30, at: 'F6' },
  { formula: 'SUBTOTAL(9,C2:C7)', stored: 27, after: 33, at: 'F7' },
  // Without the array flag the value of the formula's own row is taken: row 4 here.
  { formula: 'C2:C7*2', stored: 12, after: 24, at: 'G4' },
  { formula: 'SUMPRODUCT((D2:D7="Oak")*C2:C7)', stored: 17, after: 23, at: 'G5' },
  { formula: '-C4^2', stored: 36, after: 144, at: 'G6' },
  { formula: 'TEXT(C4,"0.0")&" kg"', stored: '6.0 kg', after: '12.0 kg', at: 'G7' },
];
const rounded = (value: unknown): unknown =>
  typeof value === 'number' ? Number(value.toPrecision(12)) : value;
const placeOf = ({ array, at }: Case): string => (array ?? at)!;

async function book(cases: readonly Case[]): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Grower's picks");
  PICKS.forEach(([strain, mass], row) => {
    sheet.getCell(row + 2, 3).value = mass;
    sheet.getCell(row + 2, 4).value = strain;
  });
  sheet.getRow(5).hidden = true;
  for (const one of cases) {
    const { formula, stored: result, array } = one;
    const value = { formula, result, ...(array !== undefined && { shareType: 'array', ref: array }) };
    sheet.getCell(placeOf(one)).value = value;
  }
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

const SHEET = "Grower's picks";
/** The grid tells how long a command took. */
beforeAll(() => {
  jest.spyOn(console, 'debug').mockImplementation(() => undefined);
});
afterAll(() => {
  jest.restoreAllMocks();
});

async function opened(file: Uint8Array) {
  const content = readWorkbook(file);
  const workbook = new EngineWorkbook(content);
  await prepareFunctions(workbook.functionsUsed());
  workbook.calculate();
  const saved = (): Uint8Array => patchWorkbook(file, changesSince(content, workbook));
  return { content, workbook, saved };
}

const storedAt = (file: Uint8Array, address: string) =>
  readWorkbook(file).sheets[0]!.cells.find((cell) => cell.address === address);

describe("other people's formulas in the workbench", () => {
  test('nothing is changed by opening a book, nor by an edit that they do not read', async () => {
    const file = await book(CASES);
    const { content, workbook } = await opened(file);
    expect(changesSince(content, workbook)).toEqual([]);
    workbook.type(SHEET, 'A1', 'seen');
    expect(changesSince(content, workbook).map(({ address }) => address)).toEqual(['A1']);
  });

  test.each(CASES)('{=$formula} is saved right after an edit of what it reads', async (one) => {
    const { workbook, saved } = await opened(await book(CASES));
    workbook.type(SHEET, 'C4', 12);
    const cell = storedAt(saved(), placeOf(one));
    expect(rounded(cell?.value)).toBe(rounded(one.after));
    // The formula itself is left as it was.
    expect(cell?.formula).toBe(storedAt(await book(CASES), placeOf(one))?.formula);
    expect(cell?.spill).toBe(one.array);
  });

  test('an edit is in the saved copy also where the file writes its parts in other letter case', async () => {
    const parts = Object.entries(partsIn(await book(CASES)));
    const file = zipSync(
      Object.fromEntries(
        parts.map(([name, data]) => [/sheet\d|styles/.test(name) ? name.toUpperCase() : name, data]),
      ),
    );
    const { workbook, saved } = await opened(file);
    workbook.type(SHEET, 'C4', 12);
    expect([storedAt(saved(), 'C4')?.value, storedAt(saved(), 'F5')?.value]).toEqual([12, 33]);
  });

  test.each(CASES)('=$formula: undoing the edit gives back what the file holds', async (one) => {
    const { content, workbook } = await opened(await book([one]));
    workbook.type(SHEET, 'C4', 12);
    expect(changesSince(content, workbook).length).toBeGreaterThan(1);
    workbook.model.dispatch('REQUEST_UNDO');
    expect(changesSince(content, workbook)).toEqual([]);
  });
});

describe('a formula whose stored result the calculation does not give', () => {
  const other: Case = { formula: 'SUM(C2:C7)', stored: 99, after: 99, at: 'F2' };
  const dependent: Case = { formula: 'F2+1', stored: 100, after: 100, at: 'F3' };

  test('keeps it through edits, and so does what is calculated from it', async () => {
    const { workbook, saved } = await opened(await book([other, dependent]));
    workbook.type(SHEET, 'C4', 12);
    expect(workbook.result(SHEET, 'F2').value).toBe(99);
    expect(workbook.shownAt(SHEET, 'F2')).toBe('99');
    expect(['F2', 'F3'].map((at) => storedAt(saved(), at)?.value)).toEqual([99, 100]);
  });

  test('keeps it when it is typed over and that is undone', async () => {
    const { content, workbook } = await opened(await book([other, dependent]));
    workbook.type(SHEET, 'F2', 5);
    expect(workbook.result(SHEET, 'F3').value).toBe(6);
    workbook.model.dispatch('REQUEST_UNDO');
    expect(['F2', 'F3'].map((at) => workbook.result(SHEET, at).value)).toEqual([99, 100]);
    expect(changesSince(content, workbook)).toEqual([]);
  });

  test('is listed by its functions with all its cells, and what depends on it', async () => {
    const more = { ...other, at: 'F5' };
    const { workbook } = await opened(await book([other, dependent, more]));
    const told = findingsIn(workbook).map(({ places, words }) => [
      places?.map(({ address }) => address),
      words,
    ]);
    expect(told).toEqual([
      [['F2', 'F5'], 'SUM, whose result here is another: the file’s own result is kept'],
      [['F3'], "Depends on Grower's picks!F2, which keeps the file’s own result"],
    ]);
  });

  test('is calculated once another formula is typed in its place', async () => {
    const { workbook, saved } = await opened(await book([other, dependent]));
    workbook.type(SHEET, 'F2', '=SUM(C2:C4,C5:C7)');
    expect(['F2', 'F3'].map((at) => storedAt(saved(), at)?.value)).toEqual([27, 28]);
  });
});

test('what is typed and cannot be calculated shows an error that says so, and is saved as typed', async () => {
  const { workbook, saved } = await opened(await book([]));
  workbook.type(SHEET, 'F2', '=GROWLIGHT(C2)');
  expect(workbook.result(SHEET, 'F2')).toMatchObject({
    value: { code: '#NAME?', reason: expect.stringContaining('GROWLIGHT') },
  });
  expect(findingsIn(workbook)).toMatchObject([{ kind: 'fault', place: { sheet: SHEET, address: 'F2' } }]);
  expect(storedAt(saved(), 'F2')).toMatchObject({ formula: '=GROWLIGHT(C2)', value: { code: '#NAME?' } });
});

test('a formula moved by cut and paste, and those that read it, follow', async () => {
  const file = await book([
    { formula: 'SUM(C2:C7)', stored: 27, after: 27, at: 'F2' },
    { formula: 'F2*2', stored: 54, after: 54, at: 'F3' },
  ]);
  const { workbook, saved } = await opened(file);
  const { model } = workbook;
  model.selection.selectCell(5, 1);
  model.dispatch('CUT');
  model.dispatch('PASTE', { target: [{ left: 7, right: 7, top: 8, bottom: 8 }] });
  const now = saved();
  expect(storedAt(now, 'H9')).toMatchObject({ formula: '=SUM(C2:C7)', value: 27 });
  expect(storedAt(now, 'F3')).toMatchObject({ formula: '=H9*2', value: 54 });
  expect(storedAt(now, 'F2')?.value ?? null).toBeNull();
});

test.each([
  ['=SUM(F2#)+C$2+$C2', '=SUM(G4#)+D$2+$C4'],
  ['=C2&Lots[Blocks]', '=D4&Lots[Blocks]'],
  ['=SUM((C2:C3,C5))', '=SUM((D4:D5,D7))'],
])(
  '%s, which the grid itself cannot read, is copied as %s one column right and two rows down',
  async (text, copy) => {
    const { workbook } = await opened(await book([]));
    const { model } = workbook;
    workbook.type(SHEET, 'G2', text);
    model.selection.selectCell(6, 1);
    model.dispatch('COPY');
    model.dispatch('PASTE', { target: [{ left: 7, right: 7, top: 3, bottom: 3 }] });
    expect(workbook.formulaAt(SHEET, 'H4')).toBe(copy);
    expect(workbook.formulaAt(SHEET, 'G2')).toBe(text);
  },
);

test('a stored result whose answer takes long is not lost while it is worked out', async () => {
  const file = await book([{ formula: 'PINSET.CHEAPESTMIX(C2)+F3', stored: 3, after: 3, at: 'F2' }]);
  const content = readWorkbook(file);
  const never: Solve = () => new Promise(() => undefined);
  const workbook = new EngineWorkbook(content, { solve: never });
  workbook.calculate();
  expect(workbook.result(SHEET, 'F2').value).toMatchObject({ code: '#BUSY!' });
  workbook.close();
});
