import type { CallContext } from '../builtIn';
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
