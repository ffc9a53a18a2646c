import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { ABOVE, isDay, type Block } from './block';
import { cellAt, textOf } from './book';
import type { FixedCell } from './candidate';
import { weekdaysIn } from './standing';
import { isTextDate, lookAt } from './values';
import { weekIn } from './weeks';

// Days of the week across, under a week: `Week of 9 November`, `Week 46, 2026`, a day of it, or the name of the sheet. The
// week may also stand in a column of its own.

const WORDS =
  /^(?:the\s+)?(?:(?:week|wk)\.?\s*(?:of|commencing|beginning|starting|start|from|ending|ended)|w\s*[/.]?\s*[cbe]\.?|semaine du|woche (?:vom|ab)|semana del?|week van|settimana del|uge fra)\s*:?\s+/iu;

/** The words before a day that say that its week is meant, as they are written; none where it is no such text. */
export const weekWords = (text: string): string => WORDS.exec(text.trim())?.[0] ?? '';

/** The day in a text that names its week: `9 November`. */
export const withoutWeekWords = (cell: Cell): Cell =>
  typeof cell === 'string' ? cell.trim().slice(weekWords(cell).length) : cell;

/** Whether a text names a week, by a day of it or by its number. */
function namesWeek(text: string): boolean {
  const words = weekWords(text);
  return weekIn(text) !== undefined || (words !== '' && isTextDate(text.trim().slice(words.length)));
}

/** How the days of the week across are counted. */
export interface Week {
  /** The words before days, in small letters. */
  readonly words: readonly string[];
  readonly isSundayFirst: boolean;
}

/** Which day of its week a column is for, from the first. */
export function weekdayAt({ sheet, row, across }: Block, column: number): number {
  const [day] = weekdaysIn(textOf(cellAt(sheet, row, column)));
  return isSundayFirst({ sheet, row, across }) ? day! % 7 : day! - 1;
}

export const isSundayFirst = ({ sheet, row, across }: Pick<Block, 'sheet' | 'row' | 'across'>): boolean =>
  weekdaysIn(textOf(cellAt(sheet, row, across[0]!)))[0] === 7;

/** Where the week of a block is said: in a column of it, above it, or by the name of its sheet. */
export function weekOver(block: Block): number | FixedCell | { readonly figure: string } | undefined {
  const { sheet, row, rows, across } = block;
  const isWeek = (at: number, column: number): boolean => {
    const cell = cellAt(sheet, at, column);
    return isDay(lookAt(sheet, at, column)) || (typeof cell === 'string' && namesWeek(cell));
  };
  const beside = (sheet.rows[row] ?? [])
    .map((_, column) => column)
    .find((column) => {
      const filled = rows.filter((one) => !isBlank(cellAt(sheet, one, column)));
      return !across.includes(column) && filled.length > 0 && filled.every((one) => isWeek(one, column));
    });
  if (beside !== undefined) return beside;
  for (let above = row - 1; above >= Math.max(0, row - ABOVE); above--) {
    const cells = sheet.rows[above] ?? [];
    const at = cells.flatMap((_, column) => (isWeek(above, column) ? [column] : []));
    if (at.length > 0) return { cell: { row: above, column: at[0]! } };
    if (cells.some((_, column) => lookAt(sheet, above, column) === 'number')) break;
  }
  return namesWeek(sheet.name) ? { figure: sheet.name } : undefined;
}

/** The day in cells that name its week, as a formula says it. */
export const withoutWeekText = (cells: string, { words }: Week): string =>
  words.reduceRight(
    (rest, one) =>
      `IF(LEFT(LOWER(TRIM(${cells})),${one.length})="${one}",MID(TRIM(${cells}),${one.length + 1},60),${rest})`,
    cells,
  );

/** A day of the week of another. */
export function dayInWeek(day: number, weekday: number, monday: number, { isSundayFirst }: Week): number {
  const first = day - ((((day - monday + Number(isSundayFirst)) % 7) + 7) % 7);
  return first + weekday;
}

/** The same as a formula says it. */
export const dayInWeekText = (day: string, weekday: number, { isSundayFirst }: Week): string =>
  `${day}-WEEKDAY(${day},${isSundayFirst ? 1 : 2})+${weekday + 1}`;
