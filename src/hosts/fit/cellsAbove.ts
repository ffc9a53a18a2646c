import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { lastRowOf } from './columns';
import { isDitto } from './values';

/** What a column says at a row: its cell, or the last filled one above it in the same part, totals and months aside. */
export function cellsAbove(candidate: Candidate, column: number): (row: number) => Cell {
  const rowAbove = rowsAbove(candidate, column);
  return (row) => {
    const above = rowAbove(row);
    return above === undefined ? null : cellAt(candidate.sheet, above, column);
  };
}

/** The row whose cell a row of a column says. */
export function rowsAbove(candidate: Candidate, column: number): (row: number) => number | undefined {
  const { sheet, area, passedOver, parts } = candidate;
  const tops = new Set([area.top]);
  let top = area.top;
  for (const part of parts ?? []) {
    tops.add(top);
    top += lastRowOf(part) - part.area.top;
  }
  const skipped = new Set(passedOver);
  return (row) => {
    for (let at = row; at > area.top; at--) {
      const cell = cellAt(sheet, at, column);
      if (!isBlank(cell) && !isDitto(cell) && !skipped.has(at)) return at;
      if (tops.has(at - 1)) return undefined;
    }
    return undefined;
  };
}
