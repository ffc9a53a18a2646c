import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import type { Looks } from './looks';

/** Words of a header that may be another wait, in terms that nothing else reads. */
const WAITS = /\b(?:open(?:s|ed|ing)?|ready|ripe|early|earliest|soonest|minimum|min|from|before)\b/i;

/** Whether all of a column's figures are ranges. */
const areRanges = (column: number, looks: ReadonlyMap<number, Looks>): boolean => {
  const own = looks.get(column)!;
  return own.has('text that is a range') && !own.has('number') && !own.has('text number');
};

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
  const [earliest, best, latest] = [of('earliest'), of('best'), of('latest')];
  // `80-105` under `Ready - too old`: from the first day to the last one.
  if (table.name === 'strains' && !earliest && !best && latest && areRanges(latest.column, looks)) {
    const wanted = table.columns.filter(({ name }) => name === 'earliest' || name === 'best');
    const both = wanted.map(({ name }): ColumnMatch => ({ ...latest, wanted: name, by: 'its data' }));
    return inOrder(table, [...matches, ...both]);
  }
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
