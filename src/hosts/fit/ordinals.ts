import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { unaccented } from './otherLanguages';
import { onceForText } from './once';

// Flushes that are counted in words: `1st`, `2nd flush`, `2. Welle`, `wave 1`, `F3`, `#1`. No block gives ten.

/** Words for a flush, without accents. */
const FLUSH =
  'flush|break|wave|crop|welle|schub|erntewelle|volee|vague|pousse|oleada|florada|vlucht|volata|rzut|vaga|onda|bolge';
const FIRST = new RegExp(`^\\d\\s*(?:st|nd|rd|th|e|er|re|ere|de|da|a|o|º|ª|°)?\\.?\\s*(?:${FLUSH})?$`, 'i');
const LAST = new RegExp(`^(?:${FLUSH}|fl|f|b|w|#|no\\.?|nr\\.?)\\s*(?:no\\.?|nr\\.?|#)?\\s*\\d$`, 'i');

/** Where the figure of such a count stands. */
export type DigitAt = 'first' | 'last';

/** Where the figure stands in a text that counts a flush. */
const placeIn = onceForText((text): DigitAt | undefined => {
  const plain = unaccented(text.trim());
  return FIRST.test(plain) ? 'first' : LAST.test(plain) ? 'last' : undefined;
});

/** Whether a text may count a flush. */
export const mayCountFlush = (text: string): boolean => placeIn(text) !== undefined;

/** Where the figure stands in a column of counts in words; undefined where any of its texts is something else. */
export function digitAt(cells: readonly Cell[]): DigitAt | undefined {
  const places = new Set(
    cells.flatMap((cell) => (typeof cell === 'string' && !isBlank(cell) ? [placeIn(cell)] : [])),
  );
  return places.size === 1 ? [...places][0] : undefined;
}

export const digitOf = (cell: Cell, at: DigitAt): Cell =>
  typeof cell === 'string' && !isBlank(cell) ? Number(cell.trim().at(at === 'first' ? 0 : -1)) : cell;

/** The same as a formula says it. */
export const digitText = (cells: string, at: DigitAt): string =>
  `IF(ISNUMBER(${cells}),${cells},IF(${cells}="","",VALUE(${at === 'first' ? 'LEFT' : 'RIGHT'}(TRIM(${cells}),1))))`;
