import { invalid, missing, type CalcError } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import type { Telling } from '../voice';
import { isBlankOrZero, isCellError, type Cell, type CellError, type Grid, type Place } from './cell';
import type { TableColumn, TableColumns } from './columns';
import { SheetFault } from './fault';
import { isRefusal, readCell } from './readCell';

/** A table read by its headers. Rows that cannot be read hold their fault until somebody asks for them. */
export class Table<Row extends object> {
  private index: Map<string, number[]> | undefined;
  /** Where labels were found, as written: a long column asks for the same few again and again. */
  private readonly found = new Map<string, readonly number[]>();

  constructor(
    readonly name: string,
    /** Each row that counts, or why it cannot be read. */
    readonly entries: readonly (Row | CellError)[],
    /** The place of each entry in the range given, its header row being row 1. */
    readonly rowNumbers: readonly number[],
    /** The key of each entry as written, those that cannot be read included; empty where the table has no key. */
    readonly labels: readonly string[],
    /** Headers as written of the columns that nothing asks for. */
    readonly ignored: readonly string[] = [],
  ) {}

  /** All rows; the first that cannot be read is the fault of the whole call. */
  get rows(): readonly Row[] {
    for (const entry of this.entries) if (isCellError(entry)) throw new SheetFault(entry);
    return this.entries as readonly Row[];
  }

  /** The row whose key is `label`. `argument` names where the label came from, `at` its row where that is a table. */
  find(label: string, argument: string, at?: number): Row {
    const positions = this.positionsOf(label, argument, at);
    if (positions.length > 1) {
      const rows = positions.map((position) => this.rowNumbers[position]!);
      throw invalid(argument, 'labelTwice', { label, table: this.name, rows }, { at });
    }
    return this.read(positions[0]!);
  }

  /** The rows whose key is `label`, one or more, in the order of the sheet. */
  findAll(label: string, argument: string, at?: number): readonly Row[] {
    return this.positionsOf(label, argument, at).map((position) => this.read(position));
  }

  /** Whether a row has this key. */
  has(label: string): boolean {
    return this.positions().has(labelKey(label));
  }

  /** The fault of a label that no row has. */
  lacks(label: string, argument: string, at?: number): CalcError {
    return missing(argument, 'notIn', { label, table: this.name }, { at });
  }

  private read(position: number): Row {
    const entry = this.entries[position]!;
    if (isCellError(entry)) throw new SheetFault(entry);
    return entry;
  }

  private positionsOf(label: string, argument: string, at: number | undefined): readonly number[] {
    const positions = this.found.get(label) ?? this.positions().get(labelKey(label));
    if (positions === undefined) throw this.lacks(label, argument, at);
    this.found.set(label, positions);
    return positions;
  }

  private positions(): Map<string, number[]> {
    if (this.index) return this.index;
    const index = new Map<string, number[]>();
    this.labels.forEach((label, position) => {
      const same = labelKey(label);
      const positions = index.get(same);
      if (positions) positions.push(position);
      else index.set(same, [position]);
    });
    this.index = index;
    return index;
  }
}

/** Two headers are the same where only case, spaces, `_`, `-`, `%` or anything in brackets differs. */
export function headerKey(header: string): string {
  return header
    .replace(/\([^)]*\)|\[[^\]]*\]/g, '')
    .replace(/[\s_%-]+/g, '')
    .toLowerCase();
}

interface Located {
  readonly property: string;
  readonly column: TableColumn<unknown>;
  /** Positions in the grid: one, none for an optional column that is missing, several for `numbered` and `others`. */
  readonly at: readonly number[];
  /** Header as written, for each position. */
  readonly headers: readonly string[];
}

