import { requireAtLeast, requirePositive } from '../shared/checks';

/**
 * Fresh mass per shelf and day: what a shelf earns when shelves are the bottleneck.
 *
 * fresh / (blocks / blocks per shelf) / days. Shelves are counted as filled, parts of a shelf included; days are those
 * the shelf was taken, from loading until it was free again.
 *
 * @param fresh mass of fresh mushrooms, 0 or more
 * @param blocks blocks it came from, above 0
 * @param blocksPerShelf blocks that one shelf holds, above 0
 * @param days days the shelf was taken, above 0
 * @returns mass per shelf and day, in the unit of `fresh`
 * @throws invalid where an input is outside its range
 */
export function shelfDayYield(fresh: number, blocks: number, blocksPerShelf: number, days: number): number {
  requireAtLeast('fresh', fresh, 0);
  requirePositive('blocks', blocks);
  requirePositive('blocks per shelf', blocksPerShelf);
  requirePositive('days', days);
  return fresh / (blocks / blocksPerShelf) / days;
}
