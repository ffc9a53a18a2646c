import { CalcError, missing } from '../../maths/shared/calcError';
import { labelKey } from '../../maths/shared/labels';
import { CellError, isBlankOrZero, type Cell, type Grid } from './cell';
import { SheetFault } from './fault';
import { readCell, Refusal, type Kind } from './kinds';

/** A column of a table argument: what its cells are and whether it must be there. */
export interface TableColumn<T> {
  readonly kind: Kind<unknown>;
  /**
   * `key` decides whether a row counts; `optional` may be missing or blank; `numbered` is a family of columns
   * headed `flush 1`, `flush 2`, … read into an array; `others` is every column not named elsewhere.
   */
  readonly role: 'key' | 'required' | 'optional' | 'numbered' | 'others';
  readonly fallback?: T;
  /** Never set: carries the type. */
  readonly type?: T;
}

export type TableColumns = Readonly<Record<string, Kind<unknown> | TableColumn<unknown>>>;

/** The plain row a table's columns make: one property per header. */
export type RowOf<C extends TableColumns> = {
  readonly [H in keyof C]: C[H] extends TableColumn<infer T> ? T : C[H] extends Kind<infer T> ? T : never;
};

/** The column that decides whether a row counts: blank, 0 or `Total` there and the row is skipped. */
export function key<T>(kind: Kind<T>): TableColumn<T> {
  return { kind, role: 'key' };
}

/** A column that may be missing, or blank (or 0) in a row. */
export function optional<T>(kind: Kind<T>): TableColumn<T | undefined>;
export function optional<T>(kind: Kind<T>, fallback: T): TableColumn<T>;
export function optional<T>(kind: Kind<T>, fallback?: T): TableColumn<T | undefined> {
  return { kind, role: 'optional', fallback };
}

/** Columns headed with the property's name and a number: `flush 1`, `flush 2`, … A blank or 0 reads as undefined. */
export function numbered<T>(kind: Kind<T>): TableColumn<readonly (T | undefined)[]> {
  return { kind, role: 'numbered' };
}

/** Every column that no other entry names, by its header as written. A blank or 0 reads as undefined. */
export function others<T>(kind: Kind<T>): TableColumn<ReadonlyMap<string, T | undefined>> {
  return { kind, role: 'others' };
}

/** A table read by its headers. Rows that cannot be read hold their fault until somebody asks for them. */
export class Table<Row> {
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
    for (const entry of this.entries) if (entry instanceof CellError) throw new SheetFault(entry);
    return this.entries as readonly Row[];
  }

  /** The row whose key is `label`. `argument` names where the label came from. */
  find(label: string, argument: string): Row {
    const positions = this.positionsOf(label, argument);
    if (positions.length > 1) throw this.standsTwice(label, argument, positions);
    return this.read(positions[0]!);
  }

  /** The rows whose key is `label`, one or more, in the order of the sheet. */
  findAll(label: string, argument: string): readonly Row[] {
    return this.positionsOf(label, argument).map((position) => this.read(position));
  }

  /** Whether a row has this key. */
  has(label: string): boolean {
    return this.positions().has(labelKey(label));
  }

  private read(position: number): Row {
    const entry = this.entries[position]!;
    if (entry instanceof CellError) throw new SheetFault(entry);
    return entry;
  }

  private positionsOf(label: string, argument: string): readonly number[] {
    const positions = this.found.get(label) ?? this.positions().get(labelKey(label));
    if (positions === undefined) throw missing(argument, `"${label}" is not in ${this.name}`);
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

  private standsTwice(label: string, argument: string, positions: readonly number[]): CalcError {
    const rows = positions.map((position) => this.rowNumbers[position]!);
    return new CalcError(
      'invalid',
      `${argument}: one row for "${label}" needed in ${this.name}, got ${rows.length} (rows ${rows.slice(0, 5).join(', ')})`,
    );
  }
}

/** Two headers are the same where only case, spaces, `_`, `-`, `%` or anything in brackets differs. */
export function headerKey(header: string): string {
  return header
    .replace(/\([^)]*\)|\[[^\]]*\]/g, '')
    .replace(/[\s_%-]+/g, '')
    .toLowerCase();
}

interface Place {
  readonly property: string;
  readonly column: TableColumn<unknown>;
  /** Positions in the grid: one, none for an optional column that is missing, several for `numbered` and `others`. */
  readonly at: readonly number[];
  /** Header as written, for each position. */
  readonly headers: readonly string[];
}

