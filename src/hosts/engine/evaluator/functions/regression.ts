import type { BuiltIn } from '../builtIn';
import { Lacking } from '../lacking';
import {
  DIVIDED_BY_ZERO,
  heightOf,
  isError,
  NOT_AVAILABLE,
  NUM,
  REF,
  VALUE,
  widthOf,
  type Matrix,
  type Scalar,
  type Value,
} from '../values';
import { define, named, type Given } from './define';
import { meanOf, squaresOf, sumOf } from './numbers';

// Straight lines through points, by least squares. Definitions: ISO/IEC 29500-1:2016, 18.17.7.

interface Points {
  readonly xs: readonly number[];
  readonly ys: readonly number[];
}

/** Pairs of numbers of two arguments; pairs with text or a blank are passed over. @throws ErrorValue */
function pairsOf(given: Given, x: number, y: number): Points {
  const [left, right] = [given.list(x), given.list(y)];
  if (left.length !== right.length) throw NOT_AVAILABLE;
  const points = { xs: [] as number[], ys: [] as number[] };
  for (const [at, one] of left.entries()) {
    const other = right[at]!;
    if (isError(one)) throw one;
    if (isError(other)) throw other;
    if (typeof one !== 'number' || typeof other !== 'number') continue;
    points.xs.push(one);
    points.ys.push(other);
  }
  return points;
}

const products = ({ xs, ys }: Points): number => {
  const [meanX, meanY] = [meanOf(xs), meanOf(ys)];
  return sumOf(xs.map((x, at) => (x - meanX) * (ys[at]! - meanY)));
};

const overPairs = (
  name: string,
  [x, y]: readonly [number, number],
  calculate: (points: Points, given: Given) => Value,
): BuiltIn =>
  define(name, [2, 2], 'array', (given) => {
    const points = pairsOf(given, x, y);
    return points.xs.length === 0 ? DIVIDED_BY_ZERO : calculate(points, given);
  });

const ratio = (over: number, under: number): Scalar => (under === 0 ? DIVIDED_BY_ZERO : over / under);

const slope = (points: Points): Scalar => ratio(products(points), squaresOf(points.xs));

const intercept = (points: Points): Scalar => {
  const rise = slope(points);
  return typeof rise === 'number' ? meanOf(points.ys) - rise * meanOf(points.xs) : rise;
};

const correlation = (points: Points): Scalar =>
  ratio(products(points), Math.sqrt(squaresOf(points.xs) * squaresOf(points.ys)));

const standardError = (points: Points): Scalar => {
  const n = points.xs.length;
  if (n < 3) return DIVIDED_BY_ZERO;
  const [sxx, sxy] = [squaresOf(points.xs), products(points)];
  if (sxx === 0) return DIVIDED_BY_ZERO;
  return Math.sqrt(Math.max(0, squaresOf(points.ys) - sxy ** 2 / sxx) / (n - 2));
};

const forecast = (given: Given): Value => {
  const points = pairsOf(given, 2, 1);
  if (points.xs.length === 0) return NOT_AVAILABLE;
  const [rise, start] = [slope(points), intercept(points)];
  if (typeof rise !== 'number' || typeof start !== 'number') return DIVIDED_BY_ZERO;
  return start + rise * given.number(0);
};

interface Line {
  readonly rise: number;
  readonly start: number;
  readonly points: Points;
}

/** Numbers only. @throws ErrorValue #VALUE! */
const strict = (block: Matrix): number[] =>
  block.flat().map((value) => {
    if (isError(value)) throw value;
    if (typeof value !== 'number') throw VALUE;
    return value;
  });

