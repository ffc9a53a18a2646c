import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { onceForText } from './once';
import { isTextDate } from './values';
import { WEEKDAYS, type Weekday } from './weeks';

// A week written as its first and last day: `9–15 Nov`, `Dec 7 - Dec 13`, `7.-13.12.` Which day of it is meant is asked.

/** How weeks of a column are read, once the day is said. */
export interface WeekRange {
  readonly weekday: Weekday | undefined;
  /** What parts the two days, beside a dash. */
  readonly signs: readonly string[];
}

/** What parts the two days; a stroke within a date has no spaces, or is between figures that are no dates. */
const WORDS = [' to ', ' bis ', ' au ', ' al ', ' tot ', ' t/m ', ' till ', ' until '];
const SIGNS = ['–', '—', '−'];

const plain = (text: string): string =>
  [...WORDS, ...SIGNS].reduce((rest, sign) => rest.replaceAll(sign, '-'), text.toLowerCase());

/** The first day of a week that a text writes so; undefined where it does not. */
export const rangeStart = onceForText((text): string | undefined => {
  const pieces = plain(text)
    .split('-')
    .map((piece) => piece.trim());
  const [left = '', right = ''] = pieces;
  if (pieces.length !== 2) return undefined;
  if (/^\d{1,2}\.?$/.test(left)) {
    if (!/^\d{1,2}\D/.test(right) || !isTextDate(right)) return undefined;
    const start = left.replace('.', '') + right.replace(/^\d{1,2}/, '');
    return isTextDate(start) ? start : undefined;
  }
  return isTextDate(left) && (isTextDate(right) || /^\d{1,2}$/.test(right)) ? left : undefined;
});

/** Whether all texts are such weeks. */
export const areWeekRanges = (cells: readonly Cell[]): boolean => {
  const filled = cells.filter((cell) => !isBlank(cell));
  return (
    filled.length > 0 && filled.every((cell) => typeof cell === 'string' && rangeStart(cell) !== undefined)
  );
};

/** The signs that cells use. */
export const rangeSigns = (texts: readonly string[]): string[] =>
  [...WORDS, ...SIGNS].filter((sign) => texts.some((text) => text.toLowerCase().includes(sign)));

export const startOf = (cell: Cell): Cell => (typeof cell === 'string' ? (rangeStart(cell) ?? cell) : cell);

/** The same as a formula says it. */
export function startText(cells: string, signs: readonly string[]): string {
  const one = signs.reduce((rest, sign) => `SUBSTITUTE(${rest},"${sign}","-")`, `LOWER(${cells})`);
  const left = `TRIM(LEFT(${one},FIND("-",${one})-1))`;
  const right = `TRIM(MID(${one},FIND("-",${one})+1,40))`;
  const day = `SUBSTITUTE(${left},".","")`;
  const rest = `MID(${right},IF(ISNUMBER(VALUE(MID(${right},2,1))),3,2),40)`;
  return `IF(${cells}="","",IF(LEN(${day})<3,${day}&${rest},${left}))`;
}

/** The day of a week that begins on another, whichever day that is; `firstMonday` is any Monday. */
export const dayOfRange = (start: number, weekday: Weekday, firstMonday: number): number =>
  start + ((((WEEKDAYS.indexOf(weekday) - (start - firstMonday)) % 7) + 7) % 7);

/** The same as a formula says it. */
export const dayOfRangeText = (start: string, weekday: Weekday): string =>
  `${start}+MOD(${WEEKDAYS.indexOf(weekday) + 1}-WEEKDAY(${start},2),7)`;
