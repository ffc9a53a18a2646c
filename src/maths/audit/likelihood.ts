import { median } from '../shared/statistics';

/** ln of Γ((n + 1) / 2) / (Γ(n / 2) √(n π)) for n = 6 and 8: what makes Student's density sum to 1. */
const SIX = -0.9603;
const EIGHT = -0.9501;

/** ln of Student's density of 6 degrees, `spread` wide. */
export const logTail = (off: number, spread: number): number =>
  SIX - 3.5 * Math.log1p((off / spread) ** 2 / 6) - Math.log(spread);

/** Student's density of 8 degrees, `spread` wide. */
export const tail = (off: number, spread: number): number =>
  Math.exp(EIGHT - 4.5 * Math.log1p((off / spread) ** 2 / 8)) / spread;

/** ln of Student's density at its middle, 1 wide: 1 / √(2 π) less 1 / 4n of it, to a hundredth from n = 2 on. */
export const logMiddle = (degrees: number): number => -0.9189 - 1 / (4 * degrees);

/** Student's density of any degrees, `spread` wide. */
export const student = (off: number, spread: number, degrees: number): number =>
  Math.exp(logMiddle(degrees) - ((degrees + 1) / 2) * Math.log1p((off / spread) ** 2 / degrees)) / spread;

/** 1 / 0.6745: standard deviations to a median absolute deviation. */
export const MAD_TO_SIGMA = 1.4826;

/** Robust spread of deviations, held towards a usual one that counts as much as `weight` deviations. */
export function heldSpread(deviations: readonly number[], usual: number, weight: number): number {
  const own = deviations.length ? MAD_TO_SIGMA * median(deviations.map(Math.abs)) : 0;
  return Math.sqrt((deviations.length * own * own + weight * usual * usual) / (deviations.length + weight));
}

/** Only what cannot be otherwise is fully sure. */
export const NEARLY_SURE = 0.9999;

/** One way that a figure came to be what it is. */
export interface Explanation<T> {
  /** ln of how often it happens × how likely the figure is then. */
  readonly weight: number;
  readonly of: T;
}

/** The likeliest explanation, its share of all, and the share of those that are not "right". */
export function weigh<T>(
  right: number,
  others: readonly Explanation<T>[],
): { best: T | undefined; share: number; wrong: number } {
  let top = right;
  for (const { weight } of others) if (weight > top) top = weight;
  let all = Math.exp(right - top);
  let best: Explanation<T> | undefined;
  let wrong = 0;
  for (const other of others) {
    const part = Math.exp(other.weight - top);
    all += part;
    wrong += part;
    if (!best || other.weight > best.weight) best = other;
  }
  return {
    best: best?.of,
    share: best ? Math.min(NEARLY_SURE, Math.exp(best.weight - top) / all) : 0,
    wrong: Math.min(NEARLY_SURE, wrong / all),
  };
}

/** A book that shows no slip of a kind is taken to have made so many of it. */
const MADE_BEFORE = 1;
const ROUNDS = 8;

/**
 * How often a kind of slip happens in this book, against what was taken before (EM): a clean book raises its own bar.
 * Never more often than before, since tails heavier than they were learnt would pass for slips.
 *
 * @param odds of such a slip against all else, a figure each, as rare as was taken before; figures with hardly any may lack
 * @param expected how many slips of the kind were taken to be in the book
 * @returns ln of the factor
 */
export function learntOften(odds: readonly number[], expected: number): number {
  let often = 1;
  for (let round = 0; round < ROUNDS; round++) {
    let made = MADE_BEFORE;
    for (const one of odds) made += (often * one) / (1 + often * one);
    often = Math.min(1, made / (expected + MADE_BEFORE));
  }
  return Math.log(often);
}

export function grouped<T, K>(things: readonly T[], keyOf: (thing: T) => K): Map<K, T[]> {
  const groups = new Map<K, T[]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const members = groups.get(key);
    if (members) members.push(thing);
    else groups.set(key, [thing]);
  }
  return groups;
}
