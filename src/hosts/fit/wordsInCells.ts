import { isBlank, type Cell } from '../../worksheet/cells/cell';

// Words in cells beside what they say: of figures `18 days`, `70–80`, and where a label leads to: `Blue (pages/blue)`.

/** `70–80 days`, `8 to 10`, `60–70 %` */
const RANGE =
  /^\s*\d+(?:[.,]\d+)?\s*[\p{L}%]*\.?\s*(?:[-–—]|to|bis|tot|à)\s*\d+(?:[.,]\d+)?\s*[\p{L}%]*\.?\s*$/iu;

/** Whether a text is a range of figures. */
export const isRange = (cell: Cell): boolean => typeof cell === 'string' && RANGE.test(cell);

/** A label, and in brackets behind it the page that it leads to. */
const LINK = /^(.*?\S)\s+\([^()\s]*\/[^()\s]*\)$/u;

/** Whether most labels lead to a page. */
export function haveLinks(cells: readonly Cell[]): boolean {
  const texts = cells.filter((cell) => typeof cell === 'string' && !isBlank(cell)) as string[];
  return texts.length > 0 && texts.filter((text) => LINK.test(text.trim())).length >= texts.length / 2;
}

export const withoutLink = (cell: Cell): Cell =>
  typeof cell === 'string' ? (LINK.exec(cell.trim())?.[1] ?? cell) : cell;

/** The same as a formula says it. */
export const withoutLinkText = (cells: string): string =>
  `IF(IFERROR(FIND("/",${cells},FIND(" (",${cells})),0)>0,TRIM(LEFT(${cells},FIND(" (",${cells})-1)),${cells})`;
