import type { BuiltIn } from '../builtIn';
import { toNumber } from '../coercion';
import {
  CALC,
  DIVIDED_BY_ZERO,
  heightOf,
  isError,
  NOT_AVAILABLE,
  NUM,
  VALUE,
  widthOf,
  type Matrix,
  type Scalar,
} from '../values';
import { define, numeric, type Given } from './define';
import { numbersIn, sumOf, totalsIn } from './numbers';

// Sums, products, powers and angles. Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference.

const sumProduct = (given: Given): Scalar => {
  const blocks = given.all.map((_, at) => given.matrix(at));
  const [height, width] = [heightOf(blocks[0]!), widthOf(blocks[0]!)];
  if (blocks.some((block) => heightOf(block) !== height || widthOf(block) !== width)) return VALUE;
  let sum = 0;
  for (let row = 0; row < height; row++) {
    for (let column = 0; column < width; column++) {
      let product = 1;
      for (const block of blocks) {
        const value = block[row]![column]!;
        if (isError(value)) return value;
        product *= typeof value === 'number' ? value : 0;
      }
      sum += product;
    }
  }
  return sum;
};

/** A sum over pairs of numbers of two blocks. */
const overPairs = (name: string, term: (x: number, y: number) => number): BuiltIn =>
  define(name, [2, 2], 'array', (given) => {
    const [xs, ys] = [given.list(0), given.list(1)];
    if (xs.length !== ys.length) return NOT_AVAILABLE;
    let sum = 0;
    let pairs = 0;
    for (const [at, x] of xs.entries()) {
      const y = ys[at]!;
      if (isError(x)) return x;
      if (isError(y)) return y;
      if (typeof x !== 'number' || typeof y !== 'number') continue;
      sum += term(x, y);
      pairs++;
    }
    return pairs === 0 ? DIVIDED_BY_ZERO : sum;
  });

const logarithm = (number: number, base = 10): Scalar => {
  if (number <= 0 || base <= 0) return NUM;
  if (base === 1) return DIVIDED_BY_ZERO;
  if (base === 10) return Math.log10(number);
  return base === 2 ? Math.log2(number) : Math.log(number) / Math.log(base);
};

const power = (base: number, exponent: number): Scalar =>
  base === 0 && exponent <= 0 ? (exponent === 0 ? NUM : DIVIDED_BY_ZERO) : base ** exponent;

const modulus = (number: number, divisor: number): Scalar => {
  if (divisor === 0) return DIVIDED_BY_ZERO;
  const times = number / divisor;
  return Math.abs(times) >= 1.1259e12 ? NUM : number - divisor * Math.floor(times);
};

const reciprocal =
  (of: (x: number) => number) =>
  (x: number): Scalar => {
    const below = of(x);
    return below === 0 ? DIVIDED_BY_ZERO : 1 / below;
  };

/** An angle past which the vendor's functions refuse. */
const within =
  (of: (x: number) => number) =>
  (x: number): Scalar =>
    Math.abs(x) >= 2 ** 27 ? NUM : of(x);

const ONE = [1, 1] as const;
const oneNumber: Readonly<Record<string, (x: number) => Scalar>> = {
  ABS: Math.abs,
  SIGN: Math.sign,
  SQRT: (x) => (x < 0 ? NUM : Math.sqrt(x)),
  SQRTPI: (x) => (x < 0 ? NUM : Math.sqrt(x * Math.PI)),
  EXP: Math.exp,
  LN: (x) => (x <= 0 ? NUM : Math.log(x)),
  LOG10: (x) => logarithm(x),
  RADIANS: (x) => (x * Math.PI) / 180,
  DEGREES: (x) => (x * 180) / Math.PI,
  SIN: within(Math.sin),
  COS: within(Math.cos),
  TAN: within(Math.tan),
  SEC: within((x) => 1 / Math.cos(x)),
  CSC: reciprocal(Math.sin),
  COT: reciprocal(Math.tan),
  ASIN: Math.asin,
  ACOS: Math.acos,
  ATAN: Math.atan,
  ACOT: (x) => Math.PI / 2 - Math.atan(x),
  SINH: Math.sinh,
  COSH: Math.cosh,
  TANH: Math.tanh,
  SECH: (x) => 1 / Math.cosh(x),
  CSCH: reciprocal(Math.sinh),
  COTH: reciprocal(Math.tanh),
  ASINH: Math.asinh,
  ACOSH: Math.acosh,
  ATANH: Math.atanh,
  ACOTH: (x) => Math.atanh(1 / x),
};

/** A block of numbers. */
type Numbers = readonly (readonly number[])[];

const seriesSum = (given: Given): Scalar => {
  const [x, first, step] = [given.number(0), given.number(1), given.number(2)];
  const factors = given.list(3).map((factor) => toNumber(factor, given.context.dateSystem));
  return sumOf(factors.map((factor, at) => factor * x ** (first + at * step)));
};

