import { requireAtLeast } from '../shared/checks';
import type { Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

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
