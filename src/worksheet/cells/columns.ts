import type { Kind } from './kinds';

/**
 * `key` decides whether a row counts; `optional` may be missing or blank; `numbered` is a family of columns headed
 * `flush 1`, `flush 2`, … read into an array; `others` is every column not named elsewhere.
 */
export type ColumnRole = 'key' | 'required' | 'optional' | 'numbered' | 'others';

/** A column of a table: what its cells are, what they mean and whether it must be there. */
export interface TableColumn<T> {
  readonly kind: Kind<unknown>;
  /** A short phrase that follows the header and a dash: `days from inoculation until a block is at its best`. */
  readonly meaning: string;
  readonly role: ColumnRole;
  readonly fallback?: T;
  /** Other headers that growers use for it. */
  readonly alsoCalled: readonly string[];
  /** Never set: carries the type. */
  readonly type?: T;
}

/** The columns of a table by their headers. */
export type TableColumns = Readonly<Record<string, TableColumn<unknown>>>;

/** The plain row a table's columns make: one property per header, and the place of the row in its range. */
export type RowOf<C extends TableColumns> = {
  readonly [H in keyof C]: C[H] extends TableColumn<infer T> ? T : never;
} & { readonly at: number };

/** The column that decides whether a row counts: blank, 0 or `Total` there and the row is skipped. */
export function key<T>(kind: Kind<T>, meaning: string, ...alsoCalled: string[]): TableColumn<T> {
  return { kind, meaning, role: 'key', alsoCalled };
}

/** A column that must be there and filled in. */
export function required<T>(kind: Kind<T>, meaning: string, ...alsoCalled: string[]): TableColumn<T> {
  return { kind, meaning, role: 'required', alsoCalled };
}

/** A column that may be missing, or blank (or 0) in a row. */
export function optional<T>(
  kind: Kind<T>,
  meaning: string,
  ...alsoCalled: string[]
): TableColumn<T | undefined> {
  return { kind, meaning, role: 'optional', alsoCalled };
}

/** A column that may be missing, which reads as `fallback`. A blank in one that is there does not. */
export function optionalOr<T>(
  kind: Kind<T>,
  fallback: T,
  meaning: string,
  ...alsoCalled: string[]
): TableColumn<T> {
  return { kind, meaning, role: 'optional', fallback, alsoCalled };
}

/** Columns headed with a name of the property and a number: `flush 1`, `2nd flush`, … A blank or 0 reads as undefined. */
export function numbered<T>(
  kind: Kind<T>,
  meaning: string,
  ...alsoCalled: string[]
): TableColumn<readonly (T | undefined)[]> {
  return { kind, meaning, role: 'numbered', alsoCalled };
}

/** Every column that no other entry names, by its header as written. A blank or 0 reads as undefined. */
export function others<T>(kind: Kind<T>, meaning: string): TableColumn<ReadonlyMap<string, T | undefined>> {
  return { kind, meaning, role: 'others', alsoCalled: [] };
}

/** Some of a table's columns. */
export function only<C extends TableColumns, H extends keyof C>(columns: C, ...headers: H[]): Pick<C, H> {
  return Object.fromEntries(headers.map((header) => [header, columns[header]])) as Pick<C, H>;
}