const determinantOf = (square: Numbers): number => {
  const rows = square.map((row) => [...row]);
  let product = 1;
  for (let at = 0; at < rows.length; at++) {
    const pivot = pivotRow(rows, at);
    if (rows[pivot]![at] === 0) return 0;
    if (pivot !== at) {
      [rows[at], rows[pivot]] = [rows[pivot]!, rows[at]!];
      product = -product;
    }
    product *= rows[at]![at]!;
    for (let below = at + 1; below < rows.length; below++) subtract(rows, below, at);
  }
  return product;
};

/** The row with the largest value in a column, from `at` downwards. */
function pivotRow(rows: readonly (readonly number[])[], at: number): number {
  let best = at;
  for (let row = at + 1; row < rows.length; row++) {
    if (Math.abs(rows[row]![at]!) > Math.abs(rows[best]![at]!)) best = row;
  }
  return best;
}

function subtract(rows: number[][], row: number, at: number): void {
  const times = rows[row]![at]! / rows[at]![at]!;
  if (times === 0) return;
  for (let column = at; column < rows[row]!.length; column++) {
    rows[row]![column] = rows[row]![column]! - times * rows[at]![column]!;
  }
}

function inverseOf(square: Numbers): Matrix | typeof NUM {
  const size = square.length;
  const rows = square.map((row, r) => [...row, ...row.map((_, c) => Number(c === r))]);
  for (let at = 0; at < size; at++) {
    const pivot = pivotRow(rows, at);
    const largest = rows[pivot]![at]!;
    if (Math.abs(largest) < 1e-14 * Math.max(...square.flat().map(Math.abs))) return NUM;
    [rows[at], rows[pivot]] = [rows[pivot]!, rows[at]!];
    rows[at] = rows[at]!.map((one) => one / largest);
    for (let row = 0; row < size; row++) if (row !== at) subtract(rows, row, at);
  }
  return rows.map((row) => row.slice(size));
}

/** A block of numbers only. @throws ErrorValue #VALUE! */
function numbersOnly(block: Matrix): Numbers {
  for (const value of block.flat()) {
    if (isError(value)) throw value;
    if (typeof value !== 'number') throw VALUE;
  }
  return block as Numbers;
}

const squareOf = (given: Given): Numbers => {
  const block = numbersOnly(given.matrix(0));
  if (heightOf(block) !== widthOf(block)) throw VALUE;
  return block;
};

const product = (given: Given): Matrix | typeof VALUE => {
  const [left, right] = [numbersOnly(given.matrix(0)), numbersOnly(given.matrix(1))];
  if (widthOf(left) !== heightOf(right)) return VALUE;
  return left.map((row) =>
    right[0]!.map((_, column) => sumOf(row.map((one, at) => one * right[at]![column]!))),
  );
};

export const mathematics: readonly BuiltIn[] = [
  define('SUM', [1, Infinity], 'range', ({ context, all }) => totalsIn(context, all).sum),
  define('SUMSQ', [1, Infinity], 'range', ({ context, all }) =>
    sumOf(numbersIn(context, all).map((one) => one * one)),
  ),
  define('PRODUCT', [1, Infinity], 'range', ({ context, all }) => {
    const numbers = numbersIn(context, all);
    return numbers.length === 0 ? 0 : numbers.reduce((before, one) => before * one, 1);
  }),
  define('SUMPRODUCT', [1, Infinity], 'array', sumProduct),
  overPairs('SUMXMY2', (x, y) => (x - y) ** 2),
  overPairs('SUMX2PY2', (x, y) => x * x + y * y),
  overPairs('SUMX2MY2', (x, y) => x * x - y * y),
  define('SERIESSUM', [4, 4], 'value value value block', seriesSum),
  ...Object.entries(oneNumber).map(([name, calculate]) => numeric(name, ONE, (x) => calculate(x))),
  numeric('LOG', [1, 2], logarithm),
  numeric('POWER', [2, 2], power),
  numeric('MOD', [2, 2], modulus),
  numeric('ATAN2', [2, 2], (x, y) => (x === 0 && y === 0 ? DIVIDED_BY_ZERO : Math.atan2(y, x))),
  numeric('PI', [0, 0], () => Math.PI),
  define('MMULT', [2, 2], 'array', product),
  define('MDETERM', [1, 1], 'array', (given) => determinantOf(squareOf(given))),
  define('MINVERSE', [1, 1], 'array', (given) => inverseOf(squareOf(given))),
  define('MUNIT', [1, 1], 'value', (given) => {
    const size = given.whole(0);
    if (size < 1) return VALUE;
    if (size > 2000) return CALC;
    return Array.from({ length: size }, (_, r) => Array.from({ length: size }, (__, c) => Number(r === c)));
  }),
];
