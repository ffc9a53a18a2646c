import { DEFAULT_LOCALE, helpers, registries, type FunctionResultObject } from '@odoo/o-spreadsheet';
import {
  NUMBER_FORMATS,
  type Cell,
  type ErrorCode,
  type Format,
  cellError,
  isCellError,
} from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';

// The engine keeps errors as text with a message beside, and blocks column by column.

/** Codes a sheet knows that the engine does not have as errors. */
const FURTHER_CODES: readonly ErrorCode[] = ['#VALUE!', '#REF!', '#CALC!', '#BUSY!'];
for (const code of FURTHER_CODES) registries.errorTypes.add(code);

/** The engine's own names of errors, as a sheet names them. */
const SHEET_CODES: Readonly<Record<string, ErrorCode>> = {
  '#ERROR': '#VALUE!',
  '#REF': '#REF!',
  '#BAD_EXPR': '#NAME?',
  '#CYCLE': '#REF!',
};

export const isErrorText = (value: unknown): value is string =>
  typeof value === 'string' && registries.errorTypes.has(value);

/** What the engine holds as a cell of ours. */
export function toCell(held: FunctionResultObject | undefined): Cell {
  const value = held?.value ?? null;
  if (!isErrorText(value)) return value;
  return cellError(SHEET_CODES[value] ?? (value as ErrorCode), held?.message ?? '');
}

/** Whether the engine shows a number of this format as what it means: it counts days from 1900 only. */
const canShow = (code: string, dateSystem: DateSystem): boolean =>
  dateSystem === 1900 || !helpers.isDateTimeFormat(code);

/**
 * Where the engine would show a date as another day, it shows the serial instead: by codes of our own spelling, so that
 * the format a result has can still be told.
 */
const SERIAL_CODES: Record<Format, string> = { ...NUMBER_FORMATS, date: '#0', dateTime: '#0.00' };

/** The code that shows a number as what it means. */
export const codeOf = (format: Format, dateSystem: DateSystem): string =>
  (canShow(NUMBER_FORMATS[format], dateSystem) ? NUMBER_FORMATS : SERIAL_CODES)[format];

const FORMATS = new Map<string | undefined, Format>(
  [...Object.entries(NUMBER_FORMATS), ...Object.entries(SERIAL_CODES)]
    .filter(([format]) => format !== 'plain')
    .map(([format, code]) => [code, format as Format]),
);

export const formatOf = (code: string | undefined): Format | undefined => FORMATS.get(code);

/** A constant as the engine reads it back to the same value. */
export function written(cell: Cell): string {
  if (cell === null) return '';
  if (isCellError(cell)) return cell.code;
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  if (typeof cell === 'number') {
    const digits = String(cell);
    return helpers.isNumber(digits, DEFAULT_LOCALE) ? digits : `=${digits}`;
  }
  return isReadAsText(cell) ? cell : `'${cell}`;
}

/** Languages that write days in each order: the engine reads a text as a day that is one in any of them. */
const ORDERS = ['mm/dd/yyyy', 'dd/mm/yyyy', 'yyyy-mm-dd'].map((dateFormat) => ({
  ...DEFAULT_LOCALE,
  dateFormat,
}));

function isReadAsText(text: string): boolean {
  return !(
    /^[=']/.test(text) ||
    /^(true|false)$/i.test(text) ||
    isErrorText(text) ||
    helpers.isNumber(text, DEFAULT_LOCALE) ||
    ORDERS.some((locale) => helpers.isDateTime(text, locale))
  );
}

/** A number format of a file as far as the engine can show it. One that makes numbers text is none. */
export function readableFormat(code: string | undefined, dateSystem: DateSystem): string | undefined {
  if (code === undefined || code === 'General' || code === '@') return undefined;
  const simpler = code.replace(/\[\$[^\]]*\]|\[[A-Za-z]+\]|_.|\*.|;@$/g, '');
  // The engine writes hours with two digits only, and tells the half of the day by `a`.
  const withHours = simpler.replace(/AM\/PM|A\/P/gi, 'a').replace(/\bh\b(?=:)/gi, 'hh');
  return [code, simpler, withHours].find((candidate) => {
    try {
      helpers.formatValue(1, { format: candidate, locale: DEFAULT_LOCALE });
      return candidate !== '' && canShow(candidate, dateSystem);
    } catch {
      return false;
    }
  });
}
