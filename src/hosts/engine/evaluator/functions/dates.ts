import type { BuiltIn } from '../builtIn';
import { Lacking } from '../lacking';
import { NUM, VALUE, type Scalar } from '../values';
import { dayOf, daysIn, fullYear, serialOf, weekdayOf, type Day } from './calendar';
import { define, type Given } from './define';
import { daysBetween360, yearFraction } from './dayCounts';

// Days, months, weeks and times. Definitions: ISO/IEC 29500-1:2016, 18.17.7; ISO 8601 for ISO weeks.

const DAY = { format: 'date' } as const;

const dayAt = (given: Given, at: number): Day => dayOf(given.number(at), given.context.dateSystem);

const part = (name: string, of: (day: Day) => number): BuiltIn =>
  define(name, [1, 1], 'value', (given) => of(dayAt(given, 0)));

/** A time of day in whole seconds, rounded as a sheet shows it. */
const secondsOf = (given: Given): number => {
  const serial = given.number(0);
  if (serial < 0) throw NUM;
  return Math.round((serial - Math.floor(serial)) * 86_400) % 86_400;
};

const time = (given: Given): Scalar => {
  const [hours, minutes, seconds] = [0, 1, 2].map((at) => given.whole(at)) as [number, number, number];
  if ([hours, minutes, seconds].some((one) => Math.abs(one) > 32_767)) return NUM;
  const total = hours * 3600 + minutes * 60 + seconds;
  return total < 0 ? NUM : (total % 86_400) / 86_400;
};

const date = (given: Given): Scalar => {
  const { dateSystem } = given.context;
  return serialOf(fullYear(given.whole(0), dateSystem), given.whole(1), given.whole(2), dateSystem);
};

/** The day so many months on, at most the last of its month. */
const monthsOn = (given: Given): Scalar => {
  const { year, month, day } = dayAt(given, 0);
  const months = year * 12 + month - 1 + given.whole(1);
  const last = daysIn(Math.floor(months / 12), (months % 12) + 1);
  return serialOf(year, month + given.whole(1), Math.min(day, last), given.context.dateSystem);
};

const monthEnd = (given: Given): Scalar => {
  const { year, month } = dayAt(given, 0);
  return serialOf(year, month + given.whole(1) + 1, 0, given.context.dateSystem);
};

const weekday = (given: Given): Scalar => {
  const sunday = weekdayOf(given.number(0), given.context.dateSystem);
  const type = given.whole(1, 1);
  if (type === 1) return sunday + 1;
  if (type === 2) return ((sunday + 6) % 7) + 1;
  if (type === 3) return (sunday + 6) % 7;
  if (type < 11 || type > 17) return NUM;
  return ((sunday - (type - 10) + 7) % 7) + 1;
};

const isoWeek = (serial: number, given: Given): number => {
  const { dateSystem } = given.context;
  const thursday = Math.floor(serial) - ((weekdayOf(serial, dateSystem) + 6) % 7) + 3;
  const { year } = dayOf(thursday, dateSystem);
  return Math.floor((thursday - serialOf(year, 1, 1, dateSystem)) / 7) + 1;
};

const weekNumber = (given: Given): Scalar => {
  const serial = given.number(0);
  const type = given.whole(1, 1);
  if (type === 21) return isoWeek(serial, given);
  const first = type === 1 ? 0 : type === 2 ? 1 : type >= 11 && type <= 17 ? (type - 10) % 7 : undefined;
  if (first === undefined) return NUM;
  const { dateSystem } = given.context;
  const newYear = serialOf(dayOf(serial, dateSystem).year, 1, 1, dateSystem);
  const before = (weekdayOf(newYear, dateSystem) - first + 7) % 7;
  return Math.floor((Math.floor(serial) - newYear + before) / 7) + 1;
};

