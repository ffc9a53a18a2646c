import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import reference from '../../reference/quantiles.json';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

const relative = (got: number, wanted: number): number => Math.abs(got / wanted - 1);

// The incomplete beta function of the package stops where its terms change it by less than 3e-7.
describe('against R 4.2.2 to six digits of a probability and seven of a quantile', () => {
  test.each(reference.normal)('the normal distribution is below p = %p at %p', (p, z) => {
    expect(relative(distributions.normalBelow(z), p)).toBeLessThan(1e-12);
    expect(p < 0.75 || relative(distributions.normalHalfWidth(2 * p - 1), z) < 1e-12).toBe(true);
  });

  test.each(reference.student)('Student’s t with %p degrees of freedom is below p = %p at %p', (df, p, t) => {
    expect(relative(distributions.studentBeyond(t, df) / 2, Math.min(p, 1 - p))).toBeLessThan(3e-7);
    expect(p <= 0.5 || relative(distributions.studentHalfWidth(2 * p - 1, df), t) < 1e-7).toBe(true);
  });

  test.each(reference.fisher)('F with %p and %p degrees of freedom is below p = %p at %p', (a, b, p, f) => {
    expect(relative(distributions.fisherAbove(f, a, b), 1 - p)).toBeLessThan(3e-7);
  });
});

describe('tails and limits', () => {
  test('F with one and n degrees of freedom is Student’s t squared', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 1000, noNaN: true }),
        fc.double({ min: 1, max: 1000, noNaN: true }),
        (t, df) => {
          expect(
            Math.abs(distributions.fisherAbove(t * t, 1, df) - distributions.studentBeyond(t, df)),
          ).toBeLessThan(1e-12);
        },
      ),
    );
  });

  // Student's t with 1 and 2 degrees of freedom in closed form
  test.each([0.5, 2, 63, 1e5])('t = %p with 1 and 2 degrees of freedom as in closed form', (t) => {
    expect(relative(distributions.studentBeyond(t, 1), (2 / Math.PI) * Math.atan(1 / t))).toBeLessThan(3e-7);
    const one = 1 + t / Math.sqrt(2 + t * t);
    expect(relative(distributions.studentBeyond(t, 2), 2 / (2 + t * t) / one)).toBeLessThan(3e-7);
  });
});
