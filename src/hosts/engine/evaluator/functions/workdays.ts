import type { BuiltIn } from '../builtIn';
import { toNumber, toWhole } from '../coercion';
import { isError, NUM, VALUE } from '../values';
import { since1900, weekdayOf } from './calendar';
import { define, type Given } from './define';

// Working days. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference for weekends of one's own.

/** Whether each day from Sunday on is free. */
type Weekend = readonly boolean[];

const weekendOf = (...free: readonly number[]): Weekend =>
  Array.from({ length: 7 }, (_, day) => free.includes(day));

const USUAL = weekendOf(6, 0);

/** @throws ErrorValue #NUM! for a number, #VALUE! for a text that names no weekend */
function weekendIn(given: Given, at: number): Weekend {
  if (!given.has(at)) return USUAL;
  const value = given.scalar(at);
  if (typeof value === 'string' && /^[01]{7}$/.test(value)) {
    return Array.from({ length: 7 }, (_, day) => value.charAt((day + 6) % 7) === '1');
  }
  if (typeof value === 'string') throw VALUE;
  const number = toWhole(value, given.context.dateSystem);
  if (number >= 1 && number <= 7) return weekendOf((number + 5) % 7, (number + 6) % 7);
  if (number >= 11 && number <= 17) return weekendOf(number - 11);
  throw NUM;
}

/** Serials of free days. */
function holidaysOf(given: Given, at: number): ReadonlySet<number> {
  const days = new Set<number>();
  if (!given.has(at)) return days;
  for (const value of given.list(at)) {
    if (isError(value)) throw value;
    if (value !== null) days.add(Math.floor(toNumber(value, given.context.dateSystem)));
  }
  return days;
}

function workdaysBetween(given: Given, weekend: Weekend, holidays: ReadonlySet<number>): number {
  const { dateSystem } = given.context;
  const [a, b] = [Math.floor(given.number(0)), Math.floor(given.number(1))];
  const [first, last] = [Math.min(a, b), Math.max(a, b)];
  since1900(first, dateSystem);
  since1900(last, dateSystem);
  const working = weekend.filter((isFree) => !isFree).length;
  const weeks = Math.floor((last - first + 1) / 7);
  let days = weeks * working;
  for (let day = first + weeks * 7; day <= last; day++) if (!weekend[weekdayOf(day, dateSystem)]) days++;
  for (const day of holidays) {
    if (day >= first && day <= last && !weekend[weekdayOf(day, dateSystem)]) days--;
  }
  return b < a ? -days : days;
}

function workdayAfter(given: Given, weekend: Weekend, holidays: ReadonlySet<number>): number {
  const { dateSystem } = given.context;
  let day = Math.floor(given.number(0));
  since1900(day, dateSystem);
  let left = Math.abs(given.whole(1));
  const step = given.whole(1) < 0 ? -1 : 1;
  if (left > 0 && weekend.every((isFree) => isFree)) throw VALUE;
  while (left > 0) {
    day += step;
    if (!weekend[weekdayOf(day, dateSystem)] && !holidays.has(day)) left--;
  }
  return day;
}

const DAY = { format: 'date' } as const;

export const workdays: readonly BuiltIn[] = [
  define('NETWORKDAYS', [2, 3], 'value value block', (given) =>
    workdaysBetween(given, USUAL, holidaysOf(given, 2)),
  ),
  define('NETWORKDAYS.INTL', [2, 4], 'value value value block', (given) =>
    workdaysBetween(given, weekendIn(given, 2), holidaysOf(given, 3)),
  ),
  define(
    'WORKDAY',
    [2, 3],
    'value value block',
    (given) => workdayAfter(given, USUAL, holidaysOf(given, 2)),
    DAY,
  ),
  define(
    'WORKDAY.INTL',
    [2, 4],
    'value value value block',
    (given) => workdayAfter(given, weekendIn(given, 2), holidaysOf(given, 3)),
    DAY,
  ),
];
