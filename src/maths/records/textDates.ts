import { dateOf, invalid, type CalcError } from '../shared/fault';
import { serialOf, utcDay, type DateSystem } from '../shared/serial';

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
      /** The day of the week in the stated order, Sunday as 0, where the text names another. */
      readonly weekday: number | undefined;
    };
    /** A date whose day of the week, Sunday as 0, is not the one that the text names. */
    otherWeekday: { readonly given: string; readonly weekday: number; readonly date: Quantity };
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

/** Names of the months in English, German, French, Spanish, Italian, Dutch, Portuguese, Polish and the Scandinavian languages. */
const MONTHS = [
  'january januar janner janvier enero gennaio januari janeiro styczen stycznia',
  'february februar feber fevrier febrero febbraio februari fevereiro luty lutego',
  'march marz maerz mrz mars marzo maart mrt marco marts marzec marca',
  'april avril abril aprile kwiecien kwietnia',
  'may mai mayo maggio mei maio maj maja',
  'june juni juin junio giugno junho czerwiec czerwca',
  'july juli juillet julio luglio julho lipiec lipca',
  'august aout agosto augustus augusti sierpien sierpnia',
  'september septembre septiembre settembre setembro wrzesien wrzesnia',
  'october oktober octobre octubre ottobre outubro pazdziernik pazdziernika',
  'november novembre noviembre novembro listopad listopada',
  'december dezember decembre diciembre dicembre dezembro desember grudzien grudnia',
].map((names) => names.split(' '));

/** Names of the days of the week in the same languages but Polish, Sunday first. */
const WEEKDAYS = [
  'sunday sonntag dimanche domingo domenica zondag sondag søndag',
  'monday montag lundi lunes lunedi maandag segunda mandag',
  'tuesday dienstag mardi martes martedi dinsdag terca tirsdag tisdag',
  'wednesday weds mittwoch mercredi miercoles mercoledi woensdag quarta onsdag',
  'thursday donnerstag jeudi jueves giovedi donderdag quinta torsdag',
  'friday freitag vendredi viernes venerdi vrijdag sexta fredag',
  'saturday samstag samedi sabado sabato zaterdag lordag lørdag',
].map((names) => names.split(' '));

/** The names of a list that a word is, or begins, by their places. */
const named = (lists: readonly (readonly string[])[], word: string, letters: number): number[] =>
  word.length < letters
    ? []
    : lists.flatMap((names, at) => (names.some((name) => name.startsWith(word)) ? [at] : []));

/** The first and the last year taken. Lower serials are a day off in one of the date systems, or none at all. */
const [FIRST_YEAR, LAST_YEAR] = [1905, 9999];

interface Timed {
  /** The time of day, as a fraction of the day. */
  readonly time: number;
  /** The days of the week that the text may name, Sunday as 0: `Di` is one day in German and another in French. */
  readonly weekdays: readonly number[];
}

/** What a text writes as a date: three numbers, or a month's name and two, each with the digits it has. */
type Written =
  | ({ readonly kind: 'numbers'; readonly parts: readonly [string, string, string] } & Timed)
  | ({ readonly kind: 'named'; readonly month: number; readonly parts: readonly [string, string] } & Timed)
  | ({ readonly kind: 'noYear'; readonly month?: number; readonly parts: readonly string[] } & Timed)
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

/** The month that a name or its first three letters or more say, in small letters without accents; from 1. */
export function monthOf(word: string): number | undefined {
  const [first, second] = named(MONTHS, word, 3);
  return first === undefined || second !== undefined ? undefined : first + 1;
}

/** A date, and behind it a time of day with its zone. */
const PARTS =
  /^(.*?)(?:(?:[\s,]+|(?<=\d)t)(\d{1,2}:\d{2}.*?|\d{1,2}\s*[ap]\.?m\.?)(?:\s*z|[+-]\d{2}:?\d{2})?)?$/s;

/** What people write before a date. */
const BEFORE = /^(?:for|due|by|on|deliver(?:y|ed)?|collect(?:ion)?|fur|pour|para|voor|per)\b[\s:]+(?=\S)/;

/** A weekday in front of a date, or behind it. */
const WEEKDAY_FIRST = /^(\p{L}{2,13})[.,]*\s*(?=\d|\p{L}+\.?\s*\d)(.*)$/su;
const WEEKDAY_LAST = /^(.*\d\.?),?\s*\(?(\p{L}{2,13})\.?\)?$/su;

/** A week of a year. */
const WEEK =
  /^(?:\d{4}[\s-]?)?(?:w|wk|week|kw|cw|calendar week|sem|semaine|semana|uge|uke|vecka)\.?\s*\d{1,2}(?:[\s/,-]+\d{2,4})?$/;

