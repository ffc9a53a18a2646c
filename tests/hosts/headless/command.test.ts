import { execFileSync, spawnSync } from 'node:child_process';
import {
  chmodSync,
  copyFileSync,
  linkSync,
  lstatSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { zipSync } from 'fflate';
import { run } from '../../../src/hosts/headless/command';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { catalogue } from '../../../src/worksheet/catalogue';
import { partsIn, table, textIn, workbookOf } from '../xlsx/packages';

const LIBREOFFICE = join(__dirname, '../xlsx/fixtures/libreoffice-saved.xlsx');
const folder = mkdtempSync(join(tmpdir(), 'pinset-'));
afterAll(() => rmSync(folder, { recursive: true }));

const at = (name: string): string => join(folder, name);

function fileOf(name: string, bytes: Uint8Array | string): string {
  writeFileSync(at(name), bytes);
  return at(name);
}

async function pinset(...words: string[]) {
  const [out, error]: [string[], string[]] = [[], []];
  const status = await run(words, {
    out: (line) => void out.push(line),
    error: (line) => void error.push(line),
  });
  return { status, out, error };
}

const jsonOf = (lines: readonly string[]): Record<string, unknown>[] =>
  lines.map((line) => JSON.parse(line) as Record<string, unknown>);

const sheet = (rows: string): Uint8Array =>
  workbookOf({ sheets: [{ name: 'Picks', data: `<sheetData>${rows}</sheetData>` }] });

describe('calc prints the value of one formula', () => {
  // Biological efficiency: 1.2 kg from 4.5 kg at 60% moisture is 1.2 / 1.8.
  const values: [string, string[]][] = [
    ['=PINSET.BIOEFFICIENCY(1.2,4.5,60%)', ['0.666666666666667']],
    ['PINSET.BIOEFFICIENCY(1.2, 4.5, 0.6)*100', ['66.6666666666667']],
    ['=pinset.bioefficiency(1.2,4.5,60%)', ['0.666666666666667']],
    ['=_xldudf_PINSET_BIOEFFICIENCY(1.2,4.5,60%)', ['0.666666666666667']],
    ['=PINSET.BIOEFFICIENCY({24;0;9},2.5,60%,{30;40;9})', ['0.8', '', '1']],
    ['=SUM({1,2;3,4})', ['10']],
    ['={1,"a";TRUE,0.1}', ['1\ta', 'TRUE\t0.1']],
    ['=0.1+0.2', ['0.3']],
    ['-3%', ['-0.03']],
    ["'=1+1'", ['2']],
    ['="tab\there"', ['tab here']],
    ['=PINSET.PICKDATE(46000,"Alder-3",{"strain","first pick";"Alder-3",9})', ['2025-12-18']],
  ];
  test.each(values)('%s', async (formula, lines) => {
    expect(await pinset('calc', formula)).toEqual({ status: 0, out: lines, error: [] });
  });

  test('as JSON where asked', async () => {
    const { out } = await pinset('calc', '=PINSET.BIOEFFICIENCY({24;-1},2.5,60%,30)', '--json');
    expect(jsonOf(out)).toEqual([
      {
        formula: '=PINSET.BIOEFFICIENCY({24;-1},2.5,60%,30)',
        values: [[0.8], ['#VALUE!']],
        error: '#VALUE!',
        reason: 'fresh must be a mass above 0, or the word none; it is -1 (row 2 of the column)',
      },
    ]);
  });

  test('a fault goes to standard error with its reason, status 1', async () => {
    expect(await pinset('calc', '=PINSET.BIOEFFICIENCY(1.2,4.5,60)')).toEqual({
      status: 1,
      out: [],
      error: [
        '#VALUE! moisture must be a percentage from 5% to below 100%; it is 60 – for 60% write 60% or 0.6',
      ],
    });
  });

  test('the faults of single rows do not spoil the others', async () => {
    const { status, out, error } = await pinset('calc', '=PINSET.BIOEFFICIENCY({24;-1;12},2.5,60%,30)');
    expect({ status, out }).toEqual({ status: 1, out: ['0.8', '#VALUE!', '0.4'] });
    expect(error).toEqual([
      '#VALUE! fresh must be a mass above 0, or the word none; it is -1 (row 2 of the column)',
    ]);
  });

  test.each([
    ['=PINSET.BIOEFFICIENCY(FROBNICATE(1),4.5,60%)', 'FROBNICATE'],
    ['=PINSET.BIOEFICIENCY(1.2,4.5,60%)', 'PINSET.BIOEFICIENCY (did you mean PINSET.BIOEFFICIENCY?)'],
    ['=READYDATE(1)', 'READYDATE (did you mean PINSET.READYDATE?)'],
    ['=PINSET.FROBNICATE(1)', 'PINSET.FROBNICATE (no function of Pinset)'],
    ['=PINSET.VPD(PINSET.VPD({1,2},3),4,5,6,7,8)', 'PINSET.VPD with 6 arguments (it takes 4)'],
    ['=STOCKHISTORY("x",1)', 'STOCKHISTORY'],
  ])('what nobody knows is named, not guessed: %s', async (formula, lacking) => {
    expect(await pinset('calc', formula)).toEqual({
      status: 1,
      out: [],
      error: [`#NAME? this formula needs ${lacking}, which the calculation here lacks`],
    });
  });

  test.each([
    ['=SUM(1;2)', 'commas needed between arguments, got ;'],
    ['=SUM((1,2)', ') needed at the end of the formula'],
    ['=SUM(1,2))', 'one ) too many in the formula'],
    ['=SUM({1,2)', 'one ) too many in the formula'],
    ['="shiitake', 'a closing quotation mark needed behind "shiitake'],
    [
      '=Lots!B2*2',
      'Lots!B2 is a cell or a name of a workbook, and calc has none: write the value itself, or use recalc',
    ],
  ])('what cannot be calculated by itself is refused: %s', async (formula, sentence) => {
    expect(await pinset('calc', formula)).toEqual({ status: 2, out: [], error: [`pinset: ${sentence}`] });
  });

  test.each([[[]], [['=1', '=2']], [['']], [['=1', '--loud']]])('words it cannot take: %j', async (words) => {
    const { status, out, error } = await pinset('calc', ...words);
    expect({ status, out }).toEqual({ status: 2, out: [] });
    expect(error).toHaveLength(1);
  });
});

describe('recalc calculates a workbook made elsewhere', () => {
  test('one saved by LibreOffice: a line per Pinset formula, status 1 for the one that faults', async () => {
    expect(await pinset('recalc', LIBREOFFICE)).toEqual({
      status: 1,
      error: [],
      // Fresh over blocks × 2.5 kg × 0.4: 24.5/30, 18.2/25, nothing picked, 31/35.
      out: [
        'Lots!H2\t=PINSET.BIOEFFICIENCY(D2,BlockMass,Settings!$B$2,E2)\t0.816666666666667',
        'Lots!H3\t=PINSET.BIOEFFICIENCY(D3,BlockMass,Settings!$B$2,E3)\t0.728',
        'Lots!H4\t=PINSET.BIOEFFICIENCY(D4,BlockMass,Settings!$B$2,E4)\t',
        'Lots!H5\t=PINSET.BIOEFFICIENCY(D5,BlockMass,Settings!$B$2,E5)\t0.885714285714286',
        'Spill!A1\t=PINSET.BIOEFFICIENCY(Lots!D2:D5,BlockMass,60%,Lots!E2:E5)\t4 × 1: 0.816666666666667',
        'Spill!C1\t=PINSET.BIOEFFICIENCY(Lots!D2,BlockMass,60)\t#VALUE! moisture must be a percentage from 5% to below 100%; it is 60 – for 60% write 60% or 0.6',
      ],
    });
  });

  test('--json: one object per formula, the whole of a spilled block', async () => {
    const { out } = await pinset('recalc', LIBREOFFICE, '--json');
    const objects = jsonOf(out);
    expect(objects[0]).toEqual({
      sheet: 'Lots',
      cell: 'H2',
      formula: '=PINSET.BIOEFFICIENCY(D2,BlockMass,Settings!$B$2,E2)',
      value: 24.5 / 30,
    });
    expect(objects[4]).toMatchObject({
      sheet: 'Spill',
      cell: 'A1',
      values: [[24.5 / 30], [0.728], [''], [31 / 35]],
    });
    expect(objects[5]).toMatchObject({
      cell: 'C1',
      error: '#VALUE!',
      reason: expect.stringContaining('moisture must be '),
    });
  });

  test('--out: Excel can calculate it, every result is new, every other part is as it was', async () => {
    const { status } = await pinset('recalc', LIBREOFFICE, '--out', at('out.xlsx'));
    expect(status).toBe(1);
    const [before, after] = [readFileSync(LIBREOFFICE), readFileSync(at('out.xlsx'))].map((file) =>
      partsIn(file),
    );
    const touched = [
      'xl/worksheets/sheet1.xml',
      'xl/worksheets/sheet2.xml',
      'xl/worksheets/sheet3.xml',
      '[Content_Types].xml',
      'xl/_rels/workbook.xml.rels',
    ];
    expect(Object.keys(after!)).toEqual([...Object.keys(before!), 'xl/metadata.xml']);
    for (const [name, bytes] of Object.entries(before!)) {
      expect([name, Buffer.compare(bytes, after![name]!) !== 0]).toEqual([name, touched.includes(name)]);
    }
    const third = textIn(readFileSync(at('out.xlsx')), 'xl/worksheets/sheet3.xml');
    expect(third).toContain(
      '<f t="array" ref="A1:A4">_xldudf_PINSET_BIOEFFICIENCY(Lots!D2:D5,BlockMass,60%,Lots!E2:E5)</f>',
    );
    const { sheets } = readWorkbook(readFileSync(at('out.xlsx')));
    const value = (name: string, address: string): unknown =>
      sheets.find((one) => one.name === name)!.cells.find((cell) => cell.address === address)?.value;
    expect(value('Spill', 'A4')).toBe(31 / 35);
    expect(value('Spill', 'A9')).toBe('note below');
    expect(value('Lots', 'F2')).toBe(24.5 / 30);
    expect(value('Lots', 'I2')).toBe('Alder-3 / 2026-01-05');
    expect(value('Lots', 'I3')).toBe('not picked');
    expect(value('Settings', 'B3')).toBe(73.7);
    expect(value('Settings', 'B8')).toBe(62);
  });

  // ISO/IEC 29500-2, 6.2.2.3: part names that differ in case alone are one.
  test.each([[['--out']], [['--values', '--out']]])(
    '%j: sheets and styles written in other letter case than they are called by get the new results',
    async (words) => {
      const parts = Object.entries(partsIn(readFileSync(LIBREOFFICE)));
      const file = fileOf(
        'case.xlsx',
        zipSync(
          Object.fromEntries(
            parts.map(([name, data]) => [/sheet\d|styles/.test(name) ? name.toUpperCase() : name, data]),
          ),
        ),
      );
      expect((await pinset('recalc', file, ...words, at('case-out.xlsx'))).status).toBe(1);
      const { sheets } = readWorkbook(readFileSync(at('case-out.xlsx')));
      const spill = sheets.find(({ name }) => name === 'Spill')!.cells;
      expect(spill.find(({ address }) => address === 'A4')?.value).toBe(31 / 35);
      expect(textIn(readFileSync(at('case-out.xlsx')), 'XL/WORKSHEETS/SHEET1.XML')).toContain(
        `<v>${24.5 / 30}</v>`,
      );
    },
  );

  test('a second recalculation changes nothing', async () => {
    await pinset('recalc', LIBREOFFICE, '--out', at('once.xlsx'));
    await pinset('recalc', at('once.xlsx'), '--out', at('twice.xlsx'));
    expect(partsIn(readFileSync(at('twice.xlsx')))).toEqual(partsIn(readFileSync(at('once.xlsx'))));
  });

  test('--values: results in place of Pinset’s formulas, all other formulas stay', async () => {
    await pinset('recalc', LIBREOFFICE, '--values', '--out', at('values.xlsx'));
    const { sheets } = readWorkbook(readFileSync(at('values.xlsx')));
    const cells = sheets.flatMap((one) => one.cells.map((cell) => ({ ...cell, sheet: one.name })));
    const formulas = cells.filter(({ formula }) => formula !== undefined).map(({ address }) => address);
    expect(formulas).toEqual(['F2', 'I2', 'F3', 'I3', 'F4', 'I4', 'F5', 'I5', 'B3', 'B5', 'D1']);
    expect(cells.find(({ sheet: name, address }) => name === 'Spill' && address === 'A2')?.value).toBe(0.728);
    expect(Object.keys(partsIn(readFileSync(at('values.xlsx'))))).not.toContain('xl/metadata.xml');
  });

  test('--values: a formula that took a spill as a whole takes its range', async () => {
    const file = fileOf(
      'spill.xlsx',
      sheet(
        '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A2">_xldudf_PINSET_BIOEFFICIENCY({1;2},2.5,60%,10)</f><v>0</v></c>' +
          '<c r="B1"><f>SUM(_xlfn.ANCHORARRAY(A1),_xlfn.ANCHORARRAY($D$1))</f></c>' +
          '<c r="D1" cm="1"><f t="array" ref="D1">_xlfn.SEQUENCE(2)</f><v>0</v></c></row>',
      ),
    );
    await pinset('recalc', file, '--changed', '--values', '--out', at('spill-values.xlsx'));
    const text = textIn(readFileSync(at('spill-values.xlsx')), 'xl/worksheets/sheet1.xml');
    expect(text).toContain('SUM(A1:A2,_xlfn.ANCHORARRAY($D$1))</f><v>3.3</v>');
    expect(text).toContain('<f t="array" ref="D1:D2">_xlfn.SEQUENCE(2)</f>');
  });

  test('one written by exceljs: tables, sheets with spaces, a fault in one row of a column', async () => {
    const book = new ExcelJS.Workbook();
    const lots = book.addWorksheet('Lots 2026');
    lots.addTable({
      name: 'Lots',
      ref: 'A1',
      headerRow: true,
      columns: [{ name: 'Fresh' }, { name: 'Blocks' }],
      rows: [
        [24, 30],
        ['some', 40],
        [12, 30],
      ],
    });
    lots.getCell('D2').value = {
      formula: '_xldudf_PINSET_BIOEFFICIENCY(Lots[Fresh],2.5,60%,Lots[Blocks])',
      shareType: 'array',
      ref: 'D2:D4',
      result: 0,
    } as never;
    const file = fileOf('exceljs.xlsx', new Uint8Array(await book.xlsx.writeBuffer()));
    const { status, out } = await pinset('recalc', file);
    expect({ status, out }).toEqual({
      status: 1,
      out: [
        "'Lots 2026'!D2\t=PINSET.BIOEFFICIENCY(Lots[Fresh],2.5,60%,Lots[Blocks])\t3 × 1: 0.8\t" +
          '1 of 3 rows faults: D3: #VALUE! fresh must be a mass above 0, or the word none; it is "some"',
      ],
    });
    const [object] = jsonOf((await pinset('recalc', file, '--json')).out);
    expect(object).toMatchObject({
      values: [[0.8], ['#VALUE!'], [0.4]],
      error: '#VALUE!',
      faults: [{ cell: 'D3', error: '#VALUE!' }],
    });
  });

  test('dates read as dates, in the text and in the file of values', async () => {
    const file = fileOf(
      'dates.xlsx',
      workbookOf({
        sheets: [
          {
            name: 'Lots',
            data:
              '<sheetData><row r="1"><c r="A1" t="str"><v>strain</v></c><c r="B1" t="str"><v>first pick</v></c></row>' +
              '<row r="2"><c r="A2" t="str"><v>Alder-3</v></c><c r="B2"><v>9</v></c></row>' +
              '<row r="3"><c r="A3" cm="1"><f t="array" ref="A3">_xldudf_PINSET_PICKDATE(46000,"Alder-3",Strains[#All])</f></c></row></sheetData>',
            tables: [table('Strains', 'A1:B2', ['strain', 'first pick'])],
          },
        ],
        styles:
          '<styleSheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><cellXfs count="1"><xf/></cellXfs></styleSheet>',
      }),
    );
    const { status, out } = await pinset('recalc', file, '--out', at('dated.xlsx'), '--values');
    expect({ status, out }).toEqual({
      status: 0,
      out: ['Lots!A3\t=PINSET.PICKDATE(46000,"Alder-3",Strains[#All])\t2025-12-18'],
    });
    expect(readWorkbook(readFileSync(at('dated.xlsx'))).sheets[0]!.cells.at(-1)).toEqual({
      address: 'A3',
      value: 46009,
      numberFormat: 'yyyy-mm-dd',
    });
  });

  test('a built-in nobody has here keeps its stored result, and the report says so', async () => {
    const row =
      '<row r="1"><c r="A1"><f>_xlfn.STOCKHISTORY("x",2)</f><v>6</v></c>' +
      '<c r="B1"><f>PINSET.BIOEFFICIENCY(A1,2.5,60%,10)</f><v>0</v></c></row>';
    const file = fileOf('let.xlsx', sheet(row));
    const { status, out, error } = await pinset('recalc', file, '--out', at('let-out.xlsx'));
    expect({ status, out }).toEqual({
      status: 0,
      out: [
        'Picks!B1\t=PINSET.BIOEFFICIENCY(A1,2.5,60%,10)\t0.6\tdepends on Picks!A1, which keeps its stored result',
      ],
    });
    expect(error).toEqual([
      '1 of 2 formulas keeps its stored result:',
      '  1 × STOCKHISTORY, which the calculation here lacks: Picks!A1',
      '1 formula depends on them:',
      "  Picks!B1 depends on Picks!A1, which is not calculated here: the file's own result is kept",
    ]);
    expect(textIn(readFileSync(at('let-out.xlsx')), 'xl/worksheets/sheet1.xml')).toContain(
      '<c r="A1"><f>_xlfn.STOCKHISTORY("x",2)</f><v>6</v></c>',
    );
  });

  test('a what-if table keeps its stored results, and what reads any cell of it says so', async () => {
    const rows =
      '<row r="3"><c r="B3"><f t="dataTable" ref="B3:B4" dt2D="0" dtr="0" r1="A1"/><v>10</v></c></row>' +
      '<row r="4"><c r="B4"><v>20</v></c><c r="C4"><f>B4*2</f><v>40</v></c></row>';
    const file = fileOf('what-if.xlsx', sheet(rows));
    const { error } = await pinset('recalc', file, '--out', at('what-if-out.xlsx'));
    expect(error).toEqual([
      'This workbook has no Pinset formulas; its 2 formulas are built-in.',
      '1 of 2 formulas keeps its stored result:',
      '  1 × a what-if data table, which the calculation here lacks: Picks!B3',
      '1 formula depends on them:',
      "  Picks!C4 depends on Picks!B3, which is not calculated here: the file's own result is kept",
    ]);
    expect(textIn(readFileSync(at('what-if-out.xlsx')), 'xl/worksheets/sheet1.xml')).toContain(rows);
  });

  test('a Pinset formula that cannot be calculated is told, ends with status 1, and is never made a constant', async () => {
    const file = fileOf(
      'reaches.xlsx',
      sheet('<row r="1"><c r="A1"><f>PINSET.BIOEFFICIENCY(1.2,[1]Prices!$A$1,60%)</f><v>0.5</v></c></row>'),
    );
    const { status, out } = await pinset('recalc', file, '--out', at('values.xlsx'), '--values');
    expect(status).toBe(1);
    expect(out).toEqual([
      expect.stringMatching(/^Picks!A1\t.*not calculated, the file's own result is kept: another workbook/),
    ]);
    expect(textIn(readFileSync(at('values.xlsx')), 'xl/worksheets/sheet1.xml')).toContain('BIOEFFICIENCY(');
  });

  test('a chain of 20,000 names keeps the stored result of what uses it, and the other cells their answers', async () => {
    const names = Array.from(
      { length: 20_000 },
      (_, n) => `<definedName name="link_${n}">link_${n + 1}+1</definedName>`,
    );
    const data =
      '<row r="1"><c r="A1"><f>link_0</f><v>9</v></c><c r="B1"><f>PINSET.MIXRATIO(1,0.1,0.45,0.003)</f></c></row>';
    const bytes = workbookOf({
      sheets: [{ name: 'Picks', data: `<sheetData>${data}</sheetData>` }],
      names: names.join(''),
    });
    const { status, out, error } = await pinset('recalc', fileOf('chain.xlsx', bytes));
    expect({ status, out }).toEqual({ status: 0, out: [expect.stringMatching(/\t150$/)] });
    expect(error.join()).toMatch(/the name link_\d+, which is nested too deeply.*Picks!A1/);
  });

  test('a formula without any result is said to have none', async () => {
    const file = fileOf(
      'without.xlsx',
      sheet('<row r="1"><c r="A1"><f>PINSET.BIOEFICIENCY(1,2)</f></c></row>'),
    );
    const { status, out, error } = await pinset('recalc', file);
    expect([status, error[0]]).toEqual([1, '1 of 1 formulas has no result, here or in the file:']);
    expect(out).toEqual([expect.stringMatching(/did you mean PINSET\.BIOEFFICIENCY\?.*stores no result$/)]);
  });

  test('a formula that reaches into another workbook keeps its stored result', async () => {
    const file = fileOf('away.xlsx', sheet('<row r="1"><c r="A1"><f>[1]Sheet1!A1</f><v>6</v></c></row>'));
    const { status, out, error } = await pinset('recalc', file);
    expect({ status, out }).toEqual({ status: 0, out: [] });
    expect(error).toEqual([
      'This workbook has no Pinset formulas; its one formula is built-in.',
      '1 of 1 formulas keeps its stored result:',
      '  1 × another workbook ([1]Sheet1!A1), which the calculation here lacks: Picks!A1',
    ]);
  });
});

describe('a file that cannot be read, or a place that cannot be written, costs nothing', () => {
  const sound = sheet('<row r="1"><c r="A1"><f>1+1</f><v>1</v></c></row>');
  const encrypted = Buffer.concat([
    Buffer.from('d0cf11e0a1b11ae1', 'hex'),
    Buffer.from('EncryptedPackage', 'utf16le'),
  ]);
  const bad: [string, Uint8Array | string, RegExp][] = [
    ['empty.xlsx', '', /the file is empty$/],
    ['text.xlsx', 'Lot;Strain', /this is not an .xlsx workbook$/],
    ['cut.xlsx', sound.slice(0, 400), /the file is damaged/],
    ['password.xlsx', encrypted, /protected by a password/],
  ];
  test.each(bad)('%s', async (name, bytes, message) => {
    const file = fileOf(name, bytes);
    const target = fileOf('standing.xlsx', 'as it was');
    const { status, out, error } = await pinset('recalc', file, '--out', target);
    expect({ status, out }).toEqual({ status: 2, out: [] });
    expect(error).toEqual([expect.stringMatching(message)]);
    expect(error[0]).toContain(file);
    expect(readFileSync(target, 'utf8')).toBe('as it was');
    expect(readFileSync(file)).toEqual(Buffer.from(bytes));
  });

  test('no file, a folder as file, a folder as target, a target in no folder', async () => {
    const file = fileOf('sound.xlsx', sound);
    mkdirSync(at('folder'), { recursive: true });
    const asked = [
      [at('none.xlsx')],
      [at('folder')],
      [file, '--out', at('folder')],
      [file, '--out', join(at('nowhere'), 'a.xlsx')],
      [file, '--values'],
      [file, file],
      [],
    ];
    for (const words of asked) {
      const { status, out, error } = await pinset('recalc', ...words);
      expect([words, status, out, error.length]).toEqual([words, 2, [], 1]);
    }
    expect(readdirSync(folder).filter((name) => name.startsWith('.'))).toEqual([]);
  });

  test.each([0o600, 0o640])('--out keeps the mode %p of the file it takes the place of', async (mode) => {
    const target = fileOf('private.xlsx', 'as it was');
    chmodSync(target, mode);
    expect((await pinset('recalc', fileOf('sound.xlsx', sound), '--out', target)).status).toBe(0);
    expect(statSync(target).mode & 0o777).toBe(mode);
    expect(statSync(target).size).toBeGreaterThan(100);
  });

  test('--out follows a link and leaves it a link', async () => {
    const target = fileOf('far.xlsx', 'as it was');
    symlinkSync(target, at('link.xlsx'));
    expect((await pinset('recalc', fileOf('sound.xlsx', sound), '--out', at('link.xlsx'))).status).toBe(0);
    expect(lstatSync(at('link.xlsx')).isSymbolicLink()).toBe(true);
    expect(statSync(target).size).toBeGreaterThan(100);
  });

  test('--out refuses a read-only file, a pipe, a device and a link that leads nowhere', async () => {
    const readOnly = fileOf('read-only.xlsx', 'as it was');
    chmodSync(readOnly, 0o444);
    symlinkSync(at('gone.xlsx'), at('nowhere.xlsx'));
    execFileSync('mkfifo', [at('pipe.xlsx')]);
    const refused: [string, string][] = [
      [readOnly, 'this file is read-only'],
      [at('nowhere.xlsx'), 'this is a link that leads nowhere'],
      [at('pipe.xlsx'), 'this is a device or a pipe, a file to write is needed'],
      ['/dev/null', 'this is a device or a pipe, a file to write is needed'],
      // A file, where the output goes to one: its results would be lost.
      ['/dev/fd/x', 'this is a device or a pipe, a file to write is needed'],
      [at('new.xlsx/'), 'this is a folder, a file to write is needed'],
      [at('x'.repeat(300)), 'this name is too long'],
    ];
    for (const [target, why] of refused) {
      expect(await pinset('recalc', fileOf('sound.xlsx', sound), '--out', target)).toEqual({
        status: 2,
        out: [],
        error: [`pinset: ${target}: ${why}`],
      });
    }
    expect(readFileSync(readOnly, 'utf8')).toBe('as it was');
  });

  test('--out keeps the further names of a file', async () => {
    const target = fileOf('one-name.xlsx', 'as it was');
    linkSync(target, at('other-name.xlsx'));
    expect((await pinset('recalc', fileOf('sound.xlsx', sound), '--out', target)).status).toBe(0);
    expect(readFileSync(at('other-name.xlsx'))).toEqual(readFileSync(target));
    expect(statSync(target).size).toBeGreaterThan(100);
  });

  test.each([
    [['--out', ''], '--out needs the name of a file to write'],
    [['--out', at('first.xlsx'), '--out', at('second.xlsx')], '--out is given twice'],
  ])('%p is refused', async (words, why) => {
    const { status, error } = await pinset('recalc', fileOf('sound.xlsx', sound), ...words);
    expect([status, error]).toEqual([2, [`pinset: ${why}`]]);
  });

  test('a device in place of a workbook is told at once', async () => {
    const { status, error } = await pinset('recalc', '/dev/zero');
    expect([status, error]).toEqual([2, ['pinset: /dev/zero: this is a device, an .xlsx file is needed']]);
  });

  test('--out may name the file itself', async () => {
    const file = fileOf('itself.xlsx', sound);
    expect((await pinset('recalc', file, '--changed', '--out', file)).status).toBe(0);
    expect(textIn(readFileSync(file), 'xl/worksheets/sheet1.xml')).toContain('<f>1+1</f><v>2</v>');
  });
});

describe('list prints the catalogue', () => {
  test('a line per function: its call, a tab, its summary', async () => {
    const { status, out } = await pinset('list');
    expect(status).toBe(0);
    expect(out).toHaveLength(catalogue.length);
    expect(out.find((line) => line.startsWith('PINSET.BIOEFFICIENCY'))).toMatch(
      /^PINSET\.BIOEFFICIENCY\(fresh, block mass, moisture, \[blocks\]\)\tBiological efficiency: /,
    );
  });

  test('--json: an object per function', async () => {
    const objects = jsonOf((await pinset('list', '--json')).out);
    expect(objects.map(({ name }) => name)).toEqual(catalogue.map(({ name }) => `PINSET.${name}`));
    expect(objects[0]).toHaveProperty('arguments');
  });
});

describe('the command itself', () => {
  const COMMAND = join(__dirname, '../../../src/hosts/headless/pinset.js');

  test('runs from source, wherever it is called from, and file names are taken from there', () => {
    copyFileSync(LIBREOFFICE, at('here.xlsx'));
    const text = execFileSync(process.execPath, [COMMAND, 'calc', '=PINSET.BIOEFFICIENCY(1.2,4.5,60%)'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(text).toBe('0.666666666666667\n');
    const recalculated = spawnSync(process.execPath, [COMMAND, 'recalc', 'here.xlsx'], {
      cwd: folder,
      encoding: 'utf8',
    });
    expect(recalculated.status).toBe(1);
    expect(recalculated.stdout.trimEnd().split('\n')).toHaveLength(6);
  });

  test.each(['calc', 'recalc', 'list'])('%s --help tells what it takes', async (command) => {
    const { status, out, error } = await pinset(command, '--help');
    expect({ status, error }).toEqual({ status: 0, error: [] });
    expect(out[0]).toContain(`pinset ${command} `);
    expect(out[0]).toContain('Exit status: 0');
  });

  test('nothing of a file that steers a terminal goes out either', async () => {
    const steering = '\u009b31m\u202e';
    const data =
      `<row r="1"><c r="A1"><f>PINSET.BIOEFFICIENCY(1.2,4.5,60%)</f><v>0.5</v></c>` +
      `<c r="B1"><f>NOSUCH${steering}(1)</f><v>1</v></c><c r="C1"><f>B1&amp;"${steering}"</f><v>1</v></c></row>`;
    const bytes = workbookOf({
      sheets: [{ name: `Pi${steering}cks`, data: `<sheetData>${data}</sheetData>` }],
    });
    const { out, error } = await pinset('recalc', fileOf('steers.xlsx', bytes));
    expect([...out, ...error].join('\n')).not.toMatch(/[^\P{Cc}\t\n]|\u202e/u);
  });

  test('nothing that steers a terminal goes out', async () => {
    const { out } = await pinset('calc', '="Oak"&UNICHAR(155)&UNICHAR(8238)&UNICHAR(7)&"!"');
    expect(out).toEqual(['Oak!']);
  });

  test('explains itself; an unknown command is named', async () => {
    expect((await pinset('--help')).out[0]).toContain('pinset recalc FILE.xlsx');
    expect((await pinset()).status).toBe(2);
    expect(await pinset('recalculate', 'x')).toMatchObject({
      status: 2,
      error: [expect.stringContaining('recalculate')],
    });
  });
});
