import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { growthRate, type CardinalTemperatures } from '../../../src/maths/ripening/growthRate';
import { expectFault, type Refusal } from '../expectFault';

/** Cardinal temperatures with best above the middle and below max, in tenths of a degree. */
const cardinals = fc
  .tuple(
    fc.integer({ min: -50, max: 150 }),
    fc.integer({ min: 100, max: 400 }),
    fc.integer({ min: 51, max: 98 }),
  )
  .map(([minTenths, spanTenths, percent]): CardinalTemperatures => {
    const min = minTenths / 10;
    const max = min + spanTenths / 10;
    return { min, max, best: min + ((max - min) * percent) / 100 };
  });

/**
 * The same curve by another road: the cubic a(T − min)²(T − max) divided by the straight line b + cT that makes the
 * quotient 1 and flat at best. Value and slope at best fix b and c.
 */
function rateByFitting(temperature: number, { min, best, max }: CardinalTemperatures): number {
  const cubic = (t: number): number => (t - min) ** 2 * (t - max);
  const slopeAtBest = 2 * (best - min) * (best - max) + (best - min) ** 2;
  return cubic(temperature) / (cubic(best) + slopeAtBest * (temperature - best));
}

describe('growthRate(temperature, cardinals) gives growth relative to the best temperature', () => {
  test.each([
    // By hand from the equation of Rosso, Lobry, Flandrois (1993): with min 5, best 25, max 33,
    // at 15: (−18 × 100) / (20 × (20 × −10 + 8 × 0)) = 0.45; at 20: (−13 × 225) / (20 × (20 × −5 − 8 × 10)) = 0.8125.
    { temperature: 15, cardinal: [5, 25, 33], rate: 0.45, digits: 12 },
    { temperature: 20, cardinal: [5, 25, 33], rate: 0.8125, digits: 12 },
    { temperature: 10, cardinal: [5, 25, 33], rate: 0.130682, digits: 6 },
    { temperature: 27, cardinal: [5, 25, 33], rate: 0.955263, digits: 6 },
    { temperature: 30, cardinal: [5, 25, 33], rate: 0.669643, digits: 6 },
    // By hand: (−27 × 36) / (18 × (18 × −12 + 15 × 6)) = 972/2268
    { temperature: 10, cardinal: [4, 22, 37], rate: 972 / 2268, digits: 12 },
  ])('$temperature with $cardinal', ({ temperature, cardinal, rate, digits }) => {
    const [min, best, max] = cardinal as [number, number, number];
    expect(growthRate(temperature, { min, best, max })).toBeCloseTo(rate, digits);
  });

  test('is 0 at min and max and beyond, and 1 at best', () => {
    fc.assert(
      fc.property(cardinals, fc.double({ min: 0, max: 100, noNaN: true }), (cardinal, beyond) => {
        expect(growthRate(cardinal.min - beyond, cardinal)).toBe(0);
        expect(growthRate(cardinal.max + beyond, cardinal)).toBe(0);
        expect(growthRate(cardinal.best, cardinal)).toBeCloseTo(1, 9);
      }),
    );
  });

  test('rises from min to best and falls from best to max', () => {
    fc.assert(
      fc.property(cardinals, (cardinal) => {
        const { min, best, max } = cardinal;
        const along = (from: number, to: number): number[] =>
          Array.from({ length: 41 }, (_, i) => growthRate(from + ((to - from) * i) / 40, cardinal));
        const rising = along(min, best);
        const falling = along(best, max);
        for (let i = 1; i < rising.length; i++) {
          expect(rising[i]! - rising[i - 1]!).toBeGreaterThan(-1e-9);
          expect(falling[i]! - falling[i - 1]!).toBeLessThan(1e-9);
        }
      }),
    );
  });

  test('starts slowly: its slope at min is 0', () => {
    const cardinal = { min: 5, best: 25, max: 33 };
    expect(growthRate(5 + 1e-4, cardinal) / 1e-4).toBeLessThan(1e-5);
  });

  test('is the same in °C and °F', () => {
    const fahrenheit = (celsius: number): number => celsius * 1.8 + 32;
    fc.assert(
      fc.property(cardinals, fc.double({ min: -10, max: 60, noNaN: true }), (cardinal, temperature) => {
        const { min, best, max } = cardinal;
        const inF = { min: fahrenheit(min), best: fahrenheit(best), max: fahrenheit(max) };
        expect(growthRate(fahrenheit(temperature), inF)).toBeCloseTo(growthRate(temperature, cardinal), 8);
      }),
    );
  });

  test.each<[number, number, number, number, Refusal]>([
    [NaN, 5, 25, 33, ['temperature', 'outside', { given: NaN }]],
    [20, 5, 25, 5, ['max', 'outside', { above: 5, given: 5, what: 'which is min' }]],
    [20, 5, 19, 33, ['best', 'outside', { above: 19, given: 19, what: 'halfway between min and max' }]],
    [20, 5, 33, 33, ['best', 'outside', { below: 33, given: 33, what: 'which is max' }]],
    [20, NaN, 25, 33, ['min', 'outside', { given: NaN }]],
    [20, 5, NaN, 33, ['best', 'outside', { above: 19, given: NaN }]],
  ])('refuses (%p, %p, %p, %p)', (temperature, min, best, max, refusal) => {
    expectFault(() => growthRate(temperature, { min, best, max }), refusal);
  });

  test('agrees with the quotient fixed by value and slope at best', () => {
    fc.assert(
      fc.property(cardinals, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (cardinal, share) => {
        const temperature = cardinal.min + share * (cardinal.max - cardinal.min);
        expect(growthRate(temperature, cardinal)).toBeCloseTo(rateByFitting(temperature, cardinal), 9);
      }),
    );
  });
});
