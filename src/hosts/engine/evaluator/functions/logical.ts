import type { BuiltIn } from '../builtIn';
import { toBoolean } from '../coercion';
import { isError, Reference, VALUE, type Scalar, type Value } from '../values';
import { define, type Given } from './define';
import { eachValue } from './numbers';

// TRUE and FALSE, and what a value is. Definitions: ISO/IEC 29500-1:2016, 18.17.7.

/**
 * The truths among arguments: cells that hold text and empty text count for nothing, other text written in the formula
 * must say one.
 */
function truthsIn({ context, all }: Given): boolean[] {
  const truths: boolean[] = [];
  eachValue(
    context,
    all,
    (value) => {
      if (isError(value)) throw value;
      if (typeof value === 'boolean' || typeof value === 'number') truths.push(toBoolean(value));
    },
    (value) => {
      if (value !== '') truths.push(toBoolean(value));
    },
  );
  return truths;
}

const overTruths = (name: string, join: (truths: readonly boolean[]) => boolean): BuiltIn =>
  define(name, [1, 255], 'range', (given) => {
    const truths = truthsIn(given);
    return truths.length === 0 ? VALUE : join(truths);
  });

const asked = (name: string, holds: (value: Scalar) => boolean): BuiltIn =>
  define(name, [1, 1], 'value', (given) => holds(given.scalar(0)), { takesErrors: true });

const isEven = (given: Given): boolean => {
  const value = given.scalar(0);
  if (typeof value === 'boolean') throw VALUE;
  return Math.abs(given.whole(0)) % 2 === 0;
};

const kindOf = (given: Given): Value => {
  const [one] = given.all;
  if (one instanceof Reference ? !one.isOneCell : Array.isArray(one)) return 64;
  const value = given.scalar(0);
  if (isError(value)) return 16;
  return typeof value === 'string' ? 2 : typeof value === 'boolean' ? 4 : 1;
};

export const logical: readonly BuiltIn[] = [
  overTruths('AND', (truths) => truths.every((one) => one)),
  overTruths('OR', (truths) => truths.some((one) => one)),
  overTruths('XOR', (truths) => truths.filter((one) => one).length % 2 === 1),
  define('NOT', [1, 1], 'value', (given) => !given.boolean(0)),
  define('TRUE', [0, 0], 'value', () => true),
  define('FALSE', [0, 0], 'value', () => false),
  asked('ISBLANK', (value) => value === null),
  asked('ISNUMBER', (value) => typeof value === 'number'),
  asked('ISTEXT', (value) => typeof value === 'string'),
  asked('ISNONTEXT', (value) => typeof value !== 'string'),
  asked('ISLOGICAL', (value) => typeof value === 'boolean'),
  asked('ISERROR', isError),
  asked('ISERR', (value) => isError(value) && value.code !== '#N/A'),
  asked('ISNA', (value) => isError(value) && value.code === '#N/A'),
  define('ISEVEN', [1, 1], 'value', isEven),
  define('ISODD', [1, 1], 'value', (given) => !isEven(given)),
  define('ISREF', [1, 1], 'range', (given) => given.all[0] instanceof Reference),
  define('TYPE', [1, 1], 'range', kindOf, { takesErrors: true }),
  define(
    'N',
    [1, 1],
    'range',
    (given) => {
      const value = given.scalar(0);
      return isError(value) || typeof value === 'number' ? value : value === true ? 1 : 0;
    },
    { takesEachReference: true },
  ),
];
