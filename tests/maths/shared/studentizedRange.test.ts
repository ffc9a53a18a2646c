import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import { StudentizedRange } from '../../../src/maths/shared/studentizedRange';
import reference from '../../reference/quantiles.json';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

const relative = (got: number, wanted: number): number => Math.abs(got / wanted - 1);

describe('the studentized range', () => {
  // scipy 1.17.1. R's own ptukey stops earlier: its 3.57793458153 below is 4e-8 off.
  test.each(reference.studentizedRange.rows)(
    'of %p means with %p degrees of freedom is above %p with probability %p',
    (means, df, q, above) => {
      expect(relative(new StudentizedRange(means, distributions).above(q, df), above)).toBeLessThan(1e-9);
    },
  );

  // Harter, H. L. (1960) Tables of range and studentized range. Annals of Mathematical Statistics 31:1122–1147, as
  // printed in textbooks (from memory, unverified): upper 5% and 1% points.
  test.each([
    { means: 3, df: 5, five: 4.602, one: 6.976 },
    { means: 3, df: 20, five: 3.578, one: 4.639 },
    { means: 5, df: 10, five: 4.654, one: 6.136 },
    { means: 10, df: 20, five: 5.008, one: 6.087 },
  ])('of $means means with $df degrees of freedom has its tabled points', ({ means, df, five, one }) => {
    const range = new StudentizedRange(means, distributions);
    expect(Math.abs(range.within(0.95, df) - five)).toBeLessThan(0.00101);
    expect(Math.abs(range.within(0.99, df) - one)).toBeLessThan(0.00101);
  });

  test('agrees with R’s qtukey(0.95, 3, 20) = 3.57793458153 to the 7 digits R computes', () => {
    expect(relative(new StudentizedRange(3, distributions).within(0.95, 20), 3.57793458153)).toBeLessThan(
      1e-7,
    );
  });

  // The other side is the package's, which holds six digits.
  test('of two means is Student’s t times the root of two', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 40, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (q, df) => {
          const gap =
            new StudentizedRange(2, distributions).above(q, df) -
            distributions.studentBeyond(q / Math.SQRT2, df);
          expect(Math.abs(gap)).toBeLessThan(3e-7);
        },
      ),
      { numRuns: 200 },
    );
  });

  // Student's t with 1 and 2 degrees of freedom in closed form
  test.each([0.5, 2, 63])('of two means, at %p times the root of two, is that t in closed form', (t) => {
    const range = new StudentizedRange(2, distributions);
    const q = Math.SQRT2 * t;
    expect(Math.abs(range.above(q, 1) - (2 / Math.PI) * Math.atan(1 / t))).toBeLessThan(1e-10);
    const one = 1 + t / Math.sqrt(2 + t * t);
    expect(Math.abs(range.above(q, 2) - 2 / (2 + t * t) / one)).toBeLessThan(1e-10);
  });

  test('within() undoes above()', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 30 }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (means, df, coverage) => {
          const range = new StudentizedRange(means, distributions);
          expect(relative(range.above(range.within(coverage, df), df), 1 - coverage)).toBeLessThan(1e-8);
        },
      ),
      { numRuns: 30 },
    );
  });
});
