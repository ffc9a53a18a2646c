import { requireConfidence } from '../shared/checks';
import type { Distributions } from '../shared/distributions';
import { invalid, missing, noConvergence } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { mean, squaredDeviations, variance } from '../shared/statistics';
import { StudentizedRange } from '../shared/studentizedRange';

declare module '../shared/fault' {
  interface FaultDetails {
    tooManyGroups: { readonly most: number; readonly found: number };
    /** Values whose spread is too large to be a number. */
    tooLarge: object;
  }
}

/** The values of one group: a strain's efficiencies. */
export interface Group {
  readonly name: string;
  readonly values: readonly number[];
}

/** What is known of one group. */
export interface GroupSummary {
  readonly name: string;
  readonly n: number;
  readonly mean: number;
  /** Confidence interval of the mean; undefined for a group of one. */
  readonly interval: readonly [low: number, high: number] | undefined;
}

/** A test of the hypothesis that all means are equal. */
export interface EqualMeansTest {
  readonly f: number;
  readonly freedomBetween: number;
  readonly freedomWithin: number;
  readonly p: number;
}

/** Two groups set against each other. */
export interface PairComparison {
  readonly first: string;
  readonly second: string;
  /** Mean of the first less mean of the second. */
  readonly difference: number;
  /** Simultaneous confidence interval of the difference; undefined where the two have no spread to judge by. */
  readonly interval: readonly [low: number, high: number] | undefined;
  readonly t: number | undefined;
  readonly freedom: number | undefined;
  readonly p: number | undefined;
  /** Whether the means differ at the confidence asked for; undefined where it cannot be told. */
  readonly differ: boolean | undefined;
}

export interface GroupComparison {
  /** In the order given. */
  readonly groups: readonly GroupSummary[];
  /** Welch's test; undefined where fewer than two groups have a spread of their own. */
  readonly test: EqualMeansTest | undefined;
  /** Each pair of groups of two values or more. */
  readonly pairs: readonly PairComparison[];
}

const MOST_GROUPS = 60;

/**
 * Groups compared without supposing equal spreads: each mean with its interval, Welch's test that all means are equal,
 * and the pairs that differ by the method of Games and Howell.
 *
 * Chosen over the classical analysis of variance and Tukey's method because strains differ in spread as much as in
 * mean, and in how many lots were grown. A group of one has a mean and nothing else. A group whose values are all
 * equal cannot weigh in Welch's test (its weight would be infinite) and is left out of it. For two groups both
 * methods are Welch's t-test.
 *
 * @param groups at least one, each with a value or more
 * @param confidence 0.5 to 0.9999; the pairs' intervals hold it for all pairs together
 * @throws invalid where the confidence is out of range
 * @throws invalid where there are more than 60 groups, whose 1770 pairs nobody reads
 * @throws missing where there is no group
 * @throws noConvergence where values are so large that their spread is no number
 * @source Welch, B. L. (1951) On the comparison of several mean values: an alternative approach. Biometrika
 * 38:330–336; Games, P. A., Howell, J. F. (1976) Pairwise multiple comparison procedures with unequal N's and/or
 * variances. Journal of Educational Statistics 1:113–125
 */
export function groupComparison(
  groups: readonly Group[],
  confidence: number,
  distributions: Distributions,
): GroupComparison {
  requireConfidence('confidence', confidence);
  if (groups.length === 0) {
    throw missing('values', 'tooFew', { least: 1, things: 'value with its group', found: 0 });
  }
  if (groups.length > MOST_GROUPS) {
    throw invalid('groups', 'tooManyGroups', { most: MOST_GROUPS, found: groups.length });
  }
  const known = groups.map(({ name, values }) => {
    const n = values.length;
    return { name, n, mean: mean(values), variance: n > 1 ? variance(values) : undefined };
  });
  if (!known.every((group) => Number.isFinite(group.mean) && Number.isFinite(group.variance ?? 0))) {
    throw noConvergence('values', 'tooLarge');
  }
  const spread = known.filter((group): group is Known => group.variance !== undefined);
  return {
    groups: known.map((group) => ({
      name: group.name,
      n: group.n,
      mean: group.mean,
      interval:
        group.variance === undefined ? undefined : meanInterval(group as Known, confidence, distributions),
    })),
    test: welchTest(
      spread.filter((group) => group.variance > 0),
      distributions,
    ),
    pairs: gamesHowell(spread, confidence, distributions),
  };
}

