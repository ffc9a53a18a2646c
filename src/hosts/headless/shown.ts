import { type Cell, type Format, type CellError, isCellError } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { CalculatingWorkbook, CellResult } from '../engine/workbook';
import { addressOf, placeOf } from '../xlsx/address';
import { plainText } from './terminal';

/** A formula's whole result with how each cell reads. */
export interface Shown {
  readonly rows: readonly (readonly Cell[])[];
  readonly formats: readonly (readonly Format[])[];
}

/** A fault in a result, and the cell it shows in. */
export interface Fault {
  readonly cell: string;
  readonly error: CellError;
}

export function shownResult(
  workbook: CalculatingWorkbook,
  sheet: string,
  address: string,
  result: CellResult,
): Shown {
  if (!result.block) return { rows: [[result.value]], formats: [[result.format ?? 'plain']] };
  const formats = result.block.map((cells, row) =>
    cells.map((_, column) => workbook.result(sheet, beside(address, row, column)).format ?? 'plain'),
  );
  return { rows: result.block, formats };
}

export function faultsIn({ rows }: Shown, address: string): Fault[] {
  return rows.flatMap((cells, row) =>
    cells.flatMap((cell, column) =>
      isCellError(cell) ? [{ cell: beside(address, row, column), error: cell }] : [],
    ),
  );
}

function beside(address: string, down: number, right: number): string {
  const { row, column } = placeOf(address)!;
  return addressOf({ row: row + down, column: column + right });
}

/** Faults of one kind in a result, however the values differ that cause them. */
export interface Cause {
  readonly cells: readonly string[];
  /** Code and reason of the first. */
  readonly text: string;
}

/** The faults of a result by their causes, the commonest first. */
export function causesOf(faults: readonly Fault[], address: string): Cause[] {
  const firstRow = placeOf(address)!.row;
  const causes = new Map<string, { cells: string[]; text: string }>();
  for (const { cell, error } of faults) {
    // The cell says it already, and in the sheet's own count.
    const text = faultText(error).replace(` (row ${placeOf(cell)!.row - firstRow + 1} of the column)`, '');
    const kind = text.replace(/ \(row \d+ of [^)]*\)$/, '').replace(/; it is .*$/, '');
    const cause = causes.get(kind);
    if (cause) cause.cells.push(cell);
    else causes.set(kind, { cells: [cell], text });
  }
  return [...causes.values()].sort((a, b) => b.cells.length - a.cells.length);
}

const MOST_NAMED = 5;

/** `D3, D9 and 40 more` */
export function namesText(names: readonly string[]): string {
  const more = names.length - MOST_NAMED;
  if (more <= 0) return names.join(', ');
  return `${names.slice(0, MOST_NAMED).join(', ')} and ${more} more`;
}

const MINUTE = 60_000;
/** What the serials of the 1904 system lack to those of the 1900 system. */
const DAYS_TO_1904 = 1462;
const EPOCH = Date.UTC(1899, 11, 30);
/** The days that every spreadsheet program shows alike: a leap day that never was, 29 February 1900, lies before. */
const FIRST_MOMENT = Date.UTC(1900, 2, 1);
const YEAR_10000 = Date.UTC(10_000, 0, 1);

/**
 * A cell in words: dates as `2026-03-01`, numbers with the fifteen digits a sheet holds, anything on one line and
 * without tabs, so that it stays one field.
 */
export function cellText(cell: Cell, format: Format, dateSystem: DateSystem): string {
  if (cell === null) return '';
  if (isCellError(cell)) return cell.code;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (typeof cell === 'string') return plainText(cell);
  const day = format === 'date' || format === 'dateTime' ? momentText(cell, format, dateSystem) : undefined;
  return day ?? String(Number(cell.toPrecision(15)));
}

/** A date to the day it lies in, a time to the nearest minute; undefined outside the days a sheet shows. */
function momentText(serial: number, format: 'date' | 'dateTime', dateSystem: DateSystem): string | undefined {
  const minutes = (serial + (dateSystem === 1904 ? DAYS_TO_1904 : 0)) * 1440;
  // A thousandth of a minute is more than what sums of times are off by, and less than what a log is kept to.
  const moment = EPOCH + (format === 'date' ? Math.floor(minutes + 0.001) : Math.round(minutes)) * MINUTE;
  if (!(moment >= FIRST_MOMENT && moment < YEAR_10000)) return undefined;
  const written = new Date(moment).toISOString();
  return format === 'date' ? written.slice(0, 10) : written.slice(0, 16).replace('T', ' ');
}

export const rowText = (
  cells: readonly Cell[],
  formats: readonly Format[],
  dateSystem: DateSystem,
): string[] => cells.map((cell, column) => cellText(cell, formats[column]!, dateSystem));

export const faultText = ({ code, reason }: CellError): string => (reason ? `${code} ${reason}` : code);

/** A value as JSON holds it: an error is its code. */
export const jsonValue = (cell: Cell): number | string | boolean | null =>
  isCellError(cell) ? cell.code : cell;
