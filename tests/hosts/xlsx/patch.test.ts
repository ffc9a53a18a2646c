import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { strFromU8, strToU8, zipSync } from 'fflate';
import { patchWorkbook, type Change } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { type Cell, cellError } from '../../../src/worksheet/cells/cell';
import { anyText } from './anyText';
import { partsIn, table, textIn, workbookOf } from './packages';

const STYLES =
  '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main">' +
  '<fonts count="1"><font/></fonts><fills count="1"><fill/></fills><borders count="1"><border/></borders>' +
  '<cellStyleXfs count="1"><xf/></cellStyleXfs><cellXfs count="3"><xf numFmtId="0" fontId="0"/>' +
  '<xf numFmtId="0" fontId="1" applyFont="1"><alignment wrapText="1"/></xf><xf numFmtId="9"/></cellXfs></styleSheet>';

const sheetOf = (
  data: string,
  more: Partial<Parameters<typeof workbookOf>[0]> = {},
  before = '',
): Uint8Array => workbookOf({ sheets: [{ name: 'Lots', before, data }], ...more });

/** What stands between the tags of the first sheet's `sheetData` after the changes. */
function dataAfter(data: string, changes: Omit<Change, 'sheet'>[], more = {}, before = ''): string {
  const bytes = patchWorkbook(
    sheetOf(data, more, before),
    changes.map((change) => ({ sheet: 'Lots', ...change })),
  );
  return /<sheetData>(.*)<\/sheetData>/s.exec(textIn(bytes, 'xl/worksheets/sheet1.xml'))![1]!;
}

const ROW =
  '<row r="2" spans="1:3" ht="20"><c r="A2" s="1"><v>1</v></c><c r="C2" s="2"><f>A2*2</f><v>2</v></c></row>';

