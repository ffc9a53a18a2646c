import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shelfDayYield } from '../../../src/maths/harvest/shelfDayYield';
import { expectFault, type Refusal } from '../expectFault';

describe('shelfDayYield(fresh, blocks, blocksPerShelf, days) gives mass per shelf and day', () => {
  test.each([
    // 120 blocks at 20 a shelf take 6 shelves; 96 kg / 6 shelves / 40 days = 0.4 kg
    [96, 120, 20, 40, 0.4],
    // half a shelf for 10 days
    [5, 10, 20, 10, 1],
    [0, 10, 20, 10, 0],
  ])('by hand: (%p, %p, %p, %p) is %p', (fresh, blocks, perShelf, days, yielded) => {
    expect(shelfDayYield(fresh, blocks, perShelf, days)).toBeCloseTo(yielded, 14);
  });

  test('times shelves and days gives the fresh mass back', () => {
    const some = fc.double({ min: 0.1, max: 1000, noNaN: true });
    fc.assert(
      fc.property(some, some, some, some, (fresh, blocks, perShelf, days) => {
        const back = (shelfDayYield(fresh, blocks, perShelf, days) * days * blocks) / perShelf;
        expect(back / fresh).toBeCloseTo(1, 12);
      }),
    );
  });

  test.each<[number, number, number, number, Refusal]>([
    [-1, 10, 20, 10, ['fresh', 'outside', { from: 0, given: -1 }]],
    [1, 0, 20, 10, ['blocks', 'outside', { above: 0, given: 0 }]],
    [1, 10, NaN, 10, ['blocks per shelf', 'outside', { above: 0, given: NaN }]],
    [1, 10, 20, 0, ['days', 'outside', { above: 0, given: 0 }]],
  ])('refuses (%p, %p, %p, %p)', (fresh, blocks, perShelf, days, refusal) => {
    expectFault(() => shelfDayYield(fresh, blocks, perShelf, days), refusal);
  });
});
