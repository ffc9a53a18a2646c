import type { Cell, Grid } from './cell';
import { anything, type Kind } from './kinds';
import type { Table } from './table';
import type { RowOf, TableColumns } from './columns';

interface Named {
  /** The word a grower would say; what messages call it. */
  readonly name: string;
  /** One short line: what it is. */
  readonly meaning: string;
}

/** One value per row. The key column decides whether a row counts: blank or 0 there gives a blank result. */
export interface ColumnArgument<T> extends Named {
  readonly shape: 'column';
  readonly kind: Kind<T>;
  readonly role: 'key' | 'required' | 'optional';
  readonly fallback: T | undefined;
}

/** One cell for the whole call. */
export interface SettingArgument<T> extends Named {
  readonly shape: 'setting';
  readonly kind: Kind<T>;
  readonly role: 'required' | 'optional';
  readonly fallback: T | undefined;
}

/** A block of values, read row by row; blank cells are left out. */
export interface RangeArgument<T> extends Named {
  readonly shape: 'range';
  readonly kind: Kind<T>;
  readonly role: 'required';
}

/** Cells as the sheet holds them, in rows and columns: for a calculation that looks for the table in them itself. */
export interface BlockArgument extends Named {
  readonly shape: 'block';
  readonly kind: Kind<Cell>;
  readonly role: 'required';
}

/** A block with headers in its first row. An optional table that is left out reaches the function as undefined. */
export interface TableArgument<T extends Table<object> | undefined> extends Named {
  readonly shape: 'table';
  readonly columns: TableColumns;
  readonly role: 'required' | 'optional';
  /** Never set: carries the table's type. */
  readonly type?: T;
}

export type Argument =
  | ColumnArgument<unknown>
  | SettingArgument<unknown>
  | RangeArgument<unknown>
  | BlockArgument
  | TableArgument<Table<object> | undefined>;

/** Whether a call may leave the argument out. */
export const mayBeLeftOut = ({ role }: Argument): boolean => role === 'optional';

export function keyColumn<T>(name: string, kind: Kind<T>, meaning: string): ColumnArgument<T> {
  return { shape: 'column', name, kind, meaning, role: 'key', fallback: undefined };
}

export function column<T>(name: string, kind: Kind<T>, meaning: string): ColumnArgument<T> {
  return { shape: 'column', name, kind, meaning, role: 'required', fallback: undefined };
}

/** A column that may be left out, which gives `fallback`. A blank or 0 in a cell that is given does not. */
export function optionalColumn<T, D extends T | undefined>(
  name: string,
  kind: Kind<T>,
  fallback: D,
  meaning: string,
): ColumnArgument<T | D> {
  return { shape: 'column', name, kind, meaning, role: 'optional', fallback };
}

export function setting<T>(name: string, kind: Kind<T>, meaning: string): SettingArgument<T> {
  return { shape: 'setting', name, kind, meaning, role: 'required', fallback: undefined };
}

/** A setting that may be left out: blank or 0 gives `fallback`. */
export function optionalSetting<T, D extends T | undefined>(
  name: string,
  kind: Kind<T>,
  fallback: D,
  meaning: string,
): SettingArgument<T | D> {
  return { shape: 'setting', name, kind, meaning, role: 'optional', fallback };
}

export function range<T>(name: string, kind: Kind<T>, meaning: string): RangeArgument<T> {
  return { shape: 'range', name, kind, meaning, role: 'required' };
}

export function block(name: string, meaning: string): BlockArgument {
  return { shape: 'block', name, kind: anything(), meaning, role: 'required' };
}

export function table<const C extends TableColumns>(
  name: string,
  columns: C,
  meaning: string,
): TableArgument<Table<RowOf<C>>> {
  return { shape: 'table', name, columns, meaning, role: 'required' };
}

export function optionalTable<const C extends TableColumns>(
  name: string,
  columns: C,
  meaning: string,
): TableArgument<Table<RowOf<C>> | undefined> {
  return { shape: 'table', name, columns, meaning, role: 'optional' };
}

/** What `calculate` receives for each argument when it is called once per row. */
export type RowValues<A extends readonly Argument[]> = {
  [I in keyof A]: A[I] extends ColumnArgument<infer T> ? T : WholeValue<A[I]>;
};

/** What `calculate` receives for each argument when it is called once: columns as arrays of equal length. */
export type WholeValues<A extends readonly Argument[]> = {
  [I in keyof A]: A[I] extends ColumnArgument<infer T> ? readonly T[] : WholeValue<A[I]>;
};

/** The same with undefined for what cannot be read. */
export type WholeReadable<A extends readonly Argument[]> = {
  [I in keyof A]: A[I] extends ColumnArgument<infer T> ? readonly (T | undefined)[] : WholeValue<A[I]>;
};

type WholeValue<X> =
  X extends SettingArgument<infer T>
    ? T
    : X extends RangeArgument<infer T>
      ? readonly T[]
      : X extends BlockArgument
        ? Grid
        : X extends TableArgument<infer T>
          ? T
          : never;
