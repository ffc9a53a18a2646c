import { serialOf, type DateSystem } from '../../../worksheet/calendar';
import { dayFormatOf, orderOfFormat, type DateOrder, type Habits } from './habits';

// What a person means who types or pastes a text into a cell, read by the habits of the workbook.

/** Where a text is put, and what is known there. */
export interface Target {
  /** The number format of the cell. */
  readonly format?: string | undefined;
  /** The order that was chosen for this column before. */
  readonly order?: DateOrder | undefined;
  readonly dateSystem: DateSystem;
  /** For days written without a year. */
  readonly thisYear: number;
}

/** A number, and the format that it brings along where the cell has none. */
export interface TypedNumber {
  readonly kind: 'number';
  readonly value: number;
  readonly format?: string;
}

/** A day that a text may mean, read in an order. */
export interface Day {
  readonly order: DateOrder;
  readonly value: number;
  /** `3 April 2026` */
  readonly says: string;
}

/** A text that may be either of two days. */
export interface TypedEither {
  readonly kind: 'either';
  readonly days: readonly [Day, Day];
  readonly format?: string;
}

export interface TypedText {
  readonly kind: 'text';
  readonly text: string;
  /** Why it is no number though it looks like one. */
  readonly because?: string;
}

export type Typed =
  | TypedNumber
  | TypedEither
  | { readonly kind: 'blank' }
  | { readonly kind: 'truth'; readonly value: boolean }
  | TypedText;

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;

/** Years of two digits up to this one are of this century, as spreadsheets read them. */
const LAST_SHORT_YEAR = 29;

/** Spreadsheets count a day too many before March 1900. */
const FIRST_SERIAL: Readonly<Record<DateSystem, number>> = { 1900: 61, 1904: 0 };

/** Reads a text that is no formula. A text that begins with an apostrophe is text. */
export function readTyped(typed: string, habits: Habits, target: Target): Typed {
  const text = typed.replace(/\u00a0|\u202f/g, ' ').trim();
  if (text === '') return { kind: 'blank' };
  if (typed.startsWith("'")) return { kind: 'text', text: typed.slice(1) };
  if (target.format === '@') return { kind: 'text', text: typed };
  if (/^(true|false)$/i.test(text)) return { kind: 'truth', value: /^true$/i.test(text) };
  return numberIn(text, habits, target) ?? dayIn(text, habits, target) ?? { kind: 'text', text: typed };
}

const isPercent = (format: string | undefined): boolean =>
  format?.replace(/"[^"]*"|\\./g, '').includes('%') === true;

/** `1,234.5`, `-3`, `(3)`, `70%`, `70%%` of a hand that typed the sign once more, `$12`, `1.2E3`. */
function numberIn(text: string, { decimal }: Habits, { format }: Target): Typed | undefined {
  const mark = decimal === ',' ? ',' : '\\.';
  const group = decimal === ',' ? "[. ']" : "[, ']";
  const figure = `(?:\\d{1,3}(?:${group}\\d{3})+|\\d+)(?:${mark}\\d*)?|${mark}\\d+`;
  const found = new RegExp(
    `^(\\()?\\s*([-+−])?\\s*([$€£¥])?\\s*([-+−])?\\s*(${figure})(E[-+]?\\d+)?\\s*([€£]|%+)?\\s*(\\))?$`,
    'i',
  ).exec(text);
  if (!found) return otherMark(text, decimal);
  const [, open, sign, before, second, digits, power, behind, close] = found;
  if ((open === undefined) !== (close === undefined) || (sign !== undefined && second !== undefined))
    return undefined;
  const plain = digits!.replace(new RegExp(group, 'g'), '').replace(',', '.');
  const isNegative = open !== undefined || /[-−]/.test(sign ?? second ?? '');
  const figures = `${isNegative ? '-' : ''}${plain}`;
  const tens = Number(power?.slice(1) ?? 0);
  const size = Number(`${figures}e${tens}`);
  // Digit by digit: 7 % is 0.07, without the last bits that a division leaves.
  const hundredth = Number(`${figures}e${tens - 2}`);
  if (!Number.isFinite(size)) return undefined;
  const places = Math.min(plain.split('.')[1]?.length ?? 0, 2);
  const grouped =
    /[^\d.,]|[.,]\d{3}(?!\d)/.test(digits!) && plain.split('.')[0]!.length > 3 && plain !== digits;
  const money = before ?? (behind?.startsWith('%') ? undefined : behind);
  if (behind?.startsWith('%')) {
    return { kind: 'number', value: hundredth, format: places === 0 ? '0%' : '0.00%' };
  }
  if (money !== undefined) {
    const shown = `#,##0${places === 0 ? '' : '.00'}`;
    return {
      kind: 'number',
      value: size,
      format: before === undefined ? `${shown} "${money}"` : `"${money}"${shown}`,
    };
  }
  // As spreadsheets do in a cell that shows percent: 70 is 70 %, and 0.7 is the same.
  if (isPercent(format) && Math.abs(size) >= 1) return { kind: 'number', value: hundredth };
  if (power !== undefined) return { kind: 'number', value: size, format: '0.00E+00' };
  if (grouped) return { kind: 'number', value: size, format: places === 0 ? '#,##0' : '#,##0.00' };
  return { kind: 'number', value: size };
}

