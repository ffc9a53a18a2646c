import { serialOf, utcDay, type DateSystem } from '../../worksheet/calendar';
import type { Cell } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import type { DateOrder } from '../../worksheet/writtenDates';
import type { Candidate } from './candidate';
import { isDateColumn } from './looks';
import type { Reader } from './readCells';
import { valuesOf } from './reading';
import { isTextDate, lacksYear, provenOrder } from './values';
import { dayOfWeek, weekReading } from './weeks';

// Dates without a year that pass New Year: October to January, as the rows go on.

/** Dates without a year that pass New Year. */
export interface YearTurn {
  /** The last month that is of the year after, from 1. */
  readonly month: number;
  /** The last date before New Year, and the one after. */
  readonly before: string;
  readonly after: string;
}

/** A gap between two days of a year that is longer than this parts one season from the next. */
const LONG_GAP = 120;

/** Any year does for a day and a month; of this one 29 February is a day. */
const A_LEAP_YEAR = 2000;
const DAYS_IN_IT = 366;

/** Dates without a year that pass New Year. */
export interface YearTurn {
  /** The last month that is of the year after, from 1. */
  readonly month: number;
  /** The last date before New Year, and the one after. */
  readonly before: string;
  readonly after: string;
}

interface Day {
  readonly text: string;
  /** Day of the year, from 0. */
  readonly at: number;
}

/**
 * Where dates without a year pass New Year, from the rows as they follow each other: the days of the year leave one long
 * gap, and the rows cross from the days behind it to the days before it once, in the order of all others.
 */
export function yearTurn(
  texts: readonly string[],
  order: DateOrder,
  reader: Reader,
  dateSystem: DateSystem,
): YearTurn | undefined {
  const open = texts.filter(lacksYear);
  const days = reader
    .dates(open, order, A_LEAP_YEAR)
    .flatMap((read, i) => (typeof read === 'number' ? [dayOf(open[i]!, read, dateSystem)] : []));
  const sorted = [...new Set(days.map(({ at }) => at))].sort((a, b) => a - b);
  if (sorted.length < 2) return undefined;
  const gaps = sorted.slice(1).map((at, i) => at - sorted[i]!);
  const longest = Math.max(...gaps);
  const behind = sorted[gaps.indexOf(longest) + 1]!;
  // The gap over New Year itself must be the shorter.
  if (longest < LONG_GAP || longest <= sorted[0]! + DAYS_IN_IT - sorted.at(-1)!) return undefined;
  const isEarly = (day: Day): boolean => day.at < behind;
  const steps = days.slice(1).map((day, i) => [days[i]!, day] as const);
  const crossings = steps.filter(([one, next]) => isEarly(one) !== isEarly(next));
  const [crossing] = crossings;
  if (crossings.length !== 1 || !crossing) return undefined;
  const others = steps.filter((step) => step !== crossing);
  const rising = others.filter(([one, next]) => next.at > one.at).length;
  const falling = others.filter(([one, next]) => next.at < one.at).length;
  const isForward = isEarly(crossing[1]);
  if (isForward ? rising < falling || rising === 0 : falling <= rising) return undefined;
  const [before, after] = isForward ? crossing : [crossing[1], crossing[0]];
  const middle = new Date(Date.UTC(A_LEAP_YEAR, 0, 1 + behind - Math.ceil(longest / 2)));
  return { month: middle.getUTCMonth() + 1, before: before.text, after: after.text };
}

function dayOf(text: string, serial: number, dateSystem: DateSystem): Day {
  return { text, at: Math.floor(serial) - serialOf(A_LEAP_YEAR, 1, 1, dateSystem) };
}

/** The latest day in the dates of some tables: about the day that the book was last kept. */
export function latestDay(served: readonly Candidate[], reader: Reader): number | undefined {
  const days = served.flatMap(({ table, sheet, dataRows, matches }) =>
    matches
      .filter(({ wanted }) => table.columns.some((one) => one.name === wanted && isDateColumn(one)))
      .flatMap(({ column }) => {
        const cells = valuesOf(sheet, dataRows, column);
        const texts = cells.filter((cell): cell is string => typeof cell === 'string' && isTextDate(cell));
        const { order } = provenOrder(texts);
        const isWritten = cells.filter((cell) => typeof cell === 'number' && cell > A_DAY);
        return [...isWritten, ...(order === undefined ? [] : reader.dates(texts, order, undefined))];
      }),
  );
  const serials = days.filter((day) => typeof day === 'number');
  return serials.length === 0 ? undefined : serials.reduce((last, day) => Math.max(last, day));
}

/** No serial of a day that a farm keeps is lower: a figure may be a count or a day of the week. */
const A_DAY = 20_000;

/** The year in which weeks without one are nearest to a day. */
export function nearestYear(
  texts: readonly string[],
  day: number | undefined,
  dateSystem: DateSystem,
): number | undefined {
  if (day === undefined) return undefined;
  const own = utcDay(Math.floor(day), dateSystem).getUTCFullYear();
  const awayIn = (year: number): number => {
    const weeks = weekReading(texts, year, 'Monday');
    const mondays = texts
      .map((text) => dayOfWeek(text, weeks, dateSystem))
      .filter((one) => typeof one === 'number');
    return Math.abs(mondays.reduce((sum, one) => sum + one, 0) / mondays.length - day);
  };
  return [own - 1, own, own + 1].reduce((best, year) => (awayIn(year) < awayIn(best) ? year : best));
}

/** Dates of two years, each in its own: `later` are those of the year after. */
export const inTheirYear = (
  dates: readonly Cell[],
  later: readonly Cell[],
  { month }: YearTurn,
  dateSystem: DateSystem,
): readonly Cell[] =>
  dates.map((cell, i) =>
    typeof cell === 'number' && utcDay(Math.floor(cell), dateSystem).getUTCMonth() + 1 <= month
      ? later[i]!
      : cell,
  );

/** Dates that are written out, as a formula says them: each in its year, where they have none. */
export function datesText(
  order: DateOrder,
  { year, turn }: { readonly year?: number; readonly turn?: YearTurn },
  cells: string,
): string {
  const inYear = (one: number | undefined): string =>
    `${PREFIX}TODATES(${cells},"${order}"${one === undefined ? '' : `,${one}`})`;
  if (turn === undefined || year === undefined) return inYear(year);
  return `IF(MONTH(${inYear(year)})<=${turn.month},${inYear(year + 1)},${inYear(year)})`;
}
