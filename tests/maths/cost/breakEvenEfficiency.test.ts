import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { breakEvenEfficiency, type SoldBlock } from '../../../src/maths/cost/breakEvenEfficiency';
import { cropCosts } from '../../../src/maths/cost/cropCosts';
import { shelfDaysOf, type CostItem } from '../../../src/maths/cost/costItem';
import { expectFault, type Refusal } from '../expectFault';

const COSTS: CostItem[] = [
  { amount: 2, per: 'block' },
  { amount: 300, per: 'batch' },
  { amount: 2, per: 'mass' },
  { amount: 0.2, per: 'shelf day' },
];
const block = { blockMass: 2.5, moisture: 0.6, price: 12, shelfDays: 0 };

describe('breakEvenEfficiency(costs, blocks, block) gives the efficiency that pays for the block', () => {
  test.each([
    // 4.00 a block over (12 − 2) × 1 kg dry
    { shelfDays: 0, gives: 0.4 },
    // 40 days at 20 a shelf: 2 shelf days, 0.40 more
    { shelfDays: 2, gives: 0.44 },
  ])('by hand: $gives with $shelfDays shelf days', ({ shelfDays, gives }) => {
    expect(breakEvenEfficiency(COSTS, 150, { ...block, shelfDays })).toBeCloseTo(gives, 12);
  });

  test('at that efficiency income is cost, by the costs of a crop', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.double({ min: 3, max: 50, noNaN: true }),
        fc.double({ min: 1, max: 60, noNaN: true }),
        (blocks, price, days) => {
          const efficiency = breakEvenEfficiency(COSTS, blocks, { ...block, price, shelfDays: days / 20 });
          const mass = efficiency * blocks;
          const [cost] = cropCosts(COSTS, [{ blocks, mass, shelfDays: days }], 20);
          expect((mass * price) / cost!).toBeCloseTo(1, 10);
        },
      ),
    );
  });

  test.each<[SoldBlock, Refusal]>([
    [
      { ...block, price: 2 },
      ['price', 'outside', { above: 2, given: 2, what: 'the cost of each unit of mass' }],
    ],
    [{ ...block, price: NaN }, ['price', 'outside', { above: 0, given: NaN }]],
    [{ ...block, moisture: 1 }, ['moisture', 'outside', { from: 0, below: 1, given: 1 }]],
    [{ ...block, blockMass: 0 }, ['block mass', 'outside', { above: 0, given: 0 }]],
    [{ ...block, shelfDays: -1 }, ['days', 'outside', { from: 0, given: -1 }]],
  ])('refuses %p', (sold, refusal) => {
    expectFault(() => breakEvenEfficiency(COSTS, 150, sold), refusal);
  });
});

describe('shelfDaysOf(costs, blocksPerShelf, days) gives the shelf time of one block', () => {
  test('is days over blocks per shelf, and 0 where one of them is not known', () => {
    const costs: CostItem[] = [{ amount: 2, per: 'block' }];
    expect(shelfDaysOf(costs, 20, 40)).toBe(2);
    expect(shelfDaysOf(costs, undefined, 40)).toBe(0);
    expect(shelfDaysOf(costs, 20, undefined)).toBe(0);
  });

  test.each<[number | undefined, number | undefined, Refusal]>([
    [undefined, 40, ['blocks per shelf', 'neededFor', { purpose: 'the costs per shelf day' }]],
    [20, undefined, ['days', 'neededFor', { purpose: 'the costs per shelf day' }]],
  ])('refuses %p blocks a shelf and %p days where shelf time is charged', (blocksPerShelf, days, refusal) => {
    expectFault(() => shelfDaysOf(COSTS, blocksPerShelf, days), refusal);
  });
});