describe('only what is named changes', () => {
  const cases: [string, string, Omit<Change, 'sheet'>[], string][] = [
    [
      'a formula’s number; its style and everything around it stay',
      `<sheetData>${ROW}</sheetData>`,
      [{ address: 'C2', values: [[2.5]] }],
      ROW.replace('<v>2</v>', '<v>2.5</v>'),
    ],
    [
      'a formula’s result becomes text, a truth value, an error, a blank',
      '<sheetData><row r="1"><c r="A1"><f>1</f><v>1</v></c><c r="B1" t="b"><f>1</f><v>1</v></c>' +
        '<c r="C1" vm="1" t="e"><f>1</f><v>#VALUE!</v></c><c r="D1" t="str"><f>1</f><v>x</v></c></row></sheetData>',
      [
        { address: 'A1', values: [['a & <b>']] },
        { address: 'B1', values: [[cellError('#N/A', 'why')]] },
        { address: 'C1', values: [[true]] },
        { address: 'D1', values: [[null]] },
      ],
      '<row r="1"><c r="A1" t="str"><f>1</f><v>a &amp; &lt;b&gt;</v></c><c r="B1" t="e"><f>1</f><v>#N/A</v></c>' +
        '<c r="C1" t="b"><f>1</f><v>1</v></c><c r="D1"><f>1</f></c></row>',
    ],
    [
      'newer errors are kept as files keep them',
      '<sheetData><row r="1"><c r="A1"><f>1</f></c></row></sheetData>',
      [{ address: 'A1', values: [[cellError('#SPILL!')]] }],
      '<row r="1"><c r="A1" t="e"><f>1</f><v>#VALUE!</v></c></row>',
    ],
    [
      'a new cell between others, and the columns its row spans',
      `<sheetData>${ROW}</sheetData>`,
      [
        { address: 'B2', values: [['x ']] },
        { address: 'E2', values: [[true]] },
      ],
      ROW.replace('1:3', '1:5')
        .replace('<c r="C2"', '<c r="B2" t="inlineStr"><is><t xml:space="preserve">x </t></is></c><c r="C2"')
        .replace('</row>', '<c r="E2" t="b"><v>1</v></c></row>'),
    ],
    [
      'new rows before, between and behind, one that was empty opened',
      '<sheetData><row r="2"/><row r="4"><c r="A4"><v>4</v></c></row></sheetData>',
      [1, 2, 3, 5].map((row) => ({ address: `A${row}`, values: [[row]] })),
      [1, 2, 3, 4, 5].map((row) => `<row r="${row}"><c r="A${row}"><v>${row}</v></c></row>`).join(''),
    ],
    [
      'a sheet without cells',
      '<sheetData/>',
      [{ address: 'B3', values: [[1], [2]] }],
      '<row r="3"><c r="B3"><v>1</v></c></row><row r="4"><c r="B4"><v>2</v></c></row>',
    ],
    [
      'a spill that shrinks in a damaged sheet whose rows are out of order',
      '<sheetData><row r="3"><c r="A3"><v>8</v></c><c r="B3"><v>7</v></c></row>' +
        '<row r="2"><c r="A2" cm="1"><f t="array" ref="A2:A3">SEQUENCE(2)</f><v>9</v></c></row></sheetData>',
      [{ address: 'A2', formula: null, values: [[9]] }],
      '<row r="3"><c r="B3"><v>7</v></c></row><row r="2"><c r="A2"><v>9</v></c></row>',
    ],
    [
      'a spill that shrinks: its range, and the cells it leaves',
      '<sheetData><row r="1"><c r="A1" s="1" cm="1"><f t="array" ref="A1:A3">_xldudf_PINSET_MIX(B1)</f><v>1</v></c></row>' +
        '<row r="2"><c r="A2"><v>2</v></c></row><row r="3"><c r="A3" s="1"><v>3</v></c><c r="B3"><v>9</v></c></row></sheetData>',
      [{ address: 'A1', values: [[7]] }],
      '<row r="1"><c r="A1" s="1" cm="1"><f t="array" ref="A1">_xldudf_PINSET_MIX(B1)</f><v>7</v></c></row>' +
        '<row r="2"></row><row r="3"><c r="A3" s="1"/><c r="B3"><v>9</v></c></row>',
    ],
    [
      'a spill that grows',
      '<sheetData><row r="1"><c r="A1" cm="1"><f t="array" ref="A1">_xlfn.SEQUENCE(2,2)</f><v>1</v></c></row></sheetData>',
      [
        {
          address: 'A1',
          values: [
            [1, ''],
            ['x', cellError('#NUM!')],
          ],
        },
      ],
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:B2">_xlfn.SEQUENCE(2,2)</f><v>1</v></c><c r="B1" t="str"><v></v></c></row>' +
        '<row r="2"><c r="A2" t="str"><v>x</v></c><c r="B2" t="e"><v>#NUM!</v></c></row>',
    ],
    [
      'an array formula of the older kind keeps its range; what is missing in it is #N/A',
      '<sheetData><row r="1"><c r="A1"><f t="array" ref="A1:B2">C1:D1*2</f><v>1</v></c><c r="B1"><v>1</v></c></row></sheetData>',
      [{ address: 'A1', values: [[5], [6], [7]] }],
      '<row r="1"><c r="A1"><f t="array" ref="A1:B2">C1:D1*2</f><v>5</v></c><c r="B1"><v>5</v></c></row>' +
        '<row r="2"><c r="A2"><v>6</v></c><c r="B2"><v>6</v></c></row>',
    ],
    [
      'a formula that does not spill shows one value of a block',
      '<sheetData><row r="1"><c r="A1"><f>C1:D1*2</f><v>1</v></c><c r="B1"><v>1</v></c></row></sheetData>',
      [{ address: 'A1', values: [[5, 6]] }],
      '<row r="1"><c r="A1"><f>C1:D1*2</f><v>5</v></c><c r="B1"><v>1</v></c></row>',
    ],
    [
      'results in place of a formula: constants, and blanks where it gave empty text',
      '<sheetData><row r="1"><c r="A1" s="1" cm="1"><f t="array" ref="A1:A3">_xldudf_PINSET_MIX(B1)</f><v>1</v></c></row>' +
        '<row r="2"><c r="A2" t="str"><v></v></c></row><row r="3"><c r="A3" t="str"><v>bran</v></c></row></sheetData>',
      [{ address: 'A1', formula: null, values: [[1], [''], ['bran']] }],
      '<row r="1"><c r="A1" s="1"><v>1</v></c></row><row r="2"></row>' +
        '<row r="3"><c r="A3" t="inlineStr"><is><t xml:space="preserve">bran</t></is></c></row>',
    ],
    [
      'of two formulas of one number the cells behind each keep their own',
      '<sheetData><row r="1"><c r="A1"><f t="shared" si="0">B1*2</f><v>1</v></c></row>' +
        '<row r="2"><c r="A2"><f t="shared" si="0"/></c></row><row r="3"><c r="A3"><f t="shared" si="0">B3*9</f></c></row>' +
        '<row r="4"><c r="A4"><f t="shared" si="0"/></c></row></sheetData>',
      [{ address: 'A3', formula: null, values: [[5]] }],
      '<row r="1"><c r="A1"><f t="shared" si="0">B1*2</f><v>1</v></c></row>' +
        '<row r="2"><c r="A2"><f t="shared" si="0"/></c></row><row r="3"><c r="A3"><v>5</v></c></row>' +
        '<row r="4"><c r="A4"><f>B4*9</f></c></row>',
    ],
    [
      'cells that shared the formula of one that changes get it in full',
      '<sheetData><row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="4">_xlfn.DAYS(B1,$B$9)&amp;"x"</f><v>1</v></c></row>' +
        '<row r="2"><c r="A2"><f t="shared" si="4"/><v>2</v></c></row><row r="3"><c r="A3" s="1"><f t="shared" si="4"/><v>3</v></c></row></sheetData>',
      [
        { address: 'A1', formula: null, values: [[1]] },
        { address: 'A3', values: [[33]] },
      ],
      '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><f>_xlfn.DAYS(B2,$B$9)&amp;"x"</f><v>2</v></c></row>' +
        '<row r="3"><c r="A3" s="1"><f>_xlfn.DAYS(B3,$B$9)&amp;"x"</f><v>33</v></c></row>',
    ],
    [
      'calls of Pinset in a form that Excel does not calculate: plain, shared, or in an older array',
      '<sheetData><row r="1"><c r="A1"><f t="shared" ref="A1:A2" si="0">pinset.mix(B1)</f><v>1</v></c>' +
        '<c r="C1"><f t="array" ref="C1:D1">_xldudf_PINSET_MIX(B1)</f><v>1</v></c><c r="D1"><v>1</v></c></row>' +
        '<row r="2"><c r="A2"><f t="shared" si="0"/><v>2</v></c></row></sheetData>',
      [
        { address: 'A1', values: [[1]] },
        { address: 'A2', values: [[2]] },
        { address: 'C1', values: [[3]] },
      ],
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1">_xldudf_PINSET_MIX(B1)</f><v>1</v></c>' +
        '<c r="C1" cm="1"><f t="array" ref="C1">_xldudf_PINSET_MIX(B1)</f><v>3</v></c></row>' +
        '<row r="2"><c r="A2" cm="1"><f t="array" ref="A2">_xldudf_PINSET_MIX(B2)</f><v>2</v></c></row>',
    ],
    [
      'a new cell takes the style of its row, else of its column',
      '<sheetData><row r="1" s="1" customFormat="1"><c r="A1"><v>1</v></c></row></sheetData>',
      [
        { address: 'B1', values: [[1]] },
        { address: 'H2', values: [[1]] },
        { address: 'D2', values: [[1]] },
      ],
      '<row r="1" s="1" customFormat="1"><c r="A1"><v>1</v></c><c r="B1" s="1"><v>1</v></c></row>' +
        '<row r="2"><c r="D2"><v>1</v></c><c r="H2" s="2"><v>1</v></c></row>',
    ],
  ];
  test.each(cases)('%s', (_, data, changes, after) => {
    const cols = '<cols><col min="7" max="8" style="2"/></cols>';
    expect(dataAfter(data, changes, { styles: STYLES }, cols)).toBe(after);
  });

  test('the sheet’s written extent grows with new cells', () => {
    const bytes = sheetOf('<sheetData/>', {}, '<dimension ref="A1"/>');
    const after = patchWorkbook(bytes, [{ sheet: 'lots', address: 'C4', values: [[1, 2]] }]);
    expect(textIn(after, 'xl/worksheets/sheet1.xml')).toContain('<dimension ref="A1:D4"/>');
  });

  test('no change gives a file of the same parts', () => {
    const bytes = sheetOf(`<sheetData>${ROW}</sheetData>`);
    expect(partsIn(patchWorkbook(bytes, []))).toEqual(partsIn(bytes));
  });

  test('every other part of a LibreOffice workbook stays byte for byte, in its place', () => {
    const before = new Uint8Array(readFileSync(join(__dirname, 'fixtures/libreoffice-saved.xlsx')));
    const after = patchWorkbook(before, [{ sheet: 'Settings', address: 'B3', values: [[73.7]] }]);
    expectOnlyChanged(before, after, ['xl/worksheets/sheet2.xml']);
    expect(textIn(after, 'xl/worksheets/sheet2.xml')).toBe(
      textIn(before, 'xl/worksheets/sheet2.xml').replace(
        '<c r="B3" s="0" t="n"><f aca="false">SUM(Lots[Fresh kg])</f><v>0</v></c>',
        '<c r="B3" s="0"><f aca="false">SUM(Lots[Fresh kg])</f><v>73.7</v></c>',
      ),
    );
    expect(
      Object.keys(partsIn(before)).filter((name) => /chart|media|comments|drawing|table/.test(name)),
    ).toHaveLength(7);
  });
});

