import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { expectedYield } from '../../../src/maths/harvest/expectedYield';
import { blocksFor } from '../../../src/maths/loading/blocksFor';
import { expectFault, type Refusal } from '../expectFault';

const crop = { blockMass: 2.5, moisture: 0.6, efficiency: 0.8, loss: 0, share: 1 };

describe('blocksFor(wanted, crop) gives the fewest blocks whose expected yield reaches the mass', () => {
  test.each([
    // By hand: 2.5 × 0.4 × 0.8 = 0.8 a block.
    { wanted: 40, blocks: 50 },
    { wanted: 40.1, blocks: 51 },
    { wanted: 0, blocks: 0 },
  ])('$wanted from 0.8 a block is $blocks blocks', ({ wanted, blocks }) => {
    expect(blocksFor(wanted, crop)).toBe(blocks);
  });

  // El Sebaaly et al. (2024) PLoS ONE e0309787: shiitake at 74.1%, so 741 g from 1000 g of dry substrate.
  test('takes ten blocks for ten times the published yield of one, eleven for a gram more', () => {
    const published = { blockMass: 2.5, moisture: 0.6, efficiency: 0.741, loss: 0, share: 1 };
    expect([7.41, 7.411].map((mass) => blocksFor(mass, published))).toEqual([10, 11]);
  });

  test('never asks for one block too many because of floating point', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 100_000 }),
        fc.integer({ min: 1, max: 99 }),
        fc.integer({ min: 1, max: 300 }),
        (blocks, moisture, efficiency) => {
          const given = { ...crop, moisture: moisture / 100, efficiency: efficiency / 100 };
          expect(blocksFor(expectedYield(blocks, given), given)).toBe(blocks);
        },
      ),
    );
  });

  test('reaches the mass, and with one block fewer does not', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e6, noNaN: true }), (wanted) => {
        const blocks = blocksFor(wanted, crop);
        expect(expectedYield(blocks, crop)).toBeGreaterThanOrEqual(wanted * (1 - 2e-9) - 1e-9);
        expect(expectedYield(blocks - 1 < 0 ? 0 : blocks - 1, crop)).toBeLessThan(wanted);
      }),
    );
  });

  test.each<[number, typeof crop, Refusal]>([
    [-1, crop, ['mass', 'outside', { from: 0, given: -1 }]],
    [1, { ...crop, share: 0 }, ['share', 'outside', { above: 0, to: 1, given: 0 }]],
    [1, { ...crop, moisture: 62 }, ['moisture', 'outside', { from: 0, below: 1, given: 62 }]],
  ])('refuses %p of %p', (wanted, given, refusal) => {
    expectFault(() => blocksFor(wanted, given), refusal);
  });
});
