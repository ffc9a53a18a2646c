import type { CallContext, NumberTotals } from '../builtIn';
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
  eachValue(context, given, take, (value) => numbers.push(toNumber(value, context.dateSystem)));
  return numbers;
}

/** What the numbers among arguments come to: as `numbersIn`, and quick for long ranges. @throws ErrorValue */
export function totalsIn(context: CallContext, given: readonly Argument[]): NumberTotals {
  let [sum, count, least, most] = [0, 0, Infinity, -Infinity];
  for (const one of given) {
    if (one instanceof Reference) {
      const totals = context.totalsOf(one);
      sum += totals.sum;
      count += totals.count;
      least = Math.min(least, totals.least);
      most = Math.max(most, totals.most);
      continue;
    }
    for (const number of numbersIn(context, [one])) {
      sum += number;
      count++;
      least = Math.min(least, number);
      most = Math.max(most, number);
    }
  }
  return { sum, count, least, most };
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

/** By the machine's own sort of numbers, several times as quick as one that is told how. */
export const ascending = (numbers: readonly number[]): number[] => [...Float64Array.from(numbers).sort()];

/** As `numbersIn` for AVERAGEA and its like: text held in cells is 0, TRUE is 1. @throws ErrorValue */
export function numbersAndTexts(context: CallContext, given: readonly Argument[]): number[] {
  const numbers: number[] = [];
  const take = (value: Scalar): void => {
    if (value === null) return;
    numbers.push(typeof value === 'string' ? 0 : toNumber(value, context.dateSystem));
  };
  eachValue(context, given, take, (value) => numbers.push(toNumber(value, context.dateSystem)));
  return numbers;
}

/** The numbers among values. @throws ErrorValue the first error among them */
export function numbersOf(values: readonly Scalar[]): number[] {
  const numbers: number[] = [];
  for (const value of values) {
    if (typeof value === 'number') numbers.push(value);
    else if (isError(value)) throw value;
  }
  return numbers;
}
