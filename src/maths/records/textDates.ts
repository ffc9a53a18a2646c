import { dateOf, invalid, type CalcError } from '../shared/fault';
import { serialOf, type DateSystem } from '../shared/serial';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A text that is no date in any order. */
    notADate: { readonly given: string };
    /** A day and a month, but no year. */
    withoutYear: { readonly given: string };
    /** A month and a year, but no day. */
    withoutDay: { readonly given: string };
    /** A date in this order that the calendar lacks, and that no other order reads. */
    notInCalendar: { readonly given: string; readonly order: DateOrder };
    /** A text that is a date in another order only. */
    otherOrder: {
      readonly given: string;
      readonly order: DateOrder;
      readonly other: DateOrder;
      readonly date: Quantity;
    };
    /** A text that is a date in both orders, while another row of the column proves the other one. */
    eitherOrder: {
      readonly given: string;
      readonly order: DateOrder;
      readonly other: DateOrder;
      readonly proof: string;
      readonly row: number;
    };
  }
}

export const DATE_ORDERS = ['day first', 'month first', 'year first'] as const;
export type DateOrder = (typeof DATE_ORDERS)[number];

const MONTHS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
] as const;

/** The first and the last year taken. Lower serials are a day off in one of the date systems, or none at all. */
const [FIRST_YEAR, LAST_YEAR] = [1905, 9999];

interface Timed {
  /** The time of day, as a fraction of the day. */
  readonly time: number;
  /** The day of the week that the text names, Sunday as 0. */
  readonly weekday: number | undefined;
}

/** What a text writes as a date: three numbers, or a month's name and two, each with the digits it has. */
type Written =
  | ({ readonly kind: 'numbers'; readonly parts: readonly [string, string, string] } & Timed)
  | ({ readonly kind: 'named'; readonly month: number; readonly parts: readonly [string, string] } & Timed)
  | { readonly kind: 'noYear' }
  | { readonly kind: 'noDay' };

const TIME = /^(\d{1,2})(?::(\d{2})(?::(\d{2})(?:[.,]\d+)?)?)?\s*(?:([ap])\.?m\.?)?$/i;

