import { describe, expect, test } from '@jest/globals';
import { massSlipsOf, TypedDigits } from '../../../src/maths/audit/massSlips';

describe('TypedDigits', () => {
  // A scale of 0.05: every multiple of it up to 20, each once.
  const digits = new TypedDigits(Array.from({ length: 400 }, (_, i) => (i + 1) / 20));
  const [right, left] = massSlipsOf('kg');
  const evidence = (mass: number, slip = right!): number => Math.exp(digits.evidence(mass, slip));

  test('a figure of the scale that only one in ten is speaks for a decimal moved right', () => {
    // Of the 92 other figures from e to e² three end in a half; of the twelve from 1/e to 1, where 0.55 is, six end in 5
    // hundredths: 0.7 × (6/12) / (3/92) + 0.3 = 11.0.
    expect(evidence(5.5)).toBeGreaterThan(9);
    expect(evidence(5.5)).toBeLessThan(12);
  });

  test('a figure that the scale would not have shown before the slip speaks against it', () => {
    // 5.35 would have been 0.535; three in ten are thought rounded since.
    expect(evidence(5.35)).toBeGreaterThan(0.3);
    expect(evidence(5.35)).toBeLessThan(0.4);
  });

  test('the smallest figure of a scale is ordinary, and what it would have been is not', () => {
    // Half of the figures about 0.05 are odd twentieths; of the 12 about 0.5 one is a half: 0.7 × 1/6 + 0.3.
    expect(evidence(0.05, left)).toBeGreaterThan(0.3);
    expect(evidence(0.05, left)).toBeLessThan(0.6);
  });

  test('hundredths among whole grams speak for kilograms, as they do for decimals', () => {
    const grams = new TypedDigits(Array.from({ length: 2000 }, (_, i) => i + 1));
    const kilograms = massSlipsOf('g').find(({ slip }) => slip === 'kilograms')!;
    // No gram has hundredths; one in ten of those about 480 ends in a nought.
    expect(Math.exp(grams.evidence(0.48, kilograms))).toBeGreaterThan(20);
  });

  test('a round figure that a fine scale has not shown yet is no proof of a slip', () => {
    // Tenths, none of them a multiple of ten though one in a hundred is by chance: 40 is not 4.0 for that. Of the
    // figures about 4 one in ten is whole: 0.7 × 0.1 / 0.01 + 0.3 = 7.3, and somewhat more by so few masses.
    const tenths = new TypedDigits(
      Array.from({ length: 700 }, (_, i) => (i + 1) / 10).filter((mass) => mass % 10),
    );
    expect(Math.exp(tenths.evidence(40, right!))).toBeGreaterThan(5);
    expect(Math.exp(tenths.evidence(40, right!))).toBeLessThan(20);
  });
});