/** The line that LINEST and its kin fit; y is what `of` makes of it. @throws ErrorValue, Lacking for several x */
function lineOf(given: Given, hasStart: boolean, of: (y: number) => number): Line {
  const block = given.matrix(0);
  const ys = strict(block).map(of);
  if (ys.some((y) => !Number.isFinite(y))) throw NUM;
  const known = given.has(1) ? given.matrix(1) : undefined;
  if (known && (heightOf(known) !== heightOf(block) || widthOf(known) !== widthOf(block))) {
    const isSeveral = heightOf(known) === heightOf(block) || widthOf(known) === widthOf(block);
    if (isSeveral) throw new Lacking('a line through several columns of x');
    throw REF;
  }
  const xs = known ? strict(known) : ys.map((_, at) => at + 1);
  const points = { xs, ys };
  const across = hasStart ? squaresOf(xs) : sumOf(xs.map((x) => x * x));
  const shared = hasStart ? products(points) : sumOf(xs.map((x, at) => x * ys[at]!));
  if (across === 0) throw new Lacking('a line through points that share their x');
  const rise = shared / across;
  return { rise, start: hasStart ? meanOf(ys) - rise * meanOf(xs) : 0, points };
}

const hasStartOf = (given: Given, at: number): boolean => !given.has(at) || given.boolean(at);

/** The line's two numbers, and beneath them how well it fits. */
const fitted =
  (of: (y: number) => number, back: (value: number) => number) =>
  (given: Given): Value => {
    const hasStart = hasStartOf(given, 2);
    const { rise, start, points } = lineOf(given, hasStart, of);
    const first = [back(rise), back(start)];
    if (!given.has(3) || !given.boolean(3)) return [first];
    const { xs, ys } = points;
    const freedom = xs.length - (hasStart ? 2 : 1);
    const residual = sumOf(xs.map((x, at) => (ys[at]! - start - rise * x) ** 2));
    const total = hasStart ? squaresOf(ys) : sumOf(ys.map((y) => y * y));
    const error = Math.sqrt(residual / freedom);
    const across = hasStart ? squaresOf(xs) : sumOf(xs.map((x) => x * x));
    const explained = total - residual;
    return [
      first,
      [
        error / Math.sqrt(across),
        hasStart ? error * Math.sqrt(1 / xs.length + meanOf(xs) ** 2 / across) : NOT_AVAILABLE,
      ],
      [explained / total, error],
      [explained / (residual / freedom), freedom],
      [explained, residual],
    ].map((row) => row.map((one) => (typeof one === 'number' && !Number.isFinite(one) ? NUM : one)));
  };

const along =
  (of: (y: number) => number, back: (value: number) => number) =>
  (given: Given): Value => {
    const { rise, start, points } = lineOf(given, hasStartOf(given, 3), of);
    const fresh = given.has(2) ? given.matrix(2) : given.has(1) ? given.matrix(1) : undefined;
    if (fresh) {
      strict(fresh);
      return fresh.map((row) => row.map((x) => back(start + rise * (x as number))));
    }
    const isAcross = widthOf(given.matrix(0)) > 1;
    const values = points.xs.map((x) => back(start + rise * x));
    return isAcross ? [values] : values.map((value) => [value]);
  };

const same = (value: number): number => value;

const covariance = overPairs('COVARIANCE.P', [0, 1], (points) => products(points) / points.xs.length);
const linear = define('FORECAST.LINEAR', [3, 3], 'value array array', forecast);

export const regression: readonly BuiltIn[] = [
  overPairs('SLOPE', [1, 0], slope),
  overPairs('INTERCEPT', [1, 0], intercept),
  ...named(overPairs('CORREL', [0, 1], correlation), 'CORREL', 'PEARSON'),
  overPairs('RSQ', [1, 0], (points) => {
    const found = correlation(points);
    return typeof found === 'number' ? found ** 2 : found;
  }),
  overPairs('STEYX', [1, 0], standardError),
  ...named(covariance, 'COVARIANCE.P', 'COVAR'),
  overPairs('COVARIANCE.S', [0, 1], (points) =>
    points.xs.length < 2 ? DIVIDED_BY_ZERO : products(points) / (points.xs.length - 1),
  ),
  ...named(linear, 'FORECAST.LINEAR', 'FORECAST'),
  define('LINEST', [1, 4], 'array array value value', fitted(same, same)),
  define('LOGEST', [1, 4], 'array array value value', fitted(Math.log, Math.exp)),
  define('TREND', [1, 4], 'array array array value', along(same, same)),
  define('GROWTH', [1, 4], 'array array array value', along(Math.log, Math.exp)),
];
