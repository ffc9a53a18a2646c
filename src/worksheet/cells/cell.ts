import type { ErrorCode } from '../constants';

export type { ErrorCode };

/** Where in a call a fault lies: the argument, and the row of the range given for it (from 1). */
export interface Place {
  readonly argument: string;
  readonly row?: number;
}

/** An error in a cell: its code and, where it is ours, the reason in words and where to look. */
export interface CellError {
  readonly code: ErrorCode;
  readonly reason: string;
  readonly place?: Place;
}

export function cellError(code: ErrorCode, reason = '', place?: Place): CellError {
  return place === undefined ? { code, reason } : { code, reason, place };
}

export function isCellError(value: unknown): value is CellError {
  return typeof value === 'object' && value !== null && 'code' in value;
}

/** All that a host may hand over for one cell. A blank is null; empty text and 0 count as blank where a key is asked. */
export type Cell = number | string | boolean | null | CellError;

/** A block of cells, row by row, never ragged, never empty. */
export type Grid = readonly (readonly Cell[])[];

/** How a result reads on the sheet. A host that cannot carry a format shows the plain number. */
export type Format = 'plain' | 'date' | 'dateTime' | 'percent';

/** A number whose format differs from its column's. */
export interface Formatted {
  readonly value: number;
  readonly format: Format;
}

export const formatted = (value: number, format: Format): Formatted => ({ value, format });

export function isFormatted(value: unknown): value is Formatted {
  return typeof value === 'object' && value !== null && 'format' in value;
}

/** What one cell of a result may hold. Never null, NaN or infinite; plain JSON all of it. */
export type Value = number | string | boolean | CellError | Formatted;

/** A result: rows of equal length, and the format of each column. */
export interface Block {
  readonly rows: readonly (readonly Value[])[];
  readonly formats: readonly Format[];
}

/** The plain value of a result's cell and the format it shows in. */
export function cellOf(block: Block, row: number, column: number): [Exclude<Value, Formatted>, Format] {
  const value = block.rows[row]![column]!;
  if (isFormatted(value)) return [value.value, value.format];
  return [value, typeof value === 'number' ? block.formats[column]! : 'plain'];
}

/** A result as plain values: formats dropped. */
export function plainValues(block: Block): Exclude<Value, Formatted>[][] {
  return block.rows.map((row) => row.map((cell) => (isFormatted(cell) ? cell.value : cell)));
}

/** The number format code of a sheet for each format. */
export const NUMBER_FORMATS: Record<Format, string> = {
  plain: 'General',
  date: 'yyyy-mm-dd',
  dateTime: 'yyyy-mm-dd hh:mm',
  percent: '0.0%',
};

/** Blank in the sense of every rule here: nothing there, or nothing but spaces. */
export function isBlank(cell: Cell | undefined): boolean {
  return cell === null || cell === undefined || (typeof cell === 'string' && cell.trim() === '');
}

/** Blank or 0: Excel on the desktop hands an empty cell over as 0, so no rule may tell the two apart. */
export function isBlankOrZero(cell: Cell | undefined): boolean {
  return cell === 0 || isBlank(cell);
}
