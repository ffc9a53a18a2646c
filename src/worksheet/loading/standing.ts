import { asKnown } from '../../maths/loading/asKnown';
import type { StandingLoad } from '../../maths/loading/loadingProblem';
import { requireNumber } from '../../maths/shared/checks';
import { dateOf, invalid } from '../../maths/shared/fault';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import type { standingColumns } from './farmTables';
import { curveOf, spreadOf, yieldOf, type Rooms, type Strains } from './problem';

type StandingRow = RowOf<typeof standingColumns>;

/**
 * The loads on the shelves.
 *
 * @param start day of the plan: what a load has given before it says what is still to come
 */
export function standingOf(
  standing: Table<StandingRow> | undefined,
  rooms: Rooms,
  strains: Strains,
  start?: number,
): StandingLoad[] {
  return (standing?.rows ?? []).map((row) => {
    if (!rooms.has(row.room)) throw rooms.lacks(row.room, 'standing, room', row.at);
    requirePossible(row);
    const strain = strains.find(row.strain, 'standing, strain', row.at);
    const load = {
      room: row.room,
      strain: strain.strain,
      product: row.product ?? strain.product ?? strain.strain,
      loaded: row.loaded,
      blocks: row.blocks,
      yieldPerBlock: yieldOf(row, strain),
      curve: curveOf(row.strain, strains, 'standing, strain', row.at),
      spread: spreadOf(strain),
    };
    return start === undefined ? load : asKnown(load, Math.floor(start), row['first picked'], row.picked);
  });
}

/** Refuses a first pick that is not after the load, and more picked than the blocks weighed. */
function requirePossible(row: StandingRow): void {
  const { loaded, blocks, 'block mass': blockMass, 'first picked': firstPicked, picked } = row;
  if (firstPicked !== undefined && !(Math.floor(firstPicked) > Math.floor(loaded))) {
    const details = { other: 'loaded', date: dateOf(loaded), given: dateOf(firstPicked) };
    throw invalid('standing, first picked', 'after', details, row);
  }
  if (picked !== undefined) {
    requireNumber('standing, picked', picked, { to: blocks * blockMass }, 'the mass of its blocks', row);
  }
}
