import type { Cell } from '../../worksheet/cells/cell';
import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import { daysIn, daysOfWait, HELD, isOfKeeping, OTHER, partOf, plain, waitPartsIn } from './waitParts';

// Strains that say how long their blocks stay good once they are ready, `Keeps (days)`: after that they are too old. Where
// that stands elsewhere than behind the wait, it may be said of what is picked.

/** Strains that say how long a block may be held once it is ready: that is added to its wait. */
export function withHolding(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): ColumnMatch[] {
  const isOpen =
    table.columns.some(({ name }) => name === 'latest') && !matches.some(({ wanted }) => wanted === 'latest');
  const best =
    matches.find(({ wanted }) => wanted === 'best') ?? matches.find(({ wanted }) => wanted === 'earliest');
  if (table.name !== 'strains' || !isOpen || !best) return matches;
  const wait =
    best.by === 'the parts of its wait' ? waitPartsIn(headers, cellsIn) : [partOf(headers, best.column)];
  const isBehind = (column: number): boolean =>
    [...wait, ...matches.filter(({ wanted }) => wanted === 'earliest')].some(
      (one) => one.column === column - 1,
    );
  // Where all are longer than the wait they may count from inoculation.
  const isFromReady = (column: number): boolean =>
    cellsIn(column).some((cell, i) => {
      const own = daysIn(cell, partOf(headers, column).unit);
      return own > 0 && own < daysOfWait(wait, (at) => cellsIn(at)[i] ?? null);
    });
  const isHeld = (column: number, words: string): boolean =>
    HELD.test(words) || (isOfKeeping(words) && isBehind(column) && isFromReady(column));
  const held = [...headers].filter(
    ([column, header]) =>
      isHeld(column, plain(header)) &&
      !OTHER.test(plain(header)) &&
      cellsIn(column).some((cell) => typeof cell === 'number') &&
      !matches.some((match) => match.column === column),
  );
  const [only, more] = held;
  if (!only || more) return matches;
  const [column, header] = only;
  return inOrder(table, [...matches, { wanted: 'latest', column, header, by: 'the parts of its wait' }]);
}
