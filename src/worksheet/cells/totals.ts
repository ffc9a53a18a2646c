import { labelKey } from '../../maths/shared/labels';
import { isBlankOrZero, type Cell } from './cell';

/** What a sheet's own totals row is labelled, or a grower's: its figures would count twice. */
const TOTALS = /^((grand |sub)?totals?|sum):?$/;

/** Whether a label is the word of a totals row. */
export const isTotalsWord = (label: string): boolean => TOTALS.test(labelKey(label));

/** Whether the word of a totals row is in any cell of a row. */
export const isTotalsRow = (cells: readonly Cell[]): boolean =>
  cells.some((cell) => typeof cell === 'string' && isTotalsWord(cell));

/** A month, week, quarter, season or year as people write it between rows, signs around it aside. */
const MONTHS =
  'jan(uary)?|feb(ruary)?|mar(ch)?|apr(il)?|may|june?|july?|aug(ust)?|sept?(ember)?|oct(ober)?|nov(ember)?|dec(ember)?';
const HEADING = new RegExp(
  `^\\P{L}*(((${MONTHS})\\.?|spring|summer|autumn|fall|winter)([\\s,/'’-]*\\d{2,4})?|(week|wk|month|quarter|q|year)\\.?\\s*\\d{1,4}([\\s,/-]+\\d{2,4})?)\\P{L}*$`,
  'iu',
);

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
