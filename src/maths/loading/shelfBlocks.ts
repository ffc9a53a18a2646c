import { requireAtLeast, requirePositive } from '../shared/checks';
import { wholeUnitsIn } from '../shared/rounding';

/** Lengths in one unit, all above 0; the gap may be 0. */
export interface ShelfLayout {
  readonly shelfLength: number;
  readonly shelfDepth: number;
  readonly blockLength: number;
  readonly blockWidth: number;
  /** Air left between neighbouring blocks; none is kept to the shelf's edges. */
  readonly gap: number;
}

/** Blocks a shelf holds with their length along the shelf's length, and turned across it. */
export interface ShelfBlocks {
  readonly along: number;
  readonly across: number;
}

/**
 * Blocks that fit on one shelf, all turned the same way. In each direction it is the largest whole number n with
 * n × block + (n − 1) × gap ≤ shelf; the two directions are multiplied.
 *
 * @throws invalid where a length is not above 0, or the gap is below 0
 */
export function shelfBlocks(layout: ShelfLayout): ShelfBlocks {
  const { shelfLength, shelfDepth, blockLength, blockWidth, gap } = layout;
  requirePositive('shelf length', shelfLength);
  requirePositive('shelf depth', shelfDepth);
  requirePositive('block length', blockLength);
  requirePositive('block width', blockWidth);
  requireAtLeast('gap', gap, 0);
  const inLine = (shelf: number, block: number): number => wholeUnitsIn((shelf + gap) / (block + gap));
  return {
    along: inLine(shelfLength, blockLength) * inLine(shelfDepth, blockWidth),
    across: inLine(shelfLength, blockWidth) * inLine(shelfDepth, blockLength),
  };
}
