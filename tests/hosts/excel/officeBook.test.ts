import { afterEach, beforeEach, describe, expect, test } from '@jest/globals';
import { cellError } from '../../../src/worksheet/cells/cell';
import { officeBook } from '../../../src/hosts/excel/officeBook';
import { fitted } from '../../../src/hosts/pane/layDown';
import { STARTERS } from '../../../src/hosts/pane/starters';
import type { PlainSheet } from '../../../src/hosts/xlsx/describe';
import { areaOf } from '../../../src/hosts/xlsx/address';
import { FakeExcel, type FakeCell } from './fakeExcel';

const book = officeBook('0.2.0', () => Promise.resolve(1900));
let excel: FakeExcel;

/** A starter as it is laid down where these tables are. */
const starter = (name: string, ...tables: readonly string[]): PlainSheet =>
  fitted(
    STARTERS.find((one) => one.name === name)!,
    {
      taken: tables,
      names: new Map(tables.map((one) => [one, one])),
      held: new Map(),
    },
  );

const scope = globalThis as { Excel?: unknown; Office?: unknown };

function open(sheets: Record<string, Record<string, FakeCell>>): void {
  excel = new FakeExcel(sheets);
  scope.Excel = excel.api;
  scope.Office = { context: { requirements: { isSetSupported: () => true } } };
}

beforeEach(() => open({ Sheet1: {} }));
afterEach(() => {
  delete scope.Excel;
  delete scope.Office;
});

