import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { costPerMass, cropCosts, type CostedCrop } from '../../../src/maths/cost/cropCosts';
import type { CostItem } from '../../../src/maths/cost/costItem';
import { expectFault, type Refusal } from '../expectFault';

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

  test.each<[CostedCrop[], number | undefined, Refusal]>([
    [
      [{ blocks: 0, mass: 1, shelfDays: 1, at: 2 }],
      undefined,
      ['crops, blocks', 'outside', { from: 1, whole: true, given: 0 }, { at: 2 }],
    ],
    [[{ blocks: 1, mass: -1, shelfDays: 1 }], undefined, ['crops, total', 'outside', { from: 0, given: -1 }]],
    [[{ blocks: 1, mass: 1, shelfDays: 0 }], undefined, ['crops, days', 'outside', { above: 0, given: 0 }]],
    [CROPS, undefined, ['blocks per shelf', 'neededFor', { purpose: 'the costs per shelf day' }]],
    [CROPS, NaN, ['blocks per shelf', 'outside', { above: 0, given: NaN }]],
    [
      [{ blocks: 1, mass: 1, shelfDays: undefined, at: 7 }],
      20,
      ['crops, days', 'neededFor', { purpose: 'the costs per shelf day' }, { at: 7 }],
    ],
  ])('refuses %p with %p blocks a shelf', (crops, blocksPerShelf, refusal) => {
    expectFault(() => cropCosts([{ amount: 0.2, per: 'shelf day' }], crops, blocksPerShelf), refusal);
  });
});

describe('costPerMass(cost, mass)', () => {
  test('is cost over mass, and refuses no mass', () => {
    expect(costPerMass(560, 80)).toBe(7);
    expectFault(() => costPerMass(560, 0, { at: 3 }), ['crops, total', 'noMass', {}, { at: 3 }]);
  });
});
