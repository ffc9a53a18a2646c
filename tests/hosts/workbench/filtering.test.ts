import { describe, expect, test } from '@jest/globals';
import ExcelJS from 'exceljs';
import { EngineWorkbook } from '../../../src/hosts/engine/engineWorkbook';
import { meets, type FilteredCell } from '../../../src/hosts/engine/filters';
import {
  allShown,
  cellsOf,
  countOf,
  filterableAt,
  filtersWith,
} from '../../../src/hosts/workbench/filtering';
import { changesSince } from '../../../src/hosts/workbench/changes';
import { sortableAt, sortedEntries } from '../../../src/hosts/workbench/sorting';
import { readFilters, withFilters, type Criterion } from '../../../src/hosts/xlsx/filters';
import { withLines } from '../../../src/hosts/xlsx/lines';
import { Package } from '../../../src/hosts/xlsx/package';
import { patchWorkbook } from '../../../src/hosts/xlsx/patch';
import { readWorkbook } from '../../../src/hosts/xlsx/read';

// Filters are those of ISO/IEC 29500-1, 18.3.1.2 and 18.3.2; what SUBTOTAL and AGGREGATE pass over: 18.17.7.

const LOTS = [
  ['Oak 1', 4, new Date(Date.UTC(2026, 2, 4))],
  ['Ash 1', 2, new Date(Date.UTC(2026, 2, 9))],
  ['Oak 2', 6, new Date(Date.UTC(2026, 3, 1))],
  ['', 3, new Date(Date.UTC(2026, 3, 2))],
  ['Elm', 7, new Date(Date.UTC(2026, 3, 3))],
] as const;

/** Lots from A1, a table of strains from F1, and sums of what is shown. */
async function book(): Promise<Uint8Array> {
  const workbook = new ExcelJS.Workbook();
  const sheet = workbook.addWorksheet("Grower's lots");
  sheet.addRow(['lot', 'blocks', 'loaded']);
  for (const lot of LOTS) sheet.addRow([...lot]);
  sheet.getColumn(3).numFmt = 'd mmm yyyy';
  sheet.getRow(5).hidden = true;
  sheet.addTable({
    name: 'Strains',
    ref: 'F1',
    columns: [{ name: 'strain', filterButton: true }, { name: 'days' }],
    rows: [
      ['Oak', 30],
      ['Ash', 40],
    ],
  });
  sheet.getCell('D1').value = { formula: 'SUBTOTAL(9,B2:B6)', result: 22 };
  sheet.getCell('D2').value = { formula: 'AGGREGATE(9,5,B2:B6)', result: 19 };
  sheet.getCell('D3').value = { formula: 'D1*2', result: 44 };
  return new Uint8Array(await workbook.xlsx.writeBuffer());
}

const SHEET = "Grower's lots";

async function opened(bytes: Uint8Array) {
  const content = readWorkbook(bytes);
  const workbook = new EngineWorkbook(content, { filters: readFilters(bytes) });
  await workbook.calculateWhole();
  const at = (address: string) => filterableAt(workbook, content.vocabulary, { sheet: SHEET, address });
  const show = (address: string, criterion: Criterion | undefined) =>
    workbook.setFilters(SHEET, filtersWith(workbook, at(address), criterion));
  const own = () => workbook.filtersIn(SHEET).find(({ table }) => table === undefined);
  const save = () => withFilters(patchWorkbook(bytes, changesSince(content, workbook)), workbook.filters());
  const values = () => ['D1', 'D2', 'D3'].map((address) => workbook.result(SHEET, address).value);
  return { workbook, content, at, show, own, save, values };
}

const oaks: Criterion = { kind: 'compared', both: false, with: [{ is: 'equal', than: '*oak*' }] };

test('a filter hides the rows that do not meet it, sums of what is shown follow, and undo takes it back', async () => {
  const { workbook, show, own, values } = await opened(await book());
  expect(values()).toEqual([22, 19, 44]);
  show('A3', oaks);
  expect(own()).toMatchObject({ area: { top: 0, left: 0, bottom: 5, right: 3 }, hidden: [2, 4, 5] });
  expect(countOf(workbook.filtersIn(SHEET))).toEqual({ shown: 2, all: 5 });
  expect(values()).toEqual([10, 10, 20]);
  workbook.model.dispatch('REQUEST_UNDO');
  expect(values()).toEqual([22, 19, 44]);
  expect(countOf(workbook.filtersIn(SHEET))).toBeUndefined();
  workbook.model.dispatch('REQUEST_REDO');
  expect(values()).toEqual([10, 10, 20]);
});

test('criteria on two columns both hold, and one is taken away alone', async () => {
  const { workbook, show, own, at } = await opened(await book());
  show('A3', oaks);
  show('B3', { kind: 'compared', both: true, with: [{ is: 'greaterThanOrEqual', than: '5' }] });
  expect(own()!.hidden).toEqual([1, 2, 4, 5]);
  // What can be chosen of a column is what the others let through.
  expect(cellsOf(workbook, at('B3')).map(({ cell }) => cell.value)).toEqual([4, 6]);
  show('A3', undefined);
  expect(own()!.hidden).toEqual([1, 2, 4]);
});

