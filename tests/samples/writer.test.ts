import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import {
  asTyped,
  calculatedColumn,
  chart,
  column,
  figures,
  formula,
  inputs,
  spilled,
  table,
  type Sheet,
  type Thing,
  type Workbook,
} from '../../src/hosts/xlsx/describe';
import { calculatedFile } from '../../sample-workbooks/calculated';
import { partOf } from './partOf';

const bookOf = (things: readonly Thing[], rest: Partial<Sheet> = {}): Workbook => ({
  file: 'trial',
  title: 'Trial',
  sheets: [{ name: 'Shed 1', title: 'Shed', notes: ['A note'], things, ...rest }],
});

const lots = table(
  'A4',
  'Lots',
  [
    column('Lot'),
    column('Made', 'date'),
    column('Fresh (kg)', 'mass'),
    column('Moisture', 'percent'),
    column('Point', 'text', ['earliest', 'best']),
    calculatedColumn('Double', 'mass', '=2*[@[Fresh (kg)]]'),
  ],
  [
    ['D1', '2026-03-01', 12, 0.6, 'best'],
    ['D2', asTyped('1 March'), 6, 0.6, 'earliest'],
    ['D3', null, null, 0.6, null],
  ],
);

const efficiency = formula(
  'H5',
  '=PINSET.BIOEFFICIENCY(Lots[Fresh (kg)], Weight, Lots[Moisture])',
  'percent',
  {
    headers: ['Efficiency'],
    growth: 3,
  },
);

const weight = inputs('A10', { label: 'Weight (kg)', value: 10, reads: 'mass', name: 'Weight' });

/** exceljs knows nothing of this writer: what it reads is there. */
async function read(workbook: Workbook): Promise<ExcelJS.Worksheet> {
  const book = new ExcelJS.Workbook();
  const bytes = await calculatedFile(workbook);
  await book.xlsx.load(bytes.buffer as ArrayBuffer);
  return book.getWorksheet(workbook.sheets[0]!.name)!;
}

describe('a workbook written from its description, read by another library', () => {
  test('holds constants with their formats: dates as serials, mistakes as the text they are', async () => {
    const sheet = await read(bookOf([lots, weight]));
    expect(sheet.getCell('A1').value).toBe('Shed');
    expect(sheet.getCell('A2').value).toBe('A note');
    expect(sheet.getCell('B5').value).toEqual(new Date(Date.UTC(2026, 2, 1)));
    expect(sheet.getCell('B5').numFmt).toBe('yyyy-mm-dd');
    expect(sheet.getCell('B6').value).toBe('1 March');
    expect(sheet.getCell('C7').value).toBeNull();
    expect(sheet.getCell('D5').value).toBe(0.6);
    expect(sheet.getCell('D5').numFmt).toBe('0.0%');
  });

  test('holds spilled results, calculated columns and named cells', async () => {
    // 12 kg from 10 kg at 60% moisture: 12 ÷ 4 = 300%; 6 kg: 150%; nothing picked: blank.
    const sheet = await read(bookOf([lots, weight, efficiency]));
    expect(sheet.getCell('H4').value).toBe('Efficiency');
    expect(sheet.getCell('H5').result).toBe(3);
    expect(sheet.getCell('H6').value).toBe(1.5);
    expect(sheet.getCell('H7').value).toBeNull();
    expect(sheet.getCell('F5').result).toBe(24);
    expect(sheet.getCell('F6').result).toBe(12);
    expect(sheet.getCell('H10').numFmt).toBe('0.0%');
  });

  test('offers the choices of a column, and keeps rows and columns in view', async () => {
    const sheet = await read(bookOf([lots], { freeze: 'B5' }));
    expect(sheet.getCell('E6').dataValidation).toMatchObject({ type: 'list', formulae: ['"earliest,best"'] });
    expect(sheet.views[0]).toMatchObject({ state: 'frozen', xSplit: 1, ySplit: 4 });
    const rows = await read(bookOf([lots], { freeze: 'A2' }));
    expect(rows.views[0]).toMatchObject({ state: 'frozen', ySplit: 1 });
    expect(rows.views[0]).not.toHaveProperty('xSplit', 1);
    const columns = await read(bookOf([lots], { freeze: 'B1' }));
    expect(columns.views[0]).toMatchObject({ state: 'frozen', xSplit: 1 });
  });

  test('says which columns go on paper, which way it lies, and which row heads each page', async () => {
    const sheet = await read(bookOf([lots], { freeze: 'A5', prints: 'A:D', upright: true }));
    expect(sheet.pageSetup).toMatchObject({
      orientation: 'portrait',
      fitToPage: true,
      printTitlesRow: '4:4',
    });
    expect(partOf(await calculatedFile(bookOf([lots], { prints: 'A:D' })), 'xl/workbook.xml')).toContain(
      `<definedName name="_xlnm.Print_Area" localSheetId="0">'Shed 1'!$A:$D</definedName>`,
    );
    expect((await read(bookOf([lots]))).pageSetup.orientation).toBe('landscape');
  });

  test('makes columns wide enough for what stands in them', async () => {
    const sheet = await read(
      bookOf([table('B4', 'Words', [column('Word')], [['abcdefghijklmnopqrstuvwxyz']])]),
    );
    expect(sheet.getColumn(2).width).toBeGreaterThan(26);
    expect(sheet.getColumn(1).width).toBeLessThan(5);
  });
});

