import { asKnown } from '../../maths/loading/asKnown';
import type { StandingLoad } from '../../maths/loading/loadingProblem';
import { requireNumber } from '../../maths/shared/checks';
import { dateOf, invalid, missing } from '../../maths/shared/fault';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import type { lotColumns, standingColumns } from './farmTables';
import { curveOf, spreadOf, yieldOf, type Rooms, type Strains } from './problem';

type StandingRow = RowOf<typeof standingColumns>;
type LotRow = RowOf<typeof lotColumns>;

/**
 * The loads on the shelves. A load that names its lot is of that lot's strain and make, where its row does not say.
 *
 * @param start day of the plan: what a load has given before it says what is still to come
 */
export function standingOf(
  standing: Table<StandingRow> | undefined,
  lots: Table<LotRow>,
  rooms: Rooms,
  strains: Strains,
  start?: number,
): StandingLoad[] {
  return (standing?.rows ?? []).map((row) => {
    if (!rooms.has(row.room)) throw rooms.lacks(row.room, 'standing, room', row.at);
    const ofLot = <T>(
      header: 'strain' | 'block mass' | 'moisture',
      own: T | undefined,
      of: (lot: LotRow) => T,
    ): T => {
      if (own !== undefined) return own;
      if (row.lot === undefined) throw missing(`standing, ${header}`, 'noLotOfLoad', { header }, row);
      return of(lots.find(row.lot, 'standing, lot', row.at));
    };
    const label = ofLot('strain', row.strain, (lot) => lot.strain);
    const make = {
      'block mass': ofLot('block mass', row['block mass'], (lot) => lot['block mass']),
      moisture: ofLot('moisture', row.moisture, (lot) => lot.moisture),
    };
    requirePossible(row, make['block mass']);
    const strain = strains.find(label, 'standing, strain', row.at);
    const product =
      row.product ??
      (row.lot !== undefined && lots.has(row.lot) ? lots.find(row.lot, 'lots').product : undefined);
    const load = {
      lot: row.lot,
      room: row.room,
      strain: strain.strain,
      product: product ?? strain.product ?? strain.strain,
      loaded: row.loaded,
      blocks: row.blocks,
      yieldPerBlock: yieldOf(make, strain),
      curve: curveOf(label, strains, 'standing, strain', row.at),
      spread: spreadOf(strain),
    };
    return start === undefined ? load : asKnown(load, Math.floor(start), row['first picked'], row.picked);
  });
}

/** Refuses a first pick that is not after the load, and more picked than the blocks weighed. */
function requirePossible(row: StandingRow, blockMass: number): void {
  const { loaded, blocks, 'first picked': firstPicked, picked } = row;
  if (firstPicked !== undefined && !(Math.floor(firstPicked) > Math.floor(loaded))) {
    const details = { other: 'loaded', date: dateOf(loaded), given: dateOf(firstPicked) };
    throw invalid('standing, first picked', 'after', details, row);
  }
  if (picked !== undefined) {
    requireNumber('standing, picked', picked, { to: blocks * blockMass }, 'the mass of its blocks', row);
  }
}
