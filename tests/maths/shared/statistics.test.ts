import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { mean, median, standardDeviation } from '../../../src/maths/shared/statistics';
import nist from '../../reference/nistUnivariate.json';

const digitsOf = (got: number, wanted: number): number =>
  got === wanted ? 16 : -Math.log10(Math.abs(got - wanted) / Math.abs(wanted));

describe('NIST StRD univariate sets to the digits that doubles can give', () => {
  test.each(Object.entries(nist.sets))('%s', (name, set) => {
    const values = (name === 'PiDigits' ? [...set.values] : set.values.split(' ')).map(Number);
    expect(digitsOf(mean(values), set.mean)).toBeGreaterThan(14.5);
    expect(digitsOf(standardDeviation(values), set.standardDeviation)).toBeGreaterThan(set.digits - 0.1);
  });
});

describe('median(values)', () => {
  test.each([
    [[3], 3],
    [[4, 1], 2.5],
    [[5, -1, 3], 3],
    // Analytical Methods Committee copper figures, as published with R's MASS::chem: median 3.385
    [
      [
        2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28, 3.37, 3.03, 3.03, 28.95, 3.77, 3.4,
        2.2, 3.5, 3.6, 3.7, 3.7,
      ],
      3.385,
    ],
  ])('of %p is %p', (values, middle) => {
    expect(median(values)).toBeCloseTo(middle, 12);
  });

  test('has as many values below as above, and leaves its input as it was', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ noNaN: true, min: -1e6, max: 1e6 }), { minLength: 1 }), (values) => {
        const given = Object.freeze([...values]);
        const middle = median(given);
        const below = given.filter((value) => value < middle).length;
        const above = given.filter((value) => value > middle).length;
        expect(below).toBeLessThanOrEqual(given.length / 2);
        expect(above).toBeLessThanOrEqual(given.length / 2);
      }),
    );
  });
});
