import type { BuiltIn, CallContext } from '../builtIn';
import {
  DIVIDED_BY_ZERO,
  isError,
  isMatrix,
  NUM,
  Reference,
  VALUE,
  type Argument,
  type ErrorValue,
  type Scalar,
  type Value,
} from '../values';
import {
  deviation,
  least,
  median,
  mode,
  most,
  nth,
  percentile,
  percentileExclusive,
  variance,
  wholeDeviation,
  wholeVariance,
} from './averages';
import { define, type Given } from './define';
import { meanOf, sumOf } from './numbers';

// Totals that pass over hidden rows, other totals and errors. Definitions: ISO/IEC 29500-1:2016, 18.17.7, SUBTOTAL,
// and the vendor's reference of AGGREGATE.

interface Passes {
  readonly hiddenByHand: boolean;
  readonly filtered: boolean;
  readonly totals: boolean;
  readonly errors: boolean;
}

/** A formula that is itself a total anywhere in it. */
const isTotal = (formula: string | undefined): boolean =>
  formula !== undefined &&
  /(?:^|[^A-Z0-9_.])(?:SUBTOTAL|AGGREGATE)\s*\(/i.test(formula.replace(/"[^"]*"/g, ''));

/** What the cells hold that are not passed over. @throws ErrorValue an error among them */
function valuesIn(context: CallContext, given: readonly Argument[], passes: Passes): Scalar[] {
  const values: Scalar[] = [];
  const take = (value: Scalar): void => {
    if (!isError(value)) values.push(value);
    else if (!passes.errors) throw value;
  };
  for (const one of given) {
    if (isMatrix(one)) one.forEach((row) => row.forEach((value) => value !== null && take(value)));
    else if (one instanceof Reference) {
      context.eachCell(one, (value, row, column, sheet) => {
        const hidden = context.isHidden(sheet, row);
        if (hidden === 'hand' ? passes.hiddenByHand : hidden === 'filter' && passes.filtered) return;
        if (passes.totals && isTotal(context.formulaAt(sheet, row, column))) return;
        take(value);
      });
    } else throw isError(one) ? one : VALUE;
  }
  return values;
}

const product = (numbers: readonly number[]): number =>
  numbers.length === 0 ? 0 : numbers.reduce((before, one) => before * one, 1);

type Total = (numbers: readonly number[], values: readonly Scalar[]) => Value;

/** By their numbers in SUBTOTAL and AGGREGATE, from 1. */
const TOTALS: readonly Total[] = [
  (numbers) => (numbers.length === 0 ? DIVIDED_BY_ZERO : meanOf(numbers)),
  (numbers) => numbers.length,
  (_, values) => values.length,
  most,
  least,
  product,
  deviation,
  wholeDeviation,
  sumOf,
  variance,
  wholeVariance,
  median,
  mode,
];

/** AGGREGATE's further ones, which take a number besides. */
const WITH_NUMBER: readonly ((numbers: readonly number[], number: number) => Value)[] = [
  (numbers, place) => nth(numbers, place, true),
  (numbers, place) => nth(numbers, place, false),
  percentile,
  (numbers, quarter) => quarterOf(quarter, (part) => percentile(numbers, part)),
  percentileExclusive,
  (numbers, quarter) => quarterOf(quarter, (part) => percentileExclusive(numbers, part)),
];

const quarterOf = (quarter: number, of: (part: number) => Value): Value | ErrorValue => {
  const whole = Math.trunc(quarter);
  return whole < 0 || whole > 4 ? NUM : of(whole / 4);
};

const numbersAmong = (values: readonly Scalar[]): number[] =>
  values.filter((value) => typeof value === 'number');

const subtotal = (given: Given): Value => {
  const code = given.whole(0);
  const which = code > 100 ? code - 100 : code;
  const total = which >= 1 && which <= 11 ? TOTALS[which - 1]! : undefined;
  if (!total) return VALUE;
  const passes = { hiddenByHand: code > 100, filtered: true, totals: true, errors: false };
  const counts = which === 2 || which === 3;
  const values = valuesIn(
    given.context,
    given.all.slice(1),
    counts ? { ...passes, errors: which === 2 } : passes,
  );
  return total(numbersAmong(values), values);
};

const aggregate = (given: Given): Value => {
  const [which, option] = [given.whole(0), given.whole(1)];
  if (option < 0 || option > 7 || which < 1 || which > 19) return VALUE;
  const passes = {
    hiddenByHand: option % 2 === 1,
    filtered: option % 2 === 1,
    totals: option <= 3,
    errors: [2, 3, 6, 7].includes(option),
  };
  if (which <= 13) {
    const blocks = given.all.slice(2);
    if (blocks.some((one) => !(one instanceof Reference))) return VALUE;
    const values = valuesIn(given.context, blocks, passes);
    return TOTALS[which - 1]!(numbersAmong(values), values);
  }
  if (given.count !== 4) return VALUE;
  const numbers = numbersAmong(valuesIn(given.context, [given.all[2]], passes));
  return WITH_NUMBER[which - 14]!(numbers, given.number(3));
};

export const subtotals: readonly BuiltIn[] = [
  define('SUBTOTAL', [2, 255], 'value range', subtotal, { takesEachReference: true }),
  define('AGGREGATE', [3, 255], 'value value wholeRange', aggregate),
];
