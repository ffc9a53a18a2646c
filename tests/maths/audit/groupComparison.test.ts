import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { classicalTest, groupComparison, type Group } from '../../../src/maths/audit/groupComparison';
import { loadDistributions, type Distributions } from '../../../src/maths/shared/distributions';
import nist from '../../reference/nistOneWay.json';
import { expectFault, type Refusal } from '../expectFault';

let distributions: Distributions;
beforeAll(async () => {
  distributions = await loadDistributions();
});

const groupsOf = (sets: Record<string, readonly number[]>): Group[] =>
  Object.entries(sets).map(([name, values]) => ({ name, values }));

// R datasets::PlantGrowth (Dobson 1983): dried weight of plants
const PLANTS = groupsOf({
  ctrl: [4.17, 5.58, 5.18, 6.11, 4.5, 4.61, 5.17, 4.53, 5.33, 5.14],
  trt1: [4.81, 4.17, 4.41, 3.59, 5.87, 3.83, 6.03, 4.89, 4.32, 4.69],
  trt2: [6.31, 5.12, 5.54, 5.5, 5.37, 5.29, 4.92, 6.15, 5.8, 5.26],
});
// R datasets::sleep (Student 1908): extra hours of sleep with two drugs
const SLEEP = groupsOf({
  '1': [0.7, -1.6, -0.2, -1.2, -0.1, 3.4, 3.7, 0.8, 0, 2],
  '2': [1.9, 0.8, 1.1, 0.1, -0.1, 4.4, 5.5, 1.6, 4.6, 3.4],
});

