/// <reference types="custom-functions-runtime" />
import {
  NUMBER_FORMATS,
  type Block,
  type Cell,
  type ErrorCode,
  type Grid,
  type Value,
  type CellError,
  cellError,
  isCellError,
  isFormatted,
} from '../../worksheet/cells/cell';

import { ERROR_CODES } from '../../worksheet/constants';

/**
 * What goes between Excel's values and the boundary's cells. `CustomFunctions.Error` is used inside function bodies
 * only: office.js brings it after this file has loaded.
 */

/** Error codes a cell may bring in; any other text that Excel calls an error reads as `#VALUE!`. */
const KNOWN_CODES: ReadonlySet<string> = new Set<ErrorCode>(ERROR_CODES);

/** Codes that Excel takes back from a custom function; the others would come out as a bare `#VALUE!`. */
const CODES_OUT: ReadonlySet<string> = new Set<ErrorCode>(['#VALUE!', '#N/A', '#DIV/0!', '#NUM!', '#NULL!']);

/**
 * Above this many cells an answer goes out as plain numbers: a number with its format takes about 60 characters, and
 * Excel on the web refuses answers of several megabytes.
 */
const MOST_FORMATTED_CELLS = 20_000;

const errorOf = (code: unknown, reason: unknown): CellError =>
  cellError(
    typeof code === 'string' && KNOWN_CODES.has(code) ? (code as ErrorCode) : '#VALUE!',
    typeof reason === 'string' ? reason : '',
  );

/** A cell that Excel hands over as an object: an error in either of its two shapes, or a data type. */
function cellOfObject(given: object): Cell {
  const { code, message, type, basicType, basicValue, text } = given as Record<string, unknown>;
  if (typeof code === 'string') return errorOf(code, message);
  if (type === 'Error') return errorOf(basicValue, message);
  if (type === 'Empty' || basicType === 'Empty') return null;
  if (basicType !== 'Error') {
    if (typeof basicValue === 'number' || typeof basicValue === 'string' || typeof basicValue === 'boolean') {
      return basicValue;
    }
  }
  const what = typeof text === 'string' ? `the data type "${text}"` : 'a data type such as a picture';
  return cellError('#VALUE!', `a plain number, date or text needed, got ${what}`);
}

const isPlain = (given: unknown): given is Cell =>
  typeof given === 'number' || typeof given === 'string' || typeof given === 'boolean' || given === null;

function cellOfAnything(given: unknown): Cell {
  if (isPlain(given)) return given;
  return typeof given === 'object' ? cellOfObject(given) : null;
}

/** Spelled out as a loop: a long column spends more time in a callback per row than in the check. */
function isPlainRow(row: readonly unknown[]): boolean {
  for (const given of row) if (!isPlain(given)) return false;
  return true;
}

/** The cells of one argument as Excel passes it; undefined where it was left out. Plain rows are not copied. */
export function gridOf(given: unknown): Grid | undefined {
  if (given === null || given === undefined) return undefined;
  if (!Array.isArray(given)) return [[cellOfAnything(given)]];
  const rows = given as readonly (readonly unknown[])[];
  for (const row of rows) {
    if (!isPlainRow(row))
      return rows.map((one) => (isPlainRow(one) ? (one as Cell[]) : one.map(cellOfAnything)));
  }
  return rows as Grid;
}

/** A fault as an array of answers holds it. */
export function excelError({ code, reason }: CellError): CustomFunctions.Error {
  const [out, message] = CODES_OUT.has(code) ? [code, reason] : ['#VALUE!', `${code} in a cell it was given`];
  return new CustomFunctions.Error(out as CustomFunctions.ErrorCode, message === '' ? undefined : message);
}

/** Gives a fault to Excel as the whole answer, the way that every version of Excel shows. */
export function raise(fault: CellError): never {
  // The vendor's class is an Error, though its types do not say so.
  // oxlint-disable-next-line typescript/only-throw-error
  throw excelError(fault);
}

/** A number with the format it shows in, as Excel's data types have it. */
export interface FormattedNumber {
  readonly type: 'Double';
  readonly basicValue: number;
  readonly numberFormat: string;
}

export type ExcelValue = number | string | boolean | CustomFunctions.Error | FormattedNumber;

/**
 * What Excel spills for a result. `formats` tells whether this Excel takes numbers with a format.
 * @throws CustomFunctions.Error for a fault of the whole call.
 */
export function excelValuesOf(block: Block, formats: boolean): ExcelValue[][] {
  const { rows } = block;
  const only = rows.length === 1 && rows[0]!.length === 1 ? rows[0]![0] : undefined;
  if (isCellError(only)) raise(only);
  const formatted = formats && rows.length * rows[0]!.length <= MOST_FORMATTED_CELLS;
  const codes = block.formats.map((format) =>
    formatted && format !== 'plain' ? NUMBER_FORMATS[format] : undefined,
  );
  return rows.map((row) => {
    const out = new Array<ExcelValue>(row.length);
    for (let c = 0; c < row.length; c++) out[c] = excelValueOf(row[c]!, codes[c], formatted);
    return out;
  });
}

function excelValueOf(value: Value, code: string | undefined, formatted: boolean): ExcelValue {
  if (typeof value === 'number') return code === undefined ? value : withFormat(value, code);
  if (isCellError(value)) return excelError(value);
  if (!isFormatted(value)) return value;
  return formatted && value.format !== 'plain'
    ? withFormat(value.value, NUMBER_FORMATS[value.format])
    : value.value;
}

const withFormat = (basicValue: number, numberFormat: string): FormattedNumber => ({
  type: 'Double',
  basicValue,
  numberFormat,
});
