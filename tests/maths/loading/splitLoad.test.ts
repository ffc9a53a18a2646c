import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { splitLoad, type SplitLoad } from '../../../src/maths/loading/splitLoad';
import { expectFault, type Refusal } from '../expectFault';
import { pattern, patterns } from './patterns';

/** The largest day's picking of a set of loads. */
function largestDay(loads: readonly SplitLoad[], perDay: readonly number[]): number {
  const days = new Map<number, number>();
  for (const { day, blocks } of loads) {
    perDay.forEach((mass, k) => days.set(day + k, (days.get(day + k) ?? 0) + blocks * mass));
  }
  return Math.max(...days.values());
}

/** Whether any split into `count` loads on days up to `lastDay` keeps the limit: every one is tried. */
function someSplitKeeps(
  blocks: number,
  count: number,
  lastDay: number,
  limit: number,
  perDay: readonly number[],
  loads: readonly SplitLoad[] = [],
): boolean {
  if (count === 0) return blocks === 0 && largestDay(loads, perDay) <= limit * (1 + 1e-9);
  const from = loads.at(-1)?.day ?? 0;
  for (let day = from; day <= lastDay; day++) {
    for (let size = 1; size <= blocks; size++) {
      if (
        someSplitKeeps(blocks - size, count - 1, lastDay, limit, perDay, [...loads, { day, blocks: size }])
      ) {
        return true;
      }
    }
  }
  return false;
}

const cases = fc.record({
  blocks: fc.integer({ min: 1, max: 120 }),
  blockYield: fc.double({ min: 0.2, max: 1.5, noNaN: true }),
  limit: fc.double({ min: 2, max: 20, noNaN: true }),
  given: patterns,
});

describe('splitLoad(blocks, blockYield, dailyLimit, curve) gives the fewest loads within the limit', () => {
  test('no split into fewer loads keeps the limit: all are tried on small cases', () => {
    const small = fc.record({
      blocks: fc.integer({ min: 1, max: 7 }),
      limit: fc.integer({ min: 2, max: 8 }),
      given: patterns.filter(({ firstPick, flushGap }) => firstPick <= 2 && flushGap! <= 3),
    });
    fc.assert(
      fc.property(small, ({ blocks, limit, given }) => {
        const curve = pickCurve(given);
        fc.pre(Math.max(...curve.shares) * 2 <= limit);
        const perDay = curve.shares.map((share) => 2 * share);
        const loads = splitLoad(blocks, 2, limit, curve);
        fc.pre(loads.length <= 4);
        // The days of a split with fewer loads never need to lie further apart than the blocks stand.
        const lastDay = Math.min(8, (loads.length - 1) * curve.stay);
        for (let fewer = 1; fewer < loads.length; fewer++) {
          expect(someSplitKeeps(blocks, fewer, lastDay, limit, perDay)).toBe(false);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('the loads are all blocks, evenly split, within the limit, and none could go in a day sooner', () => {
    fc.assert(
      fc.property(cases, ({ blocks, blockYield, limit, given }) => {
        const curve = pickCurve(given);
        const perDay = curve.shares.map((share) => share * blockYield);
        fc.pre(Math.max(...perDay) <= limit);
        const loads = splitLoad(blocks, blockYield, limit, curve);
        expect(loads.reduce((sum, load) => sum + load.blocks, 0)).toBe(blocks);
        expect(largestDay(loads, perDay)).toBeLessThanOrEqual(limit * (1 + 2e-9));
        expect(loads[0]!.blocks - loads.at(-1)!.blocks).toBeLessThanOrEqual(1);
        loads.forEach((load, n) => {
          if (n === 0 || load.day === loads[n - 1]!.day) return;
          const sooner = [...loads.slice(0, n), { ...load, day: load.day - 1 }];
          expect(largestDay(sooner, perDay)).toBeGreaterThan(limit);
        });
      }),
    );
  });

  test('what fits in one load is one load, on day 0', () => {
    expect(splitLoad(80, 0.5, 10, pickCurve(pattern()))).toEqual([{ day: 0, blocks: 80 }]);
    expect(splitLoad(81, 0.5, 10, pickCurve(pattern()))).toHaveLength(2);
  });

  test('a thousand loads are split, one more is refused', () => {
    expect(splitLoad(4000, 0.5, 0.5, pickCurve(pattern()))).toHaveLength(1000);
  });

  const bestDay = 'what one block yields on its best day';
  test.each<[number, number, number, Refusal]>([
    [0, 0.5, 10, ['blocks', 'outside', { from: 1, whole: true, given: 0 }]],
    [10, 0, 10, ['block yield', 'outside', { above: 0, given: 0 }]],
    [10, 0.5, NaN, ['daily limit', 'outside', { above: 0, given: NaN }]],
    [10, 0.5, 0.1, ['daily limit', 'outside', { from: 0.125, given: 0.1, what: bestDay }]],
    [5000, 0.5, 0.5, ['daily limit', 'tooManyLoads', { most: 1000, loads: 1250 }]],
  ])('refuses (%p, %p, %p)', (blocks, blockYield, limit, refusal) => {
    expectFault(() => splitLoad(blocks, blockYield, limit, pickCurve(pattern())), refusal);
  });
});
