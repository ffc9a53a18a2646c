import { cropCosts, type CostedCrop } from '../../maths/cost/cropCosts';
import type { CostItem } from '../../maths/cost/costItem';
import { missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import type { costColumns, costedCropColumns } from './tables';

/** The items of a cost table, one or more. */
export function itemsOf(costs: Table<RowOf<typeof costColumns>>): readonly CostItem[] {
  if (costs.rows.length > 0) return costs.rows;
  throw missing('costs', 'tooFew', { least: 1, things: 'item', found: 0 });
}

/** A lot that was picked: its names, what it gave and took, and what it cost. */
export interface CostedLot extends CostedCrop {
  readonly lot: string;
  readonly strain: string | undefined;
  readonly cost: number;
}

/** The lots that were picked, one or more, with their costs. */
export function costedLots(
  costs: Table<RowOf<typeof costColumns>>,
  crops: Table<RowOf<typeof costedCropColumns>>,
  blocksPerShelf: number | undefined,
): CostedLot[] {
  const twice = crops.rows.find(({ lot }, i) =>
    crops.rows.slice(0, i).some((other) => labelKey(other.lot) === labelKey(lot)),
  );
  if (twice) crops.find(twice.lot, 'crops, lot', twice.at);
  const picked = crops.rows.flatMap(({ at, lot, strain, blocks, total, ...row }) =>
    total === undefined
      ? []
      : [{ at, lot, strain, blocks, mass: total, shelfDays: row['shelf days'] ?? row.days }],
  );
  if (picked.length === 0) {
    throw missing('crops', 'tooFew', { least: 1, things: 'lot with a total', found: 0 });
  }
  const spent = cropCosts(itemsOf(costs), picked, blocksPerShelf);
  return picked.map((lot, i) => ({ ...lot, cost: spent[i]! }));
}
