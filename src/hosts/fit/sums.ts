import { cellAt, type BookSheet } from './book';

// A row of sums under a word that no rule knows: `All`, `Week`, nothing at all. Its figures give it away.

/** A single figure that is as large as another is no sum. */
const FEWEST = 2;

/** How far a sum may be from what was added: as cells show figures rounded. */
const CLOSE = 1e-6;

/** Whether the sheet calculates every figure of a row, and each is the sum of those above it. */
export function areSums(
  sheet: BookSheet,
  row: number,
  above: readonly number[],
  columns: readonly number[],
): boolean {
  const figures = columns.filter((column) => typeof cellAt(sheet, row, column) === 'number');
  const addends = (column: number): number[] =>
    above.map((one) => cellAt(sheet, one, column)).filter((cell) => typeof cell === 'number');
  const isSum = (column: number): boolean => {
    const sum = addends(column).reduce((total, one) => total + one, 0);
    const own = cellAt(sheet, row, column) as number;
    return sheet.isFormula(row, column) && Math.abs(own - sum) <= CLOSE * Math.max(1, Math.abs(sum));
  };
  const isTelling = figures.length >= FEWEST || figures.some((column) => addends(column).length >= FEWEST);
  return isTelling && figures.every(isSum);
}
