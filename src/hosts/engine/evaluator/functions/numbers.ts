import type { CallContext } from '../builtIn';
import { toNumber } from '../coercion';
import { isError, isMatrix, Lambda, Reference, VALUE, type Argument, type Scalar } from '../values';

/**
 * Visits the values among arguments of kind `range`: `held` for what cells and blocks hold, `written` for what the
 * formula itself says.
 */
export function eachValue(
  context: CallContext,
  given: readonly Argument[],
  held: (value: Scalar) => void,
  written: (value: Scalar) => void,
): void {
  for (const one of given) {
    if (one instanceof Reference) context.eachCell(one, (value) => held(value));
    else if (isMatrix(one)) one.forEach((row) => row.forEach(held));
    else if (one instanceof Lambda) throw VALUE;
    else written(one ?? null);
  }
}

/**
 * The numbers among arguments of kind `range`, as SUM, AVERAGE, MIN and their like see them: of cells and blocks only
 * what are numbers; of values written in the formula also TRUE, FALSE and text that reads as a number.
 * @throws ErrorValue the first error met, #VALUE! for other text written in the formula
 */
export function numbersIn(context: CallContext, given: readonly Argument[]): number[] {
  const numbers: number[] = [];
  const take = (value: Scalar): void => {
    if (typeof value === 'number') numbers.push(value);
    else if (isError(value)) throw value;
  };
  eachValue(context, given, take, (value) => numbers.push(toNumber(value)));
  return numbers;
}

/** As `numbersIn` for AVERAGEA and its like: text held in cells is 0, TRUE is 1. @throws ErrorValue */
export function numbersAndTexts(context: CallContext, given: readonly Argument[]): number[] {
  const numbers: number[] = [];
  const take = (value: Scalar): void => {
    if (value === null) return;
    numbers.push(typeof value === 'string' ? 0 : toNumber(value));
  };
  eachValue(context, given, take, (value) => numbers.push(toNumber(value)));
  return numbers;
}

/** The numbers of two blocks of the same count, pairs without two numbers passed over. @throws ErrorValue #N/A */
export function numbersOf(values: readonly Scalar[]): number[] {
  const numbers: number[] = [];
  for (const value of values) {
    if (typeof value === 'number') numbers.push(value);
    else if (isError(value)) throw value;
  }
  return numbers;
}

export const sumOf = (numbers: readonly number[]): number => {
  let sum = 0;
  for (const number of numbers) sum += number;
  return sum;
};

export const meanOf = (numbers: readonly number[]): number => sumOf(numbers) / numbers.length;

/** The sum of squared deviations from the mean. */
export function squaresOf(numbers: readonly number[]): number {
  const mean = meanOf(numbers);
  let sum = 0;
  for (const number of numbers) sum += (number - mean) ** 2;
  return sum;
}

export const ascending = (numbers: readonly number[]): number[] => [...numbers].sort((a, b) => a - b);
