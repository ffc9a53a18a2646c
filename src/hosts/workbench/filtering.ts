import type { EngineWorkbook } from '../engine/engineWorkbook';
import { meets, type FilteredCell } from '../engine/filters';
import { addressOf, covers, placeOf, rangeOf, type Area } from '../xlsx/address';
import type { Criterion, Filter } from '../xlsx/filters';
import type { Vocabulary } from '../xlsx/formula';
import { regionAround } from './sorting';

/** A column whose rows can be filtered. */
export interface Filterable {
  readonly sheet: string;
  readonly filter: Filter;
  /** Counted from the first of the filter. */
  readonly column: number;
  /** What its header says. */
  readonly header: string;
}

/**
 * The column that can be filtered where a cell is selected: of a table, of the sheet's filter, or of the filled cells
 * around it. @throws Error in a sentence where there is none
 */
export function filterableAt(
  workbook: EngineWorkbook,
  vocabulary: Vocabulary | undefined,
  { sheet, address }: { readonly sheet: string; readonly address: string },
): Filterable {
  const place = placeOf(address)!;
  const standing = workbook.filtersIn(sheet);
  const filter =
    standing.find(({ area }) => covers(area, place)) ??
    ofTable(vocabulary, sheet, address) ??
    ofRegion(workbook, sheet, address);
  const other = standing.find((one) => one.table === filter.table && one.columns.length > 0);
  if (other && other !== standing.find(({ area }) => covers(area, place))) {
    throw new Error(
      `the sheet has a filter on ${rangeOf(other.area)}, and one is all it can have: show all its rows`,
    );
  }
  const header = workbook.shownAt(sheet, addressOf({ row: filter.area.top, column: place.column }));
  return { sheet, filter, column: place.column - filter.area.left, header };
}

function ofTable(vocabulary: Vocabulary | undefined, sheet: string, address: string): Filter | undefined {
  const table = vocabulary?.tableAt(sheet, placeOf(address)!);
  if (!table || table.headerRows !== 1) return undefined;
  const area = { ...table.area, bottom: table.area.bottom - table.totalsRows };
  return { table: table.name, area, columns: [], hidden: [] };
}

function ofRegion(workbook: EngineWorkbook, sheet: string, address: string): Filter {
  const region = regionAround(workbook, sheet, placeOf(address)!);
  if (!region || region.area.bottom === region.area.top) {
    throw new Error(
      'there are no rows to filter here: select a cell of the column that you want to filter by',
    );
  }
  return { area: region.area, columns: [], hidden: [] };
}

/** The cells of a column that the filter's other columns let through, from the first row below the header. */
export function cellsOf(
  workbook: EngineWorkbook,
  { sheet, filter, column }: Filterable,
): { readonly row: number; readonly cell: FilteredCell }[] {
  const others = filter.columns.filter((one) => one.column !== column);
  return rowsOf(filter.area)
    .filter((row) => passes(workbook, sheet, { ...filter, columns: others }, row))
    .map((row) => ({ row, cell: cellAt(workbook, sheet, filter, column, row) }));
}

/** The filters of the sheet once a column has another criterion, or none. */
export function filtersWith(
  workbook: EngineWorkbook,
  { sheet, filter, column }: Filterable,
  criterion: Criterion | undefined,
): Filter[] {
  const others = filter.columns.filter((one) => one.column !== column);
  const columns = criterion ? [...others, { column, criterion }] : others;
  const changed = { ...filter, columns };
  const hidden = rowsOf(filter.area).filter((row) => !passes(workbook, sheet, changed, row));
  return [
    ...workbook.filtersIn(sheet).filter(({ table }) => table !== filter.table),
    { ...changed, hidden: columns.length === 0 ? [] : hidden },
  ];
}

/**
 * The filters of a sheet once their criteria are applied to what the cells hold now. A table has its own
 * rows; another filter takes in filled rows right below it, as rows are typed there.
 */
export const appliedAgain = (workbook: EngineWorkbook, sheet: string): Filter[] =>
  workbook.filtersIn(sheet).map((filter) => {
    if (filter.columns.length === 0) return filter;
    const grown = {
      ...filter,
      area: filter.table === undefined ? grownDown(workbook, sheet, filter.area) : filter.area,
    };
    return { ...grown, hidden: rowsOf(grown.area).filter((row) => !passes(workbook, sheet, grown, row)) };
  });

/** A row with a formula where the row above has a figure is the total of those above. */
function grownDown(workbook: EngineWorkbook, sheet: string, area: Area): Area {
  const columns = Array.from({ length: area.right - area.left + 1 }, (_, n) => area.left + n);
  const isFilled = (row: number): boolean =>
    columns.some((column) => (workbook.result(sheet, addressOf({ row, column })).value ?? '') !== '');
  const hasFormula = (row: number, column: number): boolean =>
    workbook.formulaAt(sheet, addressOf({ row, column })) !== undefined;
  const isTotal = (row: number): boolean =>
    columns.some((column) => hasFormula(row, column) && !hasFormula(row - 1, column));
  let { bottom } = area;
  while (isFilled(bottom + 1) && !isTotal(bottom + 1)) bottom++;
  return { ...area, bottom };
}

/** Whether other rows would be shown if the filters of a sheet were applied to what its cells hold now. */
export const isOutdated = (workbook: EngineWorkbook, sheet: string): boolean =>
  JSON.stringify(appliedAgain(workbook, sheet)) !== JSON.stringify(workbook.filtersIn(sheet));

/** The filters of a sheet with all their rows shown. */
export const allShown = (filters: readonly Filter[]): Filter[] =>
  filters.map((filter) => ({ ...filter, columns: [], hidden: [] }));

/** How many rows the filters of a sheet show and have; undefined where none hides any. */
export function countOf(
  filters: readonly Filter[],
): { readonly shown: number; readonly all: number } | undefined {
  const active = filters.filter(({ columns }) => columns.length > 0);
  if (active.length === 0) return undefined;
  const all = active.reduce((sum, { area }) => sum + area.bottom - area.top, 0);
  return { all, shown: all - active.reduce((sum, { hidden }) => sum + hidden.length, 0) };
}

const rowsOf = ({ top, bottom }: Area): number[] =>
  Array.from({ length: bottom - top }, (_, n) => top + 1 + n);

/** Rows that a criterion hides which is not understood stay hidden. */
function passes(workbook: EngineWorkbook, sheet: string, filter: Filter, row: number): boolean {
  return filter.columns.every(({ column, criterion }) =>
    criterion.kind === 'other'
      ? !filter.hidden.includes(row)
      : meets(criterion, cellAt(workbook, sheet, filter, column, row)),
  );
}

const cellAt = (
  workbook: EngineWorkbook,
  sheet: string,
  { area }: Filter,
  column: number,
  row: number,
): FilteredCell => workbook.filteredCell(sheet, addressOf({ row, column: area.left + column }));
