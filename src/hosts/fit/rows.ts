import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { isTotalsRow } from '../../worksheet/cells/totals';
import { unaccented } from './otherLanguages';

const MOST = /\b(?:max\w*|most|limit\w*|cap|capacity|maks\w*|hochst\w*|grens)\b/;
const PICKED =
  /\b(?:pick\w*|harvest\w*|(?:ge)?ernte\w*|recolt\w*|cosech\w*|oogst\w*|pluk\w*|raccolt\w*|colheita\w*|zbior\w*)\b/;
/** How many days, or which, is no mass. */
const OF_DAYS = /\b(?:days|dni|jours|tage|dias|dagen|giorni)\b/;
const [LONGEST_LABEL, LONGEST] = [60, 100];

/** So much in a day: `120 lb a day`, `60 kg per dag`. */
const A_DAY =
  /(\d+(?:[.,]\d+)?)\s*(kgs?|kilos?|g|lbs?|pounds?|oz)\s*(?:\/|per|a|an|each|pro|par|por|al|je|na|op een)?\s*(?:day|d\b|tag|dag|jour|dia|giorno|dzien)/;

/** Whether a text, in small letters without accents, speaks of picking. */
export const saysPicking = (plain: string): boolean => PICKED.test(plain);

/** The mass that a sentence says can be picked in a day. */
export function pickedADay(text: string): string | undefined {
  const plain = unaccented(text).toLowerCase();
  const [, figure, unit] = (text.length <= LONGEST && PICKED.test(plain) && A_DAY.exec(plain)) || [];
  return figure === undefined ? undefined : `${figure} ${unit!}`;
}

/** Whether a text says the most that can be picked in a day. */
export function saysPickLimit(text: string): boolean {
  const plain = unaccented(text).toLowerCase();
  const isMost = MOST.test(plain) && PICKED.test(plain) && !OF_DAYS.test(plain);
  return (isMost && text.length <= LONGEST_LABEL) || pickedADay(text) !== undefined;
}

/** What a row below a header row is. */
export type RowKind = 'data' | 'blank' | 'totals' | 'heading' | 'headers again';

/** The last line of a printed page. */
export const isPageNumber = (cell: Cell): boolean =>
  typeof cell === 'string' && /^\s*page\s+\d+(?:\s*(?:of|\/)\s*\d+)?\s*$/i.test(cell);

/** Looks at a row of a table, given its cells and the headers above them. */
export function rowKind(cells: readonly Cell[], headers: readonly string[]): RowKind {
  // Boxes that nobody ticked are prepared far below the records.
  const filled = cells.filter((cell) => !isBlank(cell) && cell !== false);
  if (filled.length === 0) return 'blank';
  const same = cells.filter(
    (cell, i) => typeof cell === 'string' && headers[i] !== '' && headerKey(cell) === headerKey(headers[i]!),
  ).length;
  // Before the totals: one of the headers may be their word.
  if (same >= 2 && same >= filled.length / 2) return 'headers again';
  if (isTotalsRow(cells) || cells.some(isPageNumber)) return 'totals';
  // A limit that is written below a table is no record of it.
  if (filled.length <= 2 && typeof filled[0] === 'string' && saysPickLimit(filled[0])) return 'totals';
  // A month or a season over the rows that follow: one text and nothing beside it.
  return filled.length === 1 && typeof filled[0] === 'string' ? 'heading' : 'data';
}
