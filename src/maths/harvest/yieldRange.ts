import { requireConfidence } from '../shared/checks';
import type { Distributions } from '../shared/distributions';
import { missing } from '../shared/fault';
import { mean, standardDeviation } from '../shared/statistics';

/** What the next lot may give. */
export interface YieldRange {
  readonly low: number;
  readonly mean: number;
  readonly high: number;
  /** How many past lots it is worked out from. */
  readonly lots: number;
}

/**
 * Prediction interval for the next lot from past ones: mean ± t × s × √(1 + 1/n), Student's t with n − 1 degrees of
 * freedom.
 *
 * Not the interval of the mean, which only says where the average lies and is several times shorter. Supposes lots
 * that vary about one level as a normal distribution does; a lower end below 0 is cut at 0, since no lot gives less.
 *
 * @param past efficiencies (or masses) of past lots, two or more, each 0 or more
 * @param coverage probability that the next lot falls inside, 0.5 to 0.9999
 * @throws missing where there are fewer than two past lots
 * @throws invalid where an input is outside its range
 * @source Hahn, G. J., Meeker, W. Q. (1991) Statistical Intervals. Wiley, section 4.7
 */
export function yieldRange(
  past: readonly number[],
  coverage: number,
  distributions: Distributions,
): YieldRange {
  requireConfidence('coverage', coverage);
  const lots = past.length;
  if (lots < 2) throw missing('past', 'tooFew', { least: 2, things: 'lots', found: lots });
  const centre = mean(past);
  const t = distributions.studentHalfWidth(coverage, lots - 1);
  const half = t * standardDeviation(past) * Math.sqrt(1 + 1 / lots);
  return { low: Math.max(0, centre - half), mean: centre, high: centre + half, lots };
}
