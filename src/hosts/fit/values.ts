import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { showsDate, type BookSheet } from './book';

/** What a cell looks like to a reader, whatever the sheet takes it for. */
export type Look =
  'blank' | 'date' | 'text date' | 'number' | 'text number' | 'text' | 'error' | 'true or false';

const MONTHS = 'jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec';
const NUMERIC_DATE =
  /^(\d{1,4})\s*([./-])\s*(\d{1,2})\s*\2\s*(\d{1,4})(?:[ T,]+\d{1,2}:\d{2}(?::\d{2})?\s*(?:[ap]\.?m\.?)?)?$/i;
const WORDED_DATE = new RegExp(
  `^(?:\\d{1,2}(?:st|nd|rd|th)?[\\s.-]*(?:${MONTHS})[a-z]*[\\s.,-]*\\d{2,4}|(?:${MONTHS})[a-z]*[\\s.]*\\d{1,2}(?:st|nd|rd|th)?[\\s,]*\\d{2,4})$`,
  'i',
);
const FIGURE = /^[-+]?(?:\d{1,3}(?:[ .,'\u00a0\u202f]\d{3})+|\d+)?(?:[.,]\d+)?\s*(?:%|[a-z]{1,6}\.?)?$/i;

/** The three figures of a text date and the sign between them; undefined for other texts. */
export function dateFigures(text: string): readonly [string, string, string] | undefined {
  const match = NUMERIC_DATE.exec(text.trim());
  return match ? [match[1]!, match[3]!, match[4]!] : undefined;
}

export const isTextDate = (text: string): boolean =>
  dateFigures(text) !== undefined || WORDED_DATE.test(text.trim());

/** `5 lb 8 oz` */
const POUNDS_AND_OUNCES = /^\d+\s*(?:lbs?|pounds?)\.?\s*,?\s*\d+(?:[.,]\d+)?\s*(?:oz|ounces?)\.?$/i;

export const isTextNumber = (text: string): boolean => {
  const bare = text.trim();
  return /\d/.test(bare) && !isTextDate(bare) && (FIGURE.test(bare) || POUNDS_AND_OUNCES.test(bare));
};

export function lookAt(sheet: BookSheet, row: number, column: number): Look {
  const cell = sheet.rows[row]?.[column] ?? null;
  return lookOf(cell, showsDate(sheet.formatAt(row, column)));
}

export function lookOf(cell: Cell, isShownAsDate: boolean): Look {
  if (isBlank(cell)) return 'blank';
  if (isCellError(cell)) return 'error';
  if (typeof cell === 'boolean') return 'true or false';
  if (typeof cell === 'number') return isShownAsDate ? 'date' : 'number';
  const text = String(cell);
  if (isTextDate(text)) return 'text date';
  return isTextNumber(text) ? 'text number' : 'text';
}

/** The order in which text dates give day, month and year. */
export type DateOrder = 'day first' | 'month first' | 'year first';

/** What a column of text dates proves of its order, and the dates that only the other order could read. */
export interface ProvenOrder {
  readonly order: DateOrder | undefined;
  /** How many texts prove it. */
  readonly proofs: number;
  /** Whether some texts prove one order and some the other. */
  readonly isContradicted: boolean;
  /** Whether any text needs an order at all. */
  readonly isNeeded: boolean;
}

export function provenOrder(texts: readonly string[]): ProvenOrder {
  const counts = { 'day first': 0, 'month first': 0, 'year first': 0 };
  let isNeeded = false;
  let open = 0;
  for (const text of texts) {
    const figures = dateFigures(text);
    if (!figures) continue;
    const [first, second] = figures.map(Number) as [number, number, number];
    isNeeded = true;
    if (figures[0].length > 2) counts['year first']++;
    else if (first > 12 && second <= 12) counts['day first']++;
    else if (second > 12 && first <= 12) counts['month first']++;
    else open++;
  }
  // A year in front proves itself, and says nothing of dates that have it last.
  const proven = (['day first', 'month first'] as const).filter((order) => counts[order] > 0);
  const onlyYears = proven.length === 0 && open === 0 && counts['year first'] > 0;
  const order: DateOrder | undefined = onlyYears ? 'year first' : proven.length === 1 ? proven[0] : undefined;
  return { order, proofs: order ? counts[order] : 0, isContradicted: proven.length > 1, isNeeded };
}