describe('groupComparison(groups, confidence) gives means, Welch’s test and the pairs that differ', () => {
  // R 4.2.2, oneway.test(weight ~ group, PlantGrowth): F = 5.180972, denominator df = 17.1284, p = 0.017393
  test('agrees with R’s Welch test on PlantGrowth', () => {
    const { test: welch } = groupComparison(PLANTS, 0.95, distributions);
    expect(welch!.f).toBeCloseTo(5.180972, 6);
    expect(welch!.freedomWithin).toBeCloseTo(17.1284, 4);
    expect(welch!.p).toBeCloseTo(0.017393, 6);
  });

  // scipy 1.17.1, scipy.stats.tukey_hsd(ctrl, trt1, trt2, equal_var=False), which is Games and Howell's method
  test.each([
    { first: 'ctrl', second: 'trt1', p: 0.47455492219395, low: -0.43008751452243, high: 1.17208751452242 },
    { first: 'ctrl', second: 'trt2', p: 0.11288917685383, low: -1.08855444384752, high: 0.10055444384752 },
    { first: 'trt1', second: 'trt2', p: 0.02370345473894, low: -1.61648701129834, high: -0.11351298870166 },
  ])('agrees with scipy on $first against $second', ({ first, second, p, low, high }) => {
    const pair = groupComparison(PLANTS, 0.95, distributions).pairs.find(
      (one) => one.first === first && one.second === second,
    )!;
    expect(pair.p).toBeCloseTo(p, 11);
    expect(pair.interval![0]).toBeCloseTo(low, 9);
    expect(pair.interval![1]).toBeCloseTo(high, 9);
    expect(pair.differ).toBe(p < 0.05);
  });

  // R 4.2.2, t.test(extra ~ group, sleep); the same figures stand in R's own documentation
  test('of two groups is Welch’s t-test, as R gives it for sleep', () => {
    const { pairs, test: welch } = groupComparison(SLEEP, 0.95, distributions);
    const [pair] = pairs;
    expect(pair!.t).toBeCloseTo(-1.86081346749, 10);
    expect(pair!.freedom).toBeCloseTo(17.77647351618, 10);
    expect(pair!.p).toBeCloseTo(0.07939414019, 10);
    expect(pair!.interval![0]).toBeCloseTo(-3.36548323071, 9);
    expect(pair!.interval![1]).toBeCloseTo(0.20548323071, 9);
    expect(welch!.p).toBeCloseTo(pair!.p!, 7);
    expect(welch!.f).toBeCloseTo(pair!.t! ** 2, 10);
  });

  // NIST/SEMATECH e-Handbook 1.3.5.3, miles per gallon of 249 and 79 cars: T = -12.94627 with 136.8750 degrees of freedom
  // (from memory, reproduced from the published means and deviations). Samples are built to have exactly those.
  test('agrees with the e-Handbook’s two-sample test from its means and deviations', () => {
    const sample = (n: number, mean: number, deviation: number): number[] => {
      const raw = Array.from({ length: n }, (_, i) => i - (n - 1) / 2);
      const size = Math.sqrt(raw.reduce((sum, value) => sum + value * value, 0) / (n - 1));
      return raw.map((value) => mean + (deviation * value) / size);
    };
    const groups = groupsOf({ US: sample(249, 20.14458, 6.4147), Japan: sample(79, 30.48101, 6.10771) });
    const [pair] = groupComparison(groups, 0.95, distributions).pairs;
    expect(pair!.t).toBeCloseTo(-12.94627, 4);
    expect(pair!.freedom).toBeCloseTo(136.875, 3);
  });

  test('a group of one has a mean, no interval, and stands in no test', () => {
    const {
      groups,
      pairs,
      test: welch,
    } = groupComparison([...SLEEP, { name: '3', values: [4] }], 0.95, distributions);
    expect(groups[2]).toEqual({ name: '3', n: 1, mean: 4, interval: undefined });
    expect(pairs).toHaveLength(1);
    expect(welch!.freedomBetween).toBe(1);
  });

  test('equal values have an interval without width, and are judged against a group that has spread', () => {
    const groups = groupsOf({ level: [5, 5, 5], spread: [1, 2, 3], low: [1, 1] });
    const { groups: known, pairs, test: welch } = groupComparison(groups, 0.95, distributions);
    expect(known[0]!.interval).toEqual([5, 5]);
    expect(welch).toBeUndefined();
    // t = 3 / √(1/3) = 5.196 with the two degrees of freedom of the group that spreads
    expect(pairs[0]).toMatchObject({
      first: 'level',
      second: 'spread',
      t: expect.closeTo(5.196152, 6),
      freedom: 2,
    });
    expect(pairs[1]).toMatchObject({ first: 'level', second: 'low', p: undefined, differ: undefined });
  });

  test('one group alone has its mean and interval', () => {
    // mean 2, s 1, t(0.975, 2) = 4.302653: 2 ± 4.302653/√3
    const {
      groups,
      pairs,
      test: welch,
    } = groupComparison([{ name: 'a', values: [1, 2, 3] }], 0.95, distributions);
    expect(groups[0]!.interval![1]).toBeCloseTo(2 + 4.302653 / Math.sqrt(3), 6);
    expect([pairs, welch]).toEqual([[], undefined]);
  });

  const someGroups = fc.array(fc.array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 12 }), {
    minLength: 1,
    maxLength: 6,
  });

  test('a pair differs exactly where its interval leaves 0 out, and intervals hold the difference', () => {
    fc.assert(
      fc.property(someGroups, (sets) => {
        const groups = sets.map((values, i) => ({ name: String(i), values }));
        for (const { interval, difference, differ } of groupComparison(groups, 0.9, distributions).pairs) {
          if (!interval) continue;
          expect(interval[0] <= difference && difference <= interval[1]).toBe(true);
          expect(differ).toBe(interval[0] > 0 || interval[1] < 0);
        }
      }),
    );
  });

  test('does not change its verdicts with the unit of the values', () => {
    fc.assert(
      fc.property(someGroups, (sets) => {
        const inKilograms = sets.map((values, i) => ({ name: String(i), values }));
        const inPounds = inKilograms.map(({ name, values }) => ({
          name,
          values: values.map((value) => value / 0.45359237),
        }));
        const a = groupComparison(inKilograms, 0.95, distributions);
        const b = groupComparison(inPounds, 0.95, distributions);
        a.pairs.forEach((pair, i) => {
          expect(b.pairs[i]!.p ?? -1).toBeCloseTo(pair.p ?? -1, 8);
        });
      }),
    );
  });

  test.each<[Group[], number, Refusal]>([
    [[], 0.95, ['values', 'tooFew', { least: 1, found: 0 }]],
    [groupsOf({ a: [1e308, -1e308], b: [1, 2] }), 0.95, ['values', 'tooLarge']],
    [PLANTS, 95, ['confidence', 'outside', { from: 0.5, to: 0.9999, given: 95 }]],
    [
      Array.from({ length: 61 }, (_, i) => ({ name: String(i), values: [1, 2] })),
      0.95,
      ['groups', 'tooManyGroups', { most: 60, found: 61 }],
    ],
  ])('refuses groups or confidence out of range', (groups, confidence, refusal) => {
    expectFault(() => groupComparison(groups, confidence, distributions), refusal);
  });
});

describe('classicalTest(groups) gives the one-way analysis of variance', () => {
  test.each(Object.entries(nist.sets))('NIST StRD %s to the digits that doubles can give', (_name, set) => {
    const groups = set.groups.map((values, i) => ({
      name: String(i),
      values: values.split(' ').map(Number),
    }));
    const { f } = classicalTest(groups, distributions)!;
    const digits = f === set.f ? 16 : -Math.log10(Math.abs(f / set.f - 1));
    expect(digits).toBeGreaterThan(set.digits - 0.1);
  });

  // R 4.2.2, anova(lm(weight ~ group, PlantGrowth)): F = 4.84609, p = 0.01591
  test('agrees with R on PlantGrowth', () => {
    const { f, p } = classicalTest(PLANTS, distributions)!;
    expect(f).toBeCloseTo(4.84609, 5);
    expect(p).toBeCloseTo(0.01591, 5);
  });

  test('has no answer for one group, single values or no spread', () => {
    expect(classicalTest(groupsOf({ a: [1, 2] }), distributions)).toBeUndefined();
    expect(classicalTest(groupsOf({ a: [1], b: [2] }), distributions)).toBeUndefined();
    expect(classicalTest(groupsOf({ a: [1, 1], b: [2, 2] }), distributions)).toBeUndefined();
  });
});
