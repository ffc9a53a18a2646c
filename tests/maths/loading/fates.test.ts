import { describe, expect, test } from '@jest/globals';
import { drawnFates } from '../../../src/maths/loading/drawnFates';
import { asKnown } from '../../../src/maths/loading/asKnown';
import { fates, normalQuantile, picksUnder, type Spread } from '../../../src/maths/loading/fates';
import type { Lot, StandingLoad } from '../../../src/maths/loading/loadingProblem';
import { instance, START } from './instances';
import { fateOfLoad, fatesSeen } from '../../../src/maths/loading/fatesSeen';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { pattern } from './patterns';

const spread: Spread = { yieldShare: 0.25, pickDays: 1.5, readyDays: 3 };

describe('normalQuantile(share) is the inverse of the normal distribution', () => {
  // NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: critical values of the normal distribution.
  test.each([
    [0.9, 1.281552],
    [0.95, 1.644854],
    [0.975, 1.959964],
    [0.99, 2.326348],
    [0.995, 2.575829],
  ])('%p gives %p', (share, z) => {
    expect(normalQuantile(share)).toBeCloseTo(z, 5);
    expect(normalQuantile(1 - share)).toBeCloseTo(-z, 5);
  });
});

describe('fates(name, spread, flushes, count)', () => {
  test('have a mean yield of what is expected, and nearly the spread asked for', () => {
    for (const name of ['A-1', 'B-2', 'C-3']) {
      const drawn = fates(name, spread, 2, 16);
      const mean = (values: number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;
      const sd = (values: number[]): number =>
        Math.sqrt(mean(values.map((one) => (one - mean(values)) ** 2)));
      expect(mean(drawn.map(({ factor }) => factor))).toBeCloseTo(1, 12);
      expect(sd(drawn.map(({ factor }) => factor))).toBeGreaterThan(0.2);
      expect(sd(drawn.map(({ factor }) => factor))).toBeLessThan(0.3);
      expect(sd(drawn.map(({ shifts }) => shifts[0]!))).toBeGreaterThan(1.1);
      expect(sd(drawn.map(({ shifts }) => shifts[0]!))).toBeLessThan(1.9);
      expect(sd(drawn.map(({ shifts }) => shifts[1]!))).toBeGreaterThan(1.3);
      expect(sd(drawn.map(({ ripensLate }) => ripensLate))).toBeGreaterThan(2.4);
    }
  });

  test('depend on the name alone, and differ from name to name', () => {
    expect(fates('A-1', spread, 2, 16)).toEqual(fates('A-1', spread, 2, 16));
    expect(fates('A-1', spread, 2, 16)).not.toEqual(fates('A-2', spread, 2, 16));
  });

  test('without a spread everything goes as expected', () => {
    const none = { yieldShare: 0, pickDays: 0, readyDays: 0 };
    expect(fates('A-1', none, 2, 3)).toEqual(
      [1, 2, 3].map(() => ({ factor: 1, shifts: [0, 0], ripensLate: 0 })),
    );
  });
});

const curve = pickCurve(pattern({ firstPick: 6, pickDays: 2, flushGap: 10, flushes: 2, shares: [0.6, 0.4] }));

test('picksUnder(curve, mass, fate) moves each flush by its own days and keeps the mass', () => {
  const picks = picksUnder(curve, 10, { factor: 1.5, shifts: [1, 3], ripensLate: 0 }, 2);
  expect(picks).toEqual([
    [9, 4.5],
    [10, 4.5],
    [21, 3],
    [22, 3],
  ]);
});

describe('asKnown(load, start, firstPicked, picked)', () => {
  const load = {
    room: 'North',
    strain: 'Alder-3',
    product: 'Alder-3',
    loaded: 100,
    blocks: 10,
    yieldPerBlock: 1,
    curve,
    spread,
  };

  test('a first flush two days late makes the second two days late', () => {
    const known = asKnown(load, 111, 108, undefined);
    expect(known.curve.shares.flatMap((share, k) => (share > 0 ? [k] : []))).toEqual([8, 9, 18, 19]);
    expect(known.curve.flushes).toEqual([{ start: 18, days: 2, share: 0.4 }]);
    expect(known.yieldPerBlock).toBe(1);
  });

  test('a first flush of half the mass expected takes some of the second, the more of it the more is picked', () => {
    const known = asKnown(load, 111, 106, 3);
    // 60% is picked, so 0.6 / (0.6 + 0.15) = 80% of the difference counts: 1 - 0.8 × 0.5.
    expect(known.yieldPerBlock).toBeCloseTo(0.6, 12);
  });

  test('a load of which nothing is picked when its first flush was due gives it from the start on', () => {
    const known = asKnown(load, 109, undefined, 0);
    expect(known.curve.flushes.map(({ start }) => start)).toEqual([9, 19]);
    expect(known.yieldPerBlock).toBe(1);
  });

  test('a load of which nothing is known stays as it is expected', () => {
    const known = asKnown(load, 103, undefined, undefined);
    expect(known).toEqual(load);
  });
});

describe('fatesSeen(name, spread, flushes, seen, count)', () => {
  const { flushes } = curve;
  const wide = { yieldShare: 0.25, pickDays: 1.5, readyDays: 0 };
  const mean = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value, 0) / values.length;

  test('the day of the first pick is the one seen, and the second flush still differs', () => {
    const seen = fatesSeen('A-1', wide, flushes, [{ until: 9, firstPick: 8, picked: undefined }], 48);
    expect(new Set(seen.map(({ shifts }) => shifts[0]))).toEqual(new Set([2]));
    expect(new Set(seen.map(({ shifts }) => shifts[1])).size).toBeGreaterThan(3);
  });

  test('a load of which nothing is picked keeps only fates in which that is so', () => {
    for (const until of [6, 8, 12]) {
      const seen = fatesSeen('A-2', wide, flushes, [{ until, firstPick: undefined, picked: 0 }], 48);
      expect(Math.min(...seen.map(({ shifts }) => 6 + shifts[0]!))).toBeGreaterThanOrEqual(until);
    }
  });

  // Bayes' rule, added up over a fine grid of yields: log-normal before, and a normal error of what is picked.
  test.each([0.35, 0.6, 0.8])(
    'what is picked moves the yield as Bayes’ rule says: %d of the whole',
    (picked) => {
      const sd = Math.sqrt(Math.log(1 + 0.25 ** 2));
      let [total, weighted] = [0, 0];
      for (let z = -5; z <= 5; z += 0.001) {
        const factor = Math.exp(sd * z - sd ** 2 / 2);
        const error = (picked - 0.6 * factor) ** 2 / (0.15 * 0.25 ** 2 * 0.6 + 1e-4);
        const weight = Math.exp(-0.5 * (z ** 2 + error));
        total += weight;
        weighted += weight * factor;
      }
      const means = Array.from({ length: 20 }, (_, n) =>
        mean(
          fatesSeen(`B-${n}`, wide, flushes, [{ until: 9, firstPick: 6, picked }], 48).map(
            ({ factor }) => factor,
          ),
        ),
      );
      expect(Math.abs(mean(means) - weighted / total)).toBeLessThan(0.02);
    },
  );

  // Two loads of a lot, of which each has given its first flush: the errors of both weigh in Bayes' rule.
  test('what two loads of a lot have given counts together, and the first pick of one tells that of the other', () => {
    const sd = Math.sqrt(Math.log(1 + 0.25 ** 2));
    const [one, other] = [0.4, 0.5];
    let [total, weighted] = [0, 0];
    for (let z = -5; z <= 5; z += 0.001) {
      const factor = Math.exp(sd * z - sd ** 2 / 2);
      const error = (one - 0.6 * factor) ** 2 + (other - 0.6 * factor) ** 2;
      const weight = Math.exp(-0.5 * (z ** 2 + error / (0.15 * 0.25 ** 2 * 0.6 + 1e-4)));
      total += weight;
      weighted += weight * factor;
    }
    const waiting = { until: 2, firstPick: undefined, picked: 0 };
    const drawn = Array.from({ length: 20 }, (_, n) =>
      fatesSeen(
        `C-${n}`,
        wide,
        flushes,
        [{ until: 12, firstPick: 8, picked: one }, { until: 11, firstPick: 8, picked: other }, waiting],
        48,
      ),
    );
    expect(
      Math.abs(mean(drawn.map((fated) => mean(fated.map(({ factor }) => factor)))) - weighted / total),
    ).toBeLessThan(0.02);
    for (const fate of drawn.flat()) expect(fateOfLoad(fate, flushes, waiting).shifts[0]).toBe(2);
  });

  test('where nothing is known they are the fates of any load', () => {
    const seen = [{ until: 9, firstPick: undefined, picked: undefined }];
    expect(fatesSeen('A-3', wide, flushes, seen, 16).length).toBe(16);
    const certain = { yieldShare: 0, pickDays: 0, readyDays: 0 };
    expect(new Set(fatesSeen('A-3', certain, flushes, seen, 4).map(({ factor }) => factor))).toEqual(
      new Set([1]),
    );
  });
});

