import type { DecimalMark } from './units';
import type { DateOrder } from '../../worksheet/writtenDates';
import type { Weekday } from './weeks';

/** A figure, a word or nothing, as a grower answers. */
export type Answer = string | number | null;

/** What a template has where an answer is still open, and null would be one. */
export const OPEN = '?';

/** A blank below a filled cell says the same as that one, or nothing. */
export const BLANKS = ['as above', 'blank'] as const;
export type BlankMeaning = (typeof BLANKS)[number];

/** Records that are struck out are no longer records, or still are. */
export const STRUCK = ['left out', 'counted'] as const;
export type StruckMeaning = (typeof STRUCK)[number];

/** Blocks that a column of lots counts are gone, or it counts something else. */
export const LOST = ['gone', 'not gone'] as const;
export type LostMeaning = (typeof LOST)[number];

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
  /** What a column of lots counts that no list knows: `{ "lots": { "Casualties": "gone" } }`. */
  readonly lost?: Readonly<Record<string, Readonly<Record<string, LostMeaning | null>>>>;
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
