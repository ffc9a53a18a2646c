import type { KindWord } from '../../worksheet/cells/kinds';
import { cellAt, textOf, type BookSheet } from './book';
import type { WantedColumn } from './jobs';
import { mayCountFlush } from './ordinals';
import { isRange } from './wordsInCells';
import { massUnitShown, type MassUnit } from './units';
import { isDayFigures, lookAt, mayBeDay, type Look } from './values';
import { rangeStart } from './weekRanges';
import { isWeekByName } from './weeks';

/** How many cells of a column have each look. */
export type Looks = ReadonlyMap<Look, number>;

export function looksIn(sheet: BookSheet, rows: readonly number[], column: number): Looks {
  const looks = new Map<Look, number>();
  for (const row of rows) {
    const look = lookAt(sheet, row, column);
    const cell = cellAt(sheet, row, column);
    const isDay =
      look === 'text' &&
      (mayBeDay(textOf(cell)) || isWeekByName(textOf(cell)) || rangeStart(textOf(cell)) !== undefined);
    const areFigures = (look === 'number' || look === 'text number') && isDayFigures(cell);
    for (const one of [
      look,
      ...(isDay ? ['text that may be a day' as const] : []),
      ...(areFigures ? ['figures that may be a day' as const] : []),
      ...(isRange(cell) ? ['text that is a range' as const] : []),
      ...(look === 'text' && mayCountFlush(textOf(cell)) ? ['text that counts a flush' as const] : []),
    ]) {
      looks.set(one, (looks.get(one) ?? 0) + 1);
    }
  }
  return looks;
}

const FIGURE_WORDS: readonly KindWord[] = [
  'number',
  'mass',
  'count',
  'days',
  'share',
  'efficiency',
  'temperature',
  'degrees',
];

/** Whether a column's cells could be what is wanted: most of those that hold anything. */
export function couldBe(word: KindWord, name: string, looks: Looks): boolean {
  const of = (...wanted: Look[]): number => wanted.reduce((sum, look) => sum + (looks.get(look) ?? 0), 0);
  const filled = [...looks].reduce(
    (sum, [look, count]) =>
      look === 'blank' || / that (?:may be a day|is a range|counts a flush)$/.test(look) ? sum : sum + count,
    0,
  );
  if (filled === 0) return true;
  // A lot's `loaded` is the day, or how many of its blocks are loaded so far; a yes says neither.
  if (name === 'loaded' && word === 'number') return filled > of('text', 'true or false');
  const isDate = word === 'date' || DATES.has(name);
  if (isDate)
    return of('date', 'text date', 'text that may be a day', 'figures that may be a day') >= 0.5 * filled;
  if (FIGURE_WORDS.includes(word) || FIGURES.has(name)) {
    const isOfRanges = word === 'days' || word === 'efficiency';
    const ranges = isOfRanges ? of('text that is a range') : 0;
    const flushes = name === 'flush' ? of('text that counts a flush') : 0;
    return of('number', 'text number', 'error') + ranges + flushes >= 0.5 * filled;
  }
  return of('date', 'text date') < 0.5 * filled;
}

/** What the columns of an audit hold, which takes whatever the cells hold. */
const DATES = new Set(['date', 'inoculated', 'loaded', 'due', 'from']);

const FIGURES = new Set(['mass', 'blocks', 'block mass', 'moisture', 'flush', 'total']);

export const isDateColumn = ({ name, column: { kind } }: WantedColumn): boolean =>
  kind.word === 'date' || ((kind.word === 'anything' || kind.word === 'number') && DATES.has(name));

export const isFigureColumn = ({ name, column }: WantedColumn): boolean =>
  (FIGURE_WORDS.includes(column.kind.word) && !DATES.has(name)) ||
  (column.kind.word === 'anything' && FIGURES.has(name));

/** Whether a match is for this column: `flush 1` is for `flush`, which is numbered. */
export const isFor = ({ name, column }: WantedColumn, wanted: string): boolean =>
  name === wanted || (column.role === 'numbered' && new RegExp(`^${name} \\d+$`).test(wanted));

export const hasAny = (looks: Looks): boolean => [...looks.keys()].some((look) => look !== 'blank');

/** The unit of mass that only the format of a figure's cell names. */
export function unitShownAt(sheet: BookSheet, row: number, column: number): MassUnit | undefined {
  const format = typeof cellAt(sheet, row, column) === 'number' ? sheet.formatAt(row, column) : undefined;
  return format === undefined ? undefined : massUnitShown(format);
}