const dateDifference = (given: Given): Scalar => {
  const { dateSystem } = given.context;
  const [from, to] = [Math.floor(given.number(0)), Math.floor(given.number(1))];
  const unit = given.text(2).toUpperCase();
  const [a, b] = [dayOf(from, dateSystem), dayOf(to, dateSystem)];
  if (from > to) return NUM;
  const months = (b.year - a.year) * 12 + b.month - a.month - (b.day < a.day ? 1 : 0);
  switch (unit) {
    case 'Y':
      return Math.floor(months / 12);
    case 'M':
      return months;
    case 'D':
      return to - from;
    case 'YM':
      return months % 12;
    case 'MD': {
      if (b.day >= a.day) return b.day - a.day;
      const last = daysIn(b.month === 1 ? b.year - 1 : b.year, b.month === 1 ? 12 : b.month - 1);
      // The vendor warns of this unit: after a short month its results are known to be off.
      if (a.day > last) throw new Lacking('DATEDIF with "MD" after a short month');
      return last - a.day + b.day;
    }
    case 'YD': {
      const isEarlier = b.month < a.month || (b.month === a.month && b.day < a.day);
      const days = to - serialOf(isEarlier ? b.year - 1 : b.year, a.month, a.day, dateSystem);
      const other = serialOf(isEarlier ? a.year + 1 : a.year, b.month, b.day, dateSystem) - from;
      if (days !== other) throw new Lacking('DATEDIF with "YD" across leap years');
      return days;
    }
    default:
      return NUM;
  }
};

export const dates: readonly BuiltIn[] = [
  define('DATE', [3, 3], 'value', date, DAY),
  part('YEAR', ({ year }) => year),
  part('MONTH', ({ month }) => month),
  part('DAY', ({ day }) => day),
  define('TIME', [3, 3], 'value', time),
  define('HOUR', [1, 1], 'value', (given) => Math.floor(secondsOf(given) / 3600)),
  define('MINUTE', [1, 1], 'value', (given) => Math.floor(secondsOf(given) / 60) % 60),
  define('SECOND', [1, 1], 'value', (given) => secondsOf(given) % 60),
  define('EDATE', [2, 2], 'value', monthsOn, DAY),
  define('EOMONTH', [2, 2], 'value', monthEnd, DAY),
  define('WEEKDAY', [1, 2], 'value', weekday),
  define('WEEKNUM', [1, 2], 'value', weekNumber),
  define('ISOWEEKNUM', [1, 1], 'value', (given) => isoWeek(given.number(0), given)),
  define('DATEDIF', [3, 3], 'value', dateDifference),
  define('DAYS', [2, 2], 'value', (given) => {
    dayAt(given, 0);
    dayAt(given, 1);
    return Math.floor(given.number(0)) - Math.floor(given.number(1));
  }),
  define('DAYS360', [2, 3], 'value', (given) =>
    daysBetween360(dayAt(given, 0), dayAt(given, 1), given.boolean(2)),
  ),
  define('YEARFRAC', [2, 3], 'value', (given) => {
    const basis = given.whole(2);
    if (basis < 0 || basis > 4) return NUM;
    const { dateSystem } = given.context;
    const [from, to] = [given.number(0), given.number(1)].map(Math.floor).sort((a, b) => a - b) as [
      number,
      number,
    ];
    return yearFraction(dayOf(from, dateSystem), dayOf(to, dateSystem), to - from, basis);
  }),
  define('TODAY', [0, 0], 'value', (_, context) => Math.floor(context.now()), { ...DAY, isVolatile: true }),
  define('NOW', [0, 0], 'value', (_, context) => context.now(), { format: 'dateTime', isVolatile: true }),
  define('RAND', [0, 0], 'value', (_, context) => context.random(), { isVolatile: true }),
  define(
    'RANDBETWEEN',
    [2, 2],
    'value',
    (given, context) => {
      const [least, most] = [Math.ceil(given.number(0)), Math.floor(given.number(1))];
      return least > most ? NUM : least + Math.floor(context.random() * (most - least + 1));
    },
    { isVolatile: true },
  ),
  define(
    'RANDARRAY',
    [0, 5],
    'value',
    (given, context) => {
      const [rows, columns] = [given.whole(0, 1), given.whole(1, 1)];
      const [least, most] = [given.number(2, 0), given.number(3, 1)];
      if (rows < 1 || columns < 1 || rows * columns > 1_000_000 || least > most) return VALUE;
      const one = (): number =>
        given.boolean(4)
          ? Math.ceil(least) + Math.floor(context.random() * (Math.floor(most) - Math.ceil(least) + 1))
          : least + context.random() * (most - least);
      return Array.from({ length: rows }, () => Array.from({ length: columns }, one));
    },
    { isVolatile: true },
  ),
];
