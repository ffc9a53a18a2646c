import { requireAtLeast, requireFractionBelowOne, requirePositive } from '../shared/checks';

/**
 * Biological efficiency: mass of fresh mushrooms over the dry mass of the substrate that bore them.
 *
 * efficiency = fresh / (blocks × block mass × (1 − moisture)). The dry mass is that of the substrate as filled,
 * before cropping; whether the spawn counts in the block mass is the grower's choice and must stay the same
 * between lots that are compared. It may pass 1: fresh mushrooms are mostly water.
 *
 * @param fresh mass of fresh mushrooms over all flushes counted, above 0, in the unit of `blockMass`
 * @param blockMass wet mass of one block, above 0
 * @param moisture water share of the block's wet mass, 0 up to less than 1
 * @param blocks number of blocks that `fresh` came from, above 0
 * @returns fresh mass per dry mass, a fraction (1 = 100%)
 * @throws invalid where an input is outside its range
 * @source Royse, D. J. (1985) Effect of spawn run time and substrate nutrition on yield and size of the shiitake
 * mushroom. Mycologia 77(5):756–762: efficiency as fresh over dry mass
 */
export function biologicalEfficiency(
  fresh: number,
  blockMass: number,
  moisture: number,
  blocks: number,
): number {
  requireAtLeast('fresh', fresh, 0);
  requirePositive('block mass', blockMass);
  requireFractionBelowOne('moisture', moisture);
  requirePositive('blocks', blocks);
  return fresh / (blocks * blockMass * (1 - moisture));
}
