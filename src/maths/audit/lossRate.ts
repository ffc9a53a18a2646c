import { requireConfidence, requireNumber, requireWhole } from '../shared/checks';
import type { Distributions } from '../shared/distributions';

/** A share lost and the interval that holds the true rate with the confidence asked for. */
export interface LossRate {
  readonly rate: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The share of units lost, with its Wilson score interval (no continuity correction).
 *
 * centre = (p + z²/2n) / (1 + z²/n), half width = z √(p(1−p)/n + z²/4n²) / (1 + z²/n). Chosen over the plain
 * ±z·√(p(1−p)/n), which is far too short for few units and gives no width at all for none lost.
 *
 * @param lost units lost, a whole number from 0
 * @param total units counted, a whole number from 1, not below `lost`
 * @param confidence 0.5 to 0.9999
 * @throws invalid where an input is outside its range, or more were lost than counted
 * @source Newcombe, R. G. (1998) Two-sided confidence intervals for the single proportion. Statistics in Medicine
 * 17:857–872, method 3
 */
export function lossRate(
  lost: number,
  total: number,
  confidence: number,
  distributions: Distributions,
): LossRate {
  requireWhole('lost', lost, 0);
  requireWhole('total', total, 1);
  requireConfidence('confidence', confidence);
  requireNumber('lost', lost, { to: total }, 'the total');
  const z2 = distributions.normalHalfWidth(confidence) ** 2;
  const rate = lost / total;
  const scale = 1 + z2 / total;
  const centre = (rate + z2 / (2 * total)) / scale;
  const half = Math.sqrt(z2 * ((rate * (1 - rate)) / total + z2 / (4 * total * total))) / scale;
  return {
    rate,
    low: lost === 0 ? 0 : centre - half,
    high: lost === total ? 1 : centre + half,
  };
}