/** A time of day as a fraction of the day; undefined where it is none. */
function dayFraction(text: string): number | undefined {
  const [, hourText, minuteText = '0', secondText = '0', half] = TIME.exec(text) ?? [];
  if (hourText === undefined) return undefined;
  const [hour, minute, second] = [Number(hourText), Number(minuteText), Number(secondText)];
  if (minute > 59 || second > 59 || hour > 23 || (half !== undefined && (hour < 1 || hour > 12)))
    return undefined;
  const hours = half === undefined ? hour : (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  return (hours * 3600 + minute * 60 + second) / 86_400;
}

/** The month that an English name or its first three letters or more say, from 1. */
function monthOf(word: string): number | undefined {
  const at = word.length < 3 ? -1 : MONTHS.findIndex((month) => month.startsWith(word));
  return at >= 0 ? at + 1 : undefined;
}

const WEEKDAYS = ['sunday', 'monday', 'tuesday', 'wednesday', 'thursday', 'friday', 'saturday'] as const;

/** A weekday in front, a time of day behind with its zone, and the date between them. */
const PARTS =
  /^(?:([a-z]{3,9})\.?,?\s+(?=.*\d.*\d))?(.*?)(?:(?:[\s,]+|(?<=\d)t)(\d{1,2}:\d{2}.*?|\d{1,2}\s*[ap]\.?m\.?)(?:\s*z|[+-]\d{2}:?\d{2})?)?$/s;

function writtenIn(text: string): Written | undefined {
  const clean = text.normalize('NFKC').trim().toLowerCase();
  const [, front, rest = '', timeText] = PARTS.exec(clean) ?? [];
  const time = timeText === undefined ? 0 : dayFraction(timeText.trim());
  if (time === undefined) return undefined;
  const named = front === undefined ? -1 : WEEKDAYS.findIndex((day) => day.startsWith(front));
  const dateText = named < 0 && front !== undefined ? `${front} ${rest}` : rest;
  const timed: Timed = { time, weekday: named < 0 ? undefined : named };
  const compact = /^(\d{4})(\d{2})(\d{2})$/.exec(dateText);
  if (compact) return { kind: 'numbers', parts: [compact[1]!, compact[2]!, compact[3]!], ...timed };
  const same = /^(\d{1,4})\s*([-/.\s])\s*(\d{1,2})\s*\2\s*'?(\d{1,4})\.?$/.exec(dateText);
  if (same) return { kind: 'numbers', parts: [same[1]!, same[3]!, same[4]!], ...timed };
  if (/^\d{1,2}\s*[-/.]\s*\d{1,2}\.?$/.test(dateText)) return { kind: 'noYear' };
  if (/^\d{1,2}\s*[-/.]\s*\d{4}$|^\d{4}\s*[-/.]\s*\d{1,2}$/.test(dateText)) return { kind: 'noDay' };
  // `3may26` is three words; `3rd` is one.
  const words = dateText
    .replace(/(\d)(?:st|nd|rd|th)\b/g, '$1')
    .split(/[\s,./'-]+|(?<=\d)(?=[a-z])|(?<=[a-z])(?=\d)/)
    .filter((word) => word !== '' && word !== 'of' && word !== 'the');
  const numbers = words.filter((word) => /^\d{1,4}$/.test(word));
  const months = words
    .map((word) => (word === 'sept' ? 9 : monthOf(word)))
    .filter((month) => month !== undefined);
  if (months.length !== 1 || numbers.length + 1 !== words.length) return undefined;
  if (numbers.length === 1) return numbers[0]!.length === 4 ? { kind: 'noDay' } : { kind: 'noYear' };
  if (numbers.length !== 2) return undefined;
  return { kind: 'named', month: months[0]!, parts: [numbers[0]!, numbers[1]!], ...timed };
}

/** The year that its digits say: two digits are a year of this century. */
function yearOf(digits: string): number | undefined {
  if (digits.length === 2) return 2000 + Number(digits);
  return digits.length === 4 ? Number(digits) : undefined;
}

function serialIn(
  yearText: string,
  month: number,
  dayText: string,
  time: number,
  system: DateSystem,
): number | undefined {
  const [year, day] = [yearOf(yearText), Number(dayText)];
  if (year === undefined || year < FIRST_YEAR || year > LAST_YEAR || dayText.length > 2) return undefined;
  const last = (Date.UTC(year, month, 1) - Date.UTC(year, month - 1, 1)) / 86_400_000;
  if (!(month >= 1 && month <= 12 && day >= 1 && day <= last)) return undefined;
  return serialOf(year, month, day, system) + time;
}

/** The date that a text is in an order; undefined where it is none, or not on the weekday that the text names. */
function readAs(written: Written, order: DateOrder, system: DateSystem): number | undefined {
  if (written.kind === 'noYear' || written.kind === 'noDay') return undefined;
  const serial = serialOfParts(written, order, system);
  if (serial === undefined || written.weekday === undefined) return serial;
  // Serial 1 of the later system is a day after its serial 0, Friday, 1 January 1904.
  const days = Math.floor(serial) - serialOf(1904, 1, 1, system) + FRIDAY;
  return days % 7 === written.weekday ? serial : undefined;
}

const FRIDAY = 5;

function serialOfParts(
  written: Extract<Written, Timed>,
  order: DateOrder,
  system: DateSystem,
): number | undefined {
  const { time } = written;
  if (written.kind === 'named') {
    const [a, b] = written.parts;
    // A number of four digits is the year; of two numbers of two digits the order says which.
    const yearLeads = a.length === 4 || (b.length !== 4 && order === 'year first');
    return serialIn(yearLeads ? a : b, written.month, yearLeads ? b : a, time, system);
  }
  const [a, b, c] = written.parts;
  // Nobody writes year, day, month: four digits in front say year, month, day (ISO 8601).
  if (a.length === 4 || order === 'year first') return serialIn(a, Number(b), c, time, system);
  const [day, month] = order === 'day first' ? [a, b] : [b, a];
  return month.length > 2 ? undefined : serialIn(c, Number(month), day, time, system);
}

/**
 * Whether another order than the stated one may be meant. Two digits in front are a year in no column that states them to be
 * a day or a month, unless they can be neither: 31/4 is a slip of a day, not the year 2031.
 */
const mayBeMeant = (written: Written, order: DateOrder): boolean =>
  order !== 'year first' ||
  written.kind === 'noYear' ||
  written.kind === 'noDay' ||
  written.parts[0].length === 4 ||
  Number(written.parts[0]) > 31;

interface Reading {
  readonly text: string;
  readonly stated: number | undefined;
  readonly others: readonly { readonly order: DateOrder; readonly serial: number }[];
  readonly kind: Written['kind'] | 'none';
}

function readingOf(text: string, order: DateOrder, system: DateSystem): Reading {
  const written = writtenIn(text);
  if (written === undefined) return { text, stated: undefined, others: [], kind: 'none' };
  const others = DATE_ORDERS.flatMap((other) => {
    const serial =
      other === order || !mayBeMeant(written, other) ? undefined : readAs(written, other, system);
    return serial === undefined ? [] : [{ order: other, serial }];
  });
  return { text, stated: readAs(written, order, system), others, kind: written.kind };
}

/**
 * The dates that the texts of one column write, by a stated order of day, month and year.
 *
 * Numbers may be parted by hyphens, slashes, points or spaces; a month may be an English name or its first three letters.
 * Four digits in front are a year, then come month and day. A year of two digits is one of 2000 to 2099: records of blocks
 * are of this century, and no rule that moves with the clock gives the same date tomorrow. A weekday may go in front, and
 * must be right. A time of day may follow; a zone behind it is not applied: the day is the one that is written.
 *
 * A text that is a date in another order only proves that order. Then every text of the column that is a date in both, and
 * not the same, is a fault too: nobody can know which of them were written so.
 *
 * @param texts texts of one column, top to bottom; undefined where a row has none
 * @param rowOf the row of an entry, for faults that speak of another entry
 * @returns for each text its serial, the time of day in the fraction, or its fault
 * @source ISO 8601-1:2019, 5.2.2 (calendar dates) for year, month, day; the orders are the three in use
 */
export function textDates(
  texts: readonly (string | undefined)[],
  order: DateOrder,
  { system, rowOf }: { readonly system: DateSystem; readonly rowOf: (index: number) => number },
): readonly (number | CalcError | undefined)[] {
  const known = new Map<string, Reading>();
  const readings = texts.map((text) => {
    if (text === undefined) return undefined;
    const reading = known.get(text) ?? readingOf(text, order, system);
    known.set(text, reading);
    return reading;
  });
  /** The first text that each other order alone can read. */
  const proofs = new Map<DateOrder, { readonly text: string; readonly index: number }>();
  readings.forEach((reading, index) => {
    if (reading === undefined || reading.stated !== undefined) return;
    for (const other of reading.others) {
      if (!proofs.has(other.order)) proofs.set(other.order, { text: reading.text, index });
    }
  });
  return readings.map((reading, index) => {
    if (reading === undefined) return undefined;
    const { text: given, stated, others } = reading;
    if (reading.kind === 'none') return invalid('dates', 'notADate', { given }, index);
    if (reading.kind === 'noYear') return invalid('dates', 'withoutYear', { given }, index);
    if (reading.kind === 'noDay') return invalid('dates', 'withoutDay', { given }, index);
    if (stated === undefined) {
      const [first] = others;
      if (first === undefined) return invalid('dates', 'notInCalendar', { given, order }, index);
      const details = { given, order, other: first.order, date: dateOf(first.serial) };
      return invalid('dates', 'otherOrder', details, index);
    }
    const rival = others.find((other) => other.serial !== stated && proofs.has(other.order));
    if (rival === undefined) return stated;
    const { text: proof, index: proving } = proofs.get(rival.order)!;
    const details = { given, order, other: rival.order, proof, row: rowOf(proving) };
    return invalid('dates', 'eitherOrder', details, index);
  });
}
