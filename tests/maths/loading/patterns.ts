import fc from 'fast-check';
import type { FlushPattern } from '../../../src/maths/loading/pickCurve';

/** A strain kept for one flush, by default on the seventh to tenth day after loading. */
export function pattern(over: Partial<FlushPattern> = {}): FlushPattern {
  return {
    strain: 'Alder-3',
    firstPick: 7,
    pickDays: 4,
    flushGap: undefined,
    flushes: 1,
    shares: [],
    ...over,
  };
}

/** Patterns of one to three flushes whose shares add up to 1. */
export const patterns: fc.Arbitrary<FlushPattern> = fc
  .record({
    firstPick: fc.integer({ min: 0, max: 9 }),
    pickDays: fc.integer({ min: 1, max: 5 }),
    flushGap: fc.integer({ min: 1, max: 15 }),
    weights: fc.array(fc.integer({ min: 1, max: 9 }), { minLength: 1, maxLength: 3 }),
  })
  .map(({ weights, ...times }) => {
    const all = weights.reduce((sum, weight) => sum + weight, 0);
    return pattern({ ...times, flushes: weights.length, shares: weights.map((weight) => weight / all) });
  });
