import type { PickCurve } from './pickCurve';
import { tieBreak } from './tieBreak';

/** How far a strain's blocks differ from what is expected of them. */
export interface Spread {
  /** Standard deviation of a load's yield, as a share of its mean. */
  readonly yieldShare: number;
  /** Standard deviation of the day of a flush, in days, counted from the flush before. */
  readonly pickDays: number;
  /** Standard deviation of the day a lot is ripe, in days. */
  readonly readyDays: number;
}

export const NO_SPREAD: Spread = { yieldShare: 0, pickDays: 0, readyDays: 0 };

export const isCertain = ({ yieldShare, pickDays, readyDays }: Spread): boolean =>
  yieldShare === 0 && pickDays === 0 && readyDays === 0;

/** What becomes of a load in one possible season. */
export interface Fate {
  /** Its yield, as a multiple of what is expected. */
  readonly factor: number;
  /** Days by which each of its flushes is late; below 0 early. */
  readonly shifts: readonly number[];
  /** Days by which its lot ripens late; below 0 early. */
  readonly ripensLate: number;
}

/**
 * What may become of a load: `count` fates that together have the strain's spread. Yields are log-normal with a mean
 * of 1, days are normal and rounded, and a late flush makes the next ones late. The draws are spread evenly over the
 * chances (one from each of `count` equal parts), so that few show the whole spread. They depend on the load's name
 * alone: a new lot changes nobody else's.
 */
export function fates(name: string, spread: Spread, flushes: number, count: number): Fate[] {
  if (isCertain(spread)) {
    return Array.from({ length: count }, () => ({
      factor: 1,
      shifts: new Array<number>(flushes).fill(0),
      ripensLate: 0,
    }));
  }
  const normals = (what: string): number[] => evenNormals(`${name}|${what}`, count);
  const sd = Math.sqrt(Math.log(1 + spread.yieldShare ** 2));
  const factors = normals('yield').map((z) => Math.exp(sd * z));
  const mean = factors.reduce((sum, factor) => sum + factor, 0) / count;
  const late = Array.from({ length: flushes }, (_, flush) => normals(`flush ${flush + 1}`));
  const ripe = normals('ripe');
  return factors.map((factor, n) => {
    let days = 0;
    return {
      factor: factor / mean,
      shifts: late.map((zs) => Math.round((days += spread.pickDays * zs[n]!))),
      ripensLate: Math.round(spread.readyDays * ripe[n]!),
    };
  });
}

/** Fates drawn for each that is taken, where something is known of a lot or a load. */
export const CANDIDATES = 8;

/**
 * What may become of a lot that is known to be late: of many fates, those in which it is at least so late are kept,
 * evenly over them. The days count from those it is late by. Where none is so late, it may be ripe on the next day.
 *
 * @param lateBy days by which it is late at least, above 0
 */
export function fatesOfLate(
  name: string,
  spread: Spread,
  flushes: number,
  lateBy: number,
  count: number,
): Fate[] {
  const usual = fates(name, spread, flushes, count);
  const late = fates(name, spread, flushes, CANDIDATES * count)
    .map(({ ripensLate }) => ripensLate - lateBy)
    .filter((days) => days >= 0)
    .sort((a, b) => a - b);
  if (late.length === 0) return usual.map((fate) => ({ ...fate, ripensLate: 0 }));
  const turn = inTurn(`${name}|late`, count);
  return usual.map((fate, n) => ({
    ...fate,
    ripensLate: late[Math.floor(((turn.indexOf(n) + 0.5) / count) * late.length)]!,
  }));
}

/** `count` numbers that are spread like a normal distribution, in an order that the label decides. */
function evenNormals(label: string, count: number): number[] {
  const values = new Array<number>(count).fill(0);
  inTurn(label, count).forEach((n, rank) => (values[n] = normalQuantile((rank + 0.5) / count)));
  return values;
}

/**
 * Of so many possible seasons and more, all show the near days, and one in `step` what comes later: it matters less to
 * what is loaded now.
 */
const FAR = [
  { seasons: 32, near: 21, step: 4 },
  { seasons: 16, near: 42, step: 2 },
] as const;

const farOf = (count: number): (typeof FAR)[number] | undefined =>
  FAR.find(({ seasons, step }) => count >= seasons && count % step === 0);

/** What a day counts for in the n-th of `count` possible seasons: 0 where that season does not show it. */
export function seasonWeight(n: number, count: number, day: number): number {
  const far = farOf(count);
  if (!far || day < far.near) return 1 / count;
  return n % far.step === 0 ? far.step / count : 0;
}

/**
 * The numbers from 0 up to `count` in an order that the label decides. The seasons that show later days are spread
 * evenly over it: one of each few, near the middle of them.
 */
export function inTurn(label: string, count: number): number[] {
  const shuffled = Array.from({ length: count }, (_, n) => ({ n, by: tieBreak(`${label}|${n}`) })).sort(
    (a, b) => a.by - b.by || a.n - b.n,
  );
  const step = farOf(count)?.step ?? 1;
  const far = shuffled.filter(({ n }) => n % step === 0);
  const near = shuffled.filter(({ n }) => n % step !== 0).map(({ n }) => n);
  return far.flatMap(({ n, by }, group) => {
    const others = near.slice(group * (step - 1), (group + 1) * (step - 1));
    const middle = Math.floor((step - 1) / 2) + ((by * 1e6) % 2 < 1 ? 0 : 1);
    return [...others.slice(0, middle), n, ...others.slice(middle)];
  });
}

/**
 * The number below which a share of a standard normal distribution lies, with an error below 2e-9 of it.
 *
 * @param share above 0 and below 1
 * @source Acklam, P. J. (2003) An algorithm for computing the inverse normal cumulative distribution function
 */
export function normalQuantile(share: number): number {
  const a = [
    -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716,
    2.506628277459239,
  ];
  const b = [
    -54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572, 1,
  ];
  const c = [
    -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
    2.938163982698783,
  ];
  const d = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1];
  const at = (terms: readonly number[], x: number): number => terms.reduce((sum, term) => sum * x + term, 0);
  if (share > 0.5) return -normalQuantile(1 - share);
  if (share < 0.02425) {
    const q = Math.sqrt(-2 * Math.log(share));
    return at(c, q) / at(d, q);
  }
  const q = share - 0.5;
  return (at(a, q * q) * q) / at(b, q * q);
}

/**
 * How a load that gives `mass` is picked under a fate: each day after loading, with its mass. A flush keeps its length;
 * one that comes early comes on the day of loading at the soonest.
 *
 * @param openedLate days by which it is opened after the day it was planned for: all is picked so much later
 */
export function picksUnder(
  { flushes }: PickCurve,
  mass: number,
  { factor, shifts }: Fate,
  openedLate = 0,
): (readonly [number, number])[] {
  const picks = new Map<number, number>();
  flushes.forEach(({ start, days, share }, flush) => {
    const from = Math.max(0, start + shifts[flush]! + openedLate);
    for (let k = 0; k < days; k++) {
      picks.set(from + k, (picks.get(from + k) ?? 0) + (mass * factor * share) / days);
    }
  });
  return [...picks].filter(([, one]) => one > 0).sort(([x], [y]) => x - y);
}
