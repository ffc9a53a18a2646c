import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import fc from 'fast-check';
import { strFromU8, strToU8, zipSync } from 'fflate';
import { WorkbookFileError } from '../../../src/hosts/xlsx/package';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { cellError } from '../../../src/worksheet/cells/cell';
import { partsIn, table, workbookOf } from './packages';

const cellIn = (bytes: Uint8Array, address: string, sheet = 0) =>
  readWorkbook(bytes).sheets[sheet]!.cells.find((cell) => cell.address === address);

const oneSheet = (cells: string, more: Partial<Parameters<typeof workbookOf>[0]> = {}): Uint8Array =>
  workbookOf({ sheets: [{ name: 'Lots', data: `<sheetData>${cells}</sheetData>` }], ...more });

const formulaAt = (address: string, formula: string): Uint8Array =>
  workbookOf({
    sheets: [
      {
        name: 'Lots',
        data: `<sheetData><row r="${address.slice(1)}"><c r="${address}"><f>${formula}</f><v>1</v></c></row></sheetData>`,
        tables: [
          table('Lots', 'A1:C9', ['Lot', 'Strain', 'Fresh kg']),
          table('Sums', 'F1:G4', ['Who', 'Total [kg]'], ' totalsRowCount="1"'),
          table('Bare', 'J1:K4', ['One', 'Two'], ' headerRowCount="0"'),
        ],
      },
      { name: "Farm's own", data: '<sheetData/>', tables: [table('Strains', 'B2:C5', ['Strain', 'Days'])] },
    ],
    names:
      "<definedName name=\"Mass\">'Farm''s own'!$B$1</definedName>" +
      '<definedName name="Rate" localSheetId="1">Lots!$Z$1</definedName>' +
      '<definedName name="rate">Lots!$Z$9</definedName>' +
      '<definedName name="Left">Lots!A1</definedName>' +
      '<definedName name="Both">Mass+Left*2</definedName>' +
      '<definedName name="Loop">1+Loop</definedName>' +
      '<definedName name="Twice">_xlfn.LAMBDA(_xlpm.x,2*_xlpm.x)</definedName>' +
      '<definedName name="Away">[1]Sheet1!$A$1</definedName>',
  });

