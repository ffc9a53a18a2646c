import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  fisherAbove,
  normalBelow,
  normalHalfWidth,
  studentBeyond,
  studentHalfWidth,
  StudentizedRange,
} from '../../../src/maths/shared/distributions';
import reference from '../../reference/quantiles.json';

const relative = (got: number, wanted: number): number => Math.abs(got / wanted - 1);

describe('against R 4.2.2 to ten digits', () => {
  test.each(reference.normal)('the normal distribution is below p = %p at %p', (p, z) => {
    expect(relative(normalBelow(z), p)).toBeLessThan(1e-10);
    expect(p < 0.75 || relative(normalHalfWidth(2 * p - 1), z) < 1e-10).toBe(true);
  });

  test.each(reference.student)('Student’s t with %p degrees of freedom is below p = %p at %p', (df, p, t) => {
    expect(relative(studentBeyond(t, df) / 2, Math.min(p, 1 - p))).toBeLessThan(1e-10);
    expect(p <= 0.5 || relative(studentHalfWidth(2 * p - 1, df), t) < 1e-10).toBe(true);
  });

  test.each(reference.fisher)('F with %p and %p degrees of freedom is below p = %p at %p', (a, b, p, f) => {
    expect(relative(fisherAbove(f, a, b), 1 - p)).toBeLessThan(1e-10);
  });
});

describe('the studentized range', () => {
  // scipy 1.17.1. R's own ptukey stops earlier: its 3.57793458153 below is 4e-8 off.
  test.each(reference.studentizedRange.rows)(
    'of %p means with %p degrees of freedom is above %p with probability %p',
    (means, df, q, above) => {
      expect(relative(new StudentizedRange(means).above(q, df), above)).toBeLessThan(1e-9);
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
    const range = new StudentizedRange(means);
    expect(Math.abs(range.within(0.95, df) - five)).toBeLessThan(0.00101);
    expect(Math.abs(range.within(0.99, df) - one)).toBeLessThan(0.00101);
  });

  test('agrees with R’s qtukey(0.95, 3, 20) = 3.57793458153 to the 7 digits R computes', () => {
    expect(relative(new StudentizedRange(3).within(0.95, 20), 3.57793458153)).toBeLessThan(1e-7);
  });

  test('of two means is Student’s t times the root of two', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 40, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        (q, df) => {
          const gap = new StudentizedRange(2).above(q, df) - studentBeyond(q / Math.SQRT2, df);
          expect(Math.abs(gap)).toBeLessThan(1e-11);
        },
      ),
      { numRuns: 200 },
    );
  });

  test('within() undoes above()', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 30 }),
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 0.5, max: 0.999, noNaN: true }),
        (means, df, coverage) => {
          const range = new StudentizedRange(means);
          expect(relative(range.above(range.within(coverage, df), df), 1 - coverage)).toBeLessThan(1e-8);
        },
      ),
      { numRuns: 30 },
    );
  });
});

describe('tails and limits', () => {
  test('F with one and n degrees of freedom is Student’s t squared', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1000, noNaN: true }),
        fc.double({ min: 1, max: 1000, noNaN: true }),
        (t, df) => {
          expect(Math.abs(fisherAbove(t * t, 1, df) - studentBeyond(t, df))).toBeLessThan(1e-12);
        },
      ),
    );
  });

  // Student's t with 1 and 2 degrees of freedom in closed form
  test.each([0.5, 2, 63, 1e5])('t = %p with 1 and 2 degrees of freedom as in closed form', (t) => {
    expect(relative(studentBeyond(t, 1), (2 / Math.PI) * Math.atan(1 / t))).toBeLessThan(1e-12);
    const one = 1 + t / Math.sqrt(2 + t * t);
    expect(relative(studentBeyond(t, 2), 2 / (2 + t * t) / one)).toBeLessThan(1e-12);
  });
});
