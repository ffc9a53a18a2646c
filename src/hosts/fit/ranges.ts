import { cellError, isBlank, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';
import { unaccented } from './otherLanguages';

// Two figures in one cell, the days from which and until which a strain is ready: `17-40`, `28 to 55 days`.

/** Which of the two figures, and what parts them beside a dash. */
export interface Bound {
  readonly which: 'low' | 'high';
  readonly signs: readonly string[];
}

const SIGNS = ['–', '—', '−', ' to ', ' bis ', ' tot ', ' until ', ' till '];
const RANGE = /^(\d{1,3})-(\d{1,3})(?: ?[\p{L}.]+)?$/u;

const plainRange = (text: string): string =>
  SIGNS.reduce((rest, sign) => rest.replaceAll(sign, '-'), text.toLowerCase())
    .replaceAll(' -', '-')
    .replaceAll('- ', '-')
    .trim();

const AGE =
  /day|incub|inkub|coloni|koloni|spawn|\brun\b|ready|open|ripe|window|\bage\b|tage|reif|jour|pret|dias|maduro|dag|rijp|giorni|dni/;
const OTHER =
  /temp|°|humid|\brh\b|co2|flush|pick|harvest|pin|crop|rest|between|ernte|recolte|cosecha|oogst|raccolta|zbior|host/;

/** Whether a column has a range of days in each cell in which a block may be opened. */
export function areAgeRanges(header: string, texts: readonly string[]): boolean {
  const plain = unaccented(header).toLowerCase();
  const filled = texts.filter((text) => text.trim() !== '');
  return AGE.test(plain) && !OTHER.test(plain) && haveRanges(filled);
}

/** Whether cells hold ranges. */
export const haveRanges = (texts: readonly string[]): boolean =>
  texts.length > 0 && texts.every((text) => RANGE.test(plainRange(text)));

/** The signs that cells use. */
export const boundSigns = (texts: readonly string[]): string[] =>
  SIGNS.filter((sign) => texts.some((text) => text.toLowerCase().includes(sign)));

/** One figure of the two. */
export function boundOf(cell: Cell, { which }: Bound): Cell {
  if (isBlank(cell)) return null;
  const [, low, high] = RANGE.exec(plainRange(textOf(cell))) ?? [];
  if (low === undefined)
    return cellError('#VALUE!', `must be two figures such as 17-40; it is "${textOf(cell)}"`);
  return Number(which === 'low' ? low : high);
}

/** The same as a formula says it. */
export function boundText(cells: string, { which, signs }: Bound): string {
  const one = signs.reduce((rest, sign) => `SUBSTITUTE(${rest},"${sign}","-")`, `LOWER(${cells})`);
  const high = `TRIM(MID(${one},FIND("-",${one})+1,20))&" "`;
  const figure = which === 'low' ? `LEFT(${one},FIND("-",${one})-1)` : `LEFT(${high},FIND(" ",${high})-1)`;
  return `IF(${cells}="","",VALUE(${figure}))`;
}