describe('a saved filter', () => {
  const days: Criterion = { kind: 'values', texts: [], days: ['2026-03-09', '2026-04-03'], blanks: false };

  test('is in the file as other programs write it, and is there again when it is opened', async () => {
    const bytes = await book();
    const { show, save } = await opened(bytes);
    show('C2', days);
    const saved = save();
    const text = Package.open(saved).text('xl/worksheets/sheet1.xml');
    expect(text).toContain(
      '<autoFilter ref="A1:D6"><filterColumn colId="2"><filters>' +
        '<dateGroupItem year="2026" month="3" day="9" dateTimeGrouping="day"/>' +
        '<dateGroupItem year="2026" month="4" day="3" dateTimeGrouping="day"/></filters></filterColumn></autoFilter>',
    );
    const library = new ExcelJS.Workbook();
    await library.xlsx.load(saved as unknown as Parameters<typeof library.xlsx.load>[0]);
    const sheet = library.getWorksheet(SHEET)!;
    expect([2, 3, 4, 5, 6].map((row) => sheet.getRow(row).hidden)).toEqual([true, false, true, true, false]);
    expect(Package.open(saved).text('xl/workbook.xml')).toContain(
      `<definedName name="_xlnm._FilterDatabase" localSheetId="0" hidden="1">'Grower''s lots'!$A$1:$D$6</definedName>`,
    );
    const again = await opened(saved);
    expect(again.workbook.filtersIn(SHEET)[0]).toMatchObject({ columns: [{ column: 2, criterion: days }] });
    expect(again.workbook.filters()).toEqual([]);
    expect(again.values()).toEqual([9, 9, 18]);
    again.workbook.setFilters(SHEET, allShown(again.workbook.filtersIn(SHEET)));
    const shown = withFilters(saved, again.workbook.filters());
    expect(Package.open(shown).text('xl/worksheets/sheet1.xml')).toContain('<autoFilter ref="A1:D6"/>');
    expect(readWorkbook(shown).sheets[0]!.hiddenRows).toBeUndefined();
  });

  test('of a table is in its part, and a row that was hidden by hand stays hidden', async () => {
    const bytes = await book();
    const { show, save } = await opened(bytes);
    show('F2', { kind: 'values', texts: ['Ash'], days: [], blanks: false });
    const saved = save();
    expect(Package.open(saved).text('xl/tables/table1.xml')).toContain(
      '<filterColumn colId="0"><filters><filter val="Ash"/></filters></filterColumn>',
    );
    expect(readWorkbook(saved).sheets[0]!.hiddenRows).toEqual(
      new Map([
        [1, 'filter'],
        [4, 'hand'],
      ]),
    );
  });

  test('goes along with columns and rows that come before it', async () => {
    const bytes = await book();
    const { show, save } = await opened(bytes);
    show('C2', days);
    const saved = save();
    const lines = { sheet: SHEET, kind: 'insert', count: 1 } as const;
    const column = readFilters(withLines(saved, { ...lines, axis: 'column', at: 1 }))[0]!.filters[0]!;
    expect(column).toMatchObject({ area: { left: 0, right: 4 }, columns: [{ column: 3 }] });
    const row = readFilters(withLines(saved, { ...lines, axis: 'row', at: 0 }))[0]!.filters[0]!;
    expect(row).toMatchObject({ area: { top: 1, bottom: 6 }, hidden: [2, 4, 5] });
    expect(() => withLines(saved, { ...lines, kind: 'delete', axis: 'column', at: 2 })).toThrow(
      'a filter hides rows by one of these columns: show all rows first',
    );
  });
});

test('rows that a filter hides stay where they are when the others are sorted', async () => {
  const { workbook, content, show } = await opened(await book());
  show('A3', oaks);
  const sortable = sortableAt(workbook, content.vocabulary, { sheet: SHEET, address: 'B2' })!;
  workbook.enterAll(sortedEntries(workbook, sortable, true));
  const lots = ['A2', 'A3', 'A4', 'A6'].map((address) => workbook.result(SHEET, address).value);
  expect(lots).toEqual(['Oak 2', 'Ash 1', 'Oak 1', 'Elm']);
});

const cell = (
  value: FilteredCell['value'],
  text = typeof value === 'object' ? '' : String(value),
  day?: string,
): FilteredCell => ({
  value,
  text,
  day,
});
const compared = (is: 'equal' | 'notEqual' | 'lessThan', than: string): Criterion => ({
  kind: 'compared',
  both: false,
  with: [{ is, than }],
});

test.each<[string, Criterion, FilteredCell, boolean]>([
  ['letters in either case', oaks, cell('Big OAK'), true],
  ['no number has a text in it', compared('equal', '*4*'), cell(4), false],
  ['a star that is meant', compared('equal', '*~**'), cell('a*b'), true],
  ['a star that is not there', compared('equal', '*~**'), cell('ab'), false],
  ['signs of patterns mean themselves', compared('equal', 'L.1'), cell('Lx1'), false],
  ['another text', compared('notEqual', 'Oak'), cell('Ash'), true],
  ['a number below', compared('lessThan', '5'), cell(4), true],
  ['a text is not below', compared('lessThan', '5'), cell('4'), false],
  ['a blank where blanks are shown', { kind: 'values', texts: [], days: [], blanks: true }, cell(null), true],
  [
    'a number as it is shown',
    { kind: 'values', texts: ['70%'], days: [], blanks: false },
    cell(0.7, '70%'),
    true,
  ],
])('%s', (_, criterion, one, isMet) => {
  expect(meets(criterion, one)).toBe(isMet);
});
