import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { yieldRange } from '../../../src/maths/harvest/yieldRange';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import { seeded } from '../../bench/measure';
import { normalDraw } from '../../normalDraw';
import { expectFault, type Refusal } from '../expectFault';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

describe('yieldRange(past, coverage) gives the prediction interval of the next lot', () => {
  // Hahn, G. J., Meeker, W. Q. (1991) Statistical Intervals, the five readings of their running example: mean 50.10,
  // prediction interval 46.1 to 54.1 at 95% (from memory, reproduced with R to the digits given)
  test('agrees with the published example', () => {
    const { low, mean, high, lots } = yieldRange([51.4, 49.5, 48.7, 49.3, 51.6], 0.95, distributions);
    expect([mean, lots]).toEqual([expect.closeTo(50.1, 12), 5]);
    expect(low).toBeCloseTo(46.1054, 4);
    expect(high).toBeCloseTo(54.0946, 4);
  });

  // By hand for two lots: t with one degree of freedom is tan(π·coverage/2); s = |a − b|/√2; √(1 + 1/2)
  test('of two lots agrees with the closed form', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.4, max: 1, noNaN: true }),
        fc.double({ min: 0.4, max: 1, noNaN: true }),
        (a, b) => {
          const half = Math.tan((Math.PI * 0.6) / 2) * (Math.abs(a - b) / Math.SQRT2) * Math.sqrt(1.5);
          const { low, high } = yieldRange([a, b], 0.6, distributions);
          expect(high).toBeCloseTo((a + b) / 2 + half, 7);
          expect(low).toBeCloseTo(Math.max(0, (a + b) / 2 - half), 7);
        },
      ),
    );
  });

  test('holds the next lot as often as it says', () => {
    // 80% of 2000 next lots fall inside, give or take four standard errors
    const random = seeded(20260301);
    const lot = (): number => 0.8 + 0.1 * normalDraw(random);
    let inside = 0;
    for (let i = 0; i < 2000; i++) {
      const { low, high } = yieldRange(Array.from({ length: 6 }, lot), 0.8, distributions);
      const next = lot();
      if (next >= low && next <= high) inside++;
    }
    expect(Math.abs(inside / 2000 - 0.8)).toBeLessThan(4 * Math.sqrt((0.8 * 0.2) / 2000));
  });

  test('wider coverage gives a range that holds the narrower one', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.1, max: 2, noNaN: true }), { minLength: 2, maxLength: 30 }),
        (past) => {
          const narrow = yieldRange(past, 0.8, distributions);
          const wide = yieldRange(past, 0.95, distributions);
          expect(wide.low <= narrow.low && narrow.high <= wide.high).toBe(true);
        },
      ),
    );
  });

  test.each<[number[], number, Refusal]>([
    [[], 0.9, ['past', 'tooFew', { least: 2, things: 'lots', found: 0 }]],
    [[0.8], 0.9, ['past', 'tooFew', { least: 2, things: 'lots', found: 1 }]],
    [[0.8, 0.9], 90, ['coverage', 'outside', { from: 0.5, to: 0.9999, given: 90 }]],
    [[0.8, 0.9], NaN, ['coverage', 'outside', { from: 0.5, to: 0.9999, given: NaN }]],
  ])('refuses (%p, %p)', (past, coverage, refusal) => {
    expectFault(() => yieldRange(past, coverage, distributions), refusal);
  });
});
