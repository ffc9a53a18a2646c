import { isBlank } from '../../worksheet/cells/cell';
import { rangeOf } from '../xlsx/address';
import { cellAt, sheetText, type BookSheet, type GrowersBook } from './book';
import { isDay } from './block';
import type { WantedTable } from './jobs';
import { isOurs } from './ours';
import { lookAt } from './values';

// Tables that are laid out so that no formula reads them as lists: the grower is told which, and what to do.

/** What to do about lots that stand as blocks by strain and week. */
export function otherWay(
  book: GrowersBook,
  table: WantedTable,
  isStrain: (label: string) => boolean,
): string | undefined {
  return table.name === 'lots'
    ? book.sheets
        .filter((sheet) => !isOurs(sheet))
        .map((sheet) => countedByDay(sheet, isStrain))
        .find(Boolean)
    : undefined;
}

/** Days across that make a block of counts. */
const FEWEST_DAYS = 3;

/** Lots that stand as counts, strains down and days across. */
function countedByDay(sheet: BookSheet, isStrain: (label: string) => boolean): string | undefined {
  for (const [row, cells] of sheet.rows.entries()) {
    const days = cells.flatMap((_, column) => (isDay(lookAt(sheet, row, column)) ? [column] : []));
    const down = (days[0] ?? 0) - 1;
    if (days.length < FEWEST_DAYS || down < 0) continue;
    let bottom = row;
    const isOfStrain = (at: number): boolean => {
      const label = cellAt(sheet, at, down);
      const isCount = (column: number): boolean => {
        const count = cellAt(sheet, at, column);
        // A day below a day is one of a list.
        const isDate = isDay(lookAt(sheet, at, column));
        return isBlank(count) || (typeof count === 'number' && Number.isInteger(count) && !isDate);
      };
      return typeof label === 'string' && isStrain(label.trim()) && days.every(isCount);
    };
    while (isOfStrain(bottom + 1)) bottom++;
    if (bottom < row + 2) continue;
    const at = rangeOf({ top: row, left: down, bottom, right: days.at(-1)! });
    return `${sheetText(sheet.name)}!${at} counts them by strain and day, without names. Write them as a list, a row for each count, under the headers lot, strain, blocks and inoculated, and choose the job again`;
  }
  return undefined;
}