describe('the parts a workbook is written to', () => {
  test('store an add-in formula as the array it spills to, with its record', async () => {
    const bytes = await calculatedFile(bookOf([lots, weight, efficiency]));
    expect(partOf(bytes, 'xl/worksheets/sheet1.xml')).toMatch(
      /<c r="H5" s="\d+" cm="1"><f t="array" ref="H5:H7">_xldudf_PINSET_BIOEFFICIENCY\(Lots\[Fresh \(kg\)\],/,
    );
    expect(partOf(bytes, 'xl/metadata.xml')).toContain('XLDAPR');
  });

  test('draw a chart from the cells of a spilled result, with a copy of its values', async () => {
    const drawn = chart('J4:P20', 'column', 'Efficiency', {
      says: 'Efficiency of each lot against its moisture.',
      across: 'Lots[Lot]',
      series: [{ title: 'Efficiency', values: spilled('H5') }],
      limits: [{ title: 'Moisture', values: 'Lots[Moisture]' }],
    });
    const text = partOf(
      await calculatedFile(bookOf([lots, weight, efficiency, drawn])),
      'xl/charts/chart1.xml',
    );
    expect(text).toContain("<c:f>'Shed 1'!$H$5:$H$7</c:f>");
    expect(text).toContain('<c:pt idx="1"><c:v>1.5</c:v></c:pt>');
    expect(text).toContain("<c:f>'Shed 1'!$A$5:$A$7</c:f>");
    expect(text).toContain('<c:symbol val="dash"/>');
    expect(text).toContain('<c:crossBetween val="between"/>');
  });

  test('tell a chart to those who cannot see it, and mark its points by stems from cells', async () => {
    const drawn = chart('J4:P20', 'line', 'Efficiency', {
      says: 'Efficiency of each lot; a stem marks those over their moisture.',
      across: 'Lots[Lot]',
      series: [{ title: 'Efficiency', values: spilled('H5') }],
      centre: { title: 'Moisture', values: 'Lots[Moisture]' },
      whiskers: { down: spilled('H5'), up: 'Lots[Moisture]', mark: true },
    });
    const bytes = await calculatedFile(bookOf([lots, weight, efficiency, drawn]));
    expect(partOf(bytes, 'xl/drawings/drawing1.xml')).toContain(
      'descr="Efficiency of each lot; a stem marks those over their moisture."',
    );
    const [bars] = /<c:errBars>.*?<\/c:errBars>/.exec(partOf(bytes, 'xl/charts/chart1.xml'))!;
    const reach = ['plus', 'minus'].map((side) => new RegExp(`<c:${side}>.*?<c:f>([^<]*)`).exec(bars)![1]);
    expect(reach).toEqual(["'Shed 1'!$D$5:$D$7", "'Shed 1'!$H$5:$H$7"]);
    expect(bars).toContain('<c:noEndCap val="1"/>');
  });

  test('begin a line at the axis, and write so few of many days along it that they do not touch', async () => {
    const days = table(
      'A4',
      'Days',
      [column('Day', 'date'), column('kg', 'mass')],
      Array.from({ length: 28 }, (_, i) => [`2026-02-${String(i + 1).padStart(2, '0')}`, i]),
    );
    const drawn = chart('D4:J20', 'line', 'Picked', {
      says: 'Kilograms picked on each day.',
      across: 'Days[Day]',
      series: [{ title: 'kg', values: 'Days[kg]' }],
      acrossReads: 'date',
    });
    const text = partOf(await calculatedFile(bookOf([days, drawn])), 'xl/charts/chart1.xml');
    expect(text).toContain('<c:crossBetween val="midCat"/>');
    // 28 days of 8 characters, and 7 columns of 10.
    expect(text).toContain('<c:tickLblSkip val="4"/>');
    expect(text).toContain('<c:numFmt formatCode="d mmm" sourceLinked="0"/>');
  });

  test('are the same bytes each time', async () => {
    const workbook = bookOf([lots, weight, efficiency]);
    expect(await calculatedFile(workbook)).toEqual(await calculatedFile(workbook));
  });
});

describe('a description that cannot be written is refused, with the place', () => {
  test.each<[string, readonly Thing[], string]>([
    [
      'two things in one cell',
      [lots, inputs('A6', { label: 'x', value: 1, reads: 'count' })],
      'Shed 1!A6: one thing',
    ],
    [
      'a result that spills over something',
      [lots, weight, efficiency, figures('G7', { label: 'x', formula: '=1+1', reads: 'count' })],
      'Shed 1!H7: one thing',
    ],
    [
      'a row that is too short',
      [table('A4', 'T', [column('a'), column('b')], [['x']])],
      'T, row 1: 2 values needed, got 1',
    ],
    [
      'a date in another form',
      [table('A4', 'T', [column('a', 'date')], [['1.3.2026']])],
      'Shed 1!A5: a date such as 2026-03-01',
    ],
    [
      'two tables of one name',
      [table('A4', 'T', [column('a')], [['x']]), table('C4', 'T', [column('a')], [['x']])],
      'a second table named T',
    ],
    [
      'choices from a table that is not there',
      [inputs('A4', { label: 'x', value: 1, reads: 'text', choices: 'Rooms[Room]' })],
      'no table named Rooms',
    ],
    [
      'a built-in that the engine lacks',
      [figures('A4', { label: 'x', formula: '=GROWLIGHT(1,A1:A3)', reads: 'count' })],
      'Shed 1!B4 cannot be calculated: GROWLIGHT',
    ],
  ])('%s', async (_, things, words) => {
    await expect(calculatedFile(bookOf(things))).rejects.toThrow(words);
  });
});
