import { expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { areaOf } from '../../../src/hosts/xlsx/address';
import { withNumberFormats } from '../../../src/hosts/xlsx/numberFormats';
import { Package } from '../../../src/hosts/xlsx/package';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// Number formats are those of ISO/IEC 29500-1, 18.8.30; another library reads the files back.

async function book(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Picks');
  sheet.addRow(['mass', 'share', 'label']);
  sheet.addRow([12.5, 0.625, 'Oak']);
  sheet.addRow([8, 0.4, 'Ash']);
  sheet.getCell('B2').numFmt = '0%';
  sheet.getCell('A2').font = { bold: true };
  sheet.getCell('A4').value = { formula: 'SUM(A2:A3)', result: 20.5 };
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

async function opened() {
  const bytes = await book();
  const content = readWorkbook(bytes);
  const workbook = new EngineWorkbook(content);
  await workbook.calculateWhole();
  return {
    workbook,
    give: (range: string, code: string) => workbook.setNumberFormat('Picks', areaOf(range)!, code),
    shown: (address: string) => workbook.shownAt('Picks', address),
    saved: async () => {
      const after = withNumberFormats(
        patchWorkbook(bytes, changesSince(content, workbook)),
        workbook.numberFormats(),
      );
      const library = new ExcelJS.Workbook();
      await library.xlsx.load(after as unknown as Parameters<typeof library.xlsx.load>[0]);
      const text = (file: Uint8Array, part: string) => Package.open(file).text(part);
      const names = Package.open(bytes).names;
      const differ = names.filter((part) => text(bytes, part) !== text(after, part));
      return { sheet: library.getWorksheet('Picks')!, differ };
    },
  };
}

test('a format shows the numbers of constants, formulas and blank cells so, on the screen and in the file', async () => {
  const { give, shown, saved, workbook } = await opened();
  give('A2:A5', '0.0" kg"');
  expect(['A2', 'A3', 'A4'].map(shown)).toEqual(['12.5 kg', '8.0 kg', '20.5 kg']);
  workbook.type('Picks', 'A5', 3);
  expect(shown('A5')).toBe('3.0 kg');
  const { sheet, differ } = await saved();
  expect(['A2', 'A3', 'A4', 'A5'].map((one) => sheet.getCell(one).numFmt)).toEqual(Array(4).fill('0.0" kg"'));
  expect(sheet.getCell('A2').font.bold).toBe(true);
  expect(sheet.getCell('A4').value).toEqual({ formula: 'SUM(A2:A3)', result: 20.5 });
  expect(differ).toEqual(['xl/worksheets/sheet1.xml', 'xl/styles.xml']);
});

test('general takes a format away, and undo brings it back in one step', async () => {
  const { give, shown, saved, workbook } = await opened();
  give('A2:B3', 'General');
  expect(shown('B2')).toBe('0.625');
  expect((await saved()).sheet.getCell('B2').numFmt).toBeUndefined();
  workbook.model.dispatch('REQUEST_UNDO');
  expect(shown('B2')).toBe('63%');
  expect((await saved()).differ).toEqual([]);
});

test('what is typed into a cell of text is text, and the number that was there stays one', async () => {
  const { give, shown, saved, workbook } = await opened();
  give('A2:A3', '@');
  expect(shown('A2')).toBe('12.5');
  const position = { sheetId: workbook.model.getters.getActiveSheetId(), col: 0, row: 2 };
  workbook.typing.put({ position, text: '007' });
  const { sheet } = await saved();
  expect([sheet.getCell('A2').value, sheet.getCell('A3').value]).toEqual([12.5, '007']);
  expect([sheet.getCell('A2').numFmt, sheet.getCell('A3').numFmt]).toEqual(['@', '@']);
});