/** A number with the mark of other people, such as `12,5` where numbers are written `12.5`, is told, not guessed. */
function otherMark(text: string, decimal: '.' | ','): Typed | undefined {
  const other = decimal === ',' ? /^-?\d+\.\d+$/ : /^-?\d+,\d+$/;
  if (!other.test(text) || dottedDay.test(text)) return undefined;
  const wanted = text.replace(/[.,]/, decimal);
  return {
    kind: 'text',
    text,
    because: `numbers are written with a decimal ${nameOf(decimal)} here, ${wanted}`,
  };
}

const nameOf = (decimal: '.' | ','): string => (decimal === ',' ? 'comma' : 'point');

const dottedDay = /^\d\d?\.\d\d?\.(\d{2}|\d{4})?$/;

const TIME = /(?:^|[T\s]+)(\d\d?):(\d\d)(?::(\d\d)(?:[.,]\d+)?)?\s*([ap])?\.?m?\.?$/i;

function dayIn(text: string, habits: Habits, target: Target): Typed | undefined {
  const clock = TIME.exec(text);
  const time = clock ? timeOf(clock) : 0;
  if (time === undefined) return undefined;
  const rest = clock ? text.slice(0, clock.index).trim() : text;
  if (rest === '' && clock) {
    return { kind: 'number', value: time, format: clock[3] === undefined ? 'hh:mm' : 'hh:mm:ss' };
  }
  const day = namedDay(rest, target) ?? numberedDay(rest, habits, target);
  if (!day || day.kind === 'text' || !time) return day;
  const format = `${day.format ?? dayFormatOf(habits)} hh:mm`;
  if (day.kind === 'number') return { ...day, value: day.value + time, format };
  const [one, two] = day.days;
  return {
    ...day,
    days: [
      { ...one, value: one.value + time },
      { ...two, value: two.value + time },
    ],
    format,
  };
}

function timeOf([, hours, minutes, seconds = '0', half]: RegExpExecArray): number | undefined {
  const hour = Number(hours);
  if (half !== undefined ? hour < 1 || hour > 12 : hour > 23) return undefined;
  if (Number(minutes) > 59 || Number(seconds) > 59) return undefined;
  const since = half === undefined ? hour : (hour % 12) + (/p/i.test(half) ? 12 : 0);
  return (since * 3600 + Number(minutes) * 60 + Number(seconds)) / 86_400;
}

