import { missing } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { median } from '../shared/statistics';

/** Half of a normal distribution lies within 0.6745 standard deviations of its middle. */
const NORMAL_QUARTILE = 0.6745;
/** A normal distribution's standard deviation over its mean absolute deviation, √(π/2). */
const MEAN_DEVIATION_TO_SIGMA = 1.253314;

/**
 * Modified z-score of each value: how many robust standard deviations it lies from the median.
 *
 * 0.6745 × (value − median) / MAD, MAD being the median of absolute deviations from the median. Unlike a z-score
 * from mean and standard deviation it is not dragged by the outliers it looks for. Where more than half of the
 * values are equal, MAD is 0 and 1.253314 × the mean absolute deviation takes its place as the standard deviation;
 * where all are equal every score is 0.
 *
 * @param values three or more finite numbers
 * @returns one score per value, in order
 * @throws missing where there are fewer than three values
 * @source Iglewicz, B., Hoaglin, D. C. (1993) How to Detect and Handle Outliers. ASQC Quality Press; quoted in the
 * NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17
 */
export function modifiedZScores(values: readonly number[]): number[] {
  if (values.length < 3) {
    throw missing('values', 'tooFew', { least: 3, things: 'values', found: values.length });
  }
  const middle = median(values);
  const deviations = values.map((value) => Math.abs(value - middle));
  const mad = median(deviations);
  const sigma =
    mad > 0
      ? mad / NORMAL_QUARTILE
      : (MEAN_DEVIATION_TO_SIGMA * compensatedSum(deviations)) / deviations.length;
  return values.map((value) => (sigma > 0 ? (value - middle) / sigma : 0));
}
