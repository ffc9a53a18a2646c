import { serialOf, type DateSystem } from '../../worksheet/calendar';
import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { onceForText } from './once';

// A week in the place of a day: `wk 48`, `uge 50`. Which day of the week it stands for, and in which year, only the grower
// knows. Weeks are those of ISO 8601: the first of a year is that of 4 January.

const WEEK =
  /^(week|wk|w|kw|cw|woche|uge|uke|vecka|v|sem|semaine|semana|sett|settimana|tydz|tydzień)\.?\s*(?:nr\.?\s*)?(\d{1,2})\.?$/iu;
const LAST_WEEK = 53;

/** The number of the week that a text names. */
export const weekIn = onceForText((text): number | undefined => {
  const week = Number(WEEK.exec(text.trim())?.[2]);
  return week >= 1 && week <= LAST_WEEK ? week : undefined;
});

const isWeek = (cell: Cell): cell is string => typeof cell === 'string' && weekIn(cell) !== undefined;

/** The texts among cells that name a week. */
export const weeksAmong = (cells: readonly Cell[]): string[] =>
  cells.filter(isWeek).filter((cell) => !isBlank(cell));

/** Days of the week as they are answered. */
export const WEEKDAYS = [
  'Monday',
  'Tuesday',
  'Wednesday',
  'Thursday',
  'Friday',
  'Saturday',
  'Sunday',
] as const;
export type Weekday = (typeof WEEKDAYS)[number];

/** How weeks of a column are read as days. */
export interface WeekReading {
  /** How they are written before their numbers. */
  readonly words: readonly string[];
  readonly year: number;
  readonly weekday: Weekday;
  /** Up to which week they are of the year after, where they pass New Year; 0 where they do not. */
  readonly turn: number;
}

/** Weeks so late and so early in one column pass New Year. */
const [LATE, EARLY] = [40, 13];

export function weekReading(texts: readonly string[], year: number, weekday: Weekday): WeekReading {
  const weeks = texts.map((text) => weekIn(text)!);
  const passes = weeks.some((week) => week >= LATE) && weeks.some((week) => week <= EARLY);
  const words = texts.map((text) => WEEK.exec(text.trim())![1]!.toLowerCase());
  return { words: [...new Set(words)], year, weekday, turn: passes ? EARLY : 0 };
}

/** The day that a cell stands for; the cell itself where it names no week. */
export function dayOfWeek(cell: Cell, { year, weekday, turn }: WeekReading, system: DateSystem): Cell {
  const week = isWeek(cell) ? weekIn(cell)! : undefined;
  if (week === undefined) return cell;
  const fourth = serialOf(week <= turn ? year + 1 : year, 1, 4, system);
  // Serial 2 of both systems is a Monday.
  const monday = fourth - ((fourth + (system === 1900 ? 5 : 4)) % 7);
  return monday + 7 * (week - 1) + WEEKDAYS.indexOf(weekday);
}

/** The same as a formula says it; `otherwise` is what the other cells are. */
export function weekFormula(
  cells: string,
  { words, year, weekday, turn }: WeekReading,
  otherwise: string,
): string {
  const week = `IFERROR(VALUE(RIGHT(TRIM(${cells}),2)),VALUE(RIGHT(TRIM(${cells}),1)))`;
  const tests = words.map((word) => `(LEFT(LOWER(TRIM(${cells})),${word.length})="${word}")`);
  const own = turn === 0 ? String(year) : `IF(${week}<=${turn},${year + 1},${year})`;
  const fourth = `DATE(${own},1,4)`;
  const day = `${fourth}-WEEKDAY(${fourth},2)+7*${week}-${6 - WEEKDAYS.indexOf(weekday)}`;
  return `IF(0+${tests.join('+')}>0,${day},${otherwise})`;
}