describe('cells come with their values as spreadsheets mean them', () => {
  const values: [string, string, unknown][] = [
    ['a number', '<c r="A1"><v>1.5</v></c>', 1.5],
    ['a number in exponent notation', '<c r="A1"><v>1.5E-7</v></c>', 1.5e-7],
    ['true', '<c r="A1" t="b"><v>1</v></c>', true],
    ['false', '<c r="A1" t="b"><v>0</v></c>', false],
    ['an error', '<c r="A1" t="e"><v>#DIV/0!</v></c>', cellError('#DIV/0!')],
    [
      'an error of a newer Excel',
      '<c r="A1" t="e"><v>#FIELD!</v></c>',
      cellError('#VALUE!', 'the cell holds #FIELD!'),
    ],
    ['a formula’s text', '<c r="A1" t="str"><f>B1</f><v>a &amp; b</v></c>', 'a & b'],
    ['an empty text', '<c r="A1" t="str"><f>B1</f><v></v></c>', ''],
    ['an inline text', '<c r="A1" t="inlineStr"><is><t xml:space="preserve"> x </t></is></c>', ' x '],
    ['runs of an inline text', '<c r="A1" t="inlineStr"><is><r><t>a</t></r><r><t>b</t></r></is></c>', 'ab'],
    ['a line break written as _x000A_', '<c r="A1" t="str"><f>B1</f><v>a_x000A_b</v></c>', 'a\nb'],
    ['a date written out (strict files)', '<c r="A1" t="d"><v>2026-03-01T12:00:00</v></c>', 46082.5],
    ['a time of day written out', '<c r="A1" t="d"><v>T06:00:00</v></c>', 0.25],
    ['a date with its zone', '<c r="A1" t="d"><v>2026-03-01T18:00:00+06:00</v></c>', 46082.5],
    ['the end of a day', '<c r="A1" t="d"><v>2026-03-01T24:00:00</v></c>', 46083],
    ['a date left out', '<c r="A1" t="d"><f>B1</f><v></v></c>', null],
  ];
  test.each(values)('%s', (_, cell, value) => {
    expect(cellIn(oneSheet(`<row r="1">${cell}</row>`), 'A1')?.value).toEqual(value);
  });

  test('shared texts, their runs joined, their phonetic help left out', () => {
    const bytes = oneSheet('<row r="1"><c r="A1" t="s"><v>1</v></c></row>', {
      sharedStrings:
        '<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>no</t></si>' +
        '<si><r><t>Al</t></r><r><rPr><b/></rPr><t>der</t></r><rPh sb="0" eb="1"><t>ru</t></rPh></si></sst>',
    });
    expect(cellIn(bytes, 'A1')?.value).toBe('Alder');
  });

  test('cells and rows without addresses stand beside and below the last', () => {
    const { cells } = readWorkbook(
      oneSheet('<row><c><v>1</v></c><c><v>2</v></c></row><row r="4"><c/><c><v>3</v></c></row>'),
    ).sheets[0]!;
    expect(cells.map(({ address, value }) => [address, value])).toEqual([
      ['A1', 1],
      ['B1', 2],
      ['B4', 3],
    ]);
  });

  test('the 1904 date system is told, and dates written out follow it', () => {
    const bytes = oneSheet('<row r="1"><c r="A1" t="d"><v>1904-01-03</v></c></row>', {
      workbookPr: '<workbookPr date1904="1"/>',
    });
    expect(readWorkbook(bytes).dateSystem).toBe(1904);
    expect(cellIn(bytes, 'A1')?.value).toBe(2);
  });

  test('elements with a namespace prefix read the same', () => {
    const bytes = workbookOf({ sheets: [{ name: 'S', data: '<sheetData/>' }] });
    const parts = partsIn(bytes);
    parts['xl/worksheets/sheet1.xml'] = strToU8(
      '<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData>' +
        '<x:row r="1"><x:c r="A1"><x:f>1+1</x:f><x:v>2</x:v></x:c></x:row></x:sheetData></x:worksheet>',
    );
    expect(cellIn(zipSync(parts), 'A1')).toEqual({ address: 'A1', value: 2, formula: '=1+1' });
  });
});

