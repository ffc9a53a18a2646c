import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import type { Looks } from './looks';

/** Words of a header that may be another wait, in terms that nothing else reads. */
const WAITS = /\b(?:open(?:s|ed|ing)?|ready|ripe|earliest|soonest|minimum|min|from|before)\b/i;

/**
 * Where strains have one wait and no more, blocks may be opened from then on, and are at their best. Figures under a header
 * that may be another wait are asked about.
 */
export function withOneWait(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  looks: ReadonlyMap<number, Looks>,
): ColumnMatch[] {
  const of = (name: string): ColumnMatch | undefined => matches.find(({ wanted }) => wanted === name);
  const [earliest, best] = [of('earliest'), of('best')];
  const only = earliest ?? best;
  const [other] = ['earliest', 'best'].filter((name) => name !== only?.wanted);
  if (table.name !== 'strains' || !only || (earliest && best)) return matches;
  const isWanted = table.columns.some(({ name }) => name === other);
  const isMoreThanOne = [...headers].some(
    ([column, header]) =>
      WAITS.test(header) && looks.get(column)!.has('number') && !matches.some((one) => one.column === column),
  );
  if (!isWanted || isMoreThanOne) return matches;
  return inOrder(table, [...matches, { ...only, wanted: other!, by: 'its only wait' }]);
}
