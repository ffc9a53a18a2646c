import { isBlank, type Cell } from '../../worksheet/cells/cell';
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

/** What the sum of all rows may be called, where its figures are their sums. */
const OF_ALL =
  /^(?:all|alle|alles|altogether|overall|everything|whole|farm|tout(?:es)?|tous|tod[oa]s?|tutt[eio]|samen|wszystk[oi]e?|tud[oa])$/i;

/**
 * Whether a row has one word and the sums of at least two rows above it in each of its figures: calculated by the sheet, or
 * typed under a word for all of them.
 */
export function isSumOfAll(
  sheet: BookSheet,
  row: number,
  above: readonly number[],
  columns: readonly number[],
): boolean {
  const filled = columns.filter((column) => !isBlank(cellAt(sheet, row, column)));
  const figures = filled.filter((column) => typeof cellAt(sheet, row, column) === 'number');
  const [text, ...others] = filled.flatMap((column) => {
    const cell = cellAt(sheet, row, column);
    return typeof cell === 'string' ? [cell.trim()] : [];
  });
  if (text === undefined || others.length > 0 || figures.length === 0) return false;
  if (figures.length + 1 < filled.length) return false;
  const isTyped = OF_ALL.test(text);
  if (!isTyped && !figures.every((column) => sheet.isFormula(row, column))) return false;
  return figures.every((column) => {
    const addends = above.map((one) => cellAt(sheet, one, column)).filter((cell) => typeof cell === 'number');
    const sum = addends.reduce((total, one) => total + one, 0);
    const own = cellAt(sheet, row, column) as number;
    return (
      addends.filter((one) => one !== 0).length >= FEWEST &&
      Math.abs(own - sum) <= CLOSE * Math.max(1, Math.abs(sum))
    );
  });
}

/** So many figures do not add up to another by chance. */
const MANY = 4;

interface ColumnSum {
  readonly sum: number;
  readonly count: number;
}
const NOTHING: ColumnSum = { sum: 0, count: 0 };

/** A calculated figure of so much of the sum is the sum of nearly all. */
const NEARLY_ALL = 0.9;

/** The sums of a list's columns, row by row: of all its rows, and of those since the last row that is no record. */
export class RunningSums {
  private readonly whole: ColumnSum[] = [];
  private group: ColumnSum[] = [];
  private most = 0;

  add(cells: readonly Cell[]): void {
    this.most = Math.max(this.most, filledIn(cells).length);
    for (const [i, cell] of cells.entries()) {
      if (typeof cell !== 'number') continue;
      for (const sums of [this.whole, this.group]) {
        const { sum, count } = sums[i] ?? NOTHING;
        sums[i] = { sum: sum + cell, count: count + 1 };
      }
    }
  }

  /** What follows is summed up by itself. */
  endGroup(): void {
    this.group = [];
  }

  /**
   * Whether a row fills few of the cells that records do, and has one word at most and the sums of what was added. A week
   * may have few picks: those that the sheet sums up itself are no chance.
   */
  areIn(cells: readonly Cell[], isFormula: (column: number) => boolean): boolean {
    const filled = filledIn(cells);
    const figures = cells.flatMap((cell, i) => (typeof cell === 'number' ? [i] : []));
    const isSumOf = (sums: readonly ColumnSum[], fewest: number, i: number): boolean => {
      const { sum, count } = sums[i] ?? NOTHING;
      return count >= fewest && Math.abs((cells[i] as number) - sum) <= CLOSE * Math.max(1, Math.abs(sum));
    };
    // A sum whose range was not drawn out to the last records.
    const isShortSum = (i: number): boolean => {
      const { sum, count } = this.whole[i] ?? NOTHING;
      const own = cells[i] as number;
      return isFormula(i) && count >= MANY && own <= sum * (1 + CLOSE) && own >= NEARLY_ALL * sum;
    };
    return (
      filled.length - figures.length <= 1 &&
      filled.length * 2 <= this.most &&
      figures.length > 0 &&
      (figures.every(isShortSum) ||
        figures.every((i) => isSumOf(this.whole, MANY, i)) ||
        figures.every((i) => isSumOf(this.group, isFormula(i) ? 1 : MANY, i)))
    );
  }
}

const filledIn = (cells: readonly Cell[]): Cell[] => cells.filter((cell) => !isBlank(cell));