describe('formulas are written out for an engine that knows neither names nor tables', () => {
  const rewritten: [string, string, string][] = [
    ['D3', '_xldudf_PINSET_MIX(A1:B2,1)', '=PINSET.MIX(A1:B2,1)'],
    ['D3', 'pinset.mix(A1)', '=PINSET.MIX(A1)'],
    ['D3', '_xlfn.XLOOKUP(A1,B:B,C:C)', '=XLOOKUP(A1,B:B,C:C)'],
    ['D3', '_xlfn._xlws.SORT(A1:A3)', '=SORT(A1:A3)'],
    ['D3', 'SUM(_xlfn.ANCHORARRAY(A1))', '=SUM(A1#)'],
    ['D3', '_xlfn.SINGLE(A1:A9)+1', '=@A1:A9+1'],
    ['D3', '_xlfn.SINGLE(A1+A2)', '=@(A1+A2)'],
    ['D3', '"_xlfn.SUM Mass PINSET.X("&amp;A1', '="_xlfn.SUM Mass PINSET.X("&A1'],
    ['D3', 'SUM(Lots[Fresh kg])', '=SUM($C$2:$C$9)'],
    ['D3', 'SUM(lots[fresh KG])', '=SUM($C$2:$C$9)'],
    ['D3', 'SUM(Lots[[Lot]:[Fresh kg]])', '=SUM($A$2:$C$9)'],
    ['D3', 'Lots[[#This Row],[Strain]]', '=$B$3'],
    ['B3', 'Lots[@Strain]&amp;[@Lot]', '=$B$3&$A$3'],
    ['D3', 'COUNTA(Lots)', '=COUNTA($A$2:$C$9)'],
    ['D3', 'COUNTA(Lots[])', '=COUNTA($A$2:$C$9)'],
    ['D3', 'COUNTA(Lots[#All])', '=COUNTA($A$1:$C$9)'],
    ['D3', 'COUNTA(Lots[#Headers])', '=COUNTA($A$1:$C$1)'],
    ['D3', 'COUNTA(Lots[[#Headers],[#Data],[Strain]])', '=COUNTA($B$1:$B$9)'],
    ['D3', "SUM(Sums[Total '[kg']])", '=SUM($G$2:$G$3)'],
    ['D3', 'COUNTA(Sums[#Totals])', '=COUNTA($F$4:$G$4)'],
    ['D3', 'SUM(Lots[#Totals])', '=SUM(#REF!)'],
    ['D3', 'SUM(Bare[One])', '=SUM($J$1:$J$4)'],
    ['D20', 'Lots[[#This Row],[Strain]]', '=#VALUE!'],
    ['D3', 'SUM(Strains[Days])', "=SUM('Farm''s own'!$C$3:$C$5)"],
    ['D3', 'Mass*2', "='Farm''s own'!$B$1*2"],
    ['D3', 'MASS*2', "='Farm''s own'!$B$1*2"],
    ['D3', 'Rate', '=Lots!$Z$9'],
    ['D3', "'Farm''s own'!Rate", '=Lots!$Z$1'],
    ['D3', 'RATE(1,2,3)', '=RATE(1,2,3)'],
    ['D3', 'Left', '=Lots!D3'],
    ['D3', 'Both', "=('Farm''s own'!$B$1+Lots!D3*2)"],
    ['D3', 'Unheard', '=Unheard'],
    ['D3', '[0]!Mass', "='Farm''s own'!$B$1"],
    ['D3', '_xlfn.LET(_xlpm.Mass,2,_xlpm.Mass*2)', '=LET(Mass,2,Mass*2)'],
    ['D3', 'SUM({1,2;-3,4.5})-5%', '=SUM({1,2;-3,4.5})-5%'],
  ];
  test.each(rewritten)('in %s: %s', (address, formula, expected) => {
    expect(cellIn(formulaAt(address, formula), address)?.formula).toBe(expected);
  });

  test('what the author wrote stays beside it where the two differ', () => {
    expect(
      cellIn(formulaAt('D3', '_xldudf_PINSET_MIX(Lots[[#This Row],[Strain]],Mass)'), 'D3'),
    ).toMatchObject({
      formula: "=PINSET.MIX($B$3,'Farm''s own'!$B$1)",
      written: '=PINSET.MIX(Lots[@Strain],Mass)',
    });
    expect(cellIn(formulaAt('D3', '_xldudf_PINSET_MIX(A1)'), 'D3')).not.toHaveProperty('written');
  });

  const refused: [string, string][] = [
    ['[1]Sheet1!A1+1', 'another workbook ([1]Sheet1!A1)'],
    ['Away+1', 'another workbook ([1]Sheet1!$A$1)'],
    ['SUM(Lots:Mix!A1)', 'several sheets at once (Lots:Mix!A1)'],
    ['Loop', 'the name Loop, which refers to itself'],
    ['Twice(2)', 'the function Twice that the workbook defines itself'],
    ['SUM(Lots[Weight])', 'a column Weight in the table Lots'],
    ['SUM(Gone[Weight])', 'the table of Gone[Weight], which is not in the workbook'],
  ];
  test.each(refused)('%s cannot be, and the cell says what it needs', (formula, notWrittenOut) => {
    const cell = cellIn(formulaAt('D3', formula), 'D3');
    expect(cell).toMatchObject({ formula: `=${formula}`, notWrittenOut, value: 1 });
  });

  test('of two shared formulas of one number each cell keeps its own', () => {
    const bytes = oneSheet(
      '<row r="1"><c r="A1"><f t="shared" si="0">B1*2</f></c></row><row r="2"><c r="A2"><f t="shared" si="0"/></c></row>' +
        '<row r="3"><c r="A3"><f t="shared" si="0">B3*9</f></c></row><row r="4"><c r="A4"><f t="shared" si="0"/></c></row>',
    );
    expect(readWorkbook(bytes).sheets[0]!.cells.map(({ formula }) => formula)).toEqual([
      '=B1*2',
      '=B2*2',
      '=B3*9',
      '=B4*9',
    ]);
  });

  test('shared formulas move with their cell, absolute parts stay, the sheet’s edge wraps', () => {
    const bytes = oneSheet(
      '<row r="2"><c r="B2"><f t="shared" ref="B2:C4" si="0">A1+$A1+A$1+$A$1+Sheet2!A:A</f></c></row>' +
        '<row r="3"><c r="C3"><f t="shared" si="0"/></c><c r="D3"><f t="shared" si="7"/></c></row>' +
        '<row r="1048576"><c r="A1048576"><f t="shared" si="0"/></c></row>',
    );
    expect(cellIn(bytes, 'C3')?.formula).toBe('=B2+$A2+B$1+$A$1+Sheet2!B:B');
    expect(cellIn(bytes, 'D3')?.unsupported).toBe('the formula it shares, which is missing from the file');
    expect(cellIn(bytes, 'A1048576')?.formula).toBe('=XFD1048575+$A1048575+XFD$1+$A$1+Sheet2!XFD:XFD');
  });

  test('a stored spill names its range, and the cells it filled name its formula', () => {
    const bytes = oneSheet(
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:B2">_xlfn.SEQUENCE(2,2)</f><v>1</v></c><c r="B1"><v>2</v></c></row>' +
        '<row r="2"><c r="A2"><v>3</v></c><c r="B2"><v>4</v></c><c r="C2"><v>5</v></c></row>',
    );
    expect(readWorkbook(bytes).sheets[0]!.cells).toEqual([
      { address: 'A1', value: 1, formula: '=SEQUENCE(2,2)', spill: 'A1:B2' },
      { address: 'B1', value: 2, spilledFrom: 'A1' },
      { address: 'A2', value: 3, spilledFrom: 'A1' },
      { address: 'B2', value: 4, spilledFrom: 'A1' },
      { address: 'C2', value: 5 },
    ]);
  });

  test('a what-if table names its range too: what it filled is no constant', () => {
    const bytes = oneSheet(
      '<row r="3"><c r="B3"><f t="dataTable" ref="B3:B5" dt2D="0" dtr="0" r1="A1"/><v>10</v></c></row>' +
        '<row r="4"><c r="B4"><v>20</v></c></row><row r="5"><c r="B5"><f/><v>30</v></c><c r="C5"><v>7</v></c></row>',
    );
    expect(readWorkbook(bytes).sheets[0]!.cells).toEqual([
      { address: 'B3', value: 10, written: '=TABLE()', unsupported: 'a what-if data table', spill: 'B3:B5' },
      { address: 'B4', value: 20, spilledFrom: 'B3' },
      { address: 'B5', value: 30, spilledFrom: 'B3' },
      { address: 'C5', value: 7 },
    ]);
  });

  test.each([
    ['text', 'big', ' t="str"', 'big'],
    ['an error', '#DIV/0!', ' t="e"', cellError('#DIV/0!')],
    ['a truth', '1', ' t="b"', true],
    ['empty text', '', ' t="str"', ''],
  ])(
    '%s is the stored result of shared formulas and of cells that an array fills',
    (_what, v, type, value) => {
      const bytes = oneSheet(
        `<row r="1"><c r="A1"${type}><f t="shared" ref="A1:A2" si="0">C1</f><v>${v}</v></c>` +
          `<c r="B1"${type}><f t="array" ref="B1:B2" aca="false">C1:C2</f><v>${v}</v></c></row>` +
          `<row r="2"><c r="A2"${type}><f t="shared" si="0"/><v>${v}</v></c><c r="B2"${type}><v>${v}</v></c></row>`,
      );
      expect(cellIn(bytes, 'A1')).toMatchObject({ value, formula: '=C1' });
      expect(cellIn(bytes, 'A2')).toMatchObject({ value, formula: '=C2' });
      expect(cellIn(bytes, 'B1')).toMatchObject({ value, spill: 'B1:B2', isFixedArray: true });
      expect(cellIn(bytes, 'B2')).toMatchObject({ value, spilledFrom: 'B1' });
    },
  );

  test('a spill may claim many more cells than are stored, but not a whole sheet', () => {
    const claiming = (ref: string): Uint8Array =>
      oneSheet(
        `<row r="1"><c r="A1" cm="1"><f t="array" ref="${ref}">1</f><v>1</v></c><c r="B1"><v>2</v></c></row>`,
      );
    expect(cellIn(claiming('A1:C300000'), 'B1')?.spilledFrom).toBe('A1');
    expect(() => readWorkbook(claiming('A1:XFD1048576'))).toThrow(
      'the results of the workbook’s formulas fill more than 1000000 cells',
    );
  });
});

