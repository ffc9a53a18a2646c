import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { costPerMass, cropCosts } from '../../../src/maths/cost/cropCosts';
import type { CostItem } from '../../../src/maths/cost/costItem';

const COSTS: CostItem[] = [
  { amount: 2, per: 'block' },
  { amount: 300, per: 'batch' },
  { amount: 2, per: 'mass' },
];
const CROPS = [
  { blocks: 100, mass: 80, shelfDays: 40 },
  { blocks: 50, mass: 25, shelfDays: 20 },
];

describe('cropCosts(costs, crops, blocksPerShelf) gives what each lot cost', () => {
  // 100 × 2 + 300 × 100/150 + 80 × 2 and 50 × 2 + 300 × 50/150 + 25 × 2
  test('by hand, without shelf time', () => {
    expect(cropCosts(COSTS, CROPS, undefined)).toEqual([560, 250]);
  });

  // and 0.2 × 100/20 × 40 = 40, 0.2 × 50/20 × 20 = 10 more
  test('by hand, with shelf time', () => {
    expect(cropCosts([...COSTS, { amount: 0.2, per: 'shelf day' }], CROPS, 20)).toEqual([600, 260]);
  });

  test('shares what is spent once among the lots and loses none of it', () => {
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 1, max: 500 }), { minLength: 1, maxLength: 30 }), (blocks) => {
        const crops = blocks.map((count) => ({ blocks: count, mass: 1, shelfDays: undefined }));
        const sum = cropCosts([{ amount: 1000, per: 'batch' }], crops, undefined).reduce((a, b) => a + b, 0);
        expect(sum).toBeCloseTo(1000, 8);
      }),
    );
  });

  test.each([
    [
      [{ blocks: 0, mass: 1, shelfDays: 1 }],
      undefined,
      'crops, blocks: a whole number of 1 or more needed, got 0',
    ],
    [[{ blocks: 1, mass: -1, shelfDays: 1 }], undefined, 'crops, total: 0 or more needed, got -1'],
    [[{ blocks: 1, mass: 1, shelfDays: 0 }], undefined, 'crops, days: a number above 0 needed, got 0'],
    [CROPS, undefined, 'blocks per shelf: a number for the costs per shelf day needed, got a blank cell'],
    [CROPS, NaN, 'blocks per shelf: a number above 0 needed, got NaN'],
    [
      [{ blocks: 1, mass: 1, shelfDays: undefined }],
      20,
      'crops, days: days for the costs per shelf day needed',
    ],
  ])('refuses %p with %p blocks a shelf', (crops, blocksPerShelf, message) => {
    expect(() => cropCosts([{ amount: 0.2, per: 'shelf day' }], crops, blocksPerShelf)).toThrow(message);
  });
});

describe('costPerMass(cost, mass)', () => {
  test('is cost over mass, and refuses no mass', () => {
    expect(costPerMass(560, 80)).toBe(7);
    expect(() => costPerMass(560, 0)).toThrow('crops, total: no fresh mass to share the cost');
  });
});
