import type { ColumnMatch } from './candidate';
import { inOrder } from './columnChoices';
import type { WantedTable } from './jobs';

/** Where strains have one wait and no more, blocks may be opened from then on, and are at their best. */
export function withOneWait(matches: ColumnMatch[], table: WantedTable): ColumnMatch[] {
  const of = (name: string): ColumnMatch | undefined => matches.find(({ wanted }) => wanted === name);
  const [earliest, best] = [of('earliest'), of('best')];
  const only = earliest ?? best;
  const [other] = ['earliest', 'best'].filter((name) => name !== only?.wanted);
  if (table.name !== 'strains' || !only || (earliest && best)) return matches;
  const isWanted = table.columns.some(({ name }) => name === other);
  if (!isWanted) return matches;
  return inOrder(table, [...matches, { ...only, wanted: other!, by: 'its only wait' }]);
}
