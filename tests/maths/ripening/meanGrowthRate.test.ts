import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { growthRate } from '../../../src/maths/ripening/growthRate';
import { meanGrowthRate } from '../../../src/maths/ripening/meanGrowthRate';

const cardinals = { min: 5, best: 25, max: 33 };

/**
 * The integral in closed form, for 5, 25 and 33: the rate is (T − 33)(T − 5)² / (80 (T − 65)). Dividing out,
 * (T − 33)(T − 5)² = (T − 65)(T² + 22T + 1785) + 115200, so ∫ = (T³/3 + 11T² + 1785T + 115200 ln(65 − T)) / 80.
 */
function integral(from: number, to: number): number {
  const at = (t: number): number => (t ** 3 / 3 + 11 * t ** 2 + 1785 * t + 115200 * Math.log(65 - t)) / 80;
  return at(to) - at(from);
}

describe('meanGrowthRate(from, to, cardinals) is the mean along a straight line of temperature', () => {
  test.each([
    [5, 33, 11],
    [15, 25, 11],
    [20, 20.5, 10],
    [31, 24, 11],
  ])('from %p to %p agrees with the integral in closed form', (from, to, digits) => {
    expect(meanGrowthRate(from, to, cardinals)).toBeCloseTo(integral(from, to) / (to - from), digits);
  });

  test('counts nothing beyond min and max', () => {
    expect(meanGrowthRate(-15, 33 + 20, cardinals)).toBeCloseTo(integral(5, 33) / 68, 11);
    expect(meanGrowthRate(-15, 5, cardinals)).toBe(0);
    expect(meanGrowthRate(40, 33, cardinals)).toBe(0);
  });

  const temperature = fc.double({ min: -10, max: 45, noNaN: true });

  test('is the same back as forth, and the rate itself where nothing moves', () => {
    fc.assert(
      fc.property(temperature, temperature, (from, to) => {
        expect(meanGrowthRate(from, to, cardinals)).toBeCloseTo(meanGrowthRate(to, from, cardinals), 14);
        expect(meanGrowthRate(from, from, cardinals)).toBe(growthRate(from, cardinals));
      }),
    );
  });

  test('does not change when the line is cut in two anywhere', () => {
    fc.assert(
      fc.property(
        temperature,
        temperature,
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.integer({ min: 51, max: 98 }),
        (from, to, share, percent) => {
          const some = { min: 5, max: 33, best: 5 + (28 * percent) / 100 };
          const cut = from + share * (to - from);
          const parts = share * meanGrowthRate(from, cut, some) + (1 - share) * meanGrowthRate(cut, to, some);
          expect(parts).toBeCloseTo(meanGrowthRate(from, to, some), 10);
        },
      ),
    );
  });
});
