import { requireCelsius, requireNumber } from '../shared/checks';
import { celsiusOf, missing } from '../shared/fault';
import { HOTTEST_READING, requireReadings } from './readings';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A core that has not come near enough to its medium: the share of the first gap closed, and the least needed. */
    gapStaysOpen: { readonly closed: number; readonly least: number };
    /** Halves of the straightest run whose slopes differ, by this share of the first. */
    curveBends: { readonly change: number; readonly most: number };
    /** Readings too far from their line. */
    readingsScatter: { readonly rSquared: number; readonly least: number };
  }
}

/** How a core follows its heating medium: medium − core = j × (medium − core at first) × 10^(−t / f). */
export interface HeatingFit {
  /** f: minutes in which the gap to the medium shrinks to a tenth. */
  readonly minutesPerTenth: number;
  /** j: the gap at which the straight line starts over the gap there was; above 1 where the core lags. */
  readonly lagFactor: number;
  readonly rSquared: number;
  /** First and last reading (from 0) of the straight part. */
  readonly first: number;
  readonly last: number;
  /** The first of the hottest readings (from 0), where heating ends. */
  readonly hottest: number;
  /** The last reading (from 0) as hot: a core may hold its peak, which is no part of the line. */
  readonly lastHottest: number;
}

/** Readings nearer to the medium than this share of the first gap are left out: their logarithm is mostly noise. */
const LEAST_GAP = 0.01;
/** What a straight part must show: readings, powers of ten the gap shrinks by, likeness of its two halves. */
const LEAST_READINGS = 5;
const LEAST_DROP = 0.5;
const MOST_BEND = 0.1;
const LEAST_R_SQUARED = 0.98;
/** A slope known to one part in a million, squared: no probe tells such runs apart, so the longest is taken. */
const CERTAIN = 1e-12;

/**
 * Heating rate f and lag factor j of a core, from the straight part of its heat-penetration curve.
 *
 * The common logarithm of the gap medium − core falls on a straight line once the core has come out of its lag.
 * Readings are weighted by the gap squared, since a probe errs by so many degrees and not by so many per cent. Of
 * all runs of readings that end with the last usable one, the straight part is the one whose slope is most certain
 * (least standard error). Time counts from the first reading; the medium is taken as steady from there.
 *
 * @param minutes time of each reading, rising
 * @param temperaturesC core temperatures in °C; what follows the hottest reading (cooling) does not count
 * @param mediumC temperature of the steam or water in °C, above every core reading used
 * @throws invalid where a reading or the medium is outside its range
 * @throws missing where no part of the curve is straight: too few readings, too little of the gap closed, or a bend
 * @source Ball, C. O. (1923) Thermal process time for canned food. Bull. Natl. Res. Counc. 7(37); Stoforos, N. G.
 * (2010) Thermal process calculations through Ball's original formula method. Food Eng. Rev. 2:1–16
 */
