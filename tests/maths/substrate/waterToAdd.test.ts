import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shareOf } from '../../../src/maths/shared/fault';
import { waterToAdd } from '../../../src/maths/substrate/waterToAdd';
import { expectFault, type Refusal } from '../expectFault';

const ingredients = fc.array(
  fc.record({
    mass: fc.double({ min: 0.01, max: 500, noNaN: true }),
    moisture: fc.double({ min: 0, max: 0.5, noNaN: true }),
  }),
  { minLength: 1, maxLength: 8 },
);

describe('waterToAdd(masses, moistures, target) gives the water that brings a mix to a moisture', () => {
  test.each([
    // Richard, T., Cornell Waste Management Institute, moisture of two materials: 10 kg of grass at 77% and leaves at
    // 35% make 60% with 6.8 kg of leaves. Turned round: those two are at 60% and need no water (6.8 is exact).
    { masses: [10, 6.8], moistures: [0.77, 0.35], target: 0.6, water: 0 },
    // Worked by hand: dry 100 × 0.88 + 20 × 0.9 = 106, over 0.4 is 265, less 120 is 145.
    { masses: [100, 20], moistures: [0.12, 0.1], target: 0.6, water: 145 },
    // Wheat bran at 9.89% moisture (USDA SR 20077): dry 88 + 18.022 = 106.022, over 0.4 is 265.055, less 120.
    { masses: [100, 20], moistures: [0.12, 0.0989], target: 0.6, water: 145.055 },
  ])('$masses at $moistures to $target needs $water', ({ masses, moistures, target, water }) => {
    expect(waterToAdd(masses, moistures, target)).toBeCloseTo(water, 10);
  });

  test('keeps the balance: water in and water added is the water out, dry matter unchanged', () => {
    fc.assert(
      fc.property(ingredients, fc.double({ min: 0.5, max: 0.9, noNaN: true }), (mix, target) => {
        const masses = mix.map(({ mass }) => mass);
        const water = waterToAdd(
          masses,
          mix.map(({ moisture }) => moisture),
          target,
        );
        const wet = masses.reduce((sum, mass) => sum + mass, 0) + water;
        const waterIn = mix.reduce((sum, { mass, moisture }) => sum + mass * moisture, 0);
        expect((waterIn + water) / wet / target).toBeCloseTo(1, 12);
      }),
    );
  });

  test.each<[number[], number[], number, Refusal]>([
    [[100], [0.65], 0.6, ['target', 'tooWet', { target: shareOf(0.6), excess: 12.5, wet: 100 }]],
    [[], [], 0.6, ['masses', 'emptyMixer']],
    [[0], [0.1], 0.6, ['masses', 'emptyMixer']],
    [[-1], [0.1], 0.6, ['masses', 'outside', { from: 0, given: -1 }, { index: 0 }]],
    [[1, 2], [0.1], 0.6, ['moistures', 'notAsLong', { other: 'masses', length: 2, found: 1 }]],
    [[1], [1], 0.6, ['moistures', 'outside', { from: 0, below: 1, given: 1 }, { index: 0 }]],
    [[1], [0.1], 1, ['target', 'outside', { from: 0, below: 1, given: 1 }]],
  ])('refuses (%p, %p, %p)', (masses, moistures, target, refusal) => {
    expectFault(() => waterToAdd(masses, moistures, target), refusal);
  });
});
