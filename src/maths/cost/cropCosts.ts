import { invalid, zeroBase } from '../shared/calcError';
import { requireAtLeast, requirePositive, requireWhole } from '../shared/checks';
import { compensatedSum } from '../shared/numeric';
import { costRates, type CostItem } from './costItem';

/** What a lot gave and took. */
export interface CostedCrop {
  readonly blocks: number;
  /** Fresh mass picked, 0 or more. */
  readonly mass: number;
  /** Days its shelves were taken; undefined where not known. */
  readonly shelfDays: number | undefined;
}

/**
 * What each lot cost: blocks × cost per block + its part, by blocks, of what is spent per batch + fresh mass × cost per
 * mass + shelves × days × cost per shelf day.
 *
 * @param crops the lots that the amounts per batch were spent for, one or more
 * @param blocksPerShelf needed only where something is spent per shelf day
 * @returns one cost per lot, in the currency of the amounts
 * @throws invalid where an input is out of range, or shelf days or blocks per shelf are needed and not known
 */
export function cropCosts(
  costs: readonly CostItem[],
  crops: readonly CostedCrop[],
  blocksPerShelf: number | undefined,
): number[] {
  const { perBlock, perBatch, perMass, perShelfDay } = costRates(costs);
  if (blocksPerShelf !== undefined) requirePositive('blocks per shelf', blocksPerShelf);
  crops.forEach(({ blocks, mass, shelfDays }, i) => {
    requireWhole('crops, blocks', blocks, 1, i);
    requireAtLeast('crops, total', mass, 0, i);
    if (shelfDays !== undefined) requirePositive('crops, days', shelfDays, i);
  });
  const allBlocks = compensatedSum(crops.map(({ blocks }) => blocks));
  return crops.map(({ blocks, mass, shelfDays }, i) => {
    const cost = blocks * perBlock + (blocks / allBlocks) * perBatch + mass * perMass;
    if (perShelfDay === 0) return cost;
    if (blocksPerShelf === undefined) {
      throw invalid('blocks per shelf', 'a number for the costs per shelf day', undefined);
    }
    if (shelfDays === undefined)
      throw invalid('crops, days', 'days for the costs per shelf day', undefined, i);
    return cost + (blocks / blocksPerShelf) * shelfDays * perShelfDay;
  });
}

/** Cost over fresh mass. @throws zeroBase where nothing was picked */
export function costPerMass(cost: number, mass: number): number {
  if (!(mass > 0)) throw zeroBase('crops, total', 'no fresh mass to share the cost');
  return cost / mass;
}
