import { requireConfidence, requirePositive } from '../shared/checks';
import type { Distributions } from '../shared/distributions';
import { missing, type Placed } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';

/** What a lot earned over its costs, and the shelf time it took. */
export interface LotMargin extends Placed {
  readonly margin: number;
  /** Shelves times days. */
  readonly shelfDays: number;
}

/** Margin per shelf and day of several lots together. */
export interface ShelfDayMargin {
  readonly perShelfDay: number;
  /** Confidence interval over lots; undefined for one lot. */
  readonly interval: readonly [low: number, high: number] | undefined;
}

/**
 * Margin per shelf and day: all margins over all shelf days, with a confidence interval over lots.
 *
 * The ratio of sums, not the mean of ratios: a lot counts for the shelf time it took. Interval: ± t × √(n/(n−1) ×
 * Σ(margin − ratio × shelf days)²) / Σ shelf days, Student's t with n − 1 degrees of freedom; rough below ten lots.
 *
 * @param lots one or more, shelf days above 0
 * @param confidence 0.5 to 0.9999
 * @throws invalid where an input is out of range
 * @throws missing where there is no lot
 * @source Cochran, W. G. (1977) Sampling Techniques, 3rd edition. Wiley, chapter 6: the ratio estimate and its variance
 * (from memory, unverified)
 */
export function shelfDayMargin(
  lots: readonly LotMargin[],
  confidence: number,
  distributions: Distributions,
): ShelfDayMargin {
  requireConfidence('confidence', confidence);
  if (lots.length === 0) {
    throw missing('crops', 'tooFew', { least: 1, things: 'lot with a total and days', found: 0 });
  }
  for (const lot of lots) requirePositive('crops, days', lot.shelfDays, lot);
  const n = lots.length;
  const shelfDays = compensatedSum(lots.map((lot) => lot.shelfDays));
  const perShelfDay = compensatedSum(lots.map(({ margin }) => margin)) / shelfDays;
  if (n === 1) return { perShelfDay, interval: undefined };
  const squares = compensatedSum(lots.map((lot) => (lot.margin - perShelfDay * lot.shelfDays) ** 2));
  const t = distributions.studentHalfWidth(confidence, n - 1);
  const half = (t * Math.sqrt((n / (n - 1)) * squares)) / shelfDays;
  return { perShelfDay, interval: [perShelfDay - half, perShelfDay + half] };
}
