import { describe, expect, test } from '@jest/globals';
import { mixCost } from '../../../src/maths/substrate/mixCost';
import { expectFault } from '../expectFault';

const BATCH = { blocks: 40, blockMass: 2.5, moisture: 0.6, spare: 0, spawnRate: 0 };
const recipe = [
  { share: 0.8, moisture: 0.2, pack: undefined, cost: 0.08 },
  { share: 0.2, moisture: 0.1, pack: undefined, cost: 0.36 },
];

describe('mixCost(recipe, batch) gives the cost of a block and of dry matter', () => {
  // By hand: 40 kg × 0.08 + 80/9 kg × 0.36 = 6.40 for 40 blocks and 40 kg dry
  test('6.40 for 40 blocks', () => {
    expect(mixCost(recipe, BATCH)).toEqual({
      perBlock: expect.closeTo(0.16, 12),
      perDryMass: expect.closeTo(0.16, 12),
    });
  });

  test('spare adds to the block but not to the dry matter', () => {
    const cost = mixCost(recipe, { ...BATCH, spare: 0.1 });
    expect(cost.perBlock).toBeCloseTo(0.176, 12);
    expect(cost.perDryMass).toBeCloseTo(0.16, 12);
  });

  test('refuses a negative cost', () => {
    expectFault(
      () => mixCost([{ ...recipe[0]!, share: 1, cost: -1, at: 4 }], BATCH),
      ['recipe, cost', 'outside', { from: 0, given: -1 }, { at: 4 }],
    );
  });
});
