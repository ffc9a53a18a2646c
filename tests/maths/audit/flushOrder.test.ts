import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { outOfOrder } from '../../../src/maths/audit/flushOrder';

const picks = (...pairs: readonly (readonly [day: number, flush: number])[]) =>
  pairs.map(([day, flush]) => ({ day, flush }));

describe('outOfOrder(picks) gives the fewest picks that break the order of flushes', () => {
  test.each([
    ['none', picks([1, 1], [2, 1], [18, 2], [36, 3]), []],
    ['a second flush amid the first', picks([1, 1], [2, 2], [3, 1], [18, 2]), [{ at: 1, flush: 1 }]],
    [
      'a first flush amid the second',
      picks([1, 1], [18, 2], [19, 2], [20, 1], [21, 2]),
      [{ at: 3, flush: 2 }],
    ],
    ['rows in any order', picks([18, 2], [3, 1], [2, 2], [1, 1]), [{ at: 2, flush: 1 }]],
    ['two flushes on one day', picks([1, 1], [9, 2], [9, 1], [18, 2]), []],
    ['no pick', [], []],
  ])('%s', (_what, given, odd) => {
    expect(outOfOrder(given)).toEqual(odd);
  });

  test('what is left is in order, and no fewer would do', () => {
    const some = fc.array(
      fc.record({ day: fc.integer({ min: 0, max: 12 }), flush: fc.integer({ min: 1, max: 3 }) }),
      { maxLength: 9 },
    );
    const inOrder = (given: readonly { day: number; flush: number }[]): boolean =>
      given.every((a) => given.every((b) => a.day >= b.day || a.flush <= b.flush));
    fc.assert(
      fc.property(some, (given) => {
        const odd = new Set(outOfOrder(given).map(({ at }) => at));
        expect(inOrder(given.filter((_, i) => !odd.has(i)))).toBe(true);
        // By trying every subset: none smaller leaves the rest in order.
        for (let subset = 0; subset < 2 ** given.length; subset++) {
          const left = given.filter((_, i) => !((subset >> i) & 1));
          expect(given.length - left.length < odd.size && inOrder(left)).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
  });
});
