import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { chart, column, formula, remark, table, type Sheet } from '../../../src/hosts/xlsx/describe';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { Package } from '../../../src/hosts/xlsx/package';
import { partsOf, relationshipsOf } from '../../../src/hosts/xlsx/parts';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { child, parseXml } from '../../../src/hosts/xlsx/xml';
import { anyText } from './anyText';
import { partsIn, table as tableXml, textIn, workbookOf } from './packages';

const lots = table(
  'A3',
  'Lots',
  [column('lot', 'text', ['a', 'b']), column('inoculated', 'date')],
  [['=HYPERLINK("x")', '2026-02-02']],
);
const percents = formula('D4', '=B4*2', 'percent', { growth: 2 });
const LOTS: Sheet = { name: 'Lots & more', title: 'Lots', notes: [], things: [lots, percents] };

async function made(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Mine');
  sheet.addTable({ name: 'Own', ref: 'A1', columns: [{ name: 'x' }], rows: [[1]] });
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

describe('a sheet added to a file', () => {
  test('stands behind the others, which stay byte for byte', async () => {
    const before = await made();
    const after = withSheets(before, [LOTS]);
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
    await book.xlsx.load(Buffer.from(withSheets(await made(), [LOTS])) as never);
    const sheet = book.getWorksheet('Lots & more')!;
    expect(sheet.getCell('A4').value).toBe('=HYPERLINK("x")');
    expect(sheet.getCell('B4').value).toEqual(new Date('2026-02-02'));
    expect(sheet.getCell('D6').numFmt).toBe('0.0%');
    expect(sheet.getCell('A1').font).toMatchObject({ bold: true, size: 18 });
    expect(sheet.getCell('A4').dataValidation).toMatchObject({ type: 'list', formulae: ['"a,b"'] });
    expect(sheet.getTable('Lots').name).toBe('Lots');
    expect(sheet.getColumn(2).width).toBeGreaterThan(10);
  });

  test('gets a table id that no other table has, and one sheet after the other can be added', async () => {
    const second = { ...LOTS, name: 'Second', things: [{ ...lots, name: 'Second' }] };
    const bytes = withSheets(withSheets(await made(), [LOTS]), [second]);
    const ids = [1, 2, 3].map((n) => /\bid="(\d+)"/.exec(textIn(bytes, `xl/tables/table${n}.xml`))![1]);
    expect(new Set(ids).size).toBe(3);
    const sheetIds = [...textIn(bytes, 'xl/workbook.xml').matchAll(/sheetId="(\d+)"/g)].map(([, id]) => id);
    expect(new Set(sheetIds).size).toBe(3);
  });

  test('gets a chart of its cells: columns and a line over the same days', async () => {
    const drawing = chart('A6:E21', 'column', 'Picks & limit', {
      says: 'Picks of each day under the day’s limit.',
      across: 'K5:K32',
      series: [{ title: 'picks', values: 'L5:L32' }],
      limits: [{ title: 'limit', values: 'M5:M32' }],
      acrossReads: 'date',
    });
    const bytes = withSheets(await made(), [{ ...LOTS, things: [lots, drawing] }]);
    const file = Package.open(bytes);
    const sheet = partsOf(file).sheets.at(-1)!.part;
    const drawn = relationshipsOf(file, sheet).find(({ kind }) => kind === 'drawing')!.target;
    const [charted] = relationshipsOf(file, drawn);
    expect(charted!.kind).toBe('chart');
    const area = child(child(parseXml(file.text(charted!.target), charted!.target), 'chart'), 'plotArea')!;
    const references = (kind: string): string[] => {
      const series = child(child(area, kind), 'ser')!;
      return ['cat', 'val'].map((name) => child(child(child(series, name), 'numRef'), 'f')!.text);
    };
    expect(references('barChart')).toEqual(["'Lots & more'!$K$5:$K$32", "'Lots & more'!$L$5:$L$32"]);
    expect(references('lineChart')).toEqual(["'Lots & more'!$K$5:$K$32", "'Lots & more'!$M$5:$M$32"]);
    for (const part of [drawn, charted!.target]) {
      expect(textIn(bytes, '[Content_Types].xml')).toContain(`PartName="/${part}"`);
    }
  });

  test('may be given to a file without styles, and takes any text', () => {
    fc.assert(
      fc.property(anyText(), (text) => {
        const bytes = withSheets(
          workbookOf({
            sheets: [{ name: 'Mine', data: '<sheetData/>', tables: [tableXml('Own', 'A1:A2', ['x'])] }],
          }),
          [{ name: 'New', title: '', notes: [], things: [remark('A1', `x${text}`)] }],
        );
        expect(readWorkbook(bytes).sheets[1]!.cells).toEqual([{ address: 'A1', value: `x${text}` }]);
      }),
    );
  });

  test('counts its dates as the file does, and lists the columns of the file’s own tables', () => {
    const bytes = withSheets(
      workbookOf({
        sheets: [{ name: 'Mine', data: '<sheetData/>', tables: [tableXml('Own', 'A1:A3', ['x'])] }],
        workbookPr: '<workbookPr date1904="1"/>',
      }),
      [{ ...LOTS, things: [table('A3', 'Lots', [column('day', 'date', 'Own[x]')], [['2026-02-02']])] }],
    );
    // Day 46055 of the calendar that begins with 1900, which is 1462 days ahead.
    expect(readWorkbook(bytes).sheets[1]!.cells.at(-1)).toMatchObject({ address: 'A4', value: 44593 });
    expect(textIn(bytes, 'xl/worksheets/sheet2.xml')).toContain('<formula1>Mine!$A$2:$A$3</formula1>');
  });

  test('fits the prefixes a file writes its own elements with', () => {
    const styles =
      '<x:styleSheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:fonts count="1"><x:font><x:sz val="10"/>' +
      '<x:name val="Arial"/></x:font></x:fonts><x:fills count="1"><x:fill/></x:fills><x:borders count="1"><x:border/></x:borders>' +
      '<x:cellXfs count="1"><x:xf numFmtId="0"/></x:cellXfs></x:styleSheet>';
    const bytes = withSheets(workbookOf({ sheets: [{ name: 'Mine', data: '<sheetData/>' }], styles }), [
      LOTS,
    ]);
    const sheet = readWorkbook(bytes).sheets[1]!;
    expect(sheet.cells.find(({ address }) => address === 'B4')).toMatchObject({ numberFormat: 'yyyy-mm-dd' });
    expect(textIn(bytes, 'xl/styles.xml')).toContain('<x:name val="Arial"/></font>');
  });
});