describe('files of other programs', () => {
  test('a workbook saved by LibreOffice', () => {
    const bytes = new Uint8Array(readFileSync(join(__dirname, 'fixtures/libreoffice-saved.xlsx')));
    expect(cellIn(bytes, 'H2')).toEqual({
      address: 'H2',
      value: 0,
      formula: '=PINSET.BIOEFFICIENCY(D2,Settings!$B$1,Settings!$B$2,E2)',
      written: '=PINSET.BIOEFFICIENCY(D2,BlockMass,Settings!$B$2,E2)',
      numberFormat: '0.0%',
    });
    expect(cellIn(bytes, 'C2')).toMatchObject({ value: 46027 });
    expect(cellIn(bytes, 'B3', 1)).toMatchObject({ formula: '=SUM(Lots!$D$2:$D$5)' });
    expect(cellIn(bytes, 'B5', 1)).toMatchObject({ formula: '=Lots!D2:D5*2', spill: 'B5:B8' });
  });

  test('a workbook written by exceljs', async () => {
    const book = new ExcelJS.Workbook();
    const sheet = book.addWorksheet('Picks');
    sheet.getCell('A1').value = new Date(Date.UTC(2026, 2, 1));
    sheet.getCell('A1').numFmt = 'yyyy-mm-dd';
    sheet.getCell('B1').value = { richText: [{ text: 'oak ' }, { text: 'logs' }] };
    sheet.getCell('C1').value = { formula: 'A1+7', result: 46089 };
    sheet.fillFormula('D1:D3', 'A1*2', [1, 2, 3]);
    const bytes = new Uint8Array(await book.xlsx.writeBuffer());
    expect(readWorkbook(bytes).sheets).toEqual([
      {
        name: 'Picks',
        cells: [
          { address: 'A1', value: 46082, numberFormat: 'yyyy-mm-dd' },
          { address: 'B1', value: 'oak logs' },
          { address: 'C1', value: 46089, formula: '=A1+7' },
          { address: 'D1', value: 1, formula: '=A1*2' },
          { address: 'D2', value: 2, formula: '=A2*2' },
          { address: 'D3', value: 3, formula: '=A3*2' },
        ],
      },
    ]);
  });
});

