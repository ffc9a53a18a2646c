import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { isTotalsRow } from '../../worksheet/cells/totals';

/** What a row below a header row is. */
export type RowKind = 'data' | 'blank' | 'totals' | 'heading' | 'headers again';

/** The last line of a printed page. */
export const isPageNumber = (cell: Cell): boolean =>
  typeof cell === 'string' && /^\s*page\s+\d+(?:\s*(?:of|\/)\s*\d+)?\s*$/i.test(cell);

/** Looks at a row of a table, given its cells and the headers above them. */
export function rowKind(cells: readonly Cell[], headers: readonly string[]): RowKind {
  const filled = cells.filter((cell) => !isBlank(cell));
  if (filled.length === 0) return 'blank';
  const same = cells.filter(
    (cell, i) => typeof cell === 'string' && headers[i] !== '' && headerKey(cell) === headerKey(headers[i]!),
  ).length;
  // Before the totals: one of the headers may be their word.
  if (same >= 2 && same >= filled.length / 2) return 'headers again';
  if (isTotalsRow(cells) || cells.some(isPageNumber)) return 'totals';
  // A month or a season over the rows that follow: one text and nothing beside it.
  return filled.length === 1 && typeof filled[0] === 'string' ? 'heading' : 'data';
}
