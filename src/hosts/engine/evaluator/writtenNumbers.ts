import { parseDate } from 'numfmt';
import type { DateSystem } from '../../../worksheet/calendar';
import { Lacking } from './lacking';

/** A text that one country reads as one number or day and another as another. */
const READ_TWO_WAYS = 'two-ways';

const PLAIN = /^([+-]?)\$?([+-]?)(\d{1,3}(?:,\d{3})+|\d*)(\.\d*)?(e[+-]?\d+)?( ?%)?$/i;
const BRACKETED = /^\(\$?([\d,.]+%?)\)$/;
const FRACTION = /^([+-]?)(\d+) (\d{1,5})\/(\d{1,5})$/;
const TIME = /^(\d{1,4}):(\d{1,2})(?::(\d{1,2})(\.\d+)?)?(?: ?([ap])m?)?$/i;
const YEAR_FIRST = /^(\d{4})([-/])(\d{1,2})\2(\d{1,2})$/;
const MONTH = '(?:jan|feb|mar|apr|may|jun|jul|aug|sept?|oct|nov|dec)[a-z]*';
const NAMED_DAY = new RegExp(
  `^(?:\\d{1,2}[- /]${MONTH}[- /,]+\\d{2}(?:\\d{2})?|${MONTH}[- ]\\d{1,2}, ?\\d{4}|${MONTH}[- ]\\d{4})$`,
  'i',
);
/** Days and months in an order that differs by country, days without a year, decimal commas, other currencies. */
const DEPENDS = [
  /^\d{1,2}([-/.])\d{1,4}(\1\d{1,4})?( \d{1,2}:\d\d(:\d\d(\.\d+)?)?( ?[ap]m?)?)?$/i,
  /^\d{4}[-/.]\d{1,2}$/,
  new RegExp(`^(?:\\d{1,2}[- ]?${MONTH}|${MONTH}[- ]?\\d{1,2})$`, 'i'),
  /^[+-]?\d[\d., ]*[., ]\d+$/,
  /^[+-]?[€£¥]? ?\d[\d.,]*( ?[€£¥])?$/,
  /^\d{4}-\d\d-\d\dT[\d:.]+Z?$/,
];

const DAY_SECONDS = 86_400;

/** Days from the first of 1900 to the first of 1904, as their serials differ. */
const DAYS_TO_1904 = 1462;

/**
 * The number a text reads as: `12`, `1,000`, `$5`, `12%`, `(3)`, `1 1/2`, `18:30`, `2026-03-01`, `1 Mar 2026`. Days are
 * serials of the workbook, and those before its first are none. Undefined where every country reads none, `two-ways` where countries differ.
 */
export function readNumber(text: string, dateSystem: DateSystem): number | typeof READ_TWO_WAYS | undefined {
  const trimmed = text.trim();
  // Spaces around a number do not count, around a year and its day they do.
  if (trimmed !== text && YEAR_FIRST.test(trimmed)) return undefined;
  if (!/^[\d+\-.$(€£¥]|^[jfmasond][a-z]{2}/i.test(trimmed)) return undefined;
  const found = plainNumber(trimmed) ?? fraction(trimmed) ?? moment(trimmed, dateSystem);
  if (found !== undefined) return found;
  return DEPENDS.some((form) => form.test(trimmed)) ? READ_TWO_WAYS : undefined;
}

/** As `readNumber`. @throws Lacking where countries differ */
export function numberInText(text: string, dateSystem: DateSystem): number | undefined {
  const number = readNumber(text, dateSystem);
  if (number === READ_TWO_WAYS)
    throw new Lacking(`the country's way of writing numbers and days, to read “${text.trim()}”`);
  return number;
}

function plainNumber(text: string): number | undefined {
  const bracketed = BRACKETED.exec(text);
  if (bracketed) {
    const size = plainNumber(bracketed[1]!);
    return size === undefined ? undefined : -size;
  }
  const plain = PLAIN.exec(text);
  if (!plain || !/\d/.test(text)) return undefined;
  const [, sign, inner, whole = '', part = '', exponent = '', percent] = plain;
  if ((sign && inner) || (whole === '' && part.length < 2)) return undefined;
  const size = Number(`${whole.replaceAll(',', '') || '0'}${part}${exponent}`) / (percent ? 100 : 1);
  if (!Number.isFinite(size)) return undefined;
  return sign === '-' || inner === '-' ? -size : size;
}

function fraction(text: string): number | undefined {
  const [, sign, whole, over, under] = FRACTION.exec(text) ?? [];
  if (whole === undefined || Number(under) === 0) return undefined;
  const size = Number(whole) + Number(over) / Number(under);
  return sign === '-' ? -size : size;
}

/** A day, a time of day, or both with a space between. */
function moment(text: string, dateSystem: DateSystem): number | undefined {
  const time = timeOfDay(text);
  if (time !== undefined) return time;
  const day = dayOf(text, dateSystem);
  if (day !== undefined) return day;
  const [, before, after] = /^(.+\d) (\d{1,2}:.+)$/.exec(text) ?? [];
  if (before === undefined) return undefined;
  const [date, clock] = [dayOf(before, dateSystem), timeOfDay(after!)];
  return date === undefined || clock === undefined ? undefined : date + clock;
}

function timeOfDay(text: string): number | undefined {
  const [, hours, minutes, seconds = '0', parts = '', half] = TIME.exec(text) ?? [];
  if (hours === undefined) return undefined;
  let hour = Number(hours);
  if (Number(minutes) > 59 || Number(seconds) > 59) return undefined;
  if (half) {
    if (hour > 12) return undefined;
    hour = (hour % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  }
  return (hour * 3600 + Number(minutes) * 60 + Number(seconds + parts)) / DAY_SECONDS;
}

function dayOf(text: string, dateSystem: DateSystem): number | undefined {
  const same = /^(\d{1,2})([-/.])(\d{1,2})\2(\d{4})$/.exec(text);
  // 5/5/2026 is the same day everywhere.
  const plain = same && same[2] !== '.' && Number(same[1]) === Number(same[3]);
  const yearFirst = YEAR_FIRST.exec(text);
  const written = plain ? `${same[4]}-${same[3]}-${same[1]}` : yearFirst ? text : undefined;
  if (written === undefined && !NAMED_DAY.test(text)) return undefined;
  const read = parseDate(written ?? text.replace(/(?<=\d) (?=\d{4}$)/, ' '), { locale: 'en' });
  if (typeof read?.v !== 'number') return undefined;
  const serial = dateSystem === 1904 ? read.v - DAYS_TO_1904 : read.v;
  return serial < 0 ? undefined : serial;
}