describe('what other programs and older versions wrote', () => {
  const changed = (bytes: Uint8Array, change: (name: string, text: string) => [string, string]): Uint8Array =>
    zipSync(
      Object.fromEntries(
        Object.entries(partsIn(bytes)).map(([name, part]) => {
          const [newName, text] = change(name, strFromU8(part));
          return [newName, strToU8(text)];
        }),
      ),
    );

  test('parts named with backslashes', () => {
    const bytes = changed(oneSheet('<row r="1"><c r="A1"><v>7</v></c></row>'), (name, text) => [
      name.replaceAll('/', '\\'),
      text.replace('Target="worksheets/', 'Target="worksheets\\'),
    ]);
    expect(cellIn(bytes, 'A1')?.value).toBe(7);
  });

  test('a sheet of old macros: the results of its steps, which are no formulas of a sheet', () => {
    const two = workbookOf({
      sheets: [
        { name: 'Macro1', data: '<sheetData><row r="1"><c r="A1"><f>A2+1</f><v>5</v></c></row></sheetData>' },
        { name: 'Lots', data: '<sheetData><row r="1"><c r="A1"><f>Macro1!A1*2</f></c></row></sheetData>' },
      ],
    });
    const bytes = changed(two, (name, text) => [
      name,
      name.endsWith('workbook.xml.rels') ? text.replace('/worksheet"', '/xlMacrosheet"') : text,
    ]);
    expect(cellIn(bytes, 'A1', 0)).toEqual({ address: 'A1', value: 5 });
    expect(cellIn(bytes, 'A1', 1)?.formula).toBe('=Macro1!A1*2');
  });

  test('an array formula without the mark of those that spill fills its own range', () => {
    const array = (mark: string): Uint8Array =>
      oneSheet(`<row r="1"><c r="A1"${mark}><f t="array" ref="A1:A2">B1:B3*2</f><v>1</v></c></row>`);
    expect(cellIn(array(''), 'A1')).toMatchObject({ spill: 'A1:A2', isFixedArray: true });
    expect(cellIn(array(' cm="1"'), 'A1')).not.toHaveProperty('isFixedArray');
  });

  test('rows hidden by hand, and by a filter of the sheet', () => {
    const rows = [1, 2, 3, 4].map((row) => `<row r="${row}"${row > 2 ? ' hidden="1"' : ''}/>`).join('');
    const filter = '<autoFilter ref="A1:B3"><filterColumn colId="0"/></autoFilter>';
    const bytes = workbookOf({
      sheets: [{ name: 'Lots', data: `<sheetData>${rows}</sheetData>${filter}` }],
    });
    expect(readWorkbook(bytes).sheets[0]!.hiddenRows).toEqual(
      new Map([
        [2, 'filter'],
        [3, 'hand'],
      ]),
    );
  });
});

