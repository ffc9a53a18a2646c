import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { biologicalEfficiency } from '../../../src/maths/harvest/biologicalEfficiency';
import { expectedYield, type ExpectedCrop } from '../../../src/maths/harvest/expectedYield';
import { expectFault, type Refusal } from '../expectFault';

const positive = fc.double({ min: 0.01, max: 100, noNaN: true });
const share = fc.double({ min: 0, max: 0.95, noNaN: true });

describe('expectedYield(blocks, crop) gives the fresh mass to expect', () => {
  test.each([
    // Published fresh mass and efficiency of one bag; dry mass as implied by the paper's two figures (see
    // biologicalEfficiency). PMC11657188 (2024), Pleurotus ostreatus: 92.43% of 1600 g dry, printed 1478.96 g;
    // the efficiency is printed to 0.01%, so the mass can be off by half of that: 0.08 g.
    { dry: 1600, efficiency: 0.9243, fresh: 1478.96, within: 0.08 },
    { dry: 1600, efficiency: 0.8876, fresh: 1420.15, within: 0.08 },
    // Wu, Liang, Liang (2020) Agronomy, Auricularia polytricha: 58.85% of 400 g, printed 235.4 g
    { dry: 400, efficiency: 0.5885, fresh: 235.4, within: 0.05 },
  ])('$efficiency of $dry g dry is $fresh g', ({ dry, efficiency, fresh, within }) => {
    const crop = { blockMass: dry / 0.4, moisture: 0.6, efficiency, loss: 0, share: 1 };
    expect(Math.abs(expectedYield(1, crop) - fresh)).toBeLessThanOrEqual(within);
  });

  test('gives back its efficiency when nothing is lost and all is counted', () => {
    fc.assert(
      fc.property(
        positive,
        share,
        positive,
        fc.integer({ min: 1, max: 5000 }),
        (blockMass, moisture, be, blocks) => {
          const fresh = expectedYield(blocks, { blockMass, moisture, efficiency: be, loss: 0, share: 1 });
          expect(biologicalEfficiency(fresh, blockMass, moisture, blocks) / be).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  test('adds up over blocks and over shares of the yield', () => {
    fc.assert(
      fc.property(positive, share, share, share, (blockMass, moisture, loss, first) => {
        const crop = (part: number) => ({ blockMass, moisture, efficiency: 0.8, loss, share: part });
        const whole = expectedYield(70, crop(1));
        expect((expectedYield(30, crop(1)) + expectedYield(40, crop(1))) / whole).toBeCloseTo(1, 12);
        expect((expectedYield(70, crop(first)) + expectedYield(70, crop(1 - first))) / whole).toBeCloseTo(
          1,
          12,
        );
      }),
    );
  });

  const crop = { blockMass: 2.5, moisture: 0.6, efficiency: 0.8, loss: 0.1, share: 0.7 };
  test.each<[number, ExpectedCrop, Refusal]>([
    [-1, crop, ['blocks', 'outside', { from: 0, given: -1 }]],
    [10, { ...crop, blockMass: 0 }, ['block mass', 'outside', { above: 0, given: 0 }]],
    [10, { ...crop, moisture: 1 }, ['moisture', 'outside', { from: 0, below: 1, given: 1 }]],
    [10, { ...crop, efficiency: NaN }, ['efficiency', 'outside', { above: 0, given: NaN }]],
    [10, { ...crop, loss: 1 }, ['loss', 'outside', { from: 0, below: 1, given: 1 }]],
    [10, { ...crop, share: 1.1 }, ['share', 'outside', { from: 0, to: 1, given: 1.1 }]],
  ])('refuses %p blocks of %p', (blocks, given, refusal) => {
    expectFault(() => expectedYield(blocks, given), refusal);
  });
});
