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

/** Up to so many values are in order sooner than a call of the engine's own sort begins. */
const FEW = 40;

/** The middle value, or the mean of the two in the middle, of one value or more. */
export function median(values: readonly number[]): number {
  return values.length > FEW
    ? middleOf(new Float64Array(values), values.length)
    : middleOf(values.slice(), values.length);
}

/** The same of the first so many of values, which are put in order where they are. */
export function middleOf(values: number[] | Float64Array, count: number): number {
  if (count > FEW && values instanceof Float64Array) values.subarray(0, count).sort();
  else {
    for (let at = 1; at < count; at++) {
      const value = values[at]!;
      let to = at;
      for (; to > 0 && values[to - 1]! > value; to--) values[to] = values[to - 1]!;
      values[to] = value;
    }
  }
  const middle = count >> 1;
  return count % 2 ? values[middle]! : (values[middle - 1]! + values[middle]!) / 2;
}
