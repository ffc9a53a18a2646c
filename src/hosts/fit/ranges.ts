import { unaccented } from './otherLanguages';
import { isRange } from './wordsInCells';

// Two figures in one cell, the days from which and until which a block may be opened: `17-40`, `28 to 55 days`.

const WINDOW = /ready|open|ripe|window|\bage\b|reif|offn|pret|ouvr|maduro|abrir|rijp|gotow|moden/;
/** Words of a wait: beside a column of the best day a range of it is when a block may be opened. */
const WAIT = /day|incub|inkub|coloni|koloni|spawn|\brun\b|tage|jour|dias|dag|giorni|dni/;
const OTHER =
  /temp|°|humid|\brh\b|co2|flush|pick|harvest|pin|crop|rest|between|ernte|recolte|cosecha|oogst|raccolta|zbior|host/;

/** Whether a column has in each cell the range of days in which a block may be opened. */
export function areAgeRanges(header: string, texts: readonly string[], isBestKnown: boolean): boolean {
  const plain = unaccented(header).toLowerCase();
  const filled = texts.filter((text) => text.trim() !== '');
  const isOf = WINDOW.test(plain) || (isBestKnown && WAIT.test(plain));
  return isOf && !OTHER.test(plain) && filled.length > 0 && filled.every(isRange);
}
