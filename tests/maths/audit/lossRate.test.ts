import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { lossRate } from '../../../src/maths/audit/lossRate';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import { expectFault, type Refusal } from '../expectFault';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

describe('lossRate(lost, total, confidence) gives the rate and its Wilson interval', () => {
  // Newcombe, R. G. (1998) Statistics in Medicine 17:857–872, Table I, method 3 (from memory, reproduced with R)
  test.each([
    { lost: 81, total: 263, low: 0.2553, high: 0.3662 },
    { lost: 15, total: 148, low: 0.0624, high: 0.1605 },
    { lost: 0, total: 20, low: 0, high: 0.1611 },
    { lost: 1, total: 29, low: 0.0061, high: 0.1718 },
  ])('$lost of $total: $low to $high at 95%', ({ lost, total, low, high }) => {
    const interval = lossRate(lost, total, 0.95, distributions);
    expect(interval.low).toBeCloseTo(low, 4);
    expect(interval.high).toBeCloseTo(high, 4);
  });

  // R 4.2.2, prop.test(correct = FALSE)
  test.each([
    { lost: 81, total: 263, low: 0.2552885199, high: 0.366209577 },
    { lost: 15, total: 148, low: 0.06238639953, high: 0.16048724172 },
    { lost: 4, total: 20, low: 0.08065766258, high: 0.41601743225 },
    { lost: 29, total: 29, low: 0.8830302015, high: 1 },
  ])('$lost of $total agrees with R to ten decimals', ({ lost, total, low, high }) => {
    const interval = lossRate(lost, total, 0.95, distributions);
    expect(interval.low).toBeCloseTo(low, 10);
    expect(interval.high).toBeCloseTo(high, 9);
  });

  const counts = fc
    .integer({ min: 1, max: 100_000 })
    .chain((total) => fc.tuple(fc.integer({ min: 0, max: total }), fc.constant(total)));

  test('holds the rate, stays within 0 to 1, and mirrors for what was not lost', () => {
    fc.assert(
      fc.property(counts, ([lost, total]) => {
        const { rate, low, high } = lossRate(lost, total, 0.9, distributions);
        expect(0 <= low && low <= rate && rate <= high && high <= 1).toBe(true);
        const kept = lossRate(total - lost, total, 0.9, distributions);
        expect(kept.low).toBeCloseTo(1 - high, 12);
      }),
    );
  });

  // The interval's ends are where the score test just fails: (p̂ − p)² = z² p (1 − p) / n
  test('ends where the score test just rejects', () => {
    fc.assert(
      fc.property(counts, ([lost, total]) => {
        const { rate, low, high } = lossRate(lost, total, 0.95, distributions);
        for (const end of [low, high]) {
          const score = (rate - end) ** 2 - (1.959963984540054 ** 2 * end * (1 - end)) / total;
          expect(Math.abs(score)).toBeLessThan(1e-12);
        }
      }),
    );
  });

  test.each<[number, number, number, Refusal]>([
    [-1, 10, 0.95, ['lost', 'outside', { from: 0, whole: true, given: -1 }]],
    [0, 0, 0.95, ['total', 'outside', { from: 1, whole: true, given: 0 }]],
    [11, 10, 0.95, ['lost', 'outside', { to: 10, given: 11, what: 'the total' }]],
    [1, 10, 95, ['confidence', 'outside', { from: 0.5, to: 0.9999, given: 95 }]],
    [1, 10, NaN, ['confidence', 'outside', { from: 0.5, to: 0.9999, given: NaN }]],
  ])('refuses (%p, %p, %p)', (lost, total, confidence, refusal) => {
    expectFault(() => lossRate(lost, total, confidence, distributions), refusal);
  });
});
