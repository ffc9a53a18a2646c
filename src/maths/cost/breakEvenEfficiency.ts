import { requireAtLeast, requireFractionBelowOne, requireNumber, requirePositive } from '../shared/checks';
import { blockCost } from './blockCost';
import { costRates, type CostItem } from './costItem';

/** A block, what its mushrooms sell for, and the shelf time it takes. */
export interface SoldBlock {
  /** Wet mass. */
  readonly blockMass: number;
  readonly moisture: number;
  /** Price per unit of fresh mass. */
  readonly price: number;
  /** Shelves times days that one block takes: days over blocks per shelf. 0 where shelf time is not charged. */
  readonly shelfDays: number;
}

/**
 * Biological efficiency at which a block pays for itself: cost of the block, shelf time included, over what its dry mass
 * would bring at an efficiency of 1.
 *
 * (block cost + shelf days × cost per shelf day) / ((price − cost per mass) × block mass × (1 − moisture)). Blocks that
 * are lost bear nothing: divide by the share that survives.
 *
 * @param costs the cost table
 * @param blocks blocks that the amounts per batch are for, a whole number from 1
 * @returns fresh over dry mass, a fraction
 * @throws invalid where an input is out of range, or the price does not exceed what each unit of mass costs
 */
export function breakEvenEfficiency(costs: readonly CostItem[], blocks: number, block: SoldBlock): number {
  const fixed = blockCost(costs, blocks);
  const { perMass, perShelfDay } = costRates(costs);
  requirePositive('block mass', block.blockMass);
  requireFractionBelowOne('moisture', block.moisture);
  requirePositive('price', block.price);
  requireAtLeast('days', block.shelfDays, 0);
  requireNumber('price', block.price, { above: perMass }, 'the cost of each unit of mass');
  const earned = block.price - perMass;
  return (fixed + block.shelfDays * perShelfDay) / (earned * block.blockMass * (1 - block.moisture));
}
