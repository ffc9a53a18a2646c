import { isBlank, type Cell } from '../../worksheet/cells/cell';

// Flushes that are counted in words: `1st`, `2nd flush`, `F3`, `#1`. No block gives ten.

const FIRST = /^\d\s*(?:st|nd|rd|th|e|er|re|[eè]re|de|º|ª|°|\.)?\s*(?:flush|break|wave)?$/i;
const LAST = /^(?:flush|break|wave|fl|f|b|w|#|no\.?|nr\.?)\s*\d$/i;

/** Where the figure of such a count stands. */
export type DigitAt = 'first' | 'last';

/** Where the figure stands in a column of counts in words; undefined where any of its texts is something else. */
export function digitAt(cells: readonly Cell[]): DigitAt | undefined {
  const texts = cells.flatMap((cell) => (typeof cell === 'string' && !isBlank(cell) ? [cell.trim()] : []));
  if (texts.length === 0) return undefined;
  if (texts.every((text) => FIRST.test(text))) return 'first';
  return texts.every((text) => LAST.test(text)) ? 'last' : undefined;
}

export const digitOf = (cell: Cell, at: DigitAt): Cell =>
  typeof cell === 'string' && !isBlank(cell) ? Number(cell.trim().at(at === 'first' ? 0 : -1)) : cell;

/** The same as a formula says it. */
export const digitText = (cells: string, at: DigitAt): string =>
  `IF(ISNUMBER(${cells}),${cells},IF(${cells}="","",VALUE(${at === 'first' ? 'LEFT' : 'RIGHT'}(TRIM(${cells}),1))))`;