/** `3 Apr 2026`, `Apr 3, 2026`, `3-Apr-26`, `3 April`. */
function namedDay(text: string, { dateSystem, thisYear }: Target): TypedNumber | undefined {
  const dayFirst = /^(\d\d?)(?:st|nd|rd|th)?[\s.-]*([a-z]{3,9})\.?[\s,-]*(\d{4}|\d\d)?$/i.exec(text);
  const monthFirst = /^([a-z]{3,9})\.?[\s-]*(\d\d?)(?:st|nd|rd|th)?(?:[\s,-]+(\d{4}|\d\d))?$/i.exec(text);
  const [word, day, year] = dayFirst
    ? [dayFirst[2]!, dayFirst[1]!, dayFirst[3]]
    : [monthFirst?.[1] ?? '', monthFirst?.[2] ?? '', monthFirst?.[3]];
  const names = MONTHS.filter((month) =>
    month.toLowerCase().startsWith(word.toLowerCase().replace(/^sept$/, 'sep')),
  );
  if (word === '' || names.length !== 1) return undefined;
  const value = serialAt(yearOf(year, thisYear), MONTHS.indexOf(names[0]!) + 1, Number(day), dateSystem);
  return value === undefined
    ? undefined
    : { kind: 'number', value, format: year === undefined ? 'd-mmm' : 'd-mmm-yy' };
}

/** `3/4/2026`, `2026-04-03`, `3.4.26`, `3/4`. */
function numberedDay(
  text: string,
  habits: Habits,
  target: Target,
): TypedNumber | TypedEither | TypedText | undefined {
  const found = /^(\d{4}|\d\d?)([/.-])(\d\d?)(?:\2(\d{4}|\d\d?))?\.?$/.exec(text);
  if (!found) return undefined;
  const [, first, sign, second, third] = found;
  const isYearFirst = first!.length === 4;
  // `3.4` and `3-4` may be a number and a range, and `2026-04` a month.
  if (third === undefined && (sign !== '/' || isYearFirst)) return undefined;
  const { dateSystem, thisYear, format, order } = target;
  const dayIn = (by: DateOrder): Day | undefined => {
    const [year, month, day] =
      by !== 'ymd'
        ? [third, ...(by === 'mdy' ? [first!, second!] : [second!, first!])]
        : third === undefined
          ? [undefined, first!, second!]
          : [first!, second!, third];
    const years = yearOf(year, thisYear);
    const value = serialAt(years, Number(month), Number(day), dateSystem);
    if (value === undefined) return undefined;
    return { order: by, value, says: `${Number(day)} ${MONTHS[Number(month) - 1]!} ${years}` };
  };
  const asNumber = ({ value }: Day): TypedNumber => ({ kind: 'number', value, format: dayFormat });
  const dayFormat = isYearFirst ? 'yyyy-mm-dd' : dayFormatOf(habits);
  const no: TypedText = { kind: 'text', text, because: `${text} is no day of the calendar` };
  if (isYearFirst) {
    const day = dayIn('ymd');
    return day ? asNumber(day) : no;
  }
  const shown = format === undefined ? undefined : orderOfFormat(format);
  const wanted = order ?? (shown === 'ymd' ? habits.order : (shown ?? habits.order));
  const yearLast = (['mdy', 'dmy'] as const).flatMap((by) => dayIn(by) ?? []);
  const inOrder = wanted === 'ymd' && third?.length === 4 ? undefined : dayIn(wanted);
  if (wanted === 'ymd' && inOrder) return asNumber(inOrder);
  const [one, two] = yearLast;
  if (one === undefined) return no;
  if (two === undefined || one.value === two.value) return asNumber(one);
  // Where a column shows days in another order than the book's people write them, or points part a day where that is
  // nobody's habit, either may be meant.
  const isDisputed =
    order === undefined && (shown === 'ymd' ? false : shown !== undefined && shown !== habits.order);
  const isForeign = order === undefined && (wanted === 'ymd' || (wanted === 'mdy' && sign === '.'));
  if (inOrder && !isDisputed && !isForeign) return asNumber(inOrder);
  return { kind: 'either', days: [one, two], format: dayFormat };
}

function yearOf(written: string | undefined, thisYear: number): number {
  if (written === undefined || written === '') return thisYear;
  if (written.length > 2) return Number(written);
  return Number(written) + (Number(written) <= LAST_SHORT_YEAR ? 2000 : 1900);
}

function serialAt(year: number, month: number, day: number, system: DateSystem): number | undefined {
  const isDay =
    month >= 1 && month <= 12 && day >= 1 && day <= new Date(Date.UTC(year, month, 0)).getUTCDate();
  if (!isDay) return undefined;
  const serial = serialOf(year, month, day, system);
  return serial >= FIRST_SERIAL[system] && year <= 9999 ? serial : undefined;
}
