import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { DecimalMark } from './units';
import { writtenOrder, type DateOrder } from '../../worksheet/writtenDates';
import { showsDate, type BookSheet } from './book';
import { onceFor, onceForText } from './once';

/** What a cell looks like to a reader, whatever the sheet takes it for. */
export type Look =
  | 'blank'
  | 'date'
  | 'text date'
  | 'text that may be a day'
  | 'figures that may be a day'
  | 'text that is a range'
  | 'text that counts a flush'
  | 'number'
  | 'text number'
  | 'text'
  | 'error'
  | 'true or false';

const FIGURE =
  /^(?:(?:a|c|nz|r)?[$€£]\s*|(?:usd|eur|gbp|pln|chf)\s*)?[-+]?(?:\d{1,3}(?:[ .,'\u00a0\u202f]\d{3})+|\d+)?(?:[.,]\d+)?\s*(?:[%#]|[a-złč]{1,6}\.?|(?:a|c|nz|r)?[$€£])?$/i;

/** Of a text without a year 29 February is a date. */
const A_LEAP_YEAR = 2000;

/** A day and a month without a year: by name, or parted so that it is no figure. */
export const lacksYear = onceForText(
  (text): boolean =>
    /\p{L}|\/|\.\s*$/u.test(text) &&
    writtenOrder(text) === undefined &&
    !['none', undefined].includes(writtenOrder(text, A_LEAP_YEAR)),
);

/** Two figures such as 5/10: a day without a year in a column of days, a name in a column of names. */
export const mayBeDay = (text: string): boolean => !/\p{L}/u.test(text) && lacksYear(text);

/** A longer text is a remark. */
const LONGEST_DATE = 40;

export const isTextDate = onceForText((text): boolean => {
  if (text.length > LONGEST_DATE) return false;
  const order = writtenOrder(text);
  return (order !== undefined && !(order === 'none' && isWhole(text))) || lacksYear(text);
});

/** `50/30/20`: no day, and figures that add up to a whole. */
const isWhole = (text: string): boolean =>
  /^\s*\d{1,2}(?:\s*\/\s*\d{1,2})+\s*$/.test(text) &&
  text.split('/').reduce((sum, figure) => sum + Number(figure), 0) === 100;

/** `5 lb 8 oz` */
const POUNDS_AND_OUNCES = /^\d+\s*(?:lbs?|pounds?)\.?\s*,?\s*\d+(?:[.,]\d+)?\s*(?:oz|ounces?)\.?$/i;

export const isTextNumber = onceForText((text): boolean => {
  const bare = text.trim();
  return /\d/.test(bare) && !isTextDate(bare) && (FIGURE.test(bare) || POUNDS_AND_OUNCES.test(bare));
});

/** Marks that say the same as the cell above. */
export const DITTO_MARKS = [
  '"',
  '″',
  '”',
  '“',
  '„',
  "''",
  '〃',
  ',,',
  '-"-',
  '- " -',
  '"-"',
  'ditto',
  'do.',
  'dto',
  'dto.',
  'id.',
  'idem',
  '↓',
];
/** Marks that say that there is nothing. */
export const DASHES = ['-', '–', '—', '--', '---', 'n/a', 'n.a.', 'na'];

/** A day written as eight figures, year first: 20261005. */
export function isDayFigures(cell: Cell): boolean {
  const text = typeof cell === 'number' ? String(cell) : typeof cell === 'string' ? cell.trim() : '';
  const [, year, month, date] = /^((?:19|20)\d\d)(\d\d)(\d\d)$/.exec(text) ?? [];
  return year !== undefined && writtenOrder(`${year}-${month}-${date}`) === 'year first';
}

const isOneOf =
  (marks: readonly string[]) =>
  (cell: Cell): boolean =>
    typeof cell === 'string' && cell.length <= 6 && marks.includes(cell.trim().toLowerCase());
export const isDitto = isOneOf(DITTO_MARKS);
export const isDash = isOneOf(DASHES);

/** Cells are looked at for every table that their sheet might hold. */
const looksOf = onceFor((_: BookSheet): Look[][] => []);

export function lookAt(sheet: BookSheet, row: number, column: number): Look {
  const cell = sheet.rows[row]?.[column];
  if (cell === undefined || cell === null) return 'blank';
  const ofColumn = (looksOf(sheet)[column] ??= []);
  return (ofColumn[row] ??= lookOf(cell, showsDate(sheet.formatAt(row, column))));
}

export function lookOf(cell: Cell, isShownAsDate: boolean): Look {
  if (isBlank(cell) || isDitto(cell)) return 'blank';
  if (isCellError(cell)) return 'error';
  if (typeof cell === 'boolean') return 'true or false';
  if (typeof cell === 'number') return isShownAsDate ? 'date' : 'number';
  const text = String(cell);
  if (isTextDate(text) && !mayBeDay(text)) return 'text date';
  return isTextNumber(text) ? 'text number' : 'text';
}

/** What a column of text dates proves of its order. */
export interface ProvenOrder {
  readonly order: DateOrder | undefined;
  /** How many texts prove it. */
  readonly proofs: number;
  /** Whether some texts prove one order and some the other. */
  readonly isContradicted: boolean;
  /** Whether any text needs an order at all. */
  readonly isNeeded: boolean;
  /** Whether some write no year. */
  readonly lacksYear: boolean;
}

export function provenOrder(texts: readonly string[]): ProvenOrder {
  const counts = { 'day first': 0, 'month first': 0, 'year first': 0, any: 0, either: 0, none: 0 };
  for (const text of texts) {
    const order = writtenOrder(text, A_LEAP_YEAR);
    if (order) counts[order]++;
  }
  const isNeeded = counts['day first'] + counts['month first'] + counts['year first'] + counts.either > 0;
  // A year in front proves itself, and says nothing of dates that have it last.
  const proven = (['day first', 'month first'] as const).filter((order) => counts[order] > 0);
  const onlyYears = proven.length === 0 && counts.either === 0 && counts['year first'] > 0;
  const order: DateOrder | undefined = onlyYears ? 'year first' : proven.length === 1 ? proven[0] : undefined;
  return {
    order,
    proofs: order ? counts[order] : 0,
    isContradicted: proven.length > 1,
    isNeeded,
    lacksYear: texts.some(lacksYear),
  };
}

/** The decimal mark that a column's texts prove: one that is followed by one or two digits, or by four and more. */
export function provenMark(texts: readonly string[]): DecimalMark | undefined {
  const proves = (mark: string): boolean =>
    texts.some(
      (text) => new RegExp(`\\d*\\${mark}(\\d{1,2}|\\d{4,})(?!\\d|[.,]\\d)`).test(text) && !isTextDate(text),
    );
  const [comma, point] = [proves(','), proves('.')];
  return comma === point ? undefined : comma ? 'comma' : 'point';
}

/** 20261005 as a date that is written out. */
export const withStrokes = (cell: Cell): Cell =>
  isCellError(cell)
    ? cell
    : String(cell)
        .trim()
        .replace(/^(\d{4})(\d\d)(\d\d)$/, '$1-$2-$3');

/** No block was loaded before this day: smaller figures are counts. */
export const FIRST_SERIAL = 20_000;
