import { compensatedSum } from './numeric';

/** Deviations from the first value: exact for values close together, so that no digit is lost to a large offset. */
function shifted(values: readonly number[]): number[] {
  const base = values[0]!;
  return values.map((value) => value - base);
}

/** Arithmetic mean of one value or more, to the last digits whatever the offset. */
export function mean(values: readonly number[]): number {
  return values[0]! + compensatedSum(shifted(values)) / values.length;
}

/**
 * Sum of squared deviations from the mean: two passes over the shifted values with compensated sums, less the
 * square of what the rounded mean leaves over.
 *
 * @source Chan, T. F., Golub, G. H., LeVeque, R. J. (1983) Algorithms for computing the sample variance. The American
 * Statistician 37:242–247, corrected two-pass algorithm
 */
export function squaredDeviations(values: readonly number[]): number {
  const near = shifted(values);
  const centre = compensatedSum(near) / near.length;
  const deviations = near.map((value) => value - centre);
  const left = compensatedSum(deviations);
  return compensatedSum(deviations.map((deviation) => deviation * deviation)) - (left * left) / near.length;
}

/** Sample variance (divisor n − 1) of two values or more. */
export function variance(values: readonly number[]): number {
  return squaredDeviations(values) / (values.length - 1);
}

/** Sample standard deviation (divisor n − 1) of two values or more. */
export function standardDeviation(values: readonly number[]): number {
  return Math.sqrt(variance(values));
}

/** The middle value, or the mean of the two in the middle, of one value or more. */
export function median(values: readonly number[]): number {
  const sorted = new Float64Array(values).sort();
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