function expectOnlyChanged(before: Uint8Array, after: Uint8Array, changed: readonly string[]): void {
  const [old, now] = [partsIn(before), partsIn(after)];
  expect(Object.keys(now).slice(0, Object.keys(old).length)).toEqual(Object.keys(old));
  for (const [name, bytes] of Object.entries(old)) {
    expect([name, Buffer.compare(bytes, now[name]!) === 0]).toEqual([name, !changed.includes(name)]);
  }
}

describe('a formula is stored as Excel stores it', () => {
  const spilled = (formula: string, more = {}): string =>
    dataAfter('<sheetData/>', [{ address: 'A1', formula, values: [[1], [2]] }], more);

  const spellings: [string, string][] = [
    ['=LET(x,PINSET.MIX(B1),Sum(X,1))', '_xlfn.LET(_xlpm.x,_xldudf_PINSET_MIX(B1),Sum(_xlpm.X,1))'],
    [
      '=LET(f, LAMBDA(a,b,a+b+Rate), PINSET.MIX(f({1,2},B1))+a)',
      '_xlfn.LET(_xlpm.f, _xlfn.LAMBDA(_xlpm.a,_xlpm.b,_xlpm.a+_xlpm.b+Rate), _xldudf_PINSET_MIX(_xlpm.f({1,2},B1))+a)',
    ],
    ['=PINSET.MIX(A1:B2, 1)', '_xldudf_PINSET_MIX(A1:B2, 1)'],
    ['=pinset.mix(A1)', '_xldudf_PINSET_MIX(A1)'],
    ['=SUM(A1#)', 'SUM(_xlfn.ANCHORARRAY(A1))'],
    ["=SUM('Farm own'!A1#,1)", "SUM(_xlfn.ANCHORARRAY('Farm own'!A1),1)"],
    ['=@A1:A9+@INDEX(A:A,2)', '_xlfn.SINGLE(A1:A9)+_xlfn.SINGLE(INDEX(A:A,2))'],
    [
      '=SORT(UNIQUE(FILTER(A1:A9,B1:B9>0)))',
      '_xlfn._xlws.SORT(_xlfn.UNIQUE(_xlfn._xlws.FILTER(A1:A9,B1:B9&gt;0)))',
    ],
    [
      '=XLOOKUP(A1,B:B,C:C)&TEXTJOIN(",",TRUE,D:D)',
      '_xlfn.XLOOKUP(A1,B:B,C:C)&amp;_xlfn.TEXTJOIN(",",TRUE,D:D)',
    ],
    ['=SUM(Lots[[#Headers],[A]],Lots[B])', 'SUM(Lots[[#Headers],[A]],Lots[B])'],
    ['="PINSET.MIX( A1# "&SORT', '"PINSET.MIX( A1# "&amp;SORT'],
  ];
  test.each(spellings)('%s', (formula, stored) => {
    expect(spilled(formula)).toContain(`<c r="A1" cm="1"><f t="array" ref="A1:A2">${stored}</f><v>1</v></c>`);
  });

  test('a reference to its own row names the table it stands in', () => {
    const bytes = workbookOf({
      sheets: [{ name: 'Lots', data: '<sheetData/>', tables: [table('Lots', 'A1:B3', ['Strain', 'Days'])] }],
    });
    const put = (address: string): Uint8Array =>
      patchWorkbook(bytes, [{ sheet: 'Lots', address, formula: '=PINSET.MIX([@Strain])', values: [[1]] }]);
    expect(textIn(put('B2'), 'xl/worksheets/sheet1.xml')).toContain(
      '<f t="array" ref="B2">_xldudf_PINSET_MIX(Lots[[#This Row],[Strain]])</f>',
    );
    expect(() => put('D2')).toThrow('a table around the cell for [@Strain]');
  });

  test('a plain formula with one result stays plain, and the workbook gets no metadata', () => {
    const bytes = patchWorkbook(sheetOf('<sheetData/>'), [
      { sheet: 'Lots', address: 'A1', formula: '=IFNA(B1,0)*2', values: [[4]] },
    ]);
    expect(textIn(bytes, 'xl/worksheets/sheet1.xml')).toContain(
      '<c r="A1"><f>_xlfn.IFNA(B1,0)*2</f><v>4</v></c>',
    );
    expect(Object.keys(partsIn(bytes))).not.toContain('xl/metadata.xml');
  });

  test('what it reads back is what was put in', () => {
    const formula = '=PINSET.MIX(SORT(A1#),@B1:B9)';
    const bytes = patchWorkbook(sheetOf('<sheetData/>'), [
      { sheet: 'Lots', address: 'D1', formula, values: [[1, 'x']] },
    ]);
    expect(readWorkbook(bytes).sheets[0]!.cells).toEqual([
      { address: 'D1', value: 1, formula, spill: 'D1:E1' },
      { address: 'E1', value: 'x', spilledFrom: 'D1' },
    ]);
  });

  test('a variable that is no plain word is refused', () => {
    expect(() => spilled('=LET(B1,1,B1)')).toThrow('variables, which LET brings in');
  });

  const record = (t: number, v: number): string => `<bk><rc t="${t}" v="${v}"/></bk>`;
  const NAMESPACE = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
  const change: Change = { sheet: 'Lots', address: 'A1', formula: '=PINSET.MIX(B1)', values: [[1]] };
  const cmAfter = (bytes: Uint8Array): string | undefined =>
    /<c r="A1" cm="(\d+)">/.exec(textIn(patchWorkbook(bytes, [change]), 'xl/worksheets/sheet1.xml'))?.[1];

  test('a workbook without metadata gets one record, its type and its relationship', () => {
    const bytes = patchWorkbook(sheetOf('<sheetData/>'), [change]);
    const metadata = textIn(bytes, 'xl/metadata.xml');
    expect(metadata).toContain(
      '<metadataTypes count="1"><metadataType name="XLDAPR" minSupportedVersion="120000"',
    );
    expect(metadata).toContain('fDynamic="1" fCollapsed="0"/>');
    expect(metadata).toContain(`<cellMetadata count="1">${record(1, 0)}</cellMetadata></metadata>`);
    expect(textIn(bytes, '[Content_Types].xml')).toContain(
      '<Override PartName="/xl/metadata.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.sheetMetadata+xml"/>',
    );
    expect(textIn(bytes, 'xl/_rels/workbook.xml.rels')).toContain(
      '<Relationship Id="rId2" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/>',
    );
  });

  test('a workbook that has the record keeps its metadata as it is', () => {
    const once = patchWorkbook(sheetOf('<sheetData/>'), [change]);
    const twice = patchWorkbook(once, [{ ...change, values: [[2], [3]] }]);
    expectOnlyChanged(once, twice, ['xl/worksheets/sheet1.xml']);
    expect(cmAfter(once)).toBe('1');
  });

  test('records of other kinds stay where they are, ours comes behind', () => {
    const bytes = sheetOf('<sheetData/>', {
      metadata:
        `<metadata ${NAMESPACE}><metadataTypes count="1"><metadataType name="XLRICHVALUE" minSupportedVersion="120000"/></metadataTypes>` +
        '<futureMetadata name="XLRICHVALUE" count="1"><bk/></futureMetadata>' +
        `<cellMetadata count="2">${record(1, 0)}${record(1, 0)}</cellMetadata>` +
        `<valueMetadata count="1">${record(1, 0)}</valueMetadata></metadata>`,
    });
    expect(cmAfter(bytes)).toBe('3');
    const metadata = textIn(patchWorkbook(bytes, [change]), 'xl/metadata.xml');
    expect(metadata).toContain(
      '<metadataTypes count="2"><metadataType name="XLRICHVALUE" minSupportedVersion="120000"/><metadataType name="XLDAPR"',
    );
    expect(metadata).toContain('</futureMetadata><futureMetadata name="XLDAPR" count="1"><bk>');
    expect(metadata).toContain(
      `<cellMetadata count="3">${record(1, 0)}${record(1, 0)}${record(2, 0)}</cellMetadata><valueMetadata`,
    );
  });

  test('metadata of values alone gets a list of cell records before them', () => {
    const bytes = sheetOf('<sheetData/>', {
      metadata: `<metadata ${NAMESPACE}><metadataTypes count="1"><metadataType name="X"/></metadataTypes><valueMetadata count="1">${record(1, 0)}</valueMetadata></metadata>`,
    });
    expect(cmAfter(bytes)).toBe('1');
    expect(textIn(patchWorkbook(bytes, [change]), 'xl/metadata.xml')).toContain(
      `<cellMetadata count="1">${record(2, 0)}</cellMetadata><valueMetadata count="1">${record(1, 0)}</valueMetadata>`,
    );
  });
});

