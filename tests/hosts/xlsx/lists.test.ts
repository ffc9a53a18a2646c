import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { areaOf, type Area } from '../../../src/hosts/xlsx/address';
import { listOfWords, withLists } from '../../../src/hosts/xlsx/lists';
import { partsIn, textIn, workbookOf } from './packages';

const at = (range: string): Area => areaOf(range)!;

async function made(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.getCell('A1').value = 'Alder-3';
  sheet.getCell('B1').dataValidation = { type: 'whole', operator: 'between', formulae: [1, 9] };
  sheet.getCell('D1').value = { text: 'x', hyperlink: 'https://example.org' };
  workbook.addWorksheet('Empty');
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

async function rules(bytes: Uint8Array, sheet: string): Promise<Record<string, unknown>> {
  const book = new ExcelJS.Workbook();
  await book.xlsx.load(Buffer.from(bytes) as never);
  const held: Record<string, unknown> = {};
  for (const address of ['A1', 'A2', 'A3', 'B1', 'B2']) {
    const { dataValidation } = book.getWorksheet(sheet)!.getCell(address);
    if (dataValidation !== undefined) held[address] = dataValidation.formulae[0];
  }
  return held;
}

describe('lists offered in cells of a file', () => {
  test('are read by another library, beside the rules that were there, on a sheet that had none too', async () => {
    const bytes = withLists(await made(), [
      { sheet: 'Lots', area: at('A1:A3'), source: listOfWords(['first', 'second']) },
      { sheet: 'Empty', area: at('B2'), source: '$A$1:$A$9' },
    ]);
    expect(await rules(bytes, 'Lots')).toEqual({
      A1: '"first,second"',
      A2: '"first,second"',
      A3: '"first,second"',
      B1: 1,
    });
    expect(await rules(bytes, 'Empty')).toEqual({ B2: '$A$1:$A$9' });
    expect(textIn(bytes, 'xl/worksheets/sheet1.xml')).toContain('<dataValidations count="2">');
  });

  test('leave cells alone that have a rule of their own, and every other part byte for byte', async () => {
    const before = await made();
    expect(withLists(before, [{ sheet: 'Lots', area: at('B1:B2'), source: '"x"' }])).toBe(before);
    const after = withLists(before, [{ sheet: 'Lots', area: at('A1'), source: '"x"' }]);
    const [old, now] = [partsIn(before), partsIn(after)];
    const changed = Object.keys(now).filter((part) => Buffer.compare(old[part]!, now[part]!) !== 0);
    expect(changed).toEqual(['xl/worksheets/sheet1.xml']);
  });

  test('stand before what the standard puts behind them', async () => {
    const text = textIn(
      withLists(await made(), [{ sheet: 'Empty', area: at('A1'), source: '"x"' }]),
      'xl/worksheets/sheet2.xml',
    );
    expect(text.indexOf('<dataValidations')).toBeGreaterThan(text.indexOf('sheetData'));
    expect(text.indexOf('<dataValidations')).toBeLessThan(text.indexOf('<pageMargins'));
  });

  test('a sheet that is not there is named', () => {
    const file = workbookOf({ sheets: [{ name: 'Mine', data: '<sheetData/>' }] });
    expect(() => withLists(file, [{ sheet: 'Other', area: at('A1'), source: '"x"' }])).toThrow(
      'no sheet Other',
    );
  });

  test('words keep their quotes', () => {
    expect(listOfWords(['a "b"', 'c'])).toBe('"a ""b"",c"');
  });
});
