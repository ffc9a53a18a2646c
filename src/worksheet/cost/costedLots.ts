import { cropCosts, type CostedCrop } from '../../maths/cost/cropCosts';
import type { CostItem } from '../../maths/cost/costItem';
import { invalid, missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import type { costColumns, costedCropColumns } from './tables';

/** `Total cost`, `Sum of costs`: a sum of the rows above it by the look of its name. */
const SUM_OF_ROWS =
  /^((grand|sub) ?)?(totals?|sum)( of)?( all)?( the)? (costs?|amounts?|expenses|spent)( per .+)?:?$/;

/** The items of a cost table, one or more; none is a sum of the others. */
export function itemsOf(costs: Table<RowOf<typeof costColumns>>): readonly CostItem[] {
  const items = costs.onceEach('item');
  for (const { at, item } of items) {
    if (SUM_OF_ROWS.test(labelKey(item))) throw invalid('costs, item', 'sumOfRows', { label: item }, { at });
  }
  if (items.length > 0) return items;
  throw missing('costs', 'tooFew', { least: 1, things: 'item', found: 0 });
}

/** A lot that was picked: its names, what it gave and took, and what it cost. */
export interface CostedLot extends CostedCrop {
  readonly lot: string;
  readonly strain: string | undefined;
  readonly cost: number;
}

/** The lots that were picked or failed, one or more and each once, with their costs; and how many have no total yet. */
export function costedLots(
  costs: Table<RowOf<typeof costColumns>>,
  crops: Table<RowOf<typeof costedCropColumns>>,
  blocksPerShelf: number | undefined,
): { readonly lots: readonly CostedLot[]; readonly unpicked: number } {
  for (const { at, lot } of crops.rows) crops.find(lot, 'crops, lot', at);
  const picked = crops.rows.flatMap(({ at, lot, strain, blocks, total, ...row }) =>
    total === undefined
      ? []
      : [{ at, lot, strain, blocks, mass: total, shelfDays: row['shelf days'] ?? row.days }],
  );
  if (picked.length === 0) {
    throw missing('crops', 'tooFew', { least: 1, things: 'lot with a total', found: 0 });
  }
  const spent = cropCosts(itemsOf(costs), picked, blocksPerShelf);
  return {
    lots: picked.map((lot, i) => ({ ...lot, cost: spent[i]! })),
    unpicked: crops.rows.length - picked.length,
  };
}

/** The line that tells how many lots are left out; none where none is. */
export const unpickedLines = (unpicked: number): string[] =>
  unpicked === 0 ? [] : [`${unpicked} ${unpicked === 1 ? 'lot' : 'lots'} without a total left out`];
