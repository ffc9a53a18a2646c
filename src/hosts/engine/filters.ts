import {
  CorePlugin,
  coreTypes,
  invalidateEvaluationCommands,
  registries,
  type CoreCommand,
  type Getters,
  type UIPlugin,
  type UID,
} from '@odoo/o-spreadsheet';
import type { Cell } from '../../worksheet/cells/cell';
import type { Comparison, Criterion, Filter } from '../xlsx/filters';

// The grid's own filters belong to its tables, are lost on undo and move with what is typed. Here a filter is what a file
// can hold: its criteria, and the rows that it hid when it was set.

const SET = 'SET_FILTERS';

coreTypes.add(SET as never);
invalidateEvaluationCommands.add(SET as never);
registries.inverseCommandRegistry.add(SET, (command: CoreCommand) => [command]);

interface FiltersHeld {
  readonly getFiltersOf: (sheetId: UID) => readonly Filter[];
}

class HeldFilters extends CorePlugin {
  static override getters = ['getFiltersOf'] as never[];

  private readonly filters: Record<UID, readonly Filter[] | undefined> = {};

  override handle(command: CoreCommand): void {
    const { type, sheetId, filters } = command as unknown as ReturnType<typeof setFilters>;
    if (type === SET) this.history.update('filters' as never, sheetId as never, filters as never);
  }

  getFiltersOf(sheetId: UID): readonly Filter[] {
    return this.filters[sheetId] ?? [];
  }
}
registries.corePluginRegistry.add('held filters', HeldFilters);

const Own = registries.statefulUIPluginRegistry.get('evaluation_filter') as unknown as new (
  ...given: ConstructorParameters<typeof UIPlugin>
) => UIPlugin & { isRowFiltered(sheetId: UID, row: number): boolean };

class RowsFiltered extends Own {
  static getters = (Own as unknown as { getters: readonly string[] }).getters;

  override isRowFiltered(sheetId: UID, row: number): boolean {
    return hidesRow(filtersOf(this.getters, sheetId), row);
  }
}
registries.statefulUIPluginRegistry.replace('evaluation_filter', RowsFiltered as never);

/** The filters of a sheet of the grid. */
export const filtersOf = (getters: Getters, sheetId: UID): readonly Filter[] =>
  (getters as unknown as FiltersHeld).getFiltersOf(sheetId);

const rowSets = new WeakMap<Filter, ReadonlySet<number>>();

/** Whether one of the filters hides a row: asked for every row each time that the grid is drawn. */
export const hidesRow = (filters: readonly Filter[], row: number): boolean =>
  filters.some((filter) => {
    let rows = rowSets.get(filter);
    if (!rows) rowSets.set(filter, (rows = new Set(filter.hidden)));
    return rows.has(row);
  });

/** The command that gives a sheet of the grid other filters. */
export const setFilters = (sheetId: UID, filters: readonly Filter[]) => ({ type: SET, sheetId, filters });

/** Whoever opens the filter of a header when its mark is clicked. */
let onMark: (() => void) | undefined;
export const listenToMarks = (listener: () => void): void => void (onMark = listener);

// Only a column whose filter hides rows has a mark: it covers part of the header.
registries.iconsOnCellRegistry.replace('filter_icon', (getters, position) => {
  const { sheetId, col, row } = position;
  const isFiltered = filtersOf(getters, sheetId).some(
    ({ area, columns }) => area.top === row && columns.some(({ column }) => area.left + column === col),
  );
  if (!isFiltered) return undefined;
  const { fillColor = '#ffffff' } = getters.getCellComputedStyle(position);
  const colour = isDark(fillColor) ? '#ffe3b8' : '#8a4b12';
  const svg = {
    width: 20,
    height: 20,
    name: `filter ${colour}`,
    paths: [{ fillColor: colour, path: 'M3 4 L17 4 L11.5 10.5 L11.5 16 L8.5 17.5 L8.5 10.5 Z' }],
  };
  return {
    type: 'filter',
    svg,
    hoverSvg: svg,
    priority: 3,
    horizontalAlign: 'right',
    size: 15,
    margin: 2,
    position,
    onClick: () => onMark?.(),
  };
});

function isDark(colour: string): boolean {
  const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
  return red * 0.3 + green * 0.59 + blue * 0.11 < 128;
}

/** A cell as a filter reads it. */
export interface FilteredCell {
  readonly value: Cell;
  /** As it is shown. */
  readonly text: string;
  /** `2026-03-04` where it shows a day. */
  readonly day: string | undefined;
}

/** Whether a cell meets a criterion. */
export function meets(criterion: Criterion, cell: FilteredCell): boolean {
  switch (criterion.kind) {
    case 'other':
      return true;
    case 'values': {
      if (cell.text === '') return criterion.blanks;
      if (cell.day !== undefined) return criterion.days.includes(cell.day);
      const text = cell.text.toLowerCase();
      return criterion.texts.some((one) => one.toLowerCase() === text);
    }
    case 'compared': {
      const met = criterion.with.map(({ is, than }) => compares(cell, is, than));
      return criterion.both ? met.every(Boolean) : met.some(Boolean);
    }
  }
}

function compares({ value, text }: FilteredCell, is: Comparison, than: string): boolean {
  if (is === 'equal' || is === 'notEqual') {
    const number = Number(than);
    const isEqual =
      typeof value === 'number' && than.trim() !== '' && !Number.isNaN(number)
        ? value === number
        : typeof value !== 'number' && patternOf(than).test(text);
    return isEqual === (is === 'equal');
  }
  const limit = Number(than);
  if (typeof value !== 'number' || Number.isNaN(limit)) return false;
  return {
    lessThan: value < limit,
    lessThanOrEqual: value <= limit,
    greaterThan: value > limit,
    greaterThanOrEqual: value >= limit,
  }[is];
}

/** `*` and `?` stand for any letters and for one; `~` before them says that they are meant themselves. */
function patternOf(pattern: string): RegExp {
  const source = pattern.replace(
    /~([*?~])|([*?])|[\\^$.|+()[\]{}]/g,
    (sign, meant?: string, any?: string) => {
      if (any !== undefined) return any === '*' ? '.*' : '.';
      return `\\${meant ?? sign}`;
    },
  );
  return new RegExp(`^${source}$`, 'is');
}
