import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { withLines, type LineChange } from '../../../src/hosts/xlsx/lines';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { withWidths } from '../../../src/hosts/xlsx/widths';

// What rows and columns that come and go do to formulas: ISO/IEC 29500-1 says where references stand, common practice of
// spreadsheets how they follow. Another library reads the files back.

async function book(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const lots = workbook.addWorksheet('Lots');
  lots.addTable({
    name: 'Lots',
    ref: 'A2',
    columns: ['lot', 'blocks', 'twice'].map((name) => ({ name })),
    rows: [
      ['L1', 40, { formula: 'B3*2', result: 80 }],
      ['L2', 60, { formula: 'B4*2', result: 120 }],
      ['L3', 80, { formula: 'B5*2', result: 160 }],
    ],
  });
  lots.getCell('B3').numFmt = '0.0';
  lots.getCell('A8').value = 'below';
  lots.mergeCells('A9:C9');
  lots.getCell('E2').value = { formula: 'SUM(B3:B5)', result: 180 };
  lots.getCell('E3').value = { formula: 'SUM(Lots[blocks])', result: 180 };
  lots.getCell('E8').dataValidation = { type: 'list', formulae: ['$A$3:$A$5'] };
  lots.getColumn(2).width = 20;
  const other = workbook.addWorksheet("Grower's notes");
  other.getCell('A1').value = { formula: 'Lots!B5+Lots!$B$3', result: 120 };
  other.getCell('A2').value = 'kept';
  workbook.definedNames.add('Lots!$B$3:$B$5', 'Blocks');
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

const change = (kind: LineChange['kind'], axis: LineChange['axis'], at: number, count = 1): LineChange => ({
  sheet: 'Lots',
  kind,
  axis,
  at,
  count,
});

async function after(one: LineChange) {
  const bytes = withLines(await book(), one);
  const { sheets, vocabulary } = readWorkbook(bytes);
  const library = new ExcelJS.Workbook();
  await library.xlsx.load(bytes as unknown as Parameters<typeof library.xlsx.load>[0]);
  return {
    at: (address: string, sheet = 0) => sheets[sheet]!.cells.find((cell) => cell.address === address),
    table: vocabulary!.table('Lots')!.area,
    name: vocabulary!.name('Blocks', 'Lots'),
    library: library.getWorksheet('Lots')!,
  };
}

describe('a row put into a table', () => {
  test('moves what is below, grows what spans it, and holds the calculated column and the looks', async () => {
    const { at, table, name, library } = await after(change('insert', 'row', 3));
    expect(table).toEqual({ top: 1, bottom: 5, left: 0, right: 2 });
    expect(name).toBe('Lots!$B$3:$B$6');
    expect(at('A5')).toMatchObject({ value: 'L2' });
    expect(at('C4')).toMatchObject({ formula: '=B4*2' });
    expect(at('C5')).toMatchObject({ formula: '=B5*2' });
    expect(at('B4')).toEqual({ address: 'B4', value: null, numberFormat: '0.0' });
    expect(at('E2')).toMatchObject({ formula: '=SUM(B3:B6)' });
    expect(at('A9')).toMatchObject({ value: 'below' });
    expect(at('A1', 1)).toMatchObject({ formula: '=Lots!B6+Lots!$B$3' });
    expect(at('A2', 1)).toMatchObject({ value: 'kept' });
    expect(library.getCell('B10').master.address).toBe('A10');
    expect(library.getCell('E9').dataValidation.formulae).toEqual(['$A$3:$A$6']);
  });

  test('at its first row looks as that row, not as the header', async () => {
    const { at, table } = await after(change('insert', 'row', 2));
    expect(table).toMatchObject({ top: 1, bottom: 5 });
    expect(at('B3')).toEqual({ address: 'B3', value: null, numberFormat: '0.0' });
  });
});

test('a row taken out leaves an error where it alone was meant, and shorter ranges elsewhere', async () => {
  const { at, table, name } = await after(change('delete', 'row', 4));
  expect(table).toMatchObject({ top: 1, bottom: 3 });
  expect(name).toBe('Lots!$B$3:$B$4');
  expect(at('E2')).toMatchObject({ formula: '=SUM(B3:B4)' });
  expect(at('A1', 1)).toMatchObject({ formula: '=Lots!#REF!+Lots!$B$3' });
  expect(at('A7')).toMatchObject({ value: 'below' });
});

test('a column put in beside a table moves what is to its right, and widths go along', async () => {
  const { at, library } = await after(change('insert', 'column', 3, 2));
  expect(at('G2')).toMatchObject({ formula: '=SUM(B3:B5)' });
  expect(library.getColumn(2).width).toBe(20);
  const before = await after(change('insert', 'column', 0));
  expect(before.table).toMatchObject({ left: 1, right: 3 });
  expect(before.at('F2')).toMatchObject({ formula: '=SUM(C3:C5)' });
  expect(before.library.getColumn(3).width).toBe(20);
});

test.each([
  [change('insert', 'column', 1), 'the table Lots lies across these columns'],
  [change('delete', 'column', 1), 'the table Lots lies across these columns'],
  [change('delete', 'row', 1), 'the table Lots must keep its header and a row'],
  [change('delete', 'row', 2, 3), 'the table Lots must keep its header and a row'],
])('%j is refused in a sentence', async (one, sentence) => {
  const bytes = await book();
  expect(() => withLines(bytes, one)).toThrow(sentence);
});

/** As older programs store `{=…}`: an array without the mark of those that spill. */
async function withArray(): Promise<Uint8Array> {
  const library = new ExcelJS.Workbook();
  const bytes = (await book()) as unknown as Parameters<typeof library.xlsx.load>[0];
  await library.xlsx.load(bytes);
  const array = { formula: 'B3:B5*2', result: 80, shareType: 'array', ref: 'G3:G5' };
  library.getWorksheet('Lots')!.getCell('G3').value = array as ExcelJS.CellValue;
  return new Uint8Array(await library.xlsx.writeBuffer());
}

test('an array of fixed size is not torn', async () => {
  const bytes = await withArray();
  expect(() => withLines(bytes, change('insert', 'row', 4))).toThrow(
    'the result of the formula in G3 fills these rows: choose rows outside G3:G5',
  );
  expect(() => withLines(bytes, change('delete', 'row', 4))).toThrow('choose rows outside G3:G5');
});

test('a result that spills goes along, and rows come into it', async () => {
  const bytes = patchWorkbook(await book(), [
    { sheet: 'Lots', address: 'G3', formula: '=SEQUENCE(3)', values: [[1], [2], [3]] },
  ]);
  expect(
    readWorkbook(withLines(bytes, change('insert', 'row', 4))).sheets[0]!.cells.find(
      ({ address }) => address === 'G3',
    ),
  ).toMatchObject({ formula: '=SEQUENCE(3)', spill: 'G3:G6' });
  const moved = readWorkbook(withLines(bytes, change('insert', 'row', 0))).sheets[0]!.cells;
  expect(moved.find(({ address }) => address === 'G4')).toMatchObject({
    formula: '=SEQUENCE(3)',
    spill: 'G4:G6',
  });
});

test('putting rows in and taking them out gives every cell back', async () => {
  const bytes = await book();
  const there = withLines(bytes, change('insert', 'row', 3, 4));
  const back = withLines(there, change('delete', 'row', 3, 4));
  expect(readWorkbook(back).sheets).toEqual(readWorkbook(bytes).sheets);
});

test('a column gets its width in the file, and its neighbours keep theirs', async () => {
  const bytes = withWidths(await book(), [
    { sheet: 'Lots', column: 0, width: 12 },
    { sheet: 'Lots', column: 1, width: 9.5 },
  ]);
  const library = new ExcelJS.Workbook();
  await library.xlsx.load(bytes as unknown as Parameters<typeof library.xlsx.load>[0]);
  const sheet = library.getWorksheet('Lots')!;
  expect([1, 2, 3].map((column) => sheet.getColumn(column).width)).toEqual([12, 9.5, undefined]);
  expect(readWorkbook(bytes).sheets).toEqual(readWorkbook(await book()).sheets);
});

test('a row comes into the result of one of Pinset’s functions, or goes out of it, but not that of the formula', async () => {
  const formula = '=PINSET.READYDATE(A3:A5, 30)';
  const bytes = patchWorkbook(await book(), [
    { sheet: 'Lots', address: 'G3', formula, values: [[46000], [46001], [46002]] },
  ]);
  const { cells } = readWorkbook(withLines(bytes, change('insert', 'row', 4))).sheets[0]!;
  expect(cells.find(({ address }) => address === 'G3')).toMatchObject({
    formula: '=PINSET.READYDATE(A3:A6, 30)',
    spill: 'G3:G6',
  });
  const less = readWorkbook(withLines(bytes, change('delete', 'row', 3))).sheets[0]!.cells;
  expect(less.find(({ address }) => address === 'G3')).toMatchObject({
    formula: '=PINSET.READYDATE(A3:A4, 30)',
    spill: 'G3:G4',
  });
  const refused = 'the result of the formula in G3 fills these rows: the row of the formula itself must stay';
  expect(() => withLines(bytes, change('delete', 'row', 2, 2))).toThrow(refused);
});
