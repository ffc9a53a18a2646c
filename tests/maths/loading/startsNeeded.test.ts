import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { chanceOfEnough, startsNeeded } from '../../../src/maths/loading/startsNeeded';
import { expectFault, type Refusal } from '../expectFault';

const goods = fc.integer({ min: 1, max: 5000 });
const losses = fc.integer({ min: 0, max: 60 }).map((percent) => percent / 100);

/** The binomial chance term by term, each from its own product of factors. */
function binomialChance(starts: number, good: number, loss: number): number {
  let chance = 0;
  for (let lost = 0; lost <= starts - good; lost++) {
    let term = (1 - loss) ** (starts - lost);
    for (let k = 0; k < lost; k++) term *= (loss * (starts - k)) / (k + 1);
    chance += term;
  }
  return chance;
}

describe('startsNeeded(good, loss, confidence) gives the fewest units to start', () => {
  // By hand: 21 / 0.7 is 30 exactly, though 21 / (1 - 0.3) in floating point is just above.
  test.each([
    [21, 0.3, 30],
    [320, 0.04, 334],
    [28, 0.03, 29],
    [100, 0.05, 106],
    [13, 0.35, 20],
    [0, 0.2, 0],
  ])('%d good at %d lost: %d', (good, loss, starts) => {
    expect(startsNeeded(good, loss)).toBe(starts);
  });

  test('enough are good on average, and with one fewer they are not', () => {
    fc.assert(
      fc.property(goods, losses, (good, loss) => {
        const kept = BigInt(1_000_000 - Math.round(loss * 1_000_000));
        const starts = BigInt(startsNeeded(good, loss));
        expect(starts * kept >= BigInt(good) * 1_000_000n).toBe(true);
        expect((starts - 1n) * kept < BigInt(good) * 1_000_000n).toBe(true);
      }),
    );
  });

  test('with a confidence the chance is reached, and with one fewer it is not', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 60 }),
        losses,
        fc.constantFrom(0.5, 0.8, 0.9, 0.99),
        (good, loss, c) => {
          fc.pre(loss > 0);
          const starts = startsNeeded(good, loss, c);
          expect(binomialChance(starts, good, loss)).toBeGreaterThanOrEqual(c - 1e-9);
          expect(binomialChance(starts - 1, good, loss)).toBeLessThan(c + 1e-9);
          expect(startsNeeded(good, loss, c + 0.005)).toBeGreaterThanOrEqual(starts);
        },
      ),
    );
  });

  test('chances of a fair coin are those counted by hand', () => {
    expect(chanceOfEnough(3, 2, 0.5)).toBeCloseTo(4 / 8, 12);
    expect(chanceOfEnough(4, 4, 0.5)).toBeCloseTo(1 / 16, 12);
    expect(chanceOfEnough(2, 3, 0.5)).toBe(0);
  });

  test.each<[number, number, number | undefined, Refusal]>([
    [1.5, 0.1, undefined, ['units', 'outside', { from: 0, whole: true, given: 1.5 }]],
    [5, 1, undefined, ['loss', 'outside', { from: 0, below: 1, given: 1 }]],
    [5, 0.999_999_9, undefined, ['loss', 'outside', { from: 0, below: 0.999_999_5, given: 0.999_999_9 }]],
    [5, 0.1, 1, ['confidence', 'outside', { from: 0, below: 1, given: 1 }]],
    [5, NaN, undefined, ['loss', 'outside', { from: 0, below: 1, given: NaN }]],
  ])('refuses (%p, %p, %p)', (good, loss, confidence, refusal) => {
    expectFault(() => startsNeeded(good, loss, confidence), refusal);
  });
});
