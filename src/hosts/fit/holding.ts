import type { Cell } from '../../worksheet/cells/cell';
import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import { daysIn, daysOfWait, OTHER, partOf, plain, waitPartsIn } from './waitParts';

// Strains that say how long their blocks stay good once they are ready, `Keeps (days)`: after that they are too old.

const HELD = /\b(?:held|hold|holds|holding|haltbar|lagerfahig)\b/;
/** How long a block stays good, where that stands behind its wait: elsewhere it may be said of what is picked. */
const KEEPS =
  /\b(?:keeps?|stays? (?:ok|good|ready|fine)|(?:ok|good|fine|usable|ready) (?:for|within)|(?:use|open|fruit) within|window)\b/;
const OF_CROP =
  /\b(?:fridge|cold|cooler|shelf|shop|store|stored|picked|picks?|fruits|mushrooms?|harvest\w*|fresh)\b/;

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
    HELD.test(words) ||
    (KEEPS.test(words) && !OF_CROP.test(words) && isBehind(column) && isFromReady(column));
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
