/** The error codes a sheet knows. Ours are the first four; the others only pass through from other formulas. */
export type ErrorCode =
  '#VALUE!' | '#N/A' | '#DIV/0!' | '#NUM!' | '#REF!' | '#NAME?' | '#NULL!' | '#SPILL!' | '#CALC!' | '#BUSY!';

/** An error in a cell: its code and, where it is ours, the reason in words. */
export class CellError {
  constructor(
    readonly code: ErrorCode,
    readonly reason = '',
  ) {}
}

/** All that a host may hand over for one cell. A blank is null; empty text and 0 count as blank where a key is asked. */
export type Cell = number | string | boolean | null | CellError;

/** A block of cells, row by row, never ragged, never empty. */
export type Grid = readonly (readonly Cell[])[];

/** How a result reads on the sheet. A host that cannot carry a format shows the plain number. */
export type Format = 'plain' | 'date' | 'dateTime' | 'percent';

/** A number whose format differs from its column's. */
export class Formatted {
  constructor(
    readonly value: number,
    readonly format: Format,
  ) {}
}

/** What one cell of a result may hold. Never null, NaN or infinite. */
export type Value = number | string | boolean | CellError | Formatted;

/** A result: rows of equal length, and the format of each column. */
export interface Block {
  readonly rows: readonly (readonly Value[])[];
  readonly formats: readonly Format[];
}

/** The plain value of a result's cell and the format it shows in. */
export function cellOf(block: Block, row: number, column: number): [Exclude<Value, Formatted>, Format] {
  const value = block.rows[row]![column]!;
  if (value instanceof Formatted) return [value.value, value.format];
  return [value, typeof value === 'number' ? block.formats[column]! : 'plain'];
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
