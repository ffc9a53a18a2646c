import type { ColumnMatch } from './candidate';
import type { HeaderRun } from './headerRuns';
import { JOB, type WantedTable } from './jobs';
import { namedPairs } from './matching';
import { NAMED } from './naming';

// Two tables side by side without a blank column between them: their headers are one run of words.

const TABLES: readonly WantedTable[] = [...JOB.plan.tables, ...JOB.audit.tables, ...JOB.ready.tables];

/** A run without the whole tables of other kinds that touch it; undefined where there is none. */
export function withoutNeighbour(
  run: HeaderRun,
  table: WantedTable,
  matches: readonly ColumnMatch[],
): HeaderRun | undefined {
  const needed = table.columns.filter(({ isNeeded }) => isNeeded).map(({ name }) => name);
  const columns = matches.filter(({ wanted }) => needed.includes(wanted)).map(({ column }) => column);
  if (columns.length < needed.length || needed.length < FEWEST) return undefined;
  if (run.names.size < columns.length + FEWEST) return undefined;
  const own = { left: Math.min(...columns), right: Math.max(...columns) };
  for (const other of TABLES.filter(({ name }) => name !== table.name)) {
    const its = wholeIn(run, other);
    if (!its) continue;
    if (its.left > own.right) return within(run, run.left, its.left - 1);
    if (its.right < own.left) return within(run, its.right + 1, run.right);
    // A column of the other may be read for this one, which has its own beside it.
    const sides = [within(run, its.right + 1, run.right), within(run, run.left, its.left - 1)];
    const apart = sides.find((side) => wholeIn(side, table));
    if (apart) return apart;
  }
  return undefined;
}

/** A table that needs fewer columns is found in any other. */
const FEWEST = 3;

function within(run: HeaderRun, left: number, right: number): HeaderRun {
  const names = new Map([...run.names].filter(([column]) => column >= left && column <= right));
  return { ...run, left, right, names };
}

/** Where headers of a run name all that a table needs, one at most by a bare word: as close together as they do. */
function wholeIn({ names }: HeaderRun, table: WantedTable): Pick<HeaderRun, 'left' | 'right'> | undefined {
  const needed = table.columns.filter(({ isNeeded }) => isNeeded);
  if (names.size < needed.length || needed.length < FEWEST) return undefined;
  const pairs = namedPairs(names, table);
  const spans = pairs
    .filter(({ wanted }) => wanted === needed[0])
    .flatMap((key) => {
      const taken = [key];
      for (const { name } of needed.slice(1)) {
        const distance = (column: number): number => Math.abs(column - key.column);
        const [best] = pairs
          .filter(({ wanted, column }) => wanted.name === name && !taken.some((one) => one.column === column))
          .sort((a, b) => b.points - a.points || distance(a.column) - distance(b.column));
        if (best) taken.push(best);
      }
      const isWhole =
        taken.length === needed.length && taken.filter(({ points }) => points <= NAMED.bare).length <= 1;
      const columns = taken.map(({ column }) => column);
      return isWhole ? [{ left: Math.min(...columns), right: Math.max(...columns) }] : [];
    });
  return spans.sort((a, b) => a.right - a.left - (b.right - b.left))[0];
}
