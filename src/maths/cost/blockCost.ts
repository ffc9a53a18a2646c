import { requireWhole } from '../shared/checks';
import { costRates, type CostItem } from './costItem';

/**
 * Cost of one block: what is spent per block, and its part of what is spent once for all of them.
 *
 * Amounts per mass and per shelf day are not part of it: they come with picking and with time on the shelf.
 *
 * @param costs the cost table
 * @param blocks blocks that the amounts per batch are for, a whole number from 1
 * @returns cost in the currency of the amounts
 * @throws invalid where an input is out of range
 */
export function blockCost(costs: readonly CostItem[], blocks: number): number {
  requireWhole('blocks', blocks, 1);
  const { perBlock, perBatch } = costRates(costs);
  return perBlock + perBatch / blocks;
}