test.each([
  ['a number that is none', '<c r="A1"><v>1,5</v></c>'],
  ['a shared text that is missing', '<c r="A1" t="s"><v>9</v></c>'],
  ['a date that is none', '<c r="A1" t="d"><v>2026-02-32</v></c>'],
  ['a day that the calendar lacks', '<c r="A1" t="d"><v>2026-02-30</v></c>'],
])('%s loses its cell and not the book', (_what, cell) => {
  const bytes = oneSheet(`<row r="1">${cell}<c r="B1"><v>2</v></c></row>`);
  expect(cellIn(bytes, 'A1')?.value).toHaveProperty('reason', expect.stringMatching(/in A1 cannot be read$/));
  expect(cellIn(bytes, 'B1')?.value).toBe(2);
});

describe('a file that is no sound workbook is refused in one sentence', () => {
  const sound = oneSheet('<row r="1"><c r="A1"><v>1</v></c></row>');
  const withPart = (name: string, text: string): Uint8Array =>
    zipSync({ ...partsIn(sound), [name]: strToU8(text) });
  const compound = Uint8Array.from([0xd0, 0xcf, 0x11, 0xe0, 0xa1, 0xb1, 0x1a, 0xe1, 0, 0]);
  const encrypted = Uint8Array.from([...compound, ...Buffer.from('EncryptedPackage', 'utf16le')]);
  const changedByte = sound.slice();
  const at = Buffer.from(changedByte).lastIndexOf('xl/worksheets/sheet1.xml', 0x7fffffff);
  changedByte[Buffer.from(changedByte).indexOf('xl/worksheets/sheet1.xml') + 30]! ^= 0xff;

  const files: [string, Uint8Array, RegExp][] = [
    ['an empty file', new Uint8Array(), /^the file is empty$/],
    ['text', strToU8('Lot;Strain\n1;Alder-3\n'), /^this is not an .xlsx workbook$/],
    ['a zip of something else', zipSync({ 'a.txt': strToU8('a') }), /^this is not an .xlsx workbook$/],
    ['an older Office file', compound, /older kind of Office file: save it as .xlsx first$/],
    ['one with a password', encrypted, /protected by a password/],
    ['one cut in half', sound.slice(0, sound.length / 2), /^the file is damaged: /],
    ['one without its end', sound.slice(0, at + 10), /^the file is damaged: /],
    ['one with a changed byte', changedByte, /^the file is damaged: its part xl\/worksheets\/sheet1.xml /],
    [
      'one with broken XML',
      withPart('xl/worksheets/sheet1.xml', '<worksheet><sheetData>'),
      /not well-formed/,
    ],
    [
      'one that declares entities',
      withPart(
        'xl/workbook.xml',
        '<!DOCTYPE a [<!ENTITY b "bb"><!ENTITY c "&b;&b;">]><workbook>&c;</workbook>',
      ),
      /a document type declaration/,
    ],
    [
      'one with a missing sheet',
      zipSync({ ...partsIn(sound), 'xl/worksheets/sheet1.xml': [new Uint8Array(), {}] }),
      /damaged/,
    ],
    [
      'a cell beyond the sheet',
      oneSheet('<row r="1"><c r="XFE1"><v>1</v></c></row>'),
      /no place on the sheet$/,
    ],
  ];
  test.each(files)('%s', (_, bytes, message) => {
    expect(() => readWorkbook(bytes)).toThrow(WorkbookFileError);
    expect(() => readWorkbook(bytes)).toThrow(message);
  });

  test('a part that unfolds beyond what its entry promises stops there', () => {
    const bomb = zipSync({ ...partsIn(sound), 'xl/worksheets/sheet1.xml': strToU8(' '.repeat(50_000_000)) });
    const view = new DataView(bomb.buffer);
    const directory = Buffer.from(bomb).lastIndexOf('xl/worksheets/sheet1.xml') - 46;
    expect(view.getUint32(directory + 24, true)).toBe(50_000_000);
    view.setUint32(directory + 24, 1000, true);
    expect(() => readWorkbook(bomb)).toThrow('does not match its checksum');
    view.setUint32(directory + 24, 0xf0000000, true);
    expect(() => readWorkbook(bomb)).toThrow('unfolds to more than a workbook can hold');
  });
});

