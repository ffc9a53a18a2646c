import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { blockCost } from '../../../src/maths/cost/blockCost';
import type { CostItem } from '../../../src/maths/cost/costItem';
import { expectFault } from '../expectFault';

const COSTS: CostItem[] = [
  { amount: 1.5, per: 'block' },
  { amount: 0.5, per: 'block' },
  { amount: 300, per: 'batch' },
  { amount: 2, per: 'mass' },
  { amount: 0.2, per: 'shelf day' },
];

describe('blockCost(costs, blocks) gives the cost of one block', () => {
  test.each([
    [150, 4], // 1.50 + 0.50 + 300/150
    [1, 302],
  ])('by hand: for %p blocks %p', (blocks, cost) => {
    expect(blockCost(COSTS, blocks)).toBeCloseTo(cost, 12);
  });

  test('nothing spent costs nothing', () => {
    expect(blockCost([], 10)).toBe(0);
  });

  test('times blocks gives back all that is spent per block and per batch', () => {
    const item = fc.record({
      amount: fc.integer({ min: 0, max: 1000 }),
      per: fc.constantFrom<'block' | 'batch'>('block', 'batch'),
    });
    fc.assert(
      fc.property(fc.array(item, { maxLength: 20 }), fc.integer({ min: 1, max: 5000 }), (costs, blocks) => {
        const all = costs.reduce((sum, { amount, per }) => sum + (per === 'block' ? blocks : 1) * amount, 0);
        expect(blockCost(costs, blocks) * blocks).toBeCloseTo(all, 4);
      }),
    );
  });

  test('refuses blocks or amounts out of range', () => {
    expectFault(() => blockCost(COSTS, 0), ['blocks', 'outside', { from: 1, whole: true, given: 0 }]);
    expectFault(
      () => blockCost([{ amount: NaN, per: 'block', at: 2 }], 1),
      ['costs, amount', 'outside', { from: 0, given: NaN }, { at: 2 }],
    );
  });
});
