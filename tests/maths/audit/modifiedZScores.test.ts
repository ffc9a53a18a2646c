import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { modifiedZScores } from '../../../src/maths/audit/modifiedZScores';
import { expectFault } from '../expectFault';

// NIST/SEMATECH e-Handbook 1.3.5.17, the mass-spectrometer figures of Tietjen and Moore
const URANIUM = [199.31, 199.53, 200.19, 200.82, 201.92, 201.95, 202.18, 245.57];
// Analytical Methods Committee (1989), copper in wholemeal flour, in parts per million; R's MASS::chem
const COPPER = [
  2.9, 3.1, 3.4, 3.4, 3.7, 3.7, 2.8, 2.5, 2.4, 2.4, 2.7, 2.2, 5.28, 3.37, 3.03, 3.03, 28.95, 3.77, 3.4, 2.2,
  3.5, 3.6, 3.7, 3.7,
];

describe('modifiedZScores(values) gives robust deviations from the median', () => {
  // Worked by hand: median 201.37, MAD 1.065 (the mean of 0.81 … sorted 0.55, 0.55, 0.58, 0.81, 1.18, 1.84, 2.06, 44.2 is
  // (0.81 + 1.18)/2 = 0.995), so 0.6745 × 44.2 / 0.995 = 29.963
  test('finds the one outlier among the published uranium figures', () => {
    const scores = modifiedZScores(URANIUM);
    expect(scores[7]).toBeCloseTo(29.963, 3);
    expect(Math.max(...scores.slice(0, 7).map(Math.abs))).toBeLessThan(1.4);
  });

  // R 4.2.2: 0.6745 × (x − 3.385) / 0.355
  test.each([
    [16, 48.57],
    [12, 3.6005],
  ])('copper figure %p scores %p', (at, score) => {
    expect(modifiedZScores(COPPER)[at]).toBeCloseTo(score, 2);
  });

  test('falls back on the mean deviation where most values are equal', () => {
    // median 5, MAD 0, mean absolute deviation 4/5 = 0.8: (9 − 5) / (1.253314 × 0.8) = 3.9894
    expect(modifiedZScores([5, 5, 5, 5, 9])[4]).toBeCloseTo(3.98942, 4);
  });

  test('all equal values score 0', () => {
    expect(modifiedZScores([5, 5, 5])).toEqual([0, 0, 0]);
  });

  test('does not change under shift and scale, and follows the values in any order', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: -1000, max: 1000 }), { minLength: 3, maxLength: 60 }),
        fc.integer({ min: 1, max: 50 }),
        fc.integer({ min: -500, max: 500 }),
        (values, scale, shift) => {
          const plain = modifiedZScores(values);
          const moved = modifiedZScores(values.map((value) => scale * value + shift));
          plain.forEach((score, i) => expect(moved[i]).toBeCloseTo(score, 9));
          expect(modifiedZScores([...values].reverse())).toEqual([...plain].reverse());
        },
      ),
    );
  });

  test.each<number[][]>([[[]], [[1, 2]]])('refuses %p', (values) => {
    const refusal = { least: 3, things: 'values', found: values.length };
    expectFault(() => modifiedZScores(values), ['values', 'tooFew', refusal]);
  });
});
