import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { breakEvenEfficiency } from '../../../src/maths/cost/breakEvenEfficiency';
import { cropCosts } from '../../../src/maths/cost/cropCosts';
import type { CostItem } from '../../../src/maths/cost/costItem';

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

  test.each([
    [{ ...block, price: 2 }, 'price: more than the 2 that each unit of mass costs needed, got 2'],
    [{ ...block, price: NaN }, 'price: a number above 0 needed, got NaN'],
    [{ ...block, moisture: 1 }, 'moisture: 0 up to less than 1 needed, got 1'],
    [{ ...block, blockMass: 0 }, 'block mass: a number above 0 needed, got 0'],
    [{ ...block, shelfDays: -1 }, 'days: 0 or more needed, got -1'],
  ])('refuses %p', (sold, message) => {
    expect(() => breakEvenEfficiency(COSTS, 150, sold)).toThrow(message);
  });
});
