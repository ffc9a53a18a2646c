import { describe, expect, test } from '@jest/globals';
import { mixMoisture } from '../../../src/maths/substrate/mixMoisture';
import { expectFault, type Refusal } from '../expectFault';

describe('mixMoisture(masses, moistures, water) gives the moisture of what is in the mixer', () => {
  // Richard, T., Cornell Waste Management Institute, moisture of a compost mix: 10 kg of clippings at 77% come to 60%
  // with 6.8 kg of leaves at 35%
  test('10 kg at 77% and 6.8 kg at 35% are 60%', () => {
    expect(mixMoisture([10, 6.8], [0.77, 0.35], 0)).toBeCloseTo(0.6, 4);
  });

  // The same source: 10 g of clippings dry to 2.3 g
  test('one ingredient keeps its own moisture', () => {
    expect(mixMoisture([10], [0.77], 0)).toBeCloseTo(0.77, 12);
  });

  test('water counts in full', () => {
    expect(mixMoisture([50], [0], 50)).toBe(0.5);
  });

  test.each<[number[], number[], number, Refusal]>([
    [[1], [0.5], -1, ['water', 'outside', { from: 0, given: -1 }]],
    [[1], [1], 0, ['moistures', 'outside', { from: 0, below: 1, given: 1 }, { index: 0 }]],
    [[], [], 5, ['masses', 'emptyMixer']],
  ])('refuses %p at %p with %p of water', (masses, moistures, water, refusal) => {
    expectFault(() => mixMoisture(masses, moistures, water), refusal);
  });
});
