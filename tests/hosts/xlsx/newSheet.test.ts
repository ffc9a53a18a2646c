import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { withNewSheet, type NewSheet } from '../../../src/hosts/xlsx/newSheet';
import { Package } from '../../../src/hosts/xlsx/package';
import { partsOf, relationshipsOf } from '../../../src/hosts/xlsx/parts';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { child, parseXml } from '../../../src/hosts/xlsx/xml';
import { partsIn, table, textIn, workbookOf } from './packages';

const at = (row: number, column: number) => ({ row, column });
const LOTS: NewSheet = {
  name: 'Lots & more',
  cells: [
    { place: at(0, 0), value: 'Lots', look: 'title' },
    { place: at(2, 0), value: 'lot' },
    { place: at(2, 1), value: 'inoculated' },
    { place: at(3, 1), value: 46055, numberFormat: 'yyyy-mm-dd' },
    { place: at(3, 0), value: '=HYPERLINK("x")' },
    { place: at(3, 3), value: null, numberFormat: '0%' },
  ],
  widths: [12, 14],
  table: { name: 'Lots', area: { top: 2, left: 0, bottom: 3, right: 1 }, headers: ['lot', 'inoculated'] },
  lists: [{ area: { top: 3, left: 0, bottom: 3, right: 0 }, source: '"a,b"' }],
};

async function made(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Mine');
  sheet.addTable({ name: 'Own', ref: 'A1', columns: [{ name: 'x' }], rows: [[1]] });
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

describe('a sheet added to a file', () => {
  test('stands behind the others, which stay byte for byte', async () => {
    const before = await made();
    const after = withNewSheet(before, LOTS);
    expect(readWorkbook(after).sheets.map(({ name }) => name)).toEqual(['Mine', 'Lots & more']);
    const [old, now] = [partsIn(before), partsIn(after)];
    const changed = Object.keys(now).filter(
      (part) => !old[part] || Buffer.compare(old[part], now[part]!) !== 0,
    );
    expect(changed.sort()).toEqual([
      '[Content_Types].xml',
      'xl/_rels/workbook.xml.rels',
      'xl/styles.xml',
      'xl/tables/table2.xml',
      'xl/workbook.xml',
      'xl/worksheets/_rels/sheet2.xml.rels',
      'xl/worksheets/sheet2.xml',
    ]);
  });

  test('holds its cells, text that looks like a formula too, formats, table and list, as another library reads them', async () => {
    const book = new ExcelJS.Workbook();
    await book.xlsx.load(Buffer.from(withNewSheet(await made(), LOTS)) as never);
    const sheet = book.getWorksheet('Lots & more')!;
    expect(sheet.getCell('A4').value).toBe('=HYPERLINK("x")');
    expect(sheet.getCell('B4').value).toEqual(new Date('2026-02-02'));
    expect(sheet.getCell('D4').numFmt).toBe('0%');
    expect(sheet.getCell('A1').font).toMatchObject({ bold: true, size: 14 });
    expect(sheet.getCell('A4').dataValidation).toMatchObject({ type: 'list', formulae: ['"a,b"'] });
    expect(sheet.getTable('Lots').name).toBe('Lots');
    expect(sheet.getColumn(2).width).toBe(14);
  });

  test('gets a table id that no other table has, and one sheet after the other can be added', async () => {
    const second = { ...LOTS, name: 'Second', table: { ...LOTS.table!, name: 'Second' } };
    const bytes = withNewSheet(withNewSheet(await made(), LOTS), second);
    const ids = [1, 2, 3].map((n) => /\bid="(\d+)"/.exec(textIn(bytes, `xl/tables/table${n}.xml`))![1]);
    expect(new Set(ids).size).toBe(3);
    const sheetIds = [...textIn(bytes, 'xl/workbook.xml').matchAll(/sheetId="(\d+)"/g)].map(([, id]) => id);
    expect(new Set(sheetIds).size).toBe(3);
  });

  test('gets a chart of its cells: columns and a line over the same days', async () => {
    const chart = {
      title: 'Picks & limit',
      over: { top: 5, left: 0, bottom: 20, right: 4 },
      days: 'K5:K32',
      columns: { title: 'picks', values: 'L5:L32' },
      line: { title: 'limit', values: 'M5:M32' },
    };
    const bytes = withNewSheet(await made(), { ...LOTS, chart });
    const file = Package.open(bytes);
    const sheet = partsOf(file).sheets.at(-1)!.part;
    const drawing = relationshipsOf(file, sheet).find(({ kind }) => kind === 'drawing')!.target;
    const [drawn] = relationshipsOf(file, drawing);
    expect(drawn!.kind).toBe('chart');
    const area = child(child(parseXml(file.text(drawn!.target), drawn!.target), 'chart'), 'plotArea')!;
    const references = (kind: string): string[] => {
      const series = child(child(area, kind), 'ser')!;
      return ['cat', 'val'].map((name) => child(child(child(series, name), 'numRef'), 'f')!.text);
    };
    expect(references('barChart')).toEqual(["'Lots & more'!$K$5:$K$32", "'Lots & more'!$L$5:$L$32"]);
    expect(references('lineChart')).toEqual(["'Lots & more'!$K$5:$K$32", "'Lots & more'!$M$5:$M$32"]);
    for (const part of [drawing, drawn!.target]) {
      expect(textIn(bytes, '[Content_Types].xml')).toContain(`PartName="/${part}"`);
    }
  });

  test('needs no styles and takes any text', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (text) => {
        const bytes = withNewSheet(
          workbookOf({
            sheets: [{ name: 'Mine', data: '<sheetData/>', tables: [table('Own', 'A1:A2', ['x'])] }],
          }),
          {
            name: 'New',
            cells: [{ place: at(0, 0), value: `x${text}`, numberFormat: '0%' }],
            widths: [],
            lists: [],
          },
        );
        expect(readWorkbook(bytes).sheets[1]!.cells).toEqual([{ address: 'A1', value: `x${text}` }]);
      }),
    );
  });
});
