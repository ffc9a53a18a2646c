import { describe, expect, test } from '@jest/globals';
import { exponentialIntegral } from '../../../src/maths/sterilising/exponentialIntegral';

describe('exponentialIntegral(x) gives E1', () => {
  // Abramowitz & Stegun (1964) tables 5.1 and 5.2: E1(0.5) = 0.559773595, E1(1) = 0.219383934, E1(2) = 0.048900511;
  // further digits from scipy.special.exp1
  test.each([
    [1e-6, 13.23829589306249],
    [0.1, 1.8229239584193906],
    [0.5, 0.5597735947761608],
    [1, 0.2193839343955205],
    [1.0000001, 0.21938389760757987],
    [2, 0.048900510708061125],
    [5, 0.0011482955912753257],
    [10, 4.156968929685325e-6],
    [35, 1.752705938994737e-17],
  ])('E1(%p) is %p', (x, expected) => {
    expect(exponentialIntegral(x) / expected).toBeCloseTo(1, 13);
  });
});
