import { labelKey } from '../../maths/shared/labels';
import type { Cell } from './cell';

/** What a sheet's own totals row is labelled, or a grower's: its figures would count twice. */
const TOTALS = /^((grand |sub)?totals?|sum):?$/;

/** Whether a label is the word of a totals row. */
export const isTotalsWord = (label: string): boolean => TOTALS.test(labelKey(label));

/** Whether the word of a totals row is in any cell of a row. */
export const isTotalsRow = (cells: readonly Cell[]): boolean =>
  cells.some((cell) => typeof cell === 'string' && isTotalsWord(cell));