test('whatever happens to the text of a part, it is read or refused, never a crash', () => {
  const original = partsIn(new Uint8Array(readFileSync(join(__dirname, 'fixtures/libreoffice-saved.xlsx'))));
  const parts = Object.keys(original).filter((name) =>
    /^(xl\/(workbook|styles|sharedStrings|tables|worksheets)|\[|_rels)/.test(name),
  );
  const junk = fc.constantFrom(
    '',
    '0',
    '"',
    '-1',
    'A',
    '<c/>',
    '<f/>',
    '<v>x</v>',
    '</row>',
    '<row r="9"/>',
    '&amp;',
    '&x;',
    'si="0"',
    '!',
    '[',
    "'",
    '#',
  );
  fc.assert(
    fc.property(
      fc.constantFrom(...parts),
      fc.double({ min: 0, max: 1, noNaN: true, maxExcluded: true }),
      fc.nat(30),
      junk,
      (part, place, length, text) => {
        const xml = strFromU8(original[part]!);
        const at = Math.floor(place * xml.length);
        const changed = xml.slice(0, at) + text + xml.slice(at + length);
        const bytes = zipSync({ ...original, [part]: strToU8(changed) }, { level: 0 });
        expect(outcome(() => readWorkbook(bytes))).toMatch(/^(read|refused)$/);
        const change = { sheet: 'Lots', address: 'L2', formula: '=PINSET.MIX(A1)', values: [[1], [2]] };
        expect(outcome(() => patchWorkbook(bytes, [change]))).toMatch(/^(read|refused)$/);
      },
    ),
    { numRuns: 200, seed: 1 },
  );
});

function outcome(use: () => unknown): string {
  try {
    use();
    return 'read';
  } catch (fault) {
    return fault instanceof WorkbookFileError ? 'refused' : String(fault);
  }
}