function locate(name: string, columns: TableColumns, headerRow: readonly Cell[]): Located[] {
  const written = headerRow.map((cell) => (isBlankOrZero(cell) || isCellError(cell) ? '' : String(cell)));
  const keys = written.map(headerKey);
  const positions = keys.map((_, position) => position);
  const taken = new Set<number>();
  const located: Located[] = [];
  const found = (property: string, column: TableColumn<unknown>, at: readonly number[]): void => {
    at.forEach((position) => taken.add(position));
    located.push({ property, column, at, headers: at.map((position) => written[position]!) });
  };
  const entries = Object.entries(columns);
  for (const [property, column] of entries) {
    if (column.role === 'others') continue;
    const wanted = headerKey(property);
    if (column.role === 'numbered') {
      const number = (position: number): string =>
        keys[position]!.startsWith(wanted) ? keys[position]!.slice(wanted.length) : '';
      const numbered = positions.filter((position) => /^\d+$/.test(number(position)));
      found(property, column, numbered.sort((a, b) => Number(number(a)) - Number(number(b)))); // prettier-ignore
      continue;
    }
    const at = positions.filter((position) => keys[position] === wanted);
    if (at.length > 1 || (at.length === 0 && column.role !== 'optional')) {
      if (at.length > 1) throw invalid(name, 'headerTwice', { header: property, count: at.length });
      const headers = written.filter((header) => header.trim() !== '').slice(0, 12);
      throw invalid(name, 'noHeader', { header: property, found: headers });
    }
    found(property, column, at);
  }
  for (const [property, column] of entries) {
    if (column.role !== 'others') continue;
    found(property, column, positions.filter((position) => keys[position] !== '' && !taken.has(position))); // prettier-ignore
  }
  return located;
}

/** What a sheet's own totals row is labelled, or a grower's: its figures would count twice. */
const TOTALS = /^((grand |sub)?totals?|sum):?$/;

const isEntry = (label: Cell | undefined): boolean =>
  !isBlankOrZero(label) && !(typeof label === 'string' && TOTALS.test(labelKey(label)));

/** Reads a grid by its header row. @throws CalcError where a header is missing or stands twice. */
export function readTable(
  name: string,
  columns: TableColumns,
  grid: Grid,
  telling: Telling,
): Table<Readonly<Record<string, unknown>>> {
  const located = locate(name, columns, grid[0]!);
  const keyColumn = located.find(({ column }) => column.role === 'key');
  const read = located.flatMap(({ at }) => at);
  const entries: (Record<string, unknown> | CellError)[] = [];
  const rowNumbers: number[] = [];
  const keyLabels: string[] = [];
  for (let at = 1; at < grid.length; at++) {
    const cells = grid[at]!;
    const counts = keyColumn
      ? isEntry(cells[keyColumn.at[0]!])
      : read.some((position) => !isBlankOrZero(cells[position]));
    if (!counts) continue;
    entries.push(readRow(name, located, cells, at + 1, telling));
    rowNumbers.push(at + 1);
    if (keyColumn) {
      const label = cells[keyColumn.at[0]!];
      keyLabels.push(typeof label === 'string' || typeof label === 'number' ? String(label) : '');
    }
  }
  const taken = new Set(read);
  const ignored = grid[0]!.flatMap((header, position) =>
    taken.has(position) || isBlankOrZero(header) || isCellError(header) ? [] : [String(header)],
  );
  return new Table(name, entries, rowNumbers, keyLabels, ignored);
}

function readRow(
  name: string,
  located: readonly Located[],
  cells: readonly Cell[],
  rowNumber: number,
  telling: Telling,
): Record<string, unknown> | CellError {
  const row: Record<string, unknown> = { at: rowNumber };
  const placeOf = (header: string): Place => ({ argument: `${name}, ${header}`, row: rowNumber });
  for (const { property, column, at, headers } of located) {
    if (column.role === 'numbered' || column.role === 'others') {
      const values: unknown[] = [];
      for (let i = 0; i < at.length; i++) {
        const cell = cells[at[i]!]!;
        const value = isBlankOrZero(cell)
          ? undefined
          : readCell(column.kind, cell, placeOf(headers[i]!), telling);
        if (isRefusal(value)) return value.error;
        values.push(value);
      }
      row[property] =
        column.role === 'numbered' ? values : new Map(headers.map((header, i) => [header, values[i]]));
      continue;
    }
    const cell = at.length ? cells[at[0]!]! : null;
    if (column.role === 'optional' && isBlankOrZero(cell)) {
      row[property] = column.fallback;
      continue;
    }
    const value = readCell(column.kind, cell, placeOf(property), telling);
    if (isRefusal(value)) return value.error;
    row[property] = value;
  }
  return row;
}