describe('a cell that names a record of metadata which is not there', () => {
  const NAMESPACE = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
  const PROPERTIES =
    '<xda:dynamicArrayProperties xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray" fDynamic="1" fCollapsed="0"/>';
  const cell = (cm: number): string =>
    `<c r="A1" cm="${cm}"><f t="array" ref="A1:A2">_xldudf_PINSET_MIX(B1)</f><v>1</v></c>`;
  const dataOf = (cm: number): string =>
    `<sheetData><row r="1">${cell(cm)}</row><row r="2"><c r="A2"><v>2</v></c></row></sheetData>`;
  const same: Change = { sheet: 'Lots', address: 'A1', values: [[1], [2]] };
  const withMetadata = (metadata: string, cm = 1): Uint8Array =>
    sheetOf(dataOf(cm), { metadata: `<metadata ${NAMESPACE}>${metadata}</metadata>` });
  const RECORD = '<cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata>';
  const TYPES = '<metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes>';
  const FUTURE = `<futureMetadata name="XLDAPR" count="1"><bk><extLst><ext>${PROPERTIES}</ext></extLst></bk></futureMetadata>`;
  const SHEET = 'xl/worksheets/sheet1.xml';

  test('gets the part where there is none; the sheet and all else stay byte for byte', () => {
    const before = sheetOf(dataOf(1));
    const after = patchWorkbook(before, [same]);
    expectOnlyChanged(before, after, ['[Content_Types].xml', 'xl/_rels/workbook.xml.rels']);
    expect(textIn(after, 'xl/metadata.xml')).toContain('fDynamic="1" fCollapsed="0"/>');
    expectOnlyChanged(after, patchWorkbook(after, [same]), []);
  });

  test('gets the part where a relationship names one that is missing, and no second relationship', () => {
    const whole = partsIn(withMetadata(TYPES + FUTURE + RECORD));
    delete whole['xl/metadata.xml'];
    const before = zipSync(whole);
    const after = patchWorkbook(before, [same]);
    expectOnlyChanged(before, after, []);
    expect(textIn(after, 'xl/metadata.xml')).toContain('fDynamic="1" fCollapsed="0"/>');
  });

  test.each([
    ['no record', TYPES + FUTURE, 1],
    ['a record without its properties', TYPES + RECORD, 1],
    ['a record of no type', FUTURE + RECORD, 1],
    ['fewer records', TYPES + FUTURE + RECORD, 7],
  ])('is put right in metadata with %s', (_what, metadata, cm) => {
    const after = patchWorkbook(withMetadata(metadata, cm), [same]);
    const { 'xl/metadata.xml': part } = partsIn(after);
    const text = strFromU8(part!);
    const index = Number(/<c r="A1" cm="(\d+)">/.exec(textIn(after, SHEET))![1]);
    const [, type, property] = [...text.matchAll(/<rc t="(\d+)" v="(\d+)"\/>/g)][index - 1]!;
    expect([...text.matchAll(/<metadataType name="(\w+)"/g)][Number(type) - 1]![1]).toBe('XLDAPR');
    expect([...text.matchAll(/dynamicArrayProperties [^>]*fDynamic="1"/g)]).toHaveLength(
      Number(property) + 1,
    );
  });

  test('a sound record of another kind stays', () => {
    const other = '<metadataTypes count="1"><metadataType name="XLRICHVALUE"/></metadataTypes>';
    const before = withMetadata(other + RECORD);
    expectOnlyChanged(before, patchWorkbook(before, [same]), []);
  });

  test('a formula that fills no range loses the number', () => {
    const before = sheetOf(
      '<sheetData><row r="1"><c r="A1" cm="1"><f>B1*2</f><v>1</v></c></row></sheetData>',
    );
    const after = patchWorkbook(before, [{ ...same, values: [[1]] }]);
    expect(textIn(after, SHEET)).toContain('<c r="A1"><f>B1*2</f><v>1</v></c>');
    expectOnlyChanged(before, after, [SHEET]);
  });
});

