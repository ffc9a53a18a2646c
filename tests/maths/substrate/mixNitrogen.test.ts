import { describe, expect, test } from '@jest/globals';
import { mixNitrogen } from '../../../src/maths/substrate/mixNitrogen';
import { expectFault } from '../expectFault';

describe('mixNitrogen(dryMasses, nitrogen) gives the nitrogen in the dry matter of a mix', () => {
  // Rynk (1992) NRAES-54, worked example with grass and leaves: 2.3 kg dry grass at 2.4% and 2.6 kg dry leaves at
  // 0.75% hold 0.0552 and 0.0195 kg; from memory, recomputed
  test('grass and leaves hold 1.52%', () => {
    expect(mixNitrogen([2.3, 2.6], [0.024, 0.0075])).toBeCloseTo(0.0747 / 4.9, 12);
  });

  // By hand: 78 oak chip, 20 bran, 1 gypsum, 1 sugar: 0.672%
  test('78 : 20 : 1 : 1 of chip, bran, gypsum and sugar hold 0.672%', () => {
    expect(mixNitrogen([78, 20, 1, 1], [0.0016, 0.02735, 0, 0])).toBeCloseTo(0.00672, 5);
  });

  test('refuses a share outside its range', () => {
    expectFault(
      () => mixNitrogen([1, 1], [0.1, NaN]),
      ['nitrogen', 'outside', { from: 0, to: 1, given: NaN }, { index: 1 }],
    );
  });
});
