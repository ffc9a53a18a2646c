import { requireAtLeast } from '../shared/checks';
import { invalid, type Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A figure that is left out, and what it is needed for. */
    neededFor: { readonly purpose: string };
    /** A row that sums the others by its name: its amount would count twice. */
    sumOfRows: { readonly label: string };
  }
}

/** What an amount is spent for: each block, all blocks together, each unit of fresh mass, or each shelf and day. */
export type CostBasis = 'block' | 'batch' | 'mass' | 'shelf day';

export interface CostItem extends Placed {
  readonly amount: number;
  readonly per: CostBasis;
}

/** What a cost table comes to on each basis. */
export interface CostRates {
  readonly perBlock: number;
  readonly perBatch: number;
  readonly perMass: number;
  readonly perShelfDay: number;
}

/** Sums a cost table by basis. @throws invalid where an amount is below 0 */
export function costRates(costs: readonly CostItem[]): CostRates {
  for (const item of costs) requireAtLeast('costs, amount', item.amount, 0, item);
  const sum = (basis: CostBasis): number =>
    compensatedSum(costs.filter(({ per }) => per === basis).map(({ amount }) => amount));
  return {
    perBlock: sum('block'),
    perBatch: sum('batch'),
    perMass: sum('mass'),
    perShelfDay: sum('shelf day'),
  };
}

/** What a fault of a figure says that only costs per shelf day ask for. */
export const FOR_SHELF_DAYS = { purpose: 'the costs per shelf day' };

/**
 * Shelves times days that one block takes: days over blocks per shelf; 0 where one of them is not known.
 *
 * @throws invalid where one is not known and something is spent per shelf day
 */
export function shelfDaysOf(
  costs: readonly CostItem[],
  blocksPerShelf: number | undefined,
  days: number | undefined,
): number {
  if (costs.some(({ per }) => per === 'shelf day')) {
    if (blocksPerShelf === undefined) throw invalid('blocks per shelf', 'neededFor', FOR_SHELF_DAYS);
    if (days === undefined) throw invalid('days', 'neededFor', FOR_SHELF_DAYS);
  }
  return blocksPerShelf === undefined || days === undefined ? 0 : days / blocksPerShelf;
}
