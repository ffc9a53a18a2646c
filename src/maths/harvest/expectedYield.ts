import { requireAtLeast, requireFraction, requireFractionBelowOne, requirePositive } from '../shared/checks';

/** The blocks of one lot and what is expected of them. */
export interface ExpectedCrop {
  /** Wet mass of one block, above 0. */
  readonly blockMass: number;
  /** Water share of the wet block, 0 up to less than 1. */
  readonly moisture: number;
  /** Biological efficiency over all flushes, above 0. */
  readonly efficiency: number;
  /** Share of the blocks lost before picking, 0 up to less than 1. */
  readonly loss: number;
  /** Share of the whole yield that is counted (a flush, or the first two), above 0 to 1. */
  readonly share: number;
}

/**
 * Fresh mass to expect from one block loaded: block mass × (1 − moisture) × efficiency × (1 − loss) × share. The
 * definition of efficiency turned round, and taken in proportion for the blocks lost and the flushes counted.
 *
 * @returns fresh mass in the unit of `blockMass`
 * @throws invalid where an input is outside its range
 */
export function expectedYieldPerBlock({
  blockMass,
  moisture,
  efficiency,
  loss,
  share,
}: ExpectedCrop): number {
  requirePositive('block mass', blockMass);
  requireFractionBelowOne('moisture', moisture);
  requirePositive('efficiency', efficiency);
  requireFractionBelowOne('loss', loss);
  requireFraction('share', share);
  return blockMass * (1 - moisture) * efficiency * (1 - loss) * share;
}

/**
 * Fresh mass to expect from a number of blocks.
 *
 * @param blocks blocks loaded, 0 or more
 * @returns fresh mass in the unit of the block mass
 * @throws invalid where an input is outside its range
 */
export function expectedYield(blocks: number, crop: ExpectedCrop): number {
  return requireAtLeast('blocks', blocks, 0) * expectedYieldPerBlock(crop);
}