describe('number formats are given only where a cell has none', () => {
  const row =
    '<row r="1"><c r="A1"><v>1</v></c><c r="B1" s="1"><v>1</v></c><c r="C1" s="2"><v>1</v></c></row>';
  const unformatted: Change = {
    sheet: 'Lots',
    address: 'A1',
    formula: null,
    values: [[46082, 0.5, 0.25, 'text']],
  };
  const change: Change = { ...unformatted, formats: ['date', 'percent', 'date', 'date'] };

  test('General cells get a style that differs in its format alone; others keep theirs, text gets none', () => {
    const bytes = patchWorkbook(sheetOf(`<sheetData>${row}</sheetData>`, { styles: STYLES }), [change]);
    expect(textIn(bytes, 'xl/worksheets/sheet1.xml')).toContain(
      '<c r="A1" s="3"><v>46082</v></c><c r="B1" s="4"><v>0.5</v></c><c r="C1" s="2"><v>0.25</v></c><c r="D1" t=',
    );
    expect(textIn(bytes, 'xl/styles.xml')).toContain(
      STYLES.slice(0, STYLES.indexOf('<fonts'))
        .concat('<numFmts count="2"><numFmt numFmtId="164" formatCode="yyyy-mm-dd"/>')
        .concat('<numFmt numFmtId="165" formatCode="0.0%"/></numFmts>'),
    );
    expect(textIn(bytes, 'xl/styles.xml')).toContain(
      '<cellXfs count="5"><xf numFmtId="0" fontId="0"/><xf numFmtId="0" fontId="1" applyFont="1"><alignment wrapText="1"/></xf>' +
        '<xf numFmtId="9"/><xf numFmtId="164" fontId="0" applyNumberFormat="1"/>' +
        '<xf numFmtId="165" fontId="1" applyFont="1" applyNumberFormat="1"><alignment wrapText="1"/></xf></cellXfs>',
    );
  });

  test('without formats no style is touched', () => {
    const before = sheetOf(`<sheetData>${row}</sheetData>`, { styles: STYLES });
    expectOnlyChanged(before, patchWorkbook(before, [unformatted]), ['xl/worksheets/sheet1.xml']);
  });

  test('a workbook without styles stays without', () => {
    const bytes = patchWorkbook(sheetOf(`<sheetData>${row}</sheetData>`), [change]);
    expect(textIn(bytes, 'xl/worksheets/sheet1.xml')).toContain('<c r="A1"><v>46082</v></c>');
  });
});

