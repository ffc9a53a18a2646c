import { describe, expect, test } from '@jest/globals';
import { learntOften } from '../../../src/maths/audit/likelihood';

describe('learntOften(odds, expected): how rare slips of a kind are in a book, against what was taken before', () => {
  // One slip counts as seen from the start: of e expected and s that are sure, (s + 1) / (e + 1).
  test.each<[string, number[], number, number]>([
    ['no slip of 15 expected', [], 15, 1 / 16],
    ['three sure ones of 15', [1e12, 1e12, 1e12], 15, 4 / 16],
    ['as many as expected', [1e12, 1e12], 2, 1],
    ['hardly any expected in a small book', [], 0.1, 1 / 1.1],
  ])('%s', (_what, odds, expected, often) => {
    expect(Math.exp(learntOften(odds, expected))).toBeCloseTo(often, 6);
  });

  test('never more often than before, whatever passes for slips', () => {
    expect(
      learntOften(
        Array.from({ length: 90 }, () => 1e6),
        15,
      ),
    ).toBe(0);
  });

  test('figures that are doubtful count for less than their share by what was taken before', () => {
    // Each would be one half of a slip: together they are not five, but what is left once they have grown rarer.
    const often = Math.exp(
      learntOften(
        Array.from({ length: 10 }, () => 1),
        40,
      ),
    );
    expect(often).toBeLessThan(6 / 41);
    expect(often).toBeGreaterThan(1 / 41);
  });
});
