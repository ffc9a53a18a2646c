import { describe, expect, test } from '@jest/globals';
import type { WorkbookData } from '@odoo/o-spreadsheet';
import ExcelJS from 'exceljs';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { appliedAgain, filterableAt, filtersWith } from '../../../src/hosts/workbench/filtering';
import { readFilters, withFilters } from '../../../src/hosts/xlsx/filters';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { withTableAreas } from '../../../src/hosts/xlsx/tableAreas';

// A row that is typed right below a table joins it: common practice of spreadsheets. Sums are checked by hand.

async function book(totalsRow = false): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet('Lots');
  sheet.addTable({
    name: 'Lots',
    ref: 'B2',
    totalsRow,
    columns: [
      { name: 'lot', filterButton: true },
      { name: 'blocks', totalsRowFunction: 'sum' },
      { name: 'twice' },
    ],
    rows: [
      ['L1', 40, { formula: 'C3*2', result: 80 }],
      ['L2', 60, { formula: 'C4*2', result: 120 }],
    ],
  });
  sheet.getCell('C4').numFmt = '0.0';
  const other = workbook.addWorksheet('Sums');
  other.getCell('A1').value = { formula: 'SUM(Lots[blocks])', result: 100 };
  other.getCell('A2').value = { formula: 'ROWS(Lots[#All])', result: 3 };
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

/** The book as the grid opens it: its looks say where its tables are. */
async function opened(bytes: Uint8Array, range = 'B2:D4', totalRow = false) {
  const content = readWorkbook(bytes);
  const config = { numberOfHeaders: 1, totalRow, hasFilters: false, styleId: 'TableStyleMedium5' };
  const looks = {
    styles: {},
    borders: {},
    namedRanges: [],
    sheets: [{ name: 'Lots', tables: [{ range, config }] }],
  } as unknown as WorkbookData;
  const workbook = new EngineWorkbook(content, { looks, filters: readFilters(bytes) });
  await workbook.calculateWhole();
  const sums = () => ['A1', 'A2'].map((address) => workbook.result('Sums', address).value);
  const area = () => workbook.vocabulary!.table('Lots')!.area;
  const saved = () =>
    patchWorkbook(withTableAreas(bytes, workbook.tablesGrown()), changesSince(content, workbook));
  return { workbook, sums, area, saved };
}

describe('a row that is typed right below a table', () => {
  test('joins it: formulas see it, calculated columns and number formats come along', async () => {
    const { workbook, sums, area, saved } = await opened(await book());
    expect(sums()).toEqual([100, 3]);
    workbook.type('Lots', 'C5', 7);
    expect(area()).toEqual({ top: 1, left: 1, bottom: 4, right: 3 });
    expect(sums()).toEqual([107, 4]);
    expect(workbook.formulaAt('Lots', 'D5')).toBe('=C5*2');
    expect(workbook.result('Lots', 'D5').value).toBe(14);
    expect(workbook.shownAt('Lots', 'C5')).toBe('7.0');
    workbook.type('Lots', 'B5', 'L3');
    workbook.type('Lots', 'C6', 3);
    expect(area().bottom).toBe(5);
    expect(sums()).toEqual([110, 5]);
    const again = readWorkbook(saved());
    expect(again.vocabulary!.table('Lots')!.area).toEqual(area());
    expect(again.sheets[0]!.cells.find(({ address }) => address === 'D6')).toMatchObject({
      formula: '=C6*2',
      value: 6,
    });
  });

  test('leaves it again when it is taken back, and comes back with redo', async () => {
    const { workbook, sums, area, saved } = await opened(await book());
    workbook.type('Lots', 'C5', 7);
    workbook.model.dispatch('REQUEST_UNDO');
    expect(area().bottom).toBe(3);
    expect(sums()).toEqual([100, 3]);
    expect(workbook.result('Lots', 'D5').value).toBe(null);
    expect(workbook.tablesGrown()).toEqual([]);
    expect(readWorkbook(saved()).vocabulary!.table('Lots')!.area.bottom).toBe(3);
    workbook.model.dispatch('REQUEST_REDO');
    expect(sums()).toEqual([107, 4]);
    expect(workbook.result('Lots', 'D5').value).toBe(14);
  });

  test('stays outside where it is a formula, as a total is, where it is not next to the table, or the row holds something', async () => {
    const { workbook, area } = await opened(await book());
    workbook.type('Lots', 'C6', 7);
    workbook.type('Lots', 'E4', 'beside');
    workbook.type('Lots', 'A5', 'beside');
    expect(area()).toEqual({ top: 1, left: 1, bottom: 3, right: 3 });
    workbook.type('Lots', 'C5', '=SUM(C3:C4)');
    workbook.type('Lots', 'B5', 'all');
    expect(area().bottom).toBe(3);
  });

  test('stays outside of a table that ends in totals', async () => {
    const { workbook, area } = await opened(await book(true), 'B2:D5', true);
    workbook.type('Lots', 'B6', 'L3');
    expect(area().bottom).toBe(4);
    expect(workbook.tablesGrown()).toEqual([]);
  });

  test('is in the filter of the table, and a saved filter is as long as its table', async () => {
    const bytes = await book();
    const { workbook } = await opened(bytes);
    const at = filterableAt(workbook, workbook.vocabulary, { sheet: 'Lots', address: 'B3' });
    const only = { kind: 'values', texts: ['L1'], days: [], blanks: false } as const;
    workbook.setFilters('Lots', filtersWith(workbook, at, only));
    workbook.type('Lots', 'B5', 'L3');
    expect(appliedAgain(workbook, 'Lots')[0]!.hidden).toEqual([3, 4]);
    const written = withFilters(withTableAreas(bytes, workbook.tablesGrown()), workbook.filters());
    expect(readFilters(written)[0]!.filters[0]!.area).toEqual({ top: 1, left: 1, bottom: 4, right: 3 });
  });
});
