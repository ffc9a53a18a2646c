import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { shareOf } from '../../../src/maths/shared/fault';
import { carbonToNitrogen } from '../../../src/maths/substrate/carbonToNitrogen';
import { expectFault, type Refusal } from '../expectFault';

describe('carbonToNitrogen(masses, moistures, carbon, nitrogen) gives the C:N of a mix', () => {
  // Rynk (1992) NRAES-54 and Cornell Waste Management Institute: 10 kg of grass (77% water, 2.4% N, 45% C) come to 30:1
  // with 3.5 kg of leaves (35%, 0.75% N, 50% C); from memory, recomputed: 3.474 kg
  test('grass and leaves come to 30:1', () => {
    expect(carbonToNitrogen([10, 3.474], [0.77, 0.35], [0.45, 0.5], [0.024, 0.0075])).toBeCloseTo(30, 2);
    expect(carbonToNitrogen([10, 3.5], [0.77, 0.35], [0.45, 0.5], [0.024, 0.0075])).toBeCloseTo(30, 0);
  });

  // J. Wood Sci. (2020) 66:s10086-020-01935-7 table 3: hardwood chip 0.16% N and 48.79% C is 305:1, a spent bed 0.62%
  // and 44.94% is 72.5:1
  test.each([
    [0.4879, 0.0016, 305],
    [0.4494, 0.0062, 72.5],
  ])('%p carbon over %p nitrogen is %p', (carbon, nitrogen, ratio) => {
    expect(Math.abs(carbonToNitrogen([3], [0.1], [carbon], [nitrogen]) / ratio - 1)).toBeLessThan(0.002);
  });

  // By hand, by dry mass: 78 oak chip, 20 bran, 1 gypsum, 1 sugar: N 0.672%, C 47.48%
  test('78 : 20 : 1 : 1 of chip, bran, gypsum and sugar is 70.7', () => {
    const ratio = carbonToNitrogen(
      [78, 20, 1, 1],
      [0, 0, 0, 0],
      [0.4879, 0.45, 0, 0.421],
      [0.0016, 0.02735, 0, 0],
    );
    expect(ratio).toBeCloseTo(70.7, 1);
  });

  test('carbon and nitrogen may be all there is of the dry mass', () => {
    expect(carbonToNitrogen([2], [0.1], [0.75], [0.25])).toBe(3);
  });

  test('lies between the ratios of its ingredients, whatever their water', () => {
    const ingredient = fc.record({
      mass: fc.double({ min: 0.1, max: 100, noNaN: true }),
      moisture: fc.double({ min: 0, max: 0.8, noNaN: true }),
      carbon: fc.double({ min: 0.3, max: 0.55, noNaN: true }),
      nitrogen: fc.double({ min: 0.001, max: 0.06, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.array(ingredient, { minLength: 1, maxLength: 6 }), (mix) => {
        const ratio = carbonToNitrogen(
          mix.map(({ mass }) => mass),
          mix.map(({ moisture }) => moisture),
          mix.map(({ carbon }) => carbon),
          mix.map(({ nitrogen }) => nitrogen),
        );
        const own = mix.map(({ carbon, nitrogen }) => carbon / nitrogen);
        expect(ratio).toBeGreaterThanOrEqual(Math.min(...own) * (1 - 1e-12));
        expect(ratio).toBeLessThanOrEqual(Math.max(...own) * (1 + 1e-12));
      }),
    );
  });

  test.each<[number[], number[], number[], number[], Refusal]>([
    [[1], [0.1], [0.5], [0], ['nitrogen', 'noNitrogen']],
    [
      [1],
      [0.1],
      [0.5],
      [0.6],
      ['nitrogen', 'moreThanDry', { carbon: shareOf(0.5), nitrogen: shareOf(0.6) }, { index: 0 }],
    ],
    [[1], [0.1], [NaN], [0.1], ['carbon', 'outside', { from: 0, to: 1, given: NaN }, { index: 0 }]],
    [[], [], [], [], ['masses', 'emptyMixer']],
  ])('refuses %#', (masses, moistures, carbon, nitrogen, refusal) => {
    expectFault(() => carbonToNitrogen(masses, moistures, carbon, nitrogen), refusal);
  });
});
