import { isCellError, type Cell } from '../../worksheet/cells/cell';
import { inOtherRow, shifted } from '../engine/copiedFormulas';
import type { CellEntry, EngineWorkbook } from '../engine/engineWorkbook';
import { addressOf, covers, placeOf, type Area, type Place } from '../xlsx/address';
import { dataOf, type Vocabulary } from '../xlsx/formula';

/** The rows that are sorted together: those of a table, or of the filled cells around a cell, headers apart. */
export interface Sortable {
  readonly sheet: string;
  readonly area: Area;
  /** The column that decides, by its number on the sheet. */
  readonly by: number;
}

const rank = (cell: Cell): number =>
  cell === null || cell === ''
    ? 4
    : isCellError(cell)
      ? 3
      : typeof cell === 'boolean'
        ? 2
        : typeof cell === 'string'
          ? 1
          : 0;

/** The order of rows by a column: numbers and days, texts, truths, errors; blanks last in either direction. Equal rows keep their order. */
export function orderOfRows(cells: readonly Cell[], isDescending: boolean): number[] {
  return cells
    .map((cell, at) => ({ cell, at }))
    .sort((a, b) => {
      const [left, right] = [rank(a.cell), rank(b.cell)];
      if (left === 4 || right === 4) return left - right || a.at - b.at;
      const difference = left - right || compared(a.cell, b.cell);
      return (isDescending ? -difference : difference) || a.at - b.at;
    })
    .map(({ at }) => at);
}

function compared(a: Cell, b: Cell): number {
  if (typeof a === 'string' && typeof b === 'string')
    return a.localeCompare(b, undefined, { sensitivity: 'base' });
  if (isCellError(a) || isCellError(b)) return 0;
  return Number(a) - Number(b);
}

/** What is sorted where a cell is selected; undefined where there are no two rows. */
export function sortableAt(
  workbook: EngineWorkbook,
  vocabulary: Vocabulary | undefined,
  { sheet, address }: { readonly sheet: string; readonly address: string },
): Sortable | undefined {
  const place = placeOf(address)!;
  const table = vocabulary?.tableAt(sheet, place);
  const filter = workbook.filtersIn(sheet).find(({ area }) => covers(area, place));
  const area = table
    ? dataOf(table)
    : filter
      ? { ...filter.area, top: filter.area.top + 1 }
      : withoutHeader(regionAround(workbook, sheet, place));
  return area && area.bottom > area.top ? { sheet, area, by: place.column } : undefined;
}

const withoutHeader = (region: Region | undefined): Area | undefined =>
  region && (region.hasHeader ? { ...region.area, top: region.area.top + 1 } : region.area);

export interface Region {
  readonly area: Area;
  /** Whether its first row says what is below. */
  readonly hasHeader: boolean;
}

/** Filled cells that touch one another. */
export function regionAround(
  workbook: EngineWorkbook,
  sheet: string,
  { row, column }: Place,
): Region | undefined {
  const valueAt = (r: number, c: number): Cell =>
    workbook.result(sheet, addressOf({ row: r, column: c })).value;
  const isFilled = (r: number, c: number): boolean => r >= 0 && c >= 0 && (valueAt(r, c) ?? '') !== '';
  if (!isFilled(row, column)) return undefined;
  const area = { top: row, bottom: row, left: column, right: column };
  const across = (r: number): boolean => {
    for (let c = area.left; c <= area.right; c++) if (isFilled(r, c)) return true;
    return false;
  };
  const down = (c: number): boolean => {
    for (let r = area.top; r <= area.bottom; r++) if (isFilled(r, c)) return true;
    return false;
  };
  for (let grows = true; grows;) {
    const before = JSON.stringify(area);
    while (across(area.top - 1)) area.top--;
    while (across(area.bottom + 1)) area.bottom++;
    while (down(area.left - 1)) area.left--;
    while (down(area.right + 1)) area.right++;
    grows = JSON.stringify(area) !== before;
  }
  const columns = Array.from({ length: area.right - area.left + 1 }, (_, n) => area.left + n);
  const hasHeader =
    columns.every((c) => typeof (valueAt(area.top, c) ?? '') === 'string') &&
    columns.some((c) => typeof valueAt(area.top + 1, c) === 'number');
  return { area, hasHeader };
}

/**
 * What the cells hold once their rows are sorted. A formula speaks of its own row wherever it goes, and of the same cells
 * outside; a column that says the same in each row says so afterwards. Looks stay.
 * @throws Error in a sentence where a formula fills several of the cells, keeps the file's result, or speaks of other rows
 * that are sorted
 */
export function sortedEntries(
  workbook: EngineWorkbook,
  { sheet, area, by }: Sortable,
  isDescending: boolean,
): CellEntry[] {
  const { top, bottom, left, right } = area;
  // Rows that a filter hides stay where they are.
  const rows = Array.from({ length: bottom - top + 1 }, (_, n) => top + n).filter(
    (row) => !workbook.isFiltered(sheet, row),
  );
  const keys = rows.map((row) => workbook.result(sheet, addressOf({ row, column: by })).value);
  const order = orderOfRows(keys, isDescending);
  const entries: CellEntry[] = [];
  for (let column = left; column <= right; column++) {
    const held = rows.map((row) => heldFor(workbook, sheet, { row, column }));
    const [first] = held;
    const isFilledDown =
      first?.formula !== undefined &&
      held.every(
        ({ formula }, n) =>
          formula !== undefined && shifted(formula, 0, rows[0]! - rows[n]!) === first.formula,
      );
    if (isFilledDown) continue;
    order.forEach((from, to) => {
      if (from === to) return;
      const { formula, value = null, numberFormat } = held[from]!;
      const address = addressOf({ row: rows[to]!, column });
      const moved = formula && inOtherRow(formula, sheet, { row: rows[from]!, column }, rows[to]!, area);
      entries.push(
        moved === undefined
          ? { sheet, address, value, numberFormat }
          : { sheet, address, formula: moved, numberFormat },
      );
    });
  }
  return entries;
}

function heldFor(workbook: EngineWorkbook, sheet: string, place: Place) {
  const address = addressOf(place);
  const held = workbook.heldIn(sheet, address);
  if (held === 'filled') throw new Error('the result of a formula fills several of these rows');
  const { unsupported } = workbook.result(sheet, address);
  if (unsupported !== undefined) {
    throw new Error(
      `the formula in ${address} keeps its result (${unsupported}), which it would lose elsewhere`,
    );
  }
  return held;
}
