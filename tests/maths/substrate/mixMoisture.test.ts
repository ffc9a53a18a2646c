import { describe, expect, test } from '@jest/globals';
import { mixMoisture } from '../../../src/maths/substrate/mixMoisture';

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

  test.each([
    [[1], [0.5], -1, 'water: 0 or more needed, got -1'],
    [[1], [1], 0, 'moistures: 0 up to less than 1 needed, got 1'],
    [[], [], 5, 'masses: nothing in the mixer'],
  ])('refuses %p at %p with %p of water', (masses, moistures, water, message) => {
    expect(() => mixMoisture(masses, moistures, water)).toThrow(message);
  });
});
