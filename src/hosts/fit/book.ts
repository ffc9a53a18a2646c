import { serialOf, type DateSystem } from '../../worksheet/calendar';
import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { addressOf, type Area } from '../xlsx/address';

/** A sheet of the grower's book as its cells show it, from A1 on. Rows may differ in length. */
export interface BookSheet {
  readonly name: string;
  readonly rows: readonly (readonly Cell[])[];
  /** The number format of a cell, where it has one of its own. */
  readonly formatAt: (row: number, column: number) => string | undefined;
  readonly isFormula: (row: number, column: number) => boolean;
  /** Whether the letters of a cell are struck out; left out of sheets that are put together from others. */
  readonly isStruck?: (row: number, column: number) => boolean;
  /** Whether a cell is merged with the one above it; left out where no host says so. */
  readonly isMergedUp?: (row: number, column: number) => boolean;
}

/** A table that the workbook itself knows by a name. */
export interface BookTable {
  readonly name: string;
  readonly sheet: string;
  /** Header row and data, without a totals row. */
  readonly area: Area;
}

/** A grower's workbook, whatever host holds it. */
export interface GrowersBook {
  readonly dateSystem: DateSystem;
  readonly sheets: readonly BookSheet[];
  readonly tables: readonly BookTable[];
}

export const cellAt = ({ rows }: BookSheet, row: number, column: number): Cell => rows[row]?.[column] ?? null;

/** A cell as text, an error as its code. */
export const textOf = (cell: Cell): string => (isCellError(cell) ? cell.code : String(cell ?? ''));

export const isFilled = (sheet: BookSheet, row: number, column: number): boolean =>
  !isBlank(cellAt(sheet, row, column));

/** `'Grow log'!C7` */
export const placeText = (sheet: string, row: number, column: number): string =>
  `${sheetText(sheet)}!${addressOf({ row, column })}`;

/** A sheet's name as a formula writes it. */
export const sheetText = (name: string): string =>
  /^[\p{L}_][\p{L}\p{N}_]*$/u.test(name) && !/^[A-Za-z]{1,3}\d+$/.test(name)
    ? name
    : `'${name.replaceAll("'", "''")}'`;

/** Whether a number format shows a day: quoted words, colours and elapsed times do not count. */
export function showsDate(format: string | undefined): boolean {
  if (format === undefined) return false;
  const bare = format.replace(/"[^"]*"|\\.|\[[^\]]*\]|_.|\*./g, '').toLowerCase();
  return /[dy]/.test(bare) && !/general/.test(bare);
}

/** The day of the grower's own calendar. */
export function todayIn(system: DateSystem): number {
  const now = new Date();
  return serialOf(now.getFullYear(), now.getMonth() + 1, now.getDate(), system);
}

/** How the title of a sheet begins that says how others are read. */
export const READ_TITLE = 'How your sheets are read: ';
