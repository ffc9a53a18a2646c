import type { BuiltIn } from '../builtIn';
import { toText } from '../coercion';
import { DIVIDED_BY_ZERO, isError, NUM, VALUE, type Matrix, type Scalar, type Value } from '../values';
import { deviation, least, most, variance, wholeDeviation, wholeVariance } from './averages';
import { criterionOf } from './criteria';
import { define, type Given } from './define';
import { meanOf, numbersOf, sumOf } from './numbers';

// Lists with a row of titles, and conditions in cells. Definitions: ISO/IEC 29500-1:2016, 18.17.7, DSUM and its like.

const titleOf = (value: Scalar): string => (isError(value) ? '' : toText(value).trim().toLowerCase());

/** A column by its title or its number. @throws ErrorValue #VALUE! */
function columnOf(list: Matrix, field: Scalar): number {
  const at =
    typeof field === 'number'
      ? Math.trunc(field) - 1
      : list[0]!.findIndex((title) => titleOf(title) === titleOf(field));
  if (at < 0 || at >= list[0]!.length) throw VALUE;
  return at;
}

/** A text as a condition of a list: what begins with it. */
const conditionOf = (value: Scalar): Scalar =>
  typeof value === 'string' && value !== '' && !/^[<>=]/.test(value) ? `${value}*` : value;

/** The rows that meet all conditions of any row of `conditions`. */
function rowsThat(list: Matrix, { context, all }: Given): Matrix {
  const conditions = context.matrixOf(all[2]);
  const alternatives = conditions.slice(1).map((row) =>
    row.flatMap((value, at) => {
      if (value === null) return [];
      const column = list[0]!.findIndex((title) => titleOf(title) === titleOf(conditions[0]![at]!));
      if (column < 0) throw VALUE;
      return [{ column, meets: criterionOf(conditionOf(value), context.dateSystem) }];
    }),
  );
  return list
    .slice(1)
    .filter((row) => alternatives.some((all) => all.every(({ column, meets }) => meets(row[column]!))));
}

const chosen = (given: Given): Scalar[] => {
  const list = given.matrix(0);
  if (list.length < 2) throw VALUE;
  const column = columnOf(list, given.scalar(1));
  return rowsThat(list, given).map((row) => row[column]!);
};

const overNumbers = (name: string, calculate: (numbers: readonly number[]) => Value): BuiltIn =>
  define(name, [3, 3], 'block value block', (given) => calculate(numbersOf(chosen(given))));

export const databases: readonly BuiltIn[] = [
  overNumbers('DSUM', sumOf),
  overNumbers('DAVERAGE', (numbers) => (numbers.length === 0 ? DIVIDED_BY_ZERO : meanOf(numbers))),
  overNumbers('DMAX', most),
  overNumbers('DMIN', least),
  overNumbers('DPRODUCT', (numbers) => (numbers.length === 0 ? 0 : numbers.reduce((a, b) => a * b, 1))),
  overNumbers('DSTDEV', deviation),
  overNumbers('DSTDEVP', wholeDeviation),
  overNumbers('DVAR', variance),
  overNumbers('DVARP', wholeVariance),
  define('DCOUNT', [3, 3], 'block value block', (given) =>
    given.has(1) ? chosen(given).filter((value) => typeof value === 'number').length : countRows(given),
  ),
  define('DCOUNTA', [3, 3], 'block value block', (given) =>
    given.has(1) ? chosen(given).filter((value) => value !== null).length : countRows(given),
  ),
  define('DGET', [3, 3], 'block value block', (given) => {
    const values = chosen(given);
    return values.length === 1 ? values[0]! : values.length === 0 ? VALUE : NUM;
  }),
];

function countRows(given: Given): number {
  return rowsThat(given.matrix(0), given).length;
}