const isColumn = (entry: Kind<unknown> | TableColumn<unknown>): entry is TableColumn<unknown> =>
  'role' in entry;

/** Each entry as a column: a bare kind is a required one. */
export function columnsOf(columns: TableColumns): [string, TableColumn<unknown>][] {
  return Object.entries(columns).map(([property, entry]) => [
    property,
    isColumn(entry) ? entry : { kind: entry, role: 'required' },
  ]);
}

function placesOf(name: string, columns: TableColumns, headerRow: readonly Cell[]): Place[] {
  const written = headerRow.map((cell) =>
    isBlankOrZero(cell) || cell instanceof CellError ? '' : String(cell),
  );
  const keys = written.map(headerKey);
  const taken = new Set<number>();
  const places: Place[] = [];
  const entries = columnsOf(columns);
  for (const [property, column] of entries) {
    if (column.role === 'others') continue;
    const wanted = headerKey(property);
    let at: number[];
    if (column.role === 'numbered') {
      const number = (position: number): number => Number(keys[position]!.slice(wanted.length));
      at = keys
        .map((_, position) => position)
        .filter(
          (position) =>
            keys[position]!.startsWith(wanted) && /^\d+$/.test(keys[position]!.slice(wanted.length)),
        )
        .sort((a, b) => number(a) - number(b));
    } else {
      at = keys.map((_, position) => position).filter((position) => keys[position] === wanted);
      if (at.length > 1) {
        throw new CalcError('invalid', `${name}: one column headed ${property} needed, got ${at.length}`);
      }
      if (at.length === 0 && column.role !== 'optional') {
        const found = written.filter((header) => header.trim() !== '').slice(0, 12);
        throw new CalcError(
          'invalid',
          `${name}: a column headed ${property} needed, found ${found.length ? found.join(', ') : 'no headers in the first row'}`,
        );
      }
    }
    at.forEach((position) => taken.add(position));
    places.push({ property, column, at, headers: at.map((position) => written[position]!) });
  }
  for (const [property, column] of entries) {
    if (column.role !== 'others') continue;
    const at = keys
      .map((_, position) => position)
      .filter((position) => keys[position] !== '' && !taken.has(position));
    places.push({ property, column, at, headers: at.map((position) => written[position]!) });
  }
  return places;
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
): Table<Readonly<Record<string, unknown>>> {
  const places = placesOf(name, columns, grid[0]!);
  const keyPlace = places.find((place) => place.column.role === 'key');
  const read = places.flatMap((place) => place.at);
  const entries: (Record<string, unknown> | CellError)[] = [];
  const rowNumbers: number[] = [];
  const keyLabels: string[] = [];
  for (let at = 1; at < grid.length; at++) {
    const cells = grid[at]!;
    const counts = keyPlace
      ? isEntry(cells[keyPlace.at[0]!])
      : read.some((position) => !isBlankOrZero(cells[position]));
    if (!counts) continue;
    entries.push(readRow(name, places, cells, at + 1));
    rowNumbers.push(at + 1);
    if (keyPlace) {
      const label = cells[keyPlace.at[0]!];
      keyLabels.push(typeof label === 'string' || typeof label === 'number' ? String(label) : '');
    }
  }
  const taken = new Set(read);
  const ignored = grid[0]!.flatMap((header, position) =>
    taken.has(position) || isBlankOrZero(header) || header instanceof CellError ? [] : [String(header)],
  );
  return new Table(name, entries, rowNumbers, keyLabels, ignored);
}

function readRow(
  name: string,
  places: readonly Place[],
  cells: readonly Cell[],
  rowNumber: number,
): Record<string, unknown> | CellError {
  const row: Record<string, unknown> = {};
  const where = ` (row ${rowNumber})`;
  for (const { property, column, at, headers } of places) {
    if (column.role === 'numbered' || column.role === 'others') {
      const values: unknown[] = [];
      for (let i = 0; i < at.length; i++) {
        const cell = cells[at[i]!]!;
        const value = isBlankOrZero(cell)
          ? undefined
          : readCell(column.kind, cell, `${name}, ${headers[i]}`, where);
        if (value instanceof Refusal) return value.error;
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
    const value = readCell(column.kind, cell, `${name}, ${property}`, where);
    if (value instanceof Refusal) return value.error;
    row[property] = value;
  }
  return row;
}
