import { labelKey } from '../../maths/shared/labels';
import { isBlankOrZero, type Cell } from './cell';

const MONTHS =
  'jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?';
/** A month, week, quarter, season or year as people write it between rows. */
const PERIOD = `((${MONTHS})\\.?|spring|summer|autumn|fall|winter)([\\s,/'’-]*\\d{2,4})?|(week|wk|month|quarter|q|year)\\.?\\s*\\d{1,4}([\\s,/-]+\\d{2,4})?`;
const HEADING = new RegExp(`^\\P{L}*(${PERIOD})\\P{L}*$`, 'iu');

/**
 * What a sheet's own totals row is labelled, or a grower's: its figures would count twice. A period may go with the word, but
 * no other, or what is counted: `Total blocks`. `Total-1` and `Total eclipse` are names.
 */
const SUM =
  '((grand|sub|sous|overall|running|daily|day|((week|month|year)(ly)?))[\\s-]*)?(totals?|totaux|totales?|totali|totaal)|sums?|Σ|(zwischen)?summe|(ins)?gesamt|zusammen|somme|sumas?|somma|razem|i alt|tot\\.?|ttl';
const COUNTED = 'blocks|bags|pieces|lots|batches|kgs?|lbs?|pounds|weight|mass';
const WHEN = `${PERIOD}|\\d{4}|(kw|cw|w|s|t|sem|semaine|semana|settimana|woche|tydz|tydzień)\\.?\\s*\\d{1,2}`;
const TOTALS = new RegExp(
  `^[^\\p{L}\\p{N}]*((${WHEN})[\\s:–-]+)?(${SUM})((\\s+(for|of|in))?[\\s:–-]+(${WHEN}|${COUNTED}))?\\s*(\\([^)]*\\))?[^\\p{L}\\p{N}]*$`,
  'iu',
);
const TOTAL_OF = new RegExp(`^[^\\p{L}\\p{N}]*(?:${SUM})(?:\\s+(?:for|of|in))?[\\s:–-]+(.+)$`, 'iu');
const AVERAGES = /^[^\p{L}\p{N}]*(averages?|avg|ave|mean)[^\p{L}\p{N}]*$/iu;

/** Whether a label is the word of a totals row. */
export const isTotalsWord = (label: string): boolean => TOTALS.test(labelKey(label));

/** What a label is the total of, `Total Oyster`: a totals row only where that is a label of its column. */
export const totalOf = (label: string): string | undefined => TOTAL_OF.exec(labelKey(label))?.at(-1);

/**
 * Whether a row is one of totals: their word is in any cell of it. An average, which may be a grade as well, must come first
 * and be the only text.
 */
export function isTotalsRow(cells: readonly Cell[]): boolean {
  const texts = cells.filter((cell): cell is string => typeof cell === 'string' && cell.trim() !== '');
  if (texts.some(isTotalsWord)) return true;
  const filled = cells.filter((cell) => !isBlankOrZero(cell));
  return texts.length === 1 && filled.length > 1 && filled[0] === texts[0] && AVERAGES.test(texts[0]!.trim());
}

/** The only filled cell of a row; undefined where there is none or more than one. */
function onlyCell(cells: readonly Cell[]): Cell | undefined {
  const filled = cells.filter((cell) => !isBlankOrZero(cell));
  return filled.length === 1 ? filled[0] : undefined;
}

/** Whether a row holds one text and no figure: a title between the rows. */
export const isTextOnly = (cells: readonly Cell[]): boolean => typeof onlyCell(cells) === 'string';

/** Whether a row holds nothing but the name of a month, week, quarter, season or year. */
export function isPeriodRow(cells: readonly Cell[]): boolean {
  const only = onlyCell(cells);
  return typeof only === 'string' && HEADING.test(only.trim());
}
