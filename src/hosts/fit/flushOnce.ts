import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { rowsAbove } from './cellsAbove';
import { digitOf } from './ordinals';
import type { ColumnReading } from './reading';

/** The share of lots that may have a slip. */
const SLIPS = 0.1;

/**
 * Whether a flush is written once, at its first pick: a lot begins with one, and none is written twice or out of turn. The
 * blanks below then say the same; where numbers come again, a blank is a flush that nobody wrote.
 */
export function isFlushOnce(candidate: Candidate, { name, match, digit }: ColumnReading): boolean {
  const { table, sheet, dataRows, matches } = candidate;
  const lot = matches.find(({ wanted }) => wanted === 'lot');
  if (table.name !== 'harvests' || name !== 'flush' || !lot) return false;
  const lotAbove = rowsAbove(candidate, lot.column);
  const ofLots = new Map<string, Cell[]>();
  for (const row of dataRows) {
    const named = lotAbove(row);
    const key = named === undefined ? '' : textOf(cellAt(sheet, named, lot.column)).trim();
    const cell = cellAt(sheet, row, match.column);
    ofLots.set(key, [...(ofLots.get(key) ?? []), digit ? digitOf(cell, digit) : cell]);
  }
  const inTurn = ([first = null, ...others]: readonly Cell[]): boolean => {
    const written = [first, ...others].filter((flush) => !isBlank(flush));
    return !isBlank(first) && written.every((flush, i) => i === 0 || Number(flush) > Number(written[i - 1]));
  };
  const lots = [...ofLots.values()];
  const areOpen = lots.some((flushes) => flushes.some(isBlank));
  return areOpen && lots.filter((flushes) => !inTurn(flushes)).length <= SLIPS * lots.length;
}
