import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { biologicalEfficiency } from '../../../src/maths/harvest/biologicalEfficiency';
import { expectFault, type Refusal } from '../expectFault';

describe('biologicalEfficiency(fresh, blockMass, moisture, blocks) gives fresh mass over dry mass', () => {
  // Published fresh masses and efficiencies; the dry masses are the ones the papers' own two figures imply, which is
  // why a second row of the same paper is the check. Tolerance: half a unit of the last printed digit.
  test.each([
    // PMC11657188 (2024), Pleurotus ostreatus, 5% beeswax waste: 1478.96 g a bag, 92.43%; control 1420.15 g, 88.76%
    { fresh: 1478.96, dry: 1600, percent: 92.43, digits: 2 },
    { fresh: 1420.15, dry: 1600, percent: 88.76, digits: 2 },
    // Wu, Liang, Liang (2020) Agronomy, Auricularia polytricha, two flushes: 235.4 g, 58.85%
    { fresh: 235.4, dry: 400, percent: 58.85, digits: 2 },
    // PMC5866258 (2018), Grifola frondosa, first flush: 134.72 g, 44.91%
    { fresh: 134.72, dry: 300, percent: 44.91, digits: 2 },
  ])('$fresh g from $dry g dry is $percent%', ({ fresh, dry, percent, digits }) => {
    const moisture = 0.6;
    expect(100 * biologicalEfficiency(fresh, dry / (1 - moisture), moisture, 1)).toBeCloseTo(percent, digits);
  });

  test('is the same in any unit of mass', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 100, noNaN: true }),
        fc.double({ min: 0.1, max: 10, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (fresh, blockMass, moisture) => {
          const kilograms = biologicalEfficiency(fresh, blockMass, moisture, 3);
          const pounds = biologicalEfficiency(fresh / 0.45359237, blockMass / 0.45359237, moisture, 3);
          expect(pounds / kilograms).toBeCloseTo(1, 12);
        },
      ),
    );
  });

  test.each<[number, number, number, number, Refusal]>([
    [-1, 4.5, 0.6, 1, ['fresh', 'outside', { from: 0, given: -1 }]],
    [1, 0, 0.6, 1, ['block mass', 'outside', { above: 0, given: 0 }]],
    [1, 4.5, 1, 1, ['moisture', 'outside', { from: 0, below: 1, given: 1 }]],
    [1, 4.5, NaN, 1, ['moisture', 'outside', { from: 0, below: 1, given: NaN }]],
    [1, 4.5, 0.6, 0, ['blocks', 'outside', { above: 0, given: 0 }]],
  ])('refuses (%p, %p, %p, %p)', (fresh, blockMass, moisture, blocks, refusal) => {
    expectFault(() => biologicalEfficiency(fresh, blockMass, moisture, blocks), refusal);
  });
});