export function heatingFit(
  minutes: readonly number[],
  temperaturesC: readonly number[],
  mediumC: number,
): HeatingFit {
  requireReadings(minutes, temperaturesC);
  requireCelsius('medium', mediumC, 40, HOTTEST_READING);
  requireNumber('medium', mediumC, { above: celsiusOf(temperaturesC[0]!) }, 'the first reading');
  const firstGap = mediumC - temperaturesC[0]!;
  const gaps: number[] = [];
  const hottest = temperaturesC.reduce((best, t, i) => (t > temperaturesC[best]! ? i : best), 0);
  for (let i = 0; i <= hottest; i++) {
    const gap = mediumC - temperaturesC[i]!;
    if (gap < LEAST_GAP * firstGap) break;
    gaps.push(gap);
  }
  const lastGap = gaps.at(-1)!;
  if (!(Math.log10(firstGap / lastGap) >= LEAST_DROP)) {
    const details = { closed: 1 - lastGap / firstGap, least: 1 - 10 ** -LEAST_DROP };
    throw missing('temperatures', 'gapStaysOpen', details);
  }
  const first = straightestStart(minutes, gaps);
  if (first === undefined) {
    const things = 'readings on the way to the medium';
    throw missing('temperatures', 'tooFew', { least: LEAST_READINGS, things, found: gaps.length });
  }
  const last = gaps.length - 1;
  const line = lineThrough(minutes, gaps, first, last);
  const half = halfWay(gaps, first, last);
  const early = lineThrough(minutes, gaps, first, half);
  const late = lineThrough(minutes, gaps, half, last);
  const bend = Math.abs(late.slope / early.slope - 1);
  if (bend > MOST_BEND) {
    throw missing('temperatures', 'curveBends', { change: bend, most: MOST_BEND });
  }
  if (!(line.rSquared >= LEAST_R_SQUARED && bend <= MOST_BEND)) {
    const details = { rSquared: line.rSquared, least: LEAST_R_SQUARED };
    throw missing('temperatures', 'readingsScatter', details);
  }
  return {
    minutesPerTenth: -1 / line.slope,
    lagFactor: 10 ** (line.middle + line.slope * (minutes[0]! - line.centre)) / firstGap,
    rSquared: line.rSquared,
    first,
    last,
    hottest,
    lastHottest: temperaturesC.lastIndexOf(temperaturesC[hottest]!),
  };
}

/** The start of the run, up to the last gap, whose slope has the least standard error relative to the slope. */
function straightestStart(minutes: readonly number[], gaps: readonly number[]): number | undefined {
  const last = gaps.length - 1;
  // Times and logarithms are taken from the run's end, where the sums start, so that little is lost in them.
  let [w, wx, wy, wxx, wxy, wyy] = [0, 0, 0, 0, 0, 0];
  let best = Infinity;
  let start: number | undefined;
  for (let i = last; i >= 0; i--) {
    const weight = gaps[i]! ** 2;
    const x = minutes[i]! - minutes[last]!;
    const y = Math.log10(gaps[i]! / gaps[last]!);
    w += weight;
    wx += weight * x;
    wy += weight * y;
    wxx += weight * x * x;
    wxy += weight * x * y;
    wyy += weight * y * y;
    const readings = last - i + 1;
    if (readings < LEAST_READINGS || y < LEAST_DROP) continue;
    const sxx = wxx - (wx * wx) / w;
    const sxy = wxy - (wx * wy) / w;
    const syy = wyy - (wy * wy) / w;
    const residual = Math.max(0, syy - (sxy * sxy) / sxx) / (readings - 2);
    const relativeError = (residual * sxx) / (sxy * sxy);
    if (relativeError < best || relativeError <= CERTAIN) {
      best = relativeError;
      start = i;
    }
  }
  return start;
}

/** The reading that parts the run's fall of the logarithm in two. */
function halfWay(gaps: readonly number[], first: number, last: number): number {
  const middle = Math.sqrt(gaps[first]! * gaps[last]!);
  let at = first + 1;
  while (at < last - 1 && gaps[at]! > middle) at++;
  return at;
}

/** The weighted least-squares line of log10(gap) over time: its slope, and its height `middle` at `centre`. */
function lineThrough(
  minutes: readonly number[],
  gaps: readonly number[],
  first: number,
  last: number,
): { slope: number; centre: number; middle: number; rSquared: number } {
  let [w, wx, wy] = [0, 0, 0];
  for (let i = first; i <= last; i++) {
    const weight = gaps[i]! ** 2;
    w += weight;
    wx += weight * minutes[i]!;
    wy += weight * Math.log10(gaps[i]!);
  }
  const centre = wx / w;
  const middle = wy / w;
  let [sxx, sxy, syy] = [0, 0, 0];
  for (let i = first; i <= last; i++) {
    const weight = gaps[i]! ** 2;
    const x = minutes[i]! - centre;
    const y = Math.log10(gaps[i]!) - middle;
    sxx += weight * x * x;
    sxy += weight * x * y;
    syy += weight * y * y;
  }
  return { slope: sxy / sxx, centre, middle, rSquared: Math.min(1, (sxy * sxy) / (sxx * syy)) };
}
