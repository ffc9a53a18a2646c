import { expect, jest, test, beforeAll, afterAll } from '@jest/globals';
import ExcelJS from 'exceljs';
import { cellError } from '../../../src/worksheet/cells/cell';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { plainNumberChanges } from '../../../src/hosts/workbench/plainNumbers';
import { orderOfRows, sortableAt, sortedEntries } from '../../../src/hosts/workbench/sorting';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// The order of kinds is that of spreadsheets: Microsoft, "Sort data in a range or table".

beforeAll(() => {
  jest.spyOn(console, 'debug').mockImplementation(() => undefined);
});
afterAll(() => {
  jest.restoreAllMocks();
});

const MIXED = [true, 'birch', null, 3, cellError('#N/A'), 'Alder', -1, 3] as const;

test('rows go by numbers, texts, truths and errors, blanks last, equal ones as they stood', () => {
  expect(orderOfRows(MIXED, false)).toEqual([6, 3, 7, 5, 1, 0, 4, 2]);
  expect(orderOfRows(MIXED, true)).toEqual([4, 0, 1, 5, 3, 7, 6, 2]);
});

async function opened() {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.addRows([
    ['lot', 'blocks', 'twice'],
    ['L1', 60],
    ['L2', 40],
    ['L3', 50],
  ]);
  for (const row of [2, 3, 4]) {
    sheet.getCell(row, 3).value = { formula: `B${row}*2`, result: Number(sheet.getCell(row, 2).value) * 2 };
  }
  sheet.getCell('E1').value = 'kept';
  const file = patchWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()), [
    { sheet: 'Lots', address: 'G1', formula: '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)', values: [[1.2 / 1.8]] },
  ]);
  const content = readWorkbook(file);
  const book = new EngineWorkbook(content);
  await prepareFunctions(book.functionsUsed());
  book.calculate();
  return { file, content, book };
}

test('the filled cells around a cell are sorted, each formula with its row, and nothing else changes', async () => {
  const { file, content, book } = await opened();
  const sortable = sortableAt(book, content.vocabulary, { sheet: 'Lots', address: 'B3' })!;
  expect(sortable.area).toEqual({ top: 1, bottom: 3, left: 0, right: 2 });
  book.enterAll(sortedEntries(book, sortable, false));
  const cells = readWorkbook(patchWorkbook(file, changesSince(content, book))).sheets[0]!.cells;
  const at = (address: string) => cells.find((cell) => cell.address === address);
  expect(['A2', 'B2', 'A3', 'B3', 'A4', 'B4', 'E1'].map((one) => at(one)?.value)).toEqual([
    ...['L2', 40, 'L3', 50, 'L1', 60],
    'kept',
  ]);
  expect([at('C2'), at('C4')]).toMatchObject([
    { formula: '=B2*2', value: 80 },
    { formula: '=B4*2', value: 120 },
  ]);
  book.model.dispatch('REQUEST_UNDO');
  expect(changesSince(content, book).filter(({ address }) => address !== 'G1')).toEqual([]);
});

/** Blocks of three lots, each with a formula beside them. */
async function withFormulas(formulas: readonly string[], stored?: number) {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.addRow(['lot', 'blocks', 'result', '', 'setting']);
  sheet.addRows([
    ['L1', 60],
    ['L2', 40],
    ['L3', 50],
  ]);
  sheet.getCell('G1').value = 3;
  formulas.forEach((formula, row) => {
    const value = stored === undefined ? { formula } : { formula, result: stored };
    sheet.getCell(row + 2, 3).value = value;
  });
  const content = readWorkbook(new Uint8Array(await workbook.xlsx.writeBuffer()));
  const book = new EngineWorkbook(content);
  book.calculate();
  const sorted = () => {
    const sortable = sortableAt(book, content.vocabulary, { sheet: 'Lots', address: 'B3' })!;
    book.enterAll(sortedEntries(book, sortable, false));
    const rows = [2, 3, 4].map((row) => `C${row}`);
    return rows.map((one) => [book.formulaAt('Lots', one), book.result('Lots', one).value]);
  };
  return { book, sorted };
}

test('a formula that is moved speaks of its own row, and of the same cells outside and of all rows', async () => {
  const { sorted } = await withFormulas(['B2*G1', 'B3/SUM(B2:B4)', 'B4+$G$1']);
  expect(sorted()).toEqual([
    ['=B2/SUM(B2:B4)', 40 / 150],
    ['=B3+$G$1', 53],
    ['=B4*G1', 180],
  ]);
});

test('a column filled down, a running sum among them, says the same in each row afterwards', async () => {
  const { sorted } = await withFormulas(['N(C1)+B2', 'N(C2)+B3', 'N(C3)+B4']);
  expect(sorted()).toEqual([
    ['=N(C1)+B2', 40],
    ['=N(C2)+B3', 90],
    ['=N(C3)+B4', 150],
  ]);
});

test.each([
  [
    'speaks of other rows',
    ['B3', 'B3', 'B4'],
    undefined,
    'the formula in C2 speaks of other rows that would be sorted (B3)',
  ],
  [
    'keeps its result',
    ['B2*2', 'B3', 'B4'],
    7,
    'the formula in C2 keeps its result (this calculation gives 120 instead)',
  ],
])('nothing is sorted where a formula %s', async (_, formulas, stored, sentence) => {
  const { sorted } = await withFormulas(formulas, stored);
  expect(sorted).toThrow(sentence);
});

test('plain numbers stand in place of Pinset’s formulas, and other formulas stay', async () => {
  const { file, book } = await opened();
  const cells = readWorkbook(patchWorkbook(file, plainNumberChanges(book, ['Lots']))).sheets[0]!.cells;
  const at = (address: string) => cells.find((cell) => cell.address === address);
  expect(at('G1')?.formula).toBeUndefined();
  expect(at('C2')).toMatchObject({ formula: '=B2*2', value: 120 });
});
