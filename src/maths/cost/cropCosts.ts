import { requireAtLeast, requirePositive, requireWhole } from '../shared/checks';
import { invalid, zeroBase, type Placed, type Where } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { costRates, FOR_SHELF_DAYS, type CostItem } from './costItem';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A cost without any mass to share it. */
    noMass: object;
  }
}

/** What a lot gave and took. */
export interface CostedCrop extends Placed {
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
  for (const crop of crops) {
    requireWhole('crops, blocks', crop.blocks, 1, crop);
    requireAtLeast('crops, total', crop.mass, 0, crop);
    if (crop.shelfDays !== undefined) requirePositive('crops, days', crop.shelfDays, crop);
  }
  const allBlocks = compensatedSum(crops.map(({ blocks }) => blocks));
  return crops.map((crop) => {
    const { blocks, mass, shelfDays } = crop;
    const cost = blocks * perBlock + (blocks / allBlocks) * perBatch + mass * perMass;
    if (perShelfDay === 0) return cost;
    if (blocksPerShelf === undefined) throw invalid('blocks per shelf', 'neededFor', FOR_SHELF_DAYS);
    if (shelfDays === undefined) throw invalid('crops, days', 'neededFor', FOR_SHELF_DAYS, crop);
    return cost + (blocks / blocksPerShelf) * shelfDays * perShelfDay;
  });
}

/** Cost over fresh mass. @throws zeroBase where nothing was picked */
export function costPerMass(cost: number, mass: number, where?: Where): number {
  if (!(mass > 0)) throw zeroBase('crops, total', 'noMass', undefined, where);
  return cost / mass;
}