describe('what the pane does through Office.js', () => {
  test('the selection is a sheet and the first selected cell', async () => {
    excel.selected = { sheet: 'Sheet1', address: 'C3:D9' };
    expect(await book.selection()).toEqual({ sheet: 'Sheet1', address: 'C3' });
  });

  test('names the cells of a block that hold something, a formula that shows nothing among them', async () => {
    open({ Sheet1: { B2: { formula: 0 }, C3: { formula: '=""', shown: '' }, E9: { formula: 'far off' } } });
    expect(await book.occupied({ sheet: 'Sheet1', address: 'B2' }, 3, 2)).toEqual(['B2', 'C3']);
  });

  test.each([
    '=HYPERLINK("http://x")',
    '<img src=x onerror=alert(1)>',
    '+1',
    '-1',
    '@SUM(A1)',
    "'quoted",
    '2026-02-02',
    '007',
  ])('writes the text %p as text', async (text) => {
    await book.write({ sheet: 'Sheet1', address: 'A1' }, { cells: [[{ value: text }]], lists: [] });
    expect(excel.sheets.get('Sheet1')!.cells.get('A1')).toEqual({ formula: `'${text}` });
  });

  test('writes a block with its formulas and formats, leaves its gaps alone and marks the version', async () => {
    open({ Sheet1: { B2: { formula: 'kept' } } });
    const block = [
      [{ value: 46055, reads: 'date' as const }, { value: true }],
      [{ value: null, formula: '=A1+1' }, { value: null }],
    ];
    await book.write({ sheet: 'Sheet1', address: 'A1' }, { cells: block, lists: [] });
    const { cells, formats } = excel.sheets.get('Sheet1')!;
    expect(Object.fromEntries(cells)).toEqual({
      A1: { formula: 46055 },
      B1: { formula: true },
      A2: { formula: '=A1+1' },
      B2: { formula: 'kept' },
    });
    expect(formats).toEqual({ A1: [['yyyy-mm-dd']] });
    expect(excel.properties.get('PinsetVersion')).toBe('0.2.0');
  });

  test('offers words and the cells of a column as lists, and asks before anything else is taken', async () => {
    await book.write(
      { sheet: 'Sheet1', address: 'A1' },
      {
        cells: [[{ value: 'first' }], [{ value: 'Alder-3' }]],
        lists: [
          { area: areaOf('A1')!, choices: ['first', 'second'] },
          { area: areaOf('A2:A4')!, choices: 'C2:C9' },
        ],
      },
    );
    const { lists, alerts } = excel.sheets.get('Sheet1')!;
    expect(lists).toEqual({
      A1: { list: { inCellDropDown: true, source: 'first,second' } },
      'A2:A4': { list: { inCellDropDown: true, source: '=$C$2:$C$9' } },
    });
    expect(alerts).toMatchObject({ A1: { style: 'Warning' }, 'A2:A4': { style: 'Warning' } });
  });

  test('gives a new sheet a name that is free', async () => {
    open({ Lots: {}, lots2: {} });
    expect(await book.addSheet('Lots')).toBe('Lots3');
    expect([...excel.sheets.keys()]).toEqual(['Lots', 'lots2', 'Lots3']);
  });

  test.each(STARTERS.map((plan) => [plan.name, plan] as const))(
    'lays the starter %s down: the table before the calls that refer to it',
    async (name, plan) => {
      const sheet = await book.layDown(starter(name));
      const { tables, cells, charts } = excel.sheets.get(sheet)!;
      const described = plan.things.flatMap((thing) => (thing.kind === 'table' ? [thing.name] : []));
      expect(tables.map((table) => table.name)).toEqual(described);
      expect(cells.get('A1')).toEqual({ formula: `'${plan.title}` });
      expect(charts).toHaveLength(name === 'Loads' || name === 'Plan' ? 1 : 0);
      const calls = excel.log.findIndex((done) => {
        const held = cells.get(/^write ([A-Z]+\d+)/.exec(done)?.[1] ?? '')?.formula;
        return typeof held === 'string' && held.includes('PINSET.');
      });
      expect(calls === -1 ? Infinity : calls).toBeGreaterThan(
        excel.log.findIndex((done) => done.startsWith('table ')),
      );
    },
  );

  test('draws the picks of each day as columns and the limit as a line, over the same days', async () => {
    const sheet = await book.layDown(starter('Loads'));
    const [chart] = excel.sheets.get(sheet)!.charts;
    expect(chart!.title.text).toBe('Picks per day against the limit');
    expect(chart!.position).toEqual(['A10', 'G26']);
    expect(chart!.series).toEqual([
      { name: 'limit', chartType: 'Line', values: 'M5:M32', across: 'K5:K32' },
      { name: 'picks per day', chartType: 'ColumnClustered', values: 'L5:L32', across: 'K5:K32' },
    ]);
  });

  test('offers the values of another table through a formula: a rule cannot name its column', async () => {
    const lots = starter('Lots', 'Strains');
    expect(excel.sheets.get(await book.layDown(lots))!.lists).toEqual({
      'B5:B8': { list: { inCellDropDown: true, source: '=INDIRECT("Strains[strain]")' } },
    });
  });

  test('types dates as the workbook counts them, and shows them as dates', async () => {
    const lots = starter('Lots');
    const in1904 = officeBook('0.2.0', () => Promise.resolve(1904));
    for (const [each, serial] of [
      [book, 46055],
      [in1904, 46055 - 1462],
    ] as const) {
      const { cells, formats } = excel.sheets.get(await each.layDown(lots))!;
      expect(cells.get('F5')).toEqual({ formula: serial });
      expect(formats).toMatchObject({ 'F5:F8': 'yyyy-mm-dd', 'I6:I505': 'yyyy-mm-dd' });
    }
  });

  test('reads every formula with what its cells show, those it spills into among them', async () => {
    const formula = '=PINSET.READYDATE(A2:A9,C2:C9,Strains[#All])';
    open({
      'My lots': {
        B2: { formula, shown: 46132, spill: 'B2:B5' },
        B3: { formula: '', shown: '#N/A' },
        // Whether Excel repeats the formula in the cells it spills into is not told.
        B4: { formula, shown: 46133 },
        B5: { formula: '', shown: '#N/A' },
        B9: { formula: '=1/0', shown: '#DIV/0!' },
        C1: { formula: 'a label' },
      },
    });
    excel.sheets.get('My lots')!.tables.push({ name: 'Lots', range: 'A1:D9' });
    excel.properties.set('PinsetVersion', '0.1.0');
    const { shown, ...contents } = await book.contents();
    expect(contents).toEqual({
      dateSystem: 1900,
      savedWith: '0.1.0',
      formulas: [
        { sheet: 'My lots', address: 'B2', formula, error: '#N/A', at: 'B3', more: 1 },
        { sheet: 'My lots', address: 'B9', formula: '=1/0', error: '#DIV/0!' },
      ],
      tables: [{ name: 'Lots', sheet: 'My lots', firstRow: 1, lastRow: 9 }],
    });
    expect(shown!.cells('my LOTS', { top: 7, left: 1, bottom: 20, right: 1 })).toEqual([
      [null],
      [cellError('#DIV/0!')],
    ]);
  });

  test('goes to a cell', async () => {
    await book.goTo({ sheet: 'Sheet1', address: 'D4' });
    expect(excel.selected).toEqual({ sheet: 'Sheet1', address: 'D4' });
  });
});

