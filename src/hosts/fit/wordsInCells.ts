import { isBlank, type Cell } from '../../worksheet/cells/cell';

// Words in cells that say nothing more than their header does: `18 days`, and where a label leads to: `Blue (pages/blue)`.

const DAYS = /^\s*\d+(?:[.,]\d+)?\s*(days?|d|dage?|tage?|jours?|j|d[ií]as?|dagen|dag|giorn[io]|dni)\.?\s*$/iu;

/** The words for days behind figures, the longest first; none unless every text has one. */
export function dayWordsIn(texts: readonly string[]): string[] {
  const words = texts.map((text) => DAYS.exec(text)?.[1]?.toLowerCase());
  if (words.length === 0 || words.includes(undefined)) return [];
  return [...new Set(words as string[])].sort((a, b) => b.length - a.length);
}

export const withoutWords = (cell: Cell, words: readonly string[]): Cell =>
  typeof cell === 'string'
    ? words.reduce((text, word) => text.replaceAll(word, ''), cell.toLowerCase())
    : cell;

/** The same as a formula says it. */
export const withoutWordsText = (cells: string, words: readonly string[]): string =>
  words.reduce((text, word) => `SUBSTITUTE(${text},"${word}","")`, `LOWER(${cells})`);

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
