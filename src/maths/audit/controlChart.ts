import { requireNumber, requireWhole } from '../shared/checks';
import { missing, type Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { mean } from '../shared/statistics';

/** One point of a control chart. */
export interface ChartPoint {
  /** What is plotted; undefined for the first moving range, which has nothing before it. */
  readonly plotted: number | undefined;
  readonly centre: number;
  readonly low: number;
  readonly high: number;
  /** Run rules that this point completes, by their published names. */
  readonly broken: readonly string[];
}

/** Units counted at one point, and how many of them were lost. */
export interface Sample extends Placed {
  /** A whole number from 0, not above `size`. */
  readonly lost: number;
  /** A whole number from 1. */
  readonly size: number;
}

/** Mean moving range of two over the standard deviation, and the upper limit of moving ranges, as tabled for n = 2. */
const D2 = 1.128;
const D4 = 3.267;

/**
 * Chart of single values: centre x̄, limits x̄ ± 3 × mean moving range / 1.128, with the Western Electric run rules.
 *
 * The spread comes from neighbours in time, not from the standard deviation of all values, so that a drift does not
 * widen the limits that should show it.
 *
 * @param values readings in the order they were taken, two or more
 * @throws missing where there are fewer than two values
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2 (limits) and 6.3.2 (run rules); Western Electric
 * (1956) Statistical Quality Control Handbook
 */
export function individualsChart(values: readonly number[]): ChartPoint[] {
  const centre = mean(values.length > 0 ? values : [0]);
  const sigma = meanMovingRange(values) / D2;
  const sides = values.map((value) => sideOf(value, centre, sigma));
  return values.map((value, i) => ({
    plotted: value,
    centre,
    low: centre - 3 * sigma,
    high: centre + 3 * sigma,
    broken: brokenAt(sides, i),
  }));
}

/**
 * Chart of the distance between neighbouring values: centre MR̄, limits 0 and 3.267 × MR̄. Only the rule of one point
 * beyond the limit is judged: neighbouring ranges share a value, so runs among them mean nothing.
 *
 * @param values readings in the order they were taken, two or more
 * @throws missing where there are fewer than two values
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.2
 */
export function movingRangeChart(values: readonly number[]): ChartPoint[] {
  const centre = meanMovingRange(values);
  const high = D4 * centre;
  return values.map((value, i) => {
    const plotted = i === 0 ? undefined : Math.abs(value - values[i - 1]!);
    return { plotted, centre, low: 0, high, broken: plotted! > high ? [RULES[0]!.above] : [] };
  });
}

/**
 * Chart of shares lost. The centre is p̄ = all lost / all counted; the limits are p̄ ± 3 √(p̄(1 − p̄)/n) for each
 * point's own n, cut at 0 and 1. The Western Electric run rules look at (p − p̄) over its own standard deviation.
 *
 * Supposes that units are lost independently; blocks that sour together in one room spread more than these limits.
 *
 * @param samples in the order they were counted
 * @throws invalid where an input is out of range, or more were lost than counted
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.3.2
 */
export function proportionsChart(samples: readonly Sample[]): ChartPoint[] {
  for (const sample of samples) {
    requireWhole('values', sample.lost, 0, sample);
    requireWhole('sizes', sample.size, 1, sample);
    requireNumber('values', sample.lost, { to: sample.size }, 'the size of the sample', sample);
  }
  const total = compensatedSum(samples.map(({ size }) => size));
  const centre = total > 0 ? compensatedSum(samples.map(({ lost }) => lost)) / total : 0;
  const sigmas = samples.map(({ size }) => Math.sqrt((centre * (1 - centre)) / size));
  const sides = samples.map(({ lost, size }, i) => sideOf(lost / size, centre, sigmas[i]!));
  return samples.map(({ lost, size }, i) => ({
    plotted: lost / size,
    centre,
    low: Math.max(0, centre - 3 * sigmas[i]!),
    high: Math.min(1, centre + 3 * sigmas[i]!),
    broken: brokenAt(sides, i),
  }));
}

/** A few last bits: what a mean and a difference may be off by. */
const ROUNDING = 4 * Number.EPSILON;

/**
 * Standard deviations from the centre, rounded to the last bits of the values: a point on a line lies on neither side of
 * it, though the mean is off by its last bit.
 */
function sideOf(value: number, centre: number, sigma: number): number {
  if (!(sigma > 0)) return 0;
  const side = (value - centre) / sigma;
  const line = Math.round(side);
  const error = ROUNDING * (Math.max(Math.abs(value), Math.abs(centre)) / sigma + Math.abs(side));
  return Math.abs(side - line) <= error ? line : side;
}

function meanMovingRange(values: readonly number[]): number {
  if (values.length < 2) {
    throw missing('values', 'tooFew', { least: 2, things: 'readings', found: values.length });
  }
  return (
    compensatedSum(values.slice(1).map((value, i) => Math.abs(value - values[i]!))) / (values.length - 1)
  );
}

/** The Western Electric rules: `needed` of the last `of` points beyond `sigma` on one side, the last among them. */
const RULES = [
  { needed: 1, of: 1, sigma: 3, above: 'above +3 sigma', below: 'below -3 sigma' },
  {
    needed: 2,
    of: 3,
    sigma: 2,
    above: '2 of the last 3 points above +2 sigma',
    below: '2 of the last 3 points below -2 sigma',
  },
  {
    needed: 4,
    of: 5,
    sigma: 1,
    above: '4 of the last 5 points above +1 sigma',
    below: '4 of the last 5 points below -1 sigma',
  },
  {
    needed: 8,
    of: 8,
    sigma: 0,
    above: '8 consecutive points above the centre',
    below: '8 consecutive points below the centre',
  },
];

function brokenAt(sides: readonly number[], i: number): string[] {
  return RULES.flatMap(({ needed, of, sigma, above, below }) =>
    [1, -1].flatMap((side) => {
      const beyond = (at: number): boolean => side * sides[at]! > sigma;
      if (!beyond(i)) return [];
      let found = 0;
      for (let at = Math.max(0, i - of + 1); at <= i; at++) if (beyond(at)) found++;
      return found >= needed ? [side > 0 ? above : below] : [];
    }),
  );
}
