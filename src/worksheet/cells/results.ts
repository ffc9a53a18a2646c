import type { CalcError } from '../../maths/shared/fault';
import type { CellError, Format, Formatted } from './cell';

/** A fault in place of a value. */
export type Faulty = CalcError | CellError;

/** What one cell of an answer may be before it goes to the sheet. */
export type Answer = number | string | boolean | Faulty | Formatted;

/** A column of a result: what it means, how its numbers read, and how its header comes about. */
export interface ResultColumn<T> {
  /** What it tells where the header alone does not; empty where it does. */
  readonly meaning: string;
  readonly format: Format;
  /**
   * `one` column under its own header; `numbered` columns headed `flush 1`, `flush 2`, …; `named` columns headed by what
   * the data call them; `dated` columns headed by days; `sometimes` a column that is left out where no row has it.
   */
  readonly spread: 'one' | 'numbered' | 'named' | 'dated' | 'sometimes';
  /** Never set: carries the type. */
  readonly type?: T;
}

type Numeric = number | '' | Formatted;

const columnOf =
  <T>(format: Format) =>
  (meaning = ''): ResultColumn<T> => ({ meaning, format, spread: 'one' });

/** A plain number; empty text where there is none. */
export const amount = columnOf<Numeric>('plain');
/** A share shown as a percentage. */
export const percent = columnOf<Numeric>('percent');
export const date = columnOf<Numeric>('date');
export const dateTime = columnOf<Numeric>('dateTime');
export const label = columnOf<string>('plain');
/** A number or a word. */
export const mixed = columnOf<number | string | boolean | Formatted>('plain');

/** A share shown as a percentage, or a word. */
export const percentOrWord = columnOf<number | string | Formatted>('percent');

/** Columns headed with the property's name and a number: `flush 1`, `flush 2`, …, as many as the longest row has. */
export const numberedIn = <T>(of: ResultColumn<T>): ResultColumn<readonly (T | Faulty)[]> => ({
  meaning: of.meaning,
  format: of.format,
  spread: 'numbered',
});

/** Columns headed by the keys of each row's map: all rows have the same keys. */
export const namedIn = <T>(of: ResultColumn<T>): ResultColumn<ReadonlyMap<string, T | Faulty>> => ({
  meaning: of.meaning,
  format: of.format,
  spread: 'named',
});

/** Columns headed by days: the keys of each row's map are serials, and all rows have the same. */
export const datedIn = <T>(of: ResultColumn<T>): ResultColumn<ReadonlyMap<number, T | Faulty>> => ({
  meaning: of.meaning,
  format: of.format,
  spread: 'dated',
});

/** A column that is left out where every row leaves it undefined. */
export const sometimes = <T>(of: ResultColumn<T>): ResultColumn<T | undefined> => ({
  meaning: of.meaning,
  format: of.format,
  spread: 'sometimes',
});

/** The columns of a result by their headers. */
export type ResultColumns = Readonly<Record<string, ResultColumn<unknown>>>;

/** One row of a result: a value or a fault under each header. */
export type ResultRow<C extends ResultColumns> = {
  readonly [H in keyof C]: (C[H] extends ResultColumn<infer T> ? T : never) | Faulty;
};

/** What a function gives: one value (per row), a row of values (per row), or a table with a header row. */
export interface Result<O> {
  readonly shape: 'value' | 'row' | 'table' | 'views';
  /** The columns; of `views` those of the first. */
  readonly columns: ResultColumns;
  /** The tables to choose from, by the word that asks for them. */
  readonly views?: Readonly<Record<string, ResultColumns>>;
  /** Never set: carries the type. */
  readonly type?: O;
}

/** One value, named for the guide by what it is. */
export function value<T>(meaning: string, column: ResultColumn<T>): Result<T | Faulty> {
  return { shape: 'value', columns: { [meaning]: column } };
}

export function row<const C extends ResultColumns>(columns: C): Result<ResultRow<C>> {
  return { shape: 'row', columns };
}

/** Rows, and one more like them that is not shown: it tells the `named` columns where there is no row. */
export interface RowsLike<R> {
  readonly rows: readonly R[];
  readonly like: R;
}

export function tableResult<const C extends ResultColumns>(
  columns: C,
): Result<readonly ResultRow<C>[] | RowsLike<ResultRow<C>>> {
  return { shape: 'table', columns };
}

/** One of several tables, named with its rows. */
export function views<const V extends Readonly<Record<string, ResultColumns>>>(
  tables: V,
): Result<
  { [N in keyof V & string]: { readonly view: N; readonly rows: readonly ResultRow<V[N]>[] } }[keyof V &
    string]
> {
  return { shape: 'views', columns: Object.values(tables)[0]!, views: tables };
}

/** A row that holds the same under every header: mostly a fault that spoils the whole row. */
export function everywhere<C extends ResultColumns>(columns: C, cell: Answer): ResultRow<C> {
  return Object.fromEntries(Object.keys(columns).map((header) => [header, cell])) as ResultRow<C>;
}