describe('the calculation chain never names a cell without a formula', () => {
  const NAMESPACE = 'xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"';
  const data =
    '<sheetData><row r="1"><c r="A1"><f>1</f><v>1</v></c><c r="B1"><f>2</f><v>2</v></c>' +
    '<c r="C1" cm="1"><f t="array" ref="C1:D1">3</f><v>3</v></c><c r="D1"><v>3</v></c></row></sheetData>';
  const chain = (entries: string): Uint8Array =>
    workbookOf({
      sheets: [
        { name: 'Lots', data },
        { name: 'Mix', data },
      ],
      calcChain: `<calcChain ${NAMESPACE}>${entries}</calcChain>`,
    });

  test('entries of cells that lost theirs go, the sheet they told the next entry is handed on', () => {
    const bytes = patchWorkbook(
      chain('<c r="A1" i="1"/><c r="B1"/><c r="C1" l="1"/><c r="D1"/><c r="A1" i="2"/><c r="B1"/>'),
      [
        { sheet: 'Lots', address: 'A1', formula: null, values: [[1]] },
        { sheet: 'Lots', address: 'C1', values: [[3]] },
        { sheet: 'Mix', address: 'A1', formula: null, values: [[1]] },
      ],
    );
    expect(textIn(bytes, 'xl/calcChain.xml')).toContain(
      `<calcChain ${NAMESPACE}><c r="B1" i="1"/><c r="C1" l="1"/><c r="B1" i="2"/></calcChain>`,
    );
  });

  test('an empty chain goes, with its type and its relationship', () => {
    const before = chain('<c r="A1" i="1"/>');
    const after = patchWorkbook(before, [{ sheet: 'Lots', address: 'A1', formula: null, values: [[1]] }]);
    expect(Object.keys(partsIn(after))).toEqual(
      Object.keys(partsIn(before)).filter((name) => name !== 'xl/calcChain.xml'),
    );
    expect(textIn(after, '[Content_Types].xml')).not.toContain('calcChain');
    expect(textIn(after, 'xl/_rels/workbook.xml.rels')).not.toContain('calcChain');
  });

  test('new results alone leave it as it is', () => {
    const before = chain('<c r="A1" i="1"/>');
    const after = patchWorkbook(before, [{ sheet: 'Lots', address: 'A1', values: [[5]] }]);
    expectOnlyChanged(before, after, ['xl/worksheets/sheet1.xml']);
  });
});

