import { isBlank, type Cell } from '../../worksheet/cells/cell';

// Words in cells that say nothing more than their header does: `18 days`, and where a label leads to: `Blue (pages/blue)`.

const DAYS = /^\s*\d+(?:[.,]\d+)?\s*(days?|d|dage?|tage?|jours?|j|d[ií]as?|dagen|dag|giorn[io]|dni)\.?\s*$/iu;

/** The words for days behind figures, the longest first; none unless every text has one. */
export function dayWordsIn(texts: readonly string[]): string[] {
  const words = texts.map((text) => DAYS.exec(text)?.[1]?.toLowerCase());
  if (words.length === 0 || words.includes(undefined)) return [];
  return [...new Set(words as string[])].sort((a, b) => b.length - a.length);
}

const WEEKS = 'weeks?|wks?|wochen?|semaines?|semanas?|weken|settiman[ae]|tygodni\\p{L}*|uger?';
const WEEKS_WORD = new RegExp(`(?<!\\p{L})(?:${WEEKS})(?!\\p{L})`, 'iu');
const WEEKS_IN_CELL = new RegExp(`^\\s*\\d+(?:[.,]\\d+)?\\s*(${WEEKS})\\.?\\s*$`, 'iu');

/** Whether a header says that its figures are weeks. */
export const isOfWeeks = (header: string): boolean => WEEKS_WORD.test(header);

/** The words for weeks behind figures, as those for days. */
export function weekWordsIn(texts: readonly string[]): string[] {
  const words = texts.map((text) => WEEKS_IN_CELL.exec(text)?.[1]?.toLowerCase());
  if (words.length === 0 || words.includes(undefined)) return [];
  return [...new Set(words as string[])].sort((a, b) => b.length - a.length);
}

export const DAYS_A_WEEK = 7;

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
