import type { DateSystem } from '../../../worksheet/calendar';
import { areEqual, compare, toNumber, toText } from './coercion';
import { tailOf, withTail } from './tails';
import {
  DIVIDED_BY_ZERO,
  isError,
  isMatrix,
  NOT_AVAILABLE,
  NUM,
  VALUE,
  type Matrix,
  type Scalar,
} from './values';

/** Days written as text count from the workbook's first day. */
export type Operator = (left: Scalar, right: Scalar, dateSystem: DateSystem) => Scalar;
export type Sign = (value: Scalar, dateSystem: DateSystem) => Scalar;

const finite = (number: number): Scalar => (Number.isFinite(number) ? number : NUM);

const arithmetic =
  (calculate: (left: number, right: number) => Scalar): Operator =>
  (left, right, dateSystem) =>
    calculate(
      typeof left === 'number' ? left : toNumber(left, dateSystem),
      typeof right === 'number' ? right : toNumber(right, dateSystem),
    );

const comparison =
  (holds: (order: number) => boolean): Operator =>
  (left, right) =>
    holds(compare(left, right));

/** The operators between two values. Each may throw an ErrorValue. */
export const OPERATORS: Readonly<Record<string, Operator>> = {
  '+': arithmetic((left, right) => finite(left + right)),
  '-': arithmetic((left, right) => finite(left - right)),
  '*': arithmetic((left, right) => finite(left * right)),
  '/': arithmetic((left, right) => (right === 0 ? DIVIDED_BY_ZERO : finite(left / right))),
  '^': arithmetic((left, right) =>
    left === 0 && right <= 0 ? (right === 0 ? NUM : DIVIDED_BY_ZERO) : finite(left ** right),
  ),
  '&': (left, right) => {
    const text = toText(left) + toText(right);
    return text.length > MOST_LETTERS ? VALUE : text;
  },
  '=': areEqual,
  '<>': (left, right) => !areEqual(left, right),
  '<': comparison((order) => order < 0),
  '<=': comparison((order) => order <= 0),
  '>': comparison((order) => order > 0),
  '>=': comparison((order) => order >= 0),
};

/** A cell holds no longer text. */
const MOST_LETTERS = 32_767;

/**
 * A difference of numbers that agree in fifteen digits is 0 where it is a formula's last step, as on a sheet:
 * `=0.5-0.4-0.1` gives 0, and -2.8E-17 in brackets.
 */
export const LAST_STEP: Readonly<Record<string, Operator>> = {
  '+': arithmetic((left, right) => nearZero(left + right, left)),
  '-': arithmetic((left, right) => nearZero(left - right, left)),
};
const nearZero = (sum: number, left: number): Scalar =>
  Math.abs(sum) < Math.abs(left) * 4e-16 ? 0 : finite(sum);

export const SIGNS: Readonly<Record<string, Sign>> = {
  '+': (value) => value,
  '-': (value, dateSystem) => 0 - toNumber(value, dateSystem),
  '%': (value, dateSystem) => toNumber(value, dateSystem) / 100,
};

/** A result that more cells than this would hold is refused. */
export const MOST_CELLS = 5_000_000;

/**
 * Calls a function of single values for every place of the blocks among `given`. A block of one row or column repeats
 * beside a larger one; where another has no value the result is #N/A, or the call is given that where it `chooses`.
 */
export function lifted(
  given: readonly (Scalar | Matrix | undefined)[],
  call: (...each: (Scalar | undefined)[]) => Scalar,
  chooses = false,
): Matrix {
  let height = 1;
  let width = 1;
  for (const one of given) {
    if (!isMatrix(one)) continue;
    height = Math.max(height, one.length);
    width = Math.max(width, one[0]!.length);
  }
  let last = 0;
  for (const one of given) if (isMatrix(one)) last = Math.max(last, tailOf(one, height));
  const count = Math.min(height, last + 1);
  if (count * width > MOST_CELLS) throw NUM;
  const rows = new Array<Scalar[]>(count);
  const each = new Array<Scalar | undefined>(given.length);
  for (let row = 0; row < count; row++) {
    const cells = new Array<Scalar>(width);
    for (let column = 0; column < width; column++) {
      let isBeyond = false;
      for (let at = 0; at < given.length; at++) {
        const one = given[at];
        if (!isMatrix(one)) {
          each[at] = one;
          continue;
        }
        const line = one.length === 1 ? one[0]! : one[row];
        const value = line && (line.length === 1 ? line[0] : line[column]);
        if (value === undefined && !chooses) isBeyond = true;
        each[at] = value === undefined ? NOT_AVAILABLE : value;
      }
      if (isBeyond) {
        cells[column] = NOT_AVAILABLE;
        continue;
      }
      try {
        cells[column] = call(...each);
      } catch (fault) {
        if (!isError(fault)) throw fault;
        cells[column] = fault;
      }
    }
    rows[row] = cells;
  }
  return count < height ? withTail(rows, height) : rows;
}

/** A function of one or two values for blocks too. */
export function applied(
  operator: Operator,
  left: Scalar | Matrix,
  right: Scalar | Matrix,
  dateSystem: DateSystem,
): Scalar | Matrix {
  if (!isMatrix(left) && !isMatrix(right)) return operator(left, right, dateSystem);
  return (
    alike(operator, left, right, dateSystem) ?? lifted([left, right], (a, b) => operator(a!, b!, dateSystem))
  );
}

/** The everyday case of `applied`, quicker: a column and a value, or two blocks of a size. Undefined for any other. */
function alike(
  operator: Operator,
  left: Scalar | Matrix,
  right: Scalar | Matrix,
  dateSystem: DateSystem,
): Matrix | undefined {
  const [a, b] = [isMatrix(left) ? left : undefined, isMatrix(right) ? right : undefined];
  const { length: height, 0: first } = (a ?? b)!;
  const width = first!.length;
  if (height === 1 || height * width > MOST_CELLS) return undefined;
  for (const one of [a, b]) {
    if (one && (one.length !== height || one[0]!.length !== width || tailOf(one, height) !== height))
      return undefined;
  }
  const rows = new Array<Scalar[]>(height);
  for (let row = 0; row < height; row++) {
    const cells = new Array<Scalar>(width);
    for (let column = 0; column < width; column++) {
      try {
        cells[column] = operator(
          a ? a[row]![column]! : (left as Scalar),
          b ? b[row]![column]! : (right as Scalar),
          dateSystem,
        );
      } catch (fault) {
        if (!isError(fault)) throw fault;
        cells[column] = fault;
      }
    }
    rows[row] = cells;
  }
  return rows;
}

export function appliedToOne(sign: Sign, value: Scalar | Matrix, dateSystem: DateSystem): Scalar | Matrix {
  return isMatrix(value) ? lifted([value], (one) => sign(one!, dateSystem)) : sign(value, dateSystem);
}
