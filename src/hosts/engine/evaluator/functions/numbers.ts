import type { CallContext, NumberTotals } from '../builtIn';
import { toNumber } from '../coercion';
import { isError, isMatrix, Lambda, Reference, VALUE, type Argument, type Scalar } from '../values';

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
  for (const one of given) {
    if (one instanceof Reference) context.eachCell(one, take);
    else if (isMatrix(one)) one.forEach((row) => row.forEach(take));
    else if (one instanceof Lambda) throw VALUE;
    else if (one !== undefined) numbers.push(toNumber(one));
    else numbers.push(0);
  }
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
