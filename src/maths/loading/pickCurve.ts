import { requireAtLeast, requireNumber, requirePositive, requireWhole } from '../shared/checks';
import { invalid, missing, shareOf, type Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A strain kept for several flushes without the days between them. */
    noFlushGap: { readonly strain: string; readonly flushes: number };
    /** A strain kept for several flushes without the share of one. */
    noFlushShare: { readonly strain: string; readonly flushes: number; readonly flush: number };
    /** Shares of flushes that add up to nothing, or to more than everything. */
    flushShares: { readonly strain: string; readonly total: Quantity };
  }
}

/** When and how a strain's loaded blocks are picked. */
export interface FlushPattern extends Placed {
  /** As messages name it. */
  readonly strain: string;
  /** Days from load to the first pick, 0 or more. */
  readonly firstPick: number;
  /** Length of a flush in days, above 0. */
  readonly pickDays: number;
  /** Days from one flush's first pick to the next's; needed where there is more than one. */
  readonly flushGap: number | undefined;
  /** Flushes the blocks are kept for; where undefined, up to the last one with a share. */
  readonly flushes: number | undefined;
  /** Share of the total yield in each flush; may be left out where there is one flush. */
  readonly shares: readonly (number | undefined)[];
}

export interface PickCurve {
  /** Share of a block's whole yield picked on each day after loading, entry 0 being the day of loading. */
  readonly shares: readonly number[];
  /** Days on the shelf, the day of loading and the day of the last pick included: the length of `shares`. */
  readonly stay: number;
  /** Day after loading on which the first pick falls. */
  readonly firstPick: number;
  /** Its flushes: first day after loading, number of days, and share of the whole yield. */
  readonly flushes: readonly { readonly start: number; readonly days: number; readonly share: number }[];
}

/**
 * How blocks that give `mass` over all flushes are picked: each day after loading on which something is picked, with
 * its mass. Every load of the family is spread over its days here, except in the checker.
 */
export const picksAfterLoading = ({ shares }: PickCurve, mass: number): (readonly [number, number])[] =>
  shares.flatMap((share, k) => (share > 0 ? [[k, mass * share] as const] : []));

/**
 * Days from loading to the first pick of a flush, in whole days. The day is rounded once, after the gaps are added.
 *
 * @param flush which flush, from 0
 */
export const daysToFlush = (firstPick: number, flushGap: number | undefined, flush: number): number =>
  Math.round(firstPick + flush * (flushGap ?? 0));

/** Less than a billionth of a yield is nothing: spread over days it may vanish from them. */
const LEAST_SHARE = 1e-9;

/** Longest stay on a shelf in days; more is taken for a typing error. */
const LONGEST_STAY = 1000;

/**
 * How the yield of a loaded block falls on the days after loading. Each flush's share is spread evenly over its pick
 * days, and flush n starts first pick + (n − 1) × flush gap days after loading. Days are rounded to whole ones, so
 * that averages from your own records may be used. Flushes that overlap add up. The shares may add up to less than 1:
 * the strain's efficiency counts all flushes, but blocks may be thrown out sooner.
 *
 * @throws missing where the strain has no flush gap or no share for a flush it is kept for
 * @throws invalid where a number is out of range, the shares add up to more than 1, or the stay is over 1000 days
 */
export function pickCurve(pattern: FlushPattern): PickCurve {
  const { strain, firstPick, pickDays, flushGap } = pattern;
  requireAtLeast('strains, first pick', firstPick, 0, pattern);
  requirePositive('strains, pick days', pickDays, pattern);
  const given = pattern.shares.reduce<number>((last, share, n) => (share === undefined ? last : n + 1), 0);
  const flushes = requireWhole('strains, flushes', pattern.flushes ?? Math.max(1, given), 1, pattern);
  if (flushes > 1 && flushGap === undefined) {
    throw missing('strains', 'noFlushGap', { strain, flushes }, pattern);
  }
  const length = Math.max(1, Math.round(pickDays));
  const startOf = (n: number): number => daysToFlush(firstPick, flushGap, n);
  const stay = startOf(flushes - 1) + length;
  requireNumber(
    'strains, last pick',
    stay,
    { to: LONGEST_STAY, unit: 'days' },
    'counted from loading',
    pattern,
  );
  // Flush by flush, so that a typing error of a million flushes stops at the first without a share.
  const flushShares: number[] = [];
  while (flushShares.length < flushes) flushShares.push(shareOfFlush(pattern, flushShares.length, flushes));
  const total = compensatedSum(flushShares);
  if (!(total >= LEAST_SHARE && total <= 1.001)) {
    throw invalid('strains', 'flushShares', { strain, total: shareOf(total) }, pattern);
  }
  return curveOfFlushes(flushShares.map((share, n) => ({ start: startOf(n), days: length, share })));
}

/** The curve of flushes in their order, each spread evenly over its days. Flushes that overlap add up. */
export function curveOfFlushes(flushes: PickCurve['flushes']): PickCurve {
  const stay = flushes.reduce((last, { start, days }) => Math.max(last, start + days), 1);
  const shares = new Array<number>(stay).fill(0);
  for (const { start, days, share } of flushes) {
    for (let k = 0; k < days; k++) shares[start + k]! += share / days;
  }
  return { shares, stay, firstPick: flushes[0]?.start ?? 0, flushes };
}

function shareOfFlush(pattern: FlushPattern, n: number, flushes: number): number {
  const { strain, shares } = pattern;
  const share = shares[n];
  if (share !== undefined) return share;
  if (flushes === 1 && shares.every((one) => one === undefined)) return 1;
  throw missing('strains', 'noFlushShare', { strain, flushes, flush: n + 1 }, pattern);
}