interface Known {
  readonly name: string;
  readonly n: number;
  readonly mean: number;
  readonly variance: number;
}

function meanInterval(group: Known, confidence: number, distributions: Distributions): [number, number] {
  const t = distributions.studentHalfWidth(confidence, group.n - 1);
  const half = t * Math.sqrt(group.variance / group.n);
  return [group.mean - half, group.mean + half];
}

function welchTest(groups: readonly Known[], distributions: Distributions): EqualMeansTest | undefined {
  const k = groups.length;
  if (k < 2) return undefined;
  const weights = groups.map(({ n, variance }) => n / variance);
  const total = compensatedSum(weights);
  const centre =
    groups[0]!.mean +
    compensatedSum(groups.map((group, i) => weights[i]! * (group.mean - groups[0]!.mean))) / total;
  const between =
    compensatedSum(groups.map((group, i) => weights[i]! * (group.mean - centre) ** 2)) / (k - 1);
  const imbalance = compensatedSum(groups.map(({ n }, i) => (1 - weights[i]! / total) ** 2 / (n - 1)));
  const f = between / (1 + (2 * (k - 2) * imbalance) / (k * k - 1));
  const freedomWithin = (k * k - 1) / (3 * imbalance);
  return { f, freedomBetween: k - 1, freedomWithin, p: distributions.fisherAbove(f, k - 1, freedomWithin) };
}

function gamesHowell(
  groups: readonly Known[],
  confidence: number,
  distributions: Distributions,
): PairComparison[] {
  const range = new StudentizedRange(groups.length, distributions);
  return groups.flatMap((first, i) =>
    groups.slice(i + 1).map((second) => comparePair(first, second, range, confidence)),
  );
}

function comparePair(
  first: Known,
  second: Known,
  range: StudentizedRange,
  confidence: number,
): PairComparison {
  const difference = first.mean - second.mean;
  const [a, b] = [first.variance / first.n, second.variance / second.n];
  const names = { first: first.name, second: second.name, difference };
  if (!(a + b > 0)) {
    return {
      ...names,
      interval: undefined,
      t: undefined,
      freedom: undefined,
      p: undefined,
      differ: undefined,
    };
  }
  const error = Math.sqrt(a + b);
  const share = a / (a + b);
  const freedom = 1 / (share ** 2 / (first.n - 1) + (1 - share) ** 2 / (second.n - 1));
  const t = difference / error;
  const p = range.above(Math.SQRT2 * Math.abs(t), freedom);
  const half = (range.within(confidence, freedom) / Math.SQRT2) * error;
  const interval = [difference - half, difference + half] as const;
  return { ...names, interval, t, freedom, p, differ: p < 1 - confidence };
}

/**
 * The classical one-way analysis of variance: F of the variation between groups over that within them. Supposes equal
 * spreads; given beside Welch's test for comparison with published tables.
 *
 * @param groups two or more, each with a value or more, more values than groups
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.3
 */
export function classicalTest(
  groups: readonly Group[],
  distributions: Distributions,
): EqualMeansTest | undefined {
  const all = groups.flatMap(({ values }) => values);
  const [freedomBetween, freedomWithin] = [groups.length - 1, all.length - groups.length];
  if (freedomBetween < 1 || freedomWithin < 1) return undefined;
  const within = compensatedSum(groups.map(({ values }) => squaredDeviations(values)));
  if (!(within > 0)) return undefined;
  const base = all[0]!;
  const means = groups.map(({ values }) => mean(values.map((value) => value - base)));
  const centre = mean(all.map((value) => value - base));
  const between = compensatedSum(groups.map(({ values }, i) => values.length * (means[i]! - centre) ** 2));
  const f = between / freedomBetween / (within / freedomWithin);
  return { f, freedomBetween, freedomWithin, p: distributions.fisherAbove(f, freedomBetween, freedomWithin) };
}
