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

  // By hand: 110 kg wanted are 100 kg of substrate at 6.40 and 10 kg of spawn at 3, for 44 blocks
  test('spawn adds to the block but not to the dry matter', () => {
    const cost = mixCost(recipe, { ...BATCH, blocks: 44, spawnRate: 0.1 }, 3);
    expect(cost.perBlock).toBeCloseTo(36.4 / 44, 12);
    expect(cost.perDryMass).toBeCloseTo(0.16, 12);
  });

  test('a spawn rate and its price go together, and a price may be 0', () => {
    const spawned = { ...BATCH, spawnRate: 0.1 };
    expectFault(() => mixCost(recipe, spawned), ['spawn price', 'onlyWith', { other: 'spawn rate' }]);
    expectFault(() => mixCost(recipe, BATCH, 3), ['spawn rate', 'onlyWith', { other: 'spawn price' }]);
    expectFault(() => mixCost(recipe, spawned, -1), ['spawn price', 'outside', { from: 0, given: -1 }]);
    expect(mixCost(recipe, spawned, 0).perBlock).toBeCloseTo(0.16 / 1.1, 12);
  });

  test('refuses a negative cost', () => {
    expectFault(
      () => mixCost([{ ...recipe[0]!, share: 1, cost: -1, at: 4 }], BATCH),
      ['recipe, cost', 'outside', { from: 0, given: -1 }, { at: 4 }],
    );
  });
});