describe('drawnFates(problem, count)', () => {
  const farm = instance(3, { lots: 4, days: 14, rooms: 2, strains: 2, products: 1 });
  const spread = { yieldShare: 0.25, pickDays: 1.5, readyDays: 2 };
  const [lot, other] = farm.lots.map((one): Lot => ({ ...one, spread })) as [Lot, Lot];
  const standing = (room: string, of: Lot | undefined, loaded: number): StandingLoad => ({
    ...(of ?? lot),
    lot: of?.lot,
    room,
    loaded,
    blocks: 10,
  });

  test('loads of one lot fare alike, and so does what is left of it, which is ripe; others do not', () => {
    const [a, b] = [standing('Room 1', lot, START - 3), standing('Room 2', lot, START - 1)];
    const alone = standing('Room 2', undefined, START - 1);
    const fatesOf = drawnFates({ lots: [lot, other], standing: [a, b, alone] }, 16);
    expect(fatesOf(a)).toEqual(fatesOf(b));
    expect(fatesOf(lot)).toEqual(fatesOf(a).map((fate) => ({ ...fate, ripensLate: 0 })));
    expect(fatesOf(other)).toEqual(
      fates(`lot ${other.lot.toLowerCase()}`, spread, other.curve.flushes.length, 16),
    );
    expect(fatesOf(alone)).not.toEqual(fatesOf(a));
  });

  test('a poor first load of a lot lowers what is expected of the next one and of what is left', () => {
    const first = asKnown(standing('Room 1', lot, START - 12), START, START - 12 + lot.curve.firstPick, 0.1);
    const next = asKnown(standing('Room 2', lot, START - 2), START, undefined, 0);
    const fatesOf = drawnFates({ lots: [lot], standing: [first, next] }, 48);
    for (const load of [next, lot]) {
      const factors = fatesOf(load).map(({ factor }) => factor);
      expect(factors.reduce((sum, factor) => sum + factor, 0) / 48).toBeLessThan(0.8);
    }
  });
});