function writtenIn(text: string): Written | undefined {
  if (!/\d/.test(text)) return undefined;
  const clean = text.normalize('NFKD').replace(/\p{M}/gu, '').trim().toLowerCase().replace(BEFORE, '');
  const [, dateText = '', timeText] = PARTS.exec(clean) ?? [];
  const time = timeText === undefined ? 0 : dayFraction(timeText.trim());
  if (time === undefined) return undefined;
  // A month in front comes before a day of the week: `mar 12 2026`.
  const whole = dateIn(dateText, { time, weekdays: [] });
  if (whole !== undefined) return whole;
  const first = WEEKDAY_FIRST.exec(dateText);
  const last = WEEKDAY_LAST.exec(dateText);
  for (const [word, rest] of [
    [first?.[1], first?.[2]],
    [last?.[2], last?.[1]],
  ]) {
    const weekdays = word === undefined ? [] : named(WEEKDAYS, word, 2);
    if (weekdays.length > 0) return dateIn(rest!.trim(), { time, weekdays });
  }
  return undefined;
}

function dateIn(dateText: string, timed: Timed): Written | undefined {
  const compact = /^(\d{4})(\d{2})(\d{2})$/.exec(dateText);
  if (compact) return { kind: 'numbers', parts: [compact[1]!, compact[2]!, compact[3]!], ...timed };
  const same = /^(\d{1,4})\s*([-/.\s])\s*(\d{1,2})\s*\2\s*'?(\d{1,4})\.?$/.exec(dateText);
  if (same) return { kind: 'numbers', parts: [same[1]!, same[3]!, same[4]!], ...timed };
  const short = /^(\d{1,2})\s*[-/.]\s*(\d{1,2})\.?$/.exec(dateText);
  if (short) return { kind: 'noYear', parts: [short[1]!, short[2]!], ...timed };
  if (/^\d{1,2}\s*[-/.]\s*\d{4}$|^\d{4}\s*[-/.]\s*\d{1,2}$/.test(dateText) || WEEK.test(dateText)) {
    return { kind: 'noDay' };
  }
  // `3may26` is three words; `3rd` is one.
  const words = dateText
    .replace(/(\d)(?:st|nd|rd|th|er)\b/g, '$1')
    .split(/[\s,./'-]+|(?<=\d)(?=[a-z])|(?<=[a-z])(?=\d)/)
    .filter((word) => word !== '' && !FILLERS.has(word));
  const numbers = words.filter((word) => /^\d{1,4}$/.test(word));
  const months = words.map(monthOf).filter((month) => month !== undefined);
  if (months.length !== 1 || numbers.length + 1 !== words.length) return undefined;
  if (numbers.length === 1)
    return numbers[0]!.length === 4
      ? { kind: 'noDay' }
      : { kind: 'noYear', month: months[0]!, parts: [numbers[0]!], ...timed };
  if (numbers.length !== 2) return undefined;
  return { kind: 'named', month: months[0]!, parts: [numbers[0]!, numbers[1]!], ...timed };
}

/** Words that go between the parts of a date. */
const FILLERS = new Set(['of', 'the', 'de', 'del', 'den', 'der', 'le', 'el']);

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

/** What a text without a year writes in an order, with the year that it is known to be of. */
function ofYear(written: Written, order: DateOrder, year: number | undefined): Written {
  if (written.kind !== 'noYear' || year === undefined) return written;
  const { month, parts, time, weekdays } = written;
  const [a, b] = parts as [string, string?];
  if (month !== undefined || b === undefined)
    return { kind: 'named', month: month!, parts: [a, String(year)], time, weekdays };
  const whole = order === 'year first' ? ([String(year), a, b] as const) : ([a, b, String(year)] as const);
  return { kind: 'numbers', parts: whole, time, weekdays };
}

/** The date that a text is in an order; undefined where it is none, or not on the weekday that the text names. */
function readAs(
  text: Written,
  order: DateOrder,
  system: DateSystem,
  year: number | undefined,
): number | undefined {
  const written = ofYear(text, order, year);
  if (written.kind === 'noYear' || written.kind === 'noDay') return undefined;
  const serial = serialOfParts(written, order, system);
  if (serial === undefined || written.weekdays.length === 0) return serial;
  return written.weekdays.includes(weekdayOf(serial, system)) ? serial : undefined;
}

/** The day of the week of a serial, Sunday as 0. */
const weekdayOf = (serial: number, system: DateSystem): number => utcDay(serial, system).getUTCDay();

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
  written.kind === 'noDay' ||
  (written.kind !== 'noYear' && (written.parts[0].length === 4 || Number(written.parts[0]) > 31));

interface Reading {
  readonly text: string;
  readonly stated: number | undefined;
  readonly others: readonly { readonly order: DateOrder; readonly serial: number }[];
  readonly kind: Written['kind'] | 'none';
  /** The day of the week that the date has in the stated order, where the text names another. */
  readonly weekday: number | undefined;
  /** That date. */
  readonly contradicted: number | undefined;
}

function readingOf(text: string, order: DateOrder, system: DateSystem, year: number | undefined): Reading {
  const found = writtenIn(text);
  if (found === undefined)
    return { text, stated: undefined, others: [], kind: 'none', weekday: undefined, contradicted: undefined };
  const written = ofYear(found, order, year);
  const others = DATE_ORDERS.flatMap((other) => {
    const serial =
      other === order || !mayBeMeant(found, other) ? undefined : readAs(found, other, system, year);
    return serial === undefined ? [] : [{ order: other, serial }];
  });
  const stated = readAs(found, order, system, year);
  const isDate = written.kind === 'numbers' || written.kind === 'named';
  const otherDay = stated === undefined && isDate ? serialOfParts(written, order, system) : undefined;
  const weekday = otherDay === undefined ? undefined : weekdayOf(otherDay, system);
  return { text, stated, others, kind: written.kind, weekday, contradicted: otherDay };
}

/**
 * How a text writes a date: the one order that can read it, `any` where all that people use give the same day, `either` where
 * day first and month first give two days, `none` where it has the form of a date and is in no calendar. Undefined where it has
 * not that form, or no year and none is given.
 */
export function writtenOrder(text: string, year?: number): DateOrder | 'any' | 'either' | 'none' | undefined {
  const found = writtenIn(text);
  const written = found && ofYear(found, 'day first', year);
  if (written?.kind !== 'numbers' && written?.kind !== 'named') return undefined;
  const [asDay, asMonth] = (['day first', 'month first'] as const).map((order) =>
    readAs(written, order, 1900, undefined),
  );
  if (written.parts[0].length === 4)
    return asDay === undefined ? 'none' : written.kind === 'named' ? 'any' : 'year first';
  if (asDay === undefined && asMonth === undefined) return 'none';
  if (asDay === undefined) return 'month first';
  if (asMonth === undefined) return 'day first';
  return asDay === asMonth ? 'any' : 'either';
}

/**
 * The dates that the texts of one column write, by a stated order of day, month and year.
 *
 * Numbers may be parted by hyphens, slashes, points or spaces; a month may be a name or its first three letters. Four digits in front are a year, then come month and day. A year of two digits is one of 2000 to 2099: records of blocks
 * are of this century, and no rule that moves with the clock gives the same date tomorrow. A weekday may go in front
 * or behind, and must be right. A time of day may follow; a zone behind it is not applied: the day is the one that is written.
 *
 * A text that is a date in another order only proves that order. Then every text of the column that is a date in both, and
 * not the same, is a fault too: nobody can know which of them were written so.
 *
 * @param texts texts of one column, top to bottom; undefined where a row has none
 * @param year the year of texts that write a day and a month only; without it they are faults
 * @param rowOf the row of an entry, for faults that speak of another entry
 * @returns for each text its serial, the time of day in the fraction, or its fault
 * @source ISO 8601-1:2019, 5.2.2 (calendar dates) for year, month, day; the orders are the three in use
 */
export function textDates(
  texts: readonly (string | undefined)[],
  order: DateOrder,
  {
    system,
    rowOf,
    year,
  }: {
    readonly system: DateSystem;
    readonly rowOf: (index: number) => number;
    readonly year?: number | undefined;
  },
): readonly (number | CalcError | undefined)[] {
  const known = new Map<string, Reading>();
  const readings = texts.map((text) => {
    if (text === undefined) return undefined;
    const reading = known.get(text) ?? readingOf(text, order, system, year);
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
      const { weekday, contradicted } = reading;
      if (first === undefined && weekday !== undefined) {
        const date = dateOf(contradicted!);
        return invalid('dates', 'otherWeekday', { given, weekday, date }, index);
      }
      if (first === undefined) return invalid('dates', 'notInCalendar', { given, order }, index);
      const details = { given, order, other: first.order, date: dateOf(first.serial), weekday };
      return invalid('dates', 'otherOrder', details, index);
    }
    const rival = others.find((other) => other.serial !== stated && proofs.has(other.order));
    if (rival === undefined) return stated;
    const { text: proof, index: proving } = proofs.get(rival.order)!;
    const details = { given, order, other: rival.order, proof, row: rowOf(proving) };
    return invalid('dates', 'eitherOrder', details, index);
  });
}
