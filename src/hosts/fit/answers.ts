import type { DecimalMark } from './units';
import type { DateOrder } from '../../worksheet/writtenDates';
import { WEEKDAYS, type Weekday } from './weeks';

/** A figure, a word or nothing, as a grower answers. */
export type Answer = string | number | null;

/** A blank below a filled cell says the same as that one, or nothing. */
export const BLANKS = ['as above', 'blank'] as const;
export type BlankMeaning = (typeof BLANKS)[number];

/** Records that are struck out are no longer records, or still are. */
export const STRUCK = ['left out', 'counted'] as const;
export type StruckMeaning = (typeof STRUCK)[number];

/** What a grower answered; all of it may be left out. */
export interface Answers {
  /** Which part of the book serves for a table: `Grow log!A4:H13`. */
  readonly tables?: Readonly<Record<string, string>>;
  /** Which header serves for a column: `{ "lots": { "inoculated": "Date inoc" } }`; null for none. */
  readonly columns?: Readonly<Record<string, Readonly<Record<string, string | null>>>>;
  /** The order of text dates, by table and column: `{ "lots, inoculated": "month first" }`. */
  readonly dates?: Readonly<Record<string, DateOrder | null>>;
  /** The year of dates that are written without one: `{ "lots, inoculated": 2026 }`. */
  readonly years?: Readonly<Record<string, number | null>>;
  /** The day that a week stands for, by table and column: `{ "orders, due": "Friday" }`. */
  readonly weekdays?: Readonly<Record<string, Weekday | null>>;
  /** What begins the decimals of figures that are text, by table and column: `{ "orders, mass": "comma" }`. */
  readonly decimals?: Readonly<Record<string, DecimalMark | null>>;
  /** What a blank cell of a column means: `{ "orders, due": "as above" }`. */
  readonly blanks?: Readonly<Record<string, BlankMeaning | null>>;
  /** What records are that are struck out: `{ "lots": "left out" }`. */
  readonly struck?: Readonly<Record<string, StruckMeaning | null>>;
  /** Which rows count, by the words of a column that says what they are: `{ "orders": { "Status": ["open"] } }`. */
  readonly rows?: Readonly<Record<string, Readonly<Record<string, readonly string[]>>>>;
  /** Rows of a log that take blocks off their lot, by their words: `{ "lots": ["opened"] }`. */
  readonly taken?: Readonly<Record<string, readonly string[]>>;
  /** The strains of each product word: `{ "Shiitake": ["Alder-3"] }`. */
  readonly products?: Readonly<Record<string, readonly string[]>>;
  /** Tables that the book lacks, a row an object: `{ "rooms": [{ "room": "North", "shelves": 10 }] }`. */
  readonly fill?: Readonly<Record<string, readonly Readonly<Record<string, Answer>>[]>>;
  /** Whether records that cannot be read are left out, and counted, until they are corrected: `{ "lots": true }`. */
  readonly leaveOut?: Readonly<Record<string, boolean>>;
  /** Single figures: `{ "days": 28 }`. */
  readonly figures?: Readonly<Record<string, Answer>>;
}

/** What is wrong with a file of answers. */
export class AnswersFault extends Error {}

const PARTS = [
  'tables',
  'columns',
  'dates',
  'years',
  'weekdays',
  'decimals',
  'blanks',
  'struck',
  'rows',
  'taken',
  'products',
  'fill',
  'figures',
  'leaveOut',
] as const;

const isObject = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Answers of a JSON text. @throws AnswersFault with one sentence where it is none */
export function readAnswers(text: string): Answers {
  let read: unknown;
  try {
    read = JSON.parse(text);
  } catch (fault) {
    throw new AnswersFault(`the answers are not sound JSON: ${(fault as Error).message}`);
  }
  if (!isObject(read)) throw new AnswersFault('the answers must be one JSON object');
  for (const [part, value] of Object.entries(read)) {
    if (!(PARTS as readonly string[]).includes(part)) {
      throw new AnswersFault(`the answers have no part ${part}, only ${PARTS.join(', ')}`);
    }
    if (!isObject(value)) throw new AnswersFault(`${part} in the answers must be an object`);
  }
  for (const [word, strains] of Object.entries((read['products'] as object | undefined) ?? {})) {
    if (!Array.isArray(strains)) throw new AnswersFault(`products, ${word}: a list of strains needed`);
  }
  for (const [table, rows] of Object.entries((read['fill'] as object | undefined) ?? {})) {
    if (!Array.isArray(rows) || !rows.every(isObject)) {
      throw new AnswersFault(`fill, ${table}: a list of rows needed, each an object`);
    }
  }
  for (const [column, order] of Object.entries((read['dates'] as object | undefined) ?? {})) {
    if (order !== null && !['day first', 'month first', 'year first'].includes(String(order))) {
      throw new AnswersFault(`dates, ${column}: day first, month first or year first needed`);
    }
  }
  for (const [column, year] of Object.entries((read['years'] as object | undefined) ?? {})) {
    if (year !== null && !(Number.isInteger(year) && Number(year) >= 1905 && Number(year) <= 9999)) {
      throw new AnswersFault(`years, ${column}: a year such as 2026 needed`);
    }
  }
  for (const [column, weekday] of Object.entries((read['weekdays'] as object | undefined) ?? {})) {
    if (weekday !== null && !(WEEKDAYS as readonly string[]).includes(String(weekday))) {
      throw new AnswersFault(`weekdays, ${column}: one of ${WEEKDAYS.join(', ')} needed`);
    }
  }
  for (const [column, mark] of Object.entries((read['decimals'] as object | undefined) ?? {})) {
    if (mark !== null && !['point', 'comma'].includes(String(mark))) {
      throw new AnswersFault(`decimals, ${column}: point or comma needed`);
    }
  }
  for (const [column, meaning] of Object.entries((read['blanks'] as object | undefined) ?? {})) {
    if (meaning !== null && !(BLANKS as readonly string[]).includes(String(meaning))) {
      throw new AnswersFault(`blanks, ${column}: ${BLANKS.join(' or ')} needed`);
    }
  }
  for (const [table, meaning] of Object.entries((read['struck'] as object | undefined) ?? {})) {
    if (meaning !== null && !(STRUCK as readonly string[]).includes(String(meaning))) {
      throw new AnswersFault(`struck, ${table}: ${STRUCK.join(' or ')} needed`);
    }
  }
  for (const [table, columns] of Object.entries((read['rows'] as object | undefined) ?? {})) {
    if (!isObject(columns) || !Object.values(columns).every(Array.isArray)) {
      throw new AnswersFault(`rows, ${table}: for each header a list of words needed`);
    }
  }
  for (const [table, words] of Object.entries((read['taken'] as object | undefined) ?? {})) {
    if (!Array.isArray(words)) throw new AnswersFault(`taken, ${table}: a list of words needed`);
  }
  return read;
}
