import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shelfBlocks, type ShelfLayout } from '../../../src/maths/loading/shelfBlocks';
import { expectFault, type Refusal } from '../expectFault';

/** Blocks set down one after another until the next would stand out. */
function setDown(shelf: number, block: number, gap: number): number {
  let blocks = 0;
  for (let end = block; end <= shelf; end += gap + block) blocks++;
  return blocks;
}

const tenths = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min, max }).map((n) => n / 10);
const layouts: fc.Arbitrary<ShelfLayout> = fc.record({
  shelfLength: tenths(1, 3000),
  shelfDepth: tenths(1, 900),
  blockLength: tenths(50, 400),
  blockWidth: tenths(50, 300),
  gap: tenths(0, 100),
});

describe('shelfBlocks(layout) gives the blocks along and across a shelf', () => {
  // Counted by hand: 3 blocks of 30 with 2 gaps of 5 are 100 of 120; a fourth would end at 135.
  test.each([
    [120, 60, 30, 20, 5, 6, 5],
    [100, 35, 30, 20, 2, 3, 4],
    [29, 60, 30, 20, 5, 0, 1],
    [30, 20, 30, 20, 5, 1, 0],
  ])('shelf %d × %d, block %d × %d, gap %d: %d along, %d across', (l, d, bl, bw, gap, along, across) => {
    const layout = { shelfLength: l, shelfDepth: d, blockLength: bl, blockWidth: bw, gap };
    expect(shelfBlocks(layout)).toEqual({ along, across });
  });

  test('never loses a block to floating point: twelve blocks of 0.1 fill 1.2', () => {
    for (let n = 1; n <= 100; n++) {
      const layout = { shelfLength: n * 0.1, shelfDepth: 0.3, blockLength: 0.1, blockWidth: 0.3, gap: 0 };
      expect(shelfBlocks(layout).along).toBe(n);
    }
  });

  test('agrees with setting blocks down one by one, in whole tenths', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const whole = Object.fromEntries(
          Object.entries(layout).map(([name, size]) => [name, Math.round(size * 10)]),
        ) as unknown as ShelfLayout;
        const { shelfLength, shelfDepth, blockLength, blockWidth, gap } = whole;
        expect(shelfBlocks(layout)).toEqual({
          along: setDown(shelfLength, blockLength, gap) * setDown(shelfDepth, blockWidth, gap),
          across: setDown(shelfLength, blockWidth, gap) * setDown(shelfDepth, blockLength, gap),
        });
      }),
    );
  });

  test('turning the block swaps the two counts', () => {
    fc.assert(
      fc.property(layouts, (layout) => {
        const { along, across } = shelfBlocks(layout);
        const turned = { ...layout, blockLength: layout.blockWidth, blockWidth: layout.blockLength };
        expect(shelfBlocks(turned)).toEqual({ along: across, across: along });
      }),
    );
  });

  test.each<[Partial<ShelfLayout>, Refusal]>([
    [{ shelfLength: 0 }, ['shelf length', 'outside', { above: 0, given: 0 }]],
    [{ shelfDepth: -1 }, ['shelf depth', 'outside', { above: 0, given: -1 }]],
    [{ blockLength: 0 }, ['block length', 'outside', { above: 0, given: 0 }]],
    [{ blockWidth: NaN }, ['block width', 'outside', { above: 0, given: NaN }]],
    [{ gap: -1 }, ['gap', 'outside', { from: 0, given: -1 }]],
  ])('refuses %p', (wrong, refusal) => {
    const layout = { shelfLength: 120, shelfDepth: 60, blockLength: 30, blockWidth: 20, gap: 5, ...wrong };
    expectFault(() => shelfBlocks(layout), refusal);
  });
});
