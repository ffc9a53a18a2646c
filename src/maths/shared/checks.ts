import { invalid } from './calcError';

// Every comparison is written so that NaN fails it.

/** Passes a finite number above 0. */
export function requirePositive(argument: string, value: number, index?: number): number {
  if (!(value > 0 && value < Infinity)) throw invalid(argument, 'a number above 0', value, index);
  return value;
}

/** Passes a finite number of `low` or more. */
export function requireAtLeast(argument: string, value: number, low: number, index?: number): number {
  if (!(value >= low && value < Infinity)) throw invalid(argument, `${low} or more`, value, index);
  return value;
}

/** Passes a number from `low` to `high`, both included. */
export function requireWithin(
  argument: string,
  value: number,
  low: number,
  high: number,
  unit = '',
  index?: number,
): number {
  if (!(value >= low && value <= high)) {
    throw invalid(argument, `${low} to ${high}${unit && ` ${unit}`}`, value, index);
  }
  return value;
}

/** Passes a share from 0 to 1, both included. */
export function requireFraction(argument: string, value: number, index?: number): number {
  return requireWithin(argument, value, 0, 1, '', index);
}

/** Passes a share from 0 up to but not 1: a moisture or a loss of 1 leaves nothing to divide by. */
export function requireFractionBelowOne(argument: string, value: number, index?: number): number {
  if (!(value >= 0 && value < 1)) throw invalid(argument, '0 up to less than 1', value, index);
  return value;
}

/** Passes a whole number of `low` or more. */
export function requireWhole(argument: string, value: number, low = 0, index?: number): number {
  if (!(Number.isSafeInteger(value) && value >= low)) {
    throw invalid(argument, `a whole number of ${low} or more`, value, index);
  }
  return value;
}

/** Passes a confidence or coverage: a share from 0.5 to 0.9999. */
export function requireConfidence(argument: string, value: number): number {
  return requireWithin(argument, value, 0.5, 0.9999);
}
