import { expectedYieldPerBlock, type ExpectedCrop } from '../harvest/expectedYield';
import { requireAtLeast } from '../shared/checks';
import { invalid } from '../shared/fault';
import { wholeUnitsFor } from '../shared/rounding';

/**
 * The fewest whole blocks whose expected yield reaches a wanted mass. It is rounded up, but a quotient that floating
 * point puts just above a whole number does not cost a block.
 *
 * @param wanted fresh mass wanted, 0 or more, in the unit of the block mass
 * @returns number of blocks to load
 * @throws invalid where an input is outside its range, or the share of the yield counted is 0
 */
export function blocksFor(wanted: number, crop: ExpectedCrop): number {
  requireAtLeast('mass', wanted, 0);
  const perBlock = expectedYieldPerBlock(crop);
  if (!(perBlock > 0)) throw invalid('share', 'outside', { above: 0, to: 1, given: crop.share });
  return wholeUnitsFor(wanted / perBlock);
}
