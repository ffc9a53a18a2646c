import { isBlank } from '../../worksheet/cells/cell';
import { rangeOf } from '../xlsx/address';
import { cellAt, sheetText, type BookSheet, type GrowersBook } from './book';
import { isDay } from './block';
import { candidatesOn } from './find';
import type { WantedTable } from './jobs';
import { isOurs } from './ours';
import { lookAt } from './values';

// Tables that are laid out so that no formula reads them as lists: the grower is told which, and what to do.

/** More records than these lie below each other, not side by side. */
const MOST_SIDEWAYS = 200;

/** A sheet with its rows as columns. */
function turned(sheet: BookSheet): BookSheet | undefined {
  if (sheet.rows.length > MOST_SIDEWAYS) return undefined;
  const width = Math.max(0, ...sheet.rows.map((cells) => cells.length));
  if (width > MOST_SIDEWAYS) return undefined;
  return {
    name: sheet.name,
    rows: Array.from({ length: width }, (_, column) =>
      sheet.rows.map((__, row) => cellAt(sheet, row, column)),
    ),
    formatAt: (row, column) => sheet.formatAt(column, row),
    isFormula: (row, column) => sheet.isFormula(column, row),
  };
}

/** What to do about a table that lies on its side, or lots that stand as blocks by strain and week. */
export function otherWay(
  book: GrowersBook,
  table: WantedTable,
  isStrain: (label: string) => boolean,
): string | undefined {
  for (const sheet of book.sheets) {
    if (isOurs(sheet)) continue;
    const onSide = turned(sheet);
    const [found] = onSide ? candidatesOn(book, onSide, table) : [];
    if (found && found.missing.length === 0 && found.dataRows.length >= 2) {
      const { top, left, bottom, right } = found.area;
      const at = rangeOf({ top: left, left: top, bottom: right, right: bottom });
      return `${sheetText(sheet.name)}!${at} has them, but lies on its side: its headers are in a column. Copy it, paste it on a sheet of its own with Paste Special, Transpose, and choose the job again`;
    }
  }
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
        return isBlank(count) || (typeof count === 'number' && Number.isInteger(count));
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
