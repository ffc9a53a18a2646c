import { afterAll, beforeAll, describe, expect, jest, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { prepareFunctions } from '../../../src/hosts/engine/evaluator/pinsetFunctions';
import type { DateOrder } from '../../../src/hosts/engine/typing/habits';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// A book that another library wrote, typed into as the page does it, saved and read back.

beforeAll(() => {
  jest.spyOn(console, 'debug').mockImplementation(() => undefined);
});
afterAll(() => {
  jest.restoreAllMocks();
});

const serial = (year: number, month: number, day: number): number =>
  Math.round((Date.UTC(year, month - 1, day) - Date.UTC(1899, 11, 30)) / 86_400_000);

async function opened(language = 'en-US') {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.addTable({
    name: 'Lots',
    ref: 'A1',
    columns: ['lot', 'blocks'].map((name) => ({ name })),
    rows: [
      ['L1', 40],
      ['L2', 60],
    ],
  });
  sheet.getCell('D1').value = { formula: 'SUM(Lots[blocks])+B2', result: 140 };
  sheet.getCell('E1').value = '13/4/2026';
  sheet.getCell('F1').value = new Date(Date.UTC(2026, 3, 13));
  for (const address of ['F1', 'F3', 'F4', 'F5']) sheet.getCell(address).numFmt = 'm/d/yy';
  sheet.getCell('G1').numFmt = 'd/m/yyyy';
  sheet.getCell('H1').numFmt = '0%';
  sheet.getCell('I1').numFmt = '@';
  const file = new Uint8Array(await workbook.xlsx.writeBuffer());
  const content = readWorkbook(file);
  const book = new EngineWorkbook(content, { language });
  await prepareFunctions(book.functionsUsed());
  book.calculate();
  const asked: string[] = [];
  const answers: DateOrder[] = ['dmy'];
  book.typing.listener = {
    ask: ({ text, address }) => {
      asked.push(`${text} in ${address}`);
      return Promise.resolve(answers[0]);
    },
    tell: () => undefined,
    thisYear: () => 2026,
  };
  return {
    content,
    book,
    asked,
    type: (column: number, row: number, text: string) =>
      book.typing.put({ position: { sheetId: 'sheet1', col: column, row }, text }),
    saved: (address: string) =>
      readWorkbook(patchWorkbook(file, changesSince(content, book))).sheets[0]!.cells.find(
        (cell) => cell.address === address,
      ),
  };
}

describe('what is typed', () => {
  test('is saved as it was meant, in the format of its cell or of the day above it', async () => {
    const { type, saved } = await opened();
    type(5, 1, '4/5/26');
    type(7, 0, '70%');
    type(8, 0, '0012');
    type(9, 0, '3/4/2026');
    type(9, 1, '12.5');
    expect(saved('F2')).toMatchObject({ value: serial(2026, 4, 5), numberFormat: 'm/d/yy' });
    expect(saved('H1')).toMatchObject({ value: 0.7, numberFormat: '0%' });
    expect(saved('I1')).toMatchObject({ value: '0012', numberFormat: '@' });
    expect(saved('J1')).toMatchObject({ value: serial(2026, 3, 4), followsReader: true });
    expect(saved('J2')).toEqual({ address: 'J2', value: 12.5 });
  });

  test('is asked about where its column shows days in another order, once for the column', async () => {
    const { type, saved, asked } = await opened();
    type(6, 0, '3/4/2026');
    expect(saved('G1')?.value).toBeNull();
    await Promise.resolve();
    await Promise.resolve();
    type(6, 1, '5/4/2026');
    expect([saved('G1')?.value, saved('G2')?.value]).toEqual([serial(2026, 4, 3), serial(2026, 4, 5)]);
    expect(asked).toEqual(['3/4/2026 in G1']);
  });

  test('is one step that undo takes back', async () => {
    const { type, book, content } = await opened();
    type(5, 1, '4/5/26');
    book.model.dispatch('REQUEST_UNDO');
    expect(changesSince(content, book)).toEqual([]);
  });
});

test('a text that looks like a day of another country stays text when the book is opened', async () => {
  const { book } = await opened();
  expect(book.result('Lots', 'E1').value).toBe('13/4/2026');
  book.enter('Lots', 'K1', '26.12.2026');
  expect(book.result('Lots', 'K1').value).toBe('26.12.2026');
});

test('a formula with table references is edited as it was written, and what it refers to moves along', async () => {
  const { book, saved } = await opened();
  const cell = book.model.getters.getCell({ sheetId: 'sheet1', col: 3, row: 0 });
  expect(cell?.isFormula && cell.compiledFormula.toFormulaString(book.model.getters)).toBe(
    '=SUM(Lots[blocks])+B2',
  );
  book.model.selection.selectCell(1, 1);
  book.model.dispatch('CUT');
  book.model.dispatch('PASTE', { target: [{ left: 10, right: 10, top: 4, bottom: 4 }] });
  expect(saved('D1')).toMatchObject({ written: '=SUM(Lots[blocks])+K5', value: 100 });
});

test('redo with nothing undone does nothing, and a block that is written is one step', async () => {
  const { book, content } = await opened();
  book.type('Lots', 'K1', 7);
  book.model.selection.selectCell(10, 5);
  expect(book.model.getters.canRedo()).toBe(false);
  book.model.dispatch('REQUEST_REDO');
  expect(book.result('Lots', 'K6').value).toBeNull();
  book.enterAll(['K2', 'K3'].map((address) => ({ sheet: 'Lots', address, value: 1 })));
  book.model.dispatch('REQUEST_UNDO');
  expect(changesSince(content, book).map(({ address }) => address)).toEqual(['K1']);
});

test('room made for a long result is no step: undo and redo go past it', async () => {
  const { book, content } = await opened();
  book.type('Lots', 'K1', '=SEQUENCE(400)');
  book.settle();
  book.model.dispatch('REQUEST_UNDO');
  book.settle();
  expect(changesSince(content, book)).toEqual([]);
  expect(book.model.getters.canRedo()).toBe(true);
});

test('a decimal comma shows in the cells once the person asks for it', async () => {
  const { book, type } = await opened();
  book.habits = { ...book.habits, decimal: ',', decimalFrom: 'person' };
  type(9, 0, '12,5');
  expect(book.result('Lots', 'J1').value).toBe(12.5);
  expect(book.shownAt('Lots', 'J1')).toBe('12,5');
  expect(book.model.getters.canUndo()).toBe(true);
});

test('a text in the first cell of a result goes on over the blanks of the result behind it', async () => {
  const { book } = await opened();
  book.type('Lots', 'D8', '=IF({1,0},"a line that is longer than its column","")');
  expect(book.result('Lots', 'E8').value).toBe('');
  const { type } = book.model.getters.getEvaluatedCell({ sheetId: 'sheet1', col: 4, row: 7 });
  expect(type).toBe('empty');
});
