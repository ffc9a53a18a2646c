import { isBlank } from '../../worksheet/cells/cell';
import { cellAt, type GrowersBook } from './book';
import type { Candidate } from './candidate';
import { cellsAbove } from './cellsAbove';
import { isDateColumn, isFigureColumn } from './looks';
import { type ColumnReading } from './reading';
import { isFromElsewhere } from './conversion';

// Blank cells that may say the same as the cell above them.

/** The blank cells of a needed column of days or labels that lie below a filled one: a day written once for many rows. */
export function blanksBelow(
  candidate: Candidate,
  { wanted, match, conversion, isFilledDown, otherDay, dayBeside }: ColumnReading,
): number[] {
  const column = dayBeside?.column ?? match.column;
  const isSaidOnce = isDateColumn(wanted) || !isFigureColumn(wanted);
  if (
    !wanted.isNeeded ||
    !isSaidOnce ||
    (dayBeside ?? { isFilledDown }).isFilledDown ||
    otherDay ||
    isFromElsewhere(conversion)
  )
    return [];
  const filled = cellsAbove(candidate, column);
  const blanks = candidate.dataRows.filter(
    (row) => isBlank(cellAt(candidate.sheet, row, column)) && !isBlank(filled(row)),
  );
  return blanks.length >= FEWEST_BLANKS && blanks.length >= BLANK_SHARE * candidate.dataRows.length
    ? blanks
    : [];
}

/** Whether the blank cells of a column, one at least, are all merged with the one above: each says what that says. */
export function isMergedDown(
  book: GrowersBook,
  candidate: Candidate,
  { match, conversion }: ColumnReading,
): boolean {
  if (isFromElsewhere(conversion)) return false;
  const blanks = candidate.dataRows.filter((row) => isBlank(cellAt(candidate.sheet, row, match.column)));
  return (
    blanks.length > 0 &&
    blanks.every((row) => {
      const place = candidate.origin(row, match.column);
      const sheet = book.sheets.find(({ name }) => name === place.sheet);
      return sheet?.isMergedUp?.(place.row, place.column) === true;
    })
  );
}

/** Fewer blanks are cells that were forgotten, not days written once. */
const [FEWEST_BLANKS, BLANK_SHARE] = [2, 0.1];
