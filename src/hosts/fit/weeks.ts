import { serialOf, type DateSystem } from '../../worksheet/calendar';
import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { onceForText } from './once';

// A week in the place of a day: `wk 48`, `uge 50`. Which day of the week it stands for, and in which year, only the grower
// knows. Weeks are those of ISO 8601: the first of a year is that of 4 January.

const WORDS = 'week|wk|w|kw|cw|woche|uge|uke|vecka|v|sem|s|semaine|semana|sett|settimana|tydz|tydzień';
/** `KW 10`, `Week 10, 2026` */
const WEEK = new RegExp(
  `^(${WORDS})\\.?\\s*(?:nr\\.?\\s*)?(\\d{1,2})\\.?(?:\\s*[,/\\s-]\\s*(20\\d\\d))?$`,
  'iu',
);
/** `10. KW`; a letter behind a figure may be a unit. */
const NUMBER_FIRST = new RegExp(`^(\\d{1,2})\\.?\\s*(?!\\p{L}\\.?$)(${WORDS})\\.?$`, 'iu');
/** `2026-W10` */
const YEAR_FIRST = /^(20\d\d)[\s-]?w(\d\d)$/i;
const LAST_WEEK = 53;

interface WrittenWeek {
  readonly week: number;
  readonly year: number | undefined;
  /** What it begins with, or ends with where its number comes first, in small letters. */
  readonly word: string;
  readonly isBehind: boolean;
}

/** The week that a text names. */
const written = onceForText((text): WrittenWeek | undefined => {
  const own = text.trim().toLowerCase();
  const [, word, number, year] = WEEK.exec(own) ?? [];
  const [, first, behind] = NUMBER_FIRST.exec(own) ?? [];
  const [, iso, ofYear] = YEAR_FIRST.exec(own) ?? [];
  const week = Number(number ?? first ?? ofYear);
  if (!(week >= 1 && week <= LAST_WEEK)) return undefined;
  const said = year ?? iso;
  return {
    week,
    year: said === undefined ? undefined : Number(said),
    word: iso === undefined ? (word ?? own.slice(own.indexOf(behind!))) : iso,
    isBehind: first !== undefined,
  };
});

/** The number of the week that a text names. */
export const weekIn = (text: string): number | undefined => written(text)?.week;

/** Whether a text names a week wherever it stands: `S3` may be a shelf, where no others across say that it is a week. */
export const isWeekByName = (text: string): boolean =>
  !/^s\.?\s*\d/i.test(text.trim()) && weekIn(text) !== undefined;

/** A week with more beside it: `KW 10 (2.–8.3.)`. */
const WITH_MORE = new RegExp(`^(?:${WORDS})\\.?\\s*\\d{1,2}(?!\\p{L}|\\d)`, 'iu');
export const beginsWithWeek = (text: string): boolean => WITH_MORE.test(text.trim());

/** Whether the text of a week leaves its year open. */
export const lacksYearOfWeek = (text: string): boolean => written(text)?.year === undefined;

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
  /** How they are written before their numbers, and behind them. */
  readonly words: readonly string[];
  readonly behind: readonly string[];
  readonly year: number;
  readonly weekday: Weekday;
  /** Up to which week they are of the year after, where they pass New Year; 0 where they do not. */
  readonly turn: number;
  /** Whether some say their year themselves. */
  readonly haveYears: boolean;
}

/** Weeks so late and so early in one column pass New Year. */
const [LATE, EARLY] = [40, 13];

export function weekReading(texts: readonly string[], year: number, weekday: Weekday): WeekReading {
  const weeks = texts.map((text) => weekIn(text)!);
  const passes = weeks.some((week) => week >= LATE) && weeks.some((week) => week <= EARLY);
  const wordsOf = (areBehind: boolean): string[] => [
    ...new Set(
      texts
        .map((text) => written(text)!)
        .flatMap(({ word, isBehind }) => (isBehind === areBehind ? [word] : [])),
    ),
  ];
  const haveYears = texts.some((text) => !lacksYearOfWeek(text));
  const turn = passes && !haveYears ? EARLY : 0;
  return { words: wordsOf(false), behind: wordsOf(true), year, weekday, turn, haveYears };
}

/** A serial that is a Monday: 2 January 1900, and 4 January 1904. */
export const aMonday = (system: DateSystem): number => (system === 1900 ? 2 : 3);

/** The day that a cell stands for; the cell itself where it names no week. */
export function dayOfWeek(cell: Cell, { year, weekday, turn }: WeekReading, system: DateSystem): Cell {
  const week = isWeek(cell) ? weekIn(cell)! : undefined;
  if (week === undefined) return cell;
  const own = written(cell as string)!.year ?? (week <= turn ? year + 1 : year);
  const fourth = serialOf(own, 1, 4, system);
  const monday = fourth - ((fourth - aMonday(system)) % 7);
  return monday + 7 * (week - 1) + WEEKDAYS.indexOf(weekday);
}

/** The same as a formula says it; `otherwise` is what the other cells are. */
export function weekFormula(
  cells: string,
  { words, behind, year, weekday, turn, haveYears }: WeekReading,
  otherwise: string,
): string {
  const text = `TRIM(${cells})`;
  const said = `IFERROR(VALUE(RIGHT(${text},4)),0)`;
  const before = `IFERROR(VALUE(LEFT(${text},4)),0)`;
  const bare = haveYears
    ? `TRIM(SUBSTITUTE(SUBSTITUTE(IF(${said}>1999,LEFT(${text},LEN(${text})-4),${text}),","," "),"/"," "))`
    : text;
  const last = `IFERROR(VALUE(RIGHT(${bare},2)),VALUE(RIGHT(${bare},1)))`;
  const first = `IFERROR(VALUE(LEFT(${text},2)),VALUE(LEFT(${text},1)))`;
  const week = behind.length === 0 ? last : `IFERROR(${last},${first})`;
  const tests = [
    ...words.map((word) => `(LEFT(LOWER(${text}),${word.length})="${word}")`),
    ...behind.map((word) => `(RIGHT(LOWER(${text}),${word.length})="${word}")`),
  ];
  const open = turn === 0 ? String(year) : `IF(${week}<=${turn},${year + 1},${year})`;
  const own = haveYears ? `IF(${said}>1999,${said},IF(${before}>1999,${before},${open}))` : open;
  const fourth = `DATE(${own},1,4)`;
  const day = `${fourth}-WEEKDAY(${fourth},2)+7*${week}-${6 - WEEKDAYS.indexOf(weekday)}`;
  return `IF(0+${tests.join('+')}>0,${day},${otherwise})`;
}
