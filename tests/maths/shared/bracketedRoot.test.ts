import { describe, expect, test } from '@jest/globals';
import { bracketedRoot } from '../../../src/maths/shared/numeric';

describe('bracketedRoot(f, low, high) gives where a rising function passes 0', () => {
  test.each([
    ['a line', (x: number) => 2 * x - 3, 0, 10, 1.5],
    ['a steep power', (x: number) => x ** 9 - 0.5, 0, 10, 0.5 ** (1 / 9)],
    ['an exponential, flat on one side', (x: number) => Math.exp(x) - 1e-3, -50, 50, Math.log(1e-3)],
    ['a step', (x: number) => (x < 3 ? -1 : 1), 0, 10, 3],
    ['a function with its root at the lower end', (x: number) => x, 0, 1, 0],
    ['a function with its root at the upper end', (x: number) => x - 1, 0, 1, 1],
  ])('%s', (_what, f, low, high, root) => {
    expect(bracketedRoot(f, low, high)).toBeCloseTo(root, 11);
  });

  test('gives the nearer end where no root lies between', () => {
    expect(bracketedRoot((x) => x + 1, 0, 1)).toBe(0);
    expect(bracketedRoot((x) => x - 2, 0, 1)).toBe(1);
  });

  test.each([
    ['a smooth curve in a third of the calls of halving', (x: number) => Math.exp(x / 20) - 2, 16],
    ['a flat curve in no more than three times as many', (x: number) => (x - 30) ** 9, 160],
  ])('%s', (_what, f, most) => {
    let calls = 0;
    bracketedRoot((x) => (calls++, f(x)), 0, 100);
    expect(calls).toBeLessThanOrEqual(most);
  });
});