describe('a grower’s own sheets through Office.js', () => {
  test('everything is what the cells show, where they are, errors and blanks among them', async () => {
    open({
      Log: {
        B3: { formula: 'Batch' },
        C3: { formula: 'Qty' },
        B4: { formula: 'B-1' },
        C4: { formula: '=1/0', shown: '#DIV/0!' },
      },
      Blank: {},
    });
    excel.sheets.get('Log')!.formats['C4'] = '0.0';
    const { sheets, dateSystem } = await book.everything();
    expect(dateSystem).toBe(1900);
    expect(sheets.map(({ name }) => name)).toEqual(['Log', 'Blank']);
    expect(sheets[0]!.rows).toEqual([[], [], [null, 'Batch', 'Qty'], [null, 'B-1', cellError('#DIV/0!')]]);
    expect([sheets[0]!.isFormula(3, 2), sheets[0]!.isFormula(3, 1)]).toEqual([true, false]);
    expect([sheets[0]!.formatAt(3, 2), sheets[0]!.formatAt(3, 1)]).toEqual(['0.0', undefined]);
  });

  test('letters that are struck out are told cell by cell, and only where there are some', async () => {
    open({
      Log: { B3: { formula: 'Batch' }, B4: { formula: 'B-1' }, C4: { formula: 40 } },
      Picks: { A1: { formula: 'Date' } },
    });
    excel.sheets.get('Log')!.struck.add('B4');
    const { sheets } = await book.everything();
    expect(sheets[0]!.isStruck!(3, 1)).toBe(true);
    expect([sheets[0]!.isStruck!(3, 2), sheets[0]!.isStruck!(2, 1)]).toEqual([false, false]);
    expect(sheets[1]!.isStruck!(0, 0)).toBe(false);
    expect(excel.log.filter((one) => one.startsWith('looks'))).toEqual(['looks of B3:C4']);
  });

  test('a correction takes its format with it, and sheets that were added are taken away again', async () => {
    open({ Log: { D4: { formula: '3/14/26' } }, 'Ready lots': {} });
    const place = { sheet: 'Log', address: 'D4' };
    await book.change([{ place, value: 46095, format: 'yyyy-mm-dd' }]);
    const { cells, formats } = excel.sheets.get('Log')!;
    expect([cells.get('D4'), formats['D4']]).toEqual([{ formula: 46095 }, [['yyyy-mm-dd']]]);
    await book.change([{ place, value: '3/14/26', format: 'General' }]);
    expect(cells.get('D4')).toEqual({ formula: "'3/14/26" });
    await book.takeBack(['Ready lots']);
    expect([...excel.sheets.keys()]).toEqual(['Log']);
  });
});
