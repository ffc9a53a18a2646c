import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shelfDayYield } from '../../../src/maths/harvest/shelfDayYield';

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

  test.each([
    [-1, 10, 20, 10, 'fresh: 0 or more needed, got -1'],
    [1, 0, 20, 10, 'blocks: a number above 0 needed, got 0'],
    [1, 10, NaN, 10, 'blocks per shelf: a number above 0 needed, got NaN'],
    [1, 10, 20, 0, 'days: a number above 0 needed, got 0'],
  ])('refuses (%p, %p, %p, %p)', (fresh, blocks, perShelf, days, message) => {
    expect(() => shelfDayYield(fresh, blocks, perShelf, days)).toThrow(message);
  });
});