describe('refusals', () => {
  const bytes = sheetOf(
    '<sheetData><row r="1"><c r="A1"><f>1</f><v>1</v></c></row><row r="2"><c r="A2"><f>2</f><v>1</v></c></row></sheetData>',
  );
  const refused: [string, Change, string][] = [
    ['an unknown sheet', { sheet: 'Picks', address: 'A1', values: [[1]] }, 'the workbook has no sheet Picks'],
    ['no address', { sheet: 'Lots', address: 'A0', values: [[1]] }, 'A0 is no cell of a sheet'],
    [
      'a result over another formula',
      { sheet: 'Lots', address: 'A1', formula: '=PINSET.MIX(B1)', values: [[1], [2]] },
      'the result of Lots!A1 would cover the formula in A2',
    ],
  ];
  test.each(refused)('%s', (_, change, message) => {
    expect(() => patchWorkbook(bytes, [change])).toThrow(message);
  });
});

describe('an independent reader agrees', () => {
  let bytes: Uint8Array;
  beforeAll(async () => {
    const book = new ExcelJS.Workbook();
    book.addWorksheet('Lots').getCell('A1').value = 'x';
    bytes = new Uint8Array(await book.xlsx.writeBuffer());
  });

  test('exceljs reads every text and number that is written', async () => {
    const cell = fc.oneof(
      anyText({ minLength: 1 }),
      fc.constantFrom('_x0041_', ' a ', '<&>"\'', 'a\r\nb', '\u0000', '\ud800'),
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.boolean(),
    );
    await fc.assert(
      fc.asyncProperty(fc.array(cell, { minLength: 1, maxLength: 20 }), async (values) => {
        const rows = values.map((value): Cell[] => [value]);
        const after = patchWorkbook(bytes, [{ sheet: 'Lots', address: 'B2', values: rows }]);
        expect(
          readWorkbook(after)
            .sheets[0]!.cells.slice(1)
            .map(({ value }) => value),
        ).toEqual(values.map((value) => (value === 0 ? 0 : value)));
        const book = new ExcelJS.Workbook();
        await book.xlsx.load(Buffer.from(after) as never);
        const numbers = values.map((value, n) => [n, value]).filter(([, value]) => typeof value !== 'string');
        for (const [n, value] of numbers) {
          const read = book.getWorksheet('Lots')!.getCell(Number(n) + 2, 2).value;
          expect(read).toBe(value === 0 ? 0 : value);
        }
      }),
      { numRuns: 60 },
    );
  });

  // ISO/IEC 29500-2, 6.2.2.3: part names that differ in case alone are one.
  test('parts whose names are written in other letter case than they are called by are written too', () => {
    const parts = Object.fromEntries(
      Object.entries(partsIn(sheetOf(`<sheetData>${ROW}</sheetData>`, { styles: STYLES }))).map(
        ([name, data]) => [/sheet1|styles/.test(name) ? name.toUpperCase() : name, data],
      ),
    );
    const change: Change = { sheet: 'Lots', address: 'C2', values: [[0.25]], formats: ['date'] };
    const after = patchWorkbook(zipSync(parts), [{ ...change, address: 'D2' }, change]);
    expect(Object.keys(partsIn(after))).toEqual(Object.keys(parts));
    expect(textIn(after, 'XL/WORKSHEETS/SHEET1.XML')).toContain('<f>A2*2</f><v>0.25</v>');
    expect(textIn(after, 'XL/WORKSHEETS/SHEET1.XML')).toContain('<c r="D2" s="3">');
    expect(textIn(after, 'XL/STYLES.XML')).toContain('cellXfs count="4"');
  });

  test('zips with stored parts, data descriptors and directories are read and written', () => {
    const parts = Object.fromEntries(
      Object.entries(partsIn(bytes)).map(([name, data]) => [name, [data, { level: 0 }] as const]),
    );
    const stored = zipSync({ 'xl/': new Uint8Array(), ...parts, 'xl/note.bin': strToU8('kept') });
    const after = patchWorkbook(stored, [{ sheet: 'Lots', address: 'A2', values: [[1]] }]);
    expectOnlyChanged(stored, after, ['xl/worksheets/sheet1.xml']);
  });
});
