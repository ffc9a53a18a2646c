import type { BuiltIn } from '../builtIn';
import { DIVIDED_BY_ZERO, NUM, type Scalar, type Value } from '../values';
import { define, named, numeric, type Given } from './define';
import {
  betaInverse,
  gammaInverse,
  incompleteBeta,
  incompleteGamma,
  logGamma,
  normalBelow,
  normalDensity,
  normalInverse,
  studentBelow,
  studentBothTails,
  studentInverse,
} from './probability';
import { choices } from './wholeNumbers';

// Definitions: ISO/IEC 29500-1:2016, 18.17.7, and the vendor's reference of statistical functions.

type Calculate = (...numbers: number[]) => Scalar;

/** Numbers, the last of which says whether the chance up to the first is asked or its density there. */
const distribution = (
  names: readonly string[],
  count: number,
  isAllowed: (...numbers: number[]) => boolean,
  upTo: Calculate,
  density: Calculate,
): BuiltIn[] =>
  named(
    define(names[0]!, [count + 1, count + 1], 'value', (given): Value => {
      const numbers = Array.from({ length: count }, (_, at) => given.number(at));
      const cumulative = given.boolean(count);
      if (!isAllowed(...numbers)) return NUM;
      return (cumulative ? upTo : density)(...numbers);
    }),
    ...names,
  );

/** As `numeric`, #NUM! where the numbers are not allowed. */
const allowed = (
  names: readonly string[],
  count: number,
  isAllowed: (...numbers: number[]) => boolean,
  calculate: Calculate,
): BuiltIn[] =>
  named(
    numeric(names[0]!, [count, count], (...numbers) => (isAllowed(...numbers) ? calculate(...numbers) : NUM)),
    ...names,
  );

const isChance = (p: number): boolean => p > 0 && p < 1;
const isFreedom = (n: number): boolean => Math.trunc(n) >= 1 && n <= 1e10;
const whole = Math.trunc;

/** Above so many trials the ways to choose are past the largest number. */
const MANY_TRIALS = 1000;
const MOST_TRIALS = 1e7;

function binomial(successes: number, trials: number, chance: number): number {
  const rest = trials - successes;
  if (trials <= MANY_TRIALS || chance === 0 || chance === 1)
    return choices(trials, successes) * chance ** successes * (1 - chance) ** rest;
  const ways = logGamma(trials + 1) - logGamma(successes + 1) - logGamma(rest + 1);
  return Math.exp(ways + successes * Math.log(chance) + rest * Math.log1p(-chance));
}

/** The chance of at most so many successes. */
function binomialUpTo(successes: number, trials: number, chance: number): number {
  if (trials <= MANY_TRIALS) return sumTo(successes, (at) => binomial(at, trials, chance));
  return successes >= trials ? 1 : incompleteBeta(1 - chance, trials - successes, successes + 1);
}

const sumTo = (last: number, term: (n: number) => number): number => {
  let sum = 0;
  for (let n = 0; n <= last; n++) sum += term(n);
  return sum;
};
const isBinomial = (successes: number, trials: number, chance: number): boolean =>
  successes >= 0 && whole(successes) <= whole(trials) && trials <= MOST_TRIALS && chance >= 0 && chance <= 1;

const poisson = (count: number, mean: number): number =>
  mean === 0 ? Number(count === 0) : Math.exp(count * Math.log(mean) - mean - logGamma(count + 1));

const hypergeometric = (found: number, sample: number, successes: number, all: number): number =>
  (choices(successes, found) * choices(all - successes, sample - found)) / choices(all, sample);

const fisherBelow = (x: number, a: number, b: number): number =>
  incompleteBeta((a * x) / (a * x + b), a / 2, b / 2);
const fisherAbove = (x: number, a: number, b: number): number =>
  incompleteBeta(b / (a * x + b), b / 2, a / 2);
const fisherInverse = (above: number, a: number, b: number): number => {
  const part = betaInverse(above, b / 2, a / 2);
  return (b / a) * (1 / part - 1);
};
const isFisher = (x: number, a: number, b: number): boolean => x >= 0 && isFreedom(a) && isFreedom(b);

const gammaOf = (x: number): Scalar => {
  if (x === Math.floor(x)) {
    if (x <= 0 || x > 171) return NUM;
    let product = 1;
    for (let n = 2; n < x; n++) product *= n;
    return product;
  }
  return x > 0 ? Math.exp(logGamma(x)) : Math.PI / (Math.sin(Math.PI * x) * Math.exp(logGamma(1 - x)));
};

const errorFunction = (x: number): number => Math.sign(x) * incompleteGamma(0.5, x * x).lower;
const errorRest = (x: number): number => (x < 0 ? 2 - errorRest(-x) : incompleteGamma(0.5, x * x).upper);

const beta = (given: Given, isOld: boolean): Value => {
  const [x, a, b] = [given.number(0), given.number(1), given.number(2)];
  const next = isOld ? 3 : 4;
  const [low, high] = [
    given.has(next) ? given.number(next) : 0,
    given.has(next + 1) ? given.number(next + 1) : 1,
  ];
  if (a <= 0 || b <= 0 || x < low || x > high || low === high) return NUM;
  const part = (x - low) / (high - low);
  if (isOld || given.boolean(3)) return incompleteBeta(part, a, b);
  const log =
    (a - 1) * Math.log(part) + (b - 1) * Math.log1p(-part) + logGamma(a + b) - logGamma(a) - logGamma(b);
  return Math.exp(log) / (high - low);
};

const normal: readonly BuiltIn[] = [
  define('NORM.S.DIST', [2, 2], 'value', (given) =>
    (given.boolean(1) ? normalBelow : normalDensity)(given.number(0)),
  ),
  numeric('NORMSDIST', [1, 1], (z) => normalBelow(z)),
  ...allowed(['NORM.S.INV', 'NORMSINV'], 1, isChance, normalInverse),
  ...distribution(
    ['NORM.DIST', 'NORMDIST'],
    3,
    (_, __, deviation) => deviation > 0,
    (x, mean, deviation) => normalBelow((x - mean) / deviation),
    (x, mean, deviation) => normalDensity((x - mean) / deviation) / deviation,
  ),
  ...allowed(
    ['NORM.INV', 'NORMINV'],
    3,
    (p, _, deviation) => isChance(p) && deviation > 0,
    (p, mean, deviation) => mean + deviation * normalInverse(p),
  ),
  numeric('GAUSS', [1, 1], (z) => normalBelow(z) - 0.5),
  numeric('PHI', [1, 1], (z) => normalDensity(z)),
  ...distribution(
    ['LOGNORM.DIST'],
    3,
    (x, _, deviation) => x > 0 && deviation > 0,
    (x, mean, deviation) => normalBelow((Math.log(x) - mean) / deviation),
    (x, mean, deviation) => normalDensity((Math.log(x) - mean) / deviation) / (deviation * x),
  ),
  ...allowed(
    ['LOGNORM.INV', 'LOGINV'],
    3,
    (p, _, deviation) => isChance(p) && deviation > 0,
    (p, mean, deviation) => Math.exp(mean + deviation * normalInverse(p)),
  ),
  ...allowed(
    ['CONFIDENCE.NORM', 'CONFIDENCE'],
    3,
    (p, deviation, size) => isChance(p) && deviation > 0 && size >= 1,
    (p, deviation, size) => (-normalInverse(p / 2) * deviation) / Math.sqrt(whole(size)),
  ),
  ...allowed(
    ['CONFIDENCE.T'],
    3,
    (p, deviation, size) => isChance(p) && deviation > 0 && size >= 1,
    (p, deviation, size) =>
      whole(size) === 1
        ? DIVIDED_BY_ZERO
        : (studentInverse(p, whole(size) - 1) * deviation) / Math.sqrt(whole(size)),
  ),
  numeric('FISHER', [1, 1], (x) => (Math.abs(x) >= 1 ? NUM : Math.atanh(x))),
  numeric('FISHERINV', [1, 1], (x) => Math.tanh(x)),
];

const student: readonly BuiltIn[] = [
  ...allowed(
    ['T.INV.2T', 'TINV'],
    2,
    (p, n) => p > 0 && p <= 1 && isFreedom(n),
    (p, n) => studentInverse(p, whole(n)),
  ),
  ...allowed(
    ['T.INV'],
    2,
    (p, n) => isChance(p) && isFreedom(n),
    (p, n) => (p < 0.5 ? -studentInverse(2 * p, whole(n)) : studentInverse(2 * (1 - p), whole(n))),
  ),
  ...allowed(
    ['T.DIST.2T'],
    2,
    (t, n) => t >= 0 && isFreedom(n),
    (t, n) => studentBothTails(t, whole(n)),
  ),
  ...allowed(
    ['T.DIST.RT'],
    2,
    (_, n) => isFreedom(n),
    (t, n) => studentBelow(-t, whole(n)),
  ),
  ...allowed(
    ['TDIST'],
    3,
    (t, n, tails) => t >= 0 && isFreedom(n) && [1, 2].includes(whole(tails)),
    (t, n, tails) => (studentBothTails(t, whole(n)) * whole(tails)) / 2,
  ),
  ...distribution(
    ['T.DIST'],
    2,
    (_, n) => isFreedom(n),
    (t, n) => studentBelow(t, whole(n)),
    (t, n) =>
      Math.exp(logGamma((n + 1) / 2) - logGamma(n / 2) - ((n + 1) / 2) * Math.log1p((t * t) / n)) /
      Math.sqrt(n * Math.PI),
  ),
];

const squares: readonly BuiltIn[] = [
  ...allowed(
    ['CHISQ.DIST.RT', 'CHIDIST'],
    2,
    (x, n) => x >= 0 && isFreedom(n),
    (x, n) => incompleteGamma(whole(n) / 2, x / 2).upper,
  ),
  ...distribution(
    ['CHISQ.DIST'],
    2,
    (x, n) => x > 0 && isFreedom(n),
    (x, n) => incompleteGamma(whole(n) / 2, x / 2).lower,
    (x, n) => Math.exp((n / 2 - 1) * Math.log(x) - x / 2 - (n / 2) * Math.LN2 - logGamma(n / 2)),
  ),
  ...allowed(
    ['CHISQ.INV'],
    2,
    (p, n) => isChance(p) && isFreedom(n),
    (p, n) => 2 * gammaInverse(p, whole(n) / 2),
  ),
  ...allowed(
    ['CHISQ.INV.RT', 'CHIINV'],
    2,
    (p, n) => isChance(p) && isFreedom(n),
    (p, n) => 2 * gammaInverse(1 - p, whole(n) / 2),
  ),
  ...allowed(['F.DIST.RT', 'FDIST'], 3, isFisher, (x, a, b) => fisherAbove(x, whole(a), whole(b))),
  ...allowed(
    ['F.INV.RT', 'FINV'],
    3,
    (p, a, b) => isChance(p) && isFreedom(a) && isFreedom(b),
    (p, a, b) => fisherInverse(p, whole(a), whole(b)),
  ),
  ...allowed(
    ['F.INV'],
    3,
    (p, a, b) => isChance(p) && isFreedom(a) && isFreedom(b),
    (p, a, b) => 1 / fisherInverse(p, whole(b), whole(a)),
  ),
  ...distribution(
    ['F.DIST'],
    3,
    (x, a, b) => x > 0 && isFisher(x, a, b),
    fisherBelow,
    (x, a, b) =>
      Math.exp(
        logGamma((a + b) / 2) -
          logGamma(a / 2) -
          logGamma(b / 2) +
          (a / 2) * Math.log(a / b) +
          (a / 2 - 1) * Math.log(x) -
          ((a + b) / 2) * Math.log1p((a * x) / b),
      ),
  ),
];

const counts: readonly BuiltIn[] = [
  ...distribution(
    ['BINOM.DIST', 'BINOMDIST'],
    3,
    isBinomial,
    (k, n, p) => binomialUpTo(whole(k), whole(n), p),
    (k, n, p) => binomial(whole(k), whole(n), p),
  ),
  ...distribution(
    ['POISSON.DIST', 'POISSON'],
    2,
    (k, mean) => k >= 0 && mean >= 0,
    (k, mean) => (mean === 0 ? 1 : incompleteGamma(whole(k) + 1, mean).upper),
    (k, mean) => poisson(whole(k), mean),
  ),
  ...distribution(
    ['EXPON.DIST', 'EXPONDIST'],
    2,
    (x, rate) => x >= 0 && rate > 0,
    (x, rate) => -Math.expm1(-rate * x),
    (x, rate) => rate * Math.exp(-rate * x),
  ),
  ...distribution(
    ['HYPGEOM.DIST'],
    4,
    (k, n, m, all) =>
      k >= 0 && k <= n && k <= m && n <= all && m <= all && k >= n + m - all && all >= 1 && all <= 1000,
    (k, n, m, all) =>
      sumTo(whole(k), (at) =>
        at < whole(n) + whole(m) - whole(all) ? 0 : hypergeometric(at, whole(n), whole(m), whole(all)),
      ),
    (k, n, m, all) => hypergeometric(whole(k), whole(n), whole(m), whole(all)),
  ),
  ...distribution(
    ['WEIBULL.DIST', 'WEIBULL'],
    3,
    (x, shape, scale) => x >= 0 && shape > 0 && scale > 0,
    (x, shape, scale) => -Math.expm1(-((x / scale) ** shape)),
    (x, shape, scale) => (shape / scale) * (x / scale) ** (shape - 1) * Math.exp(-((x / scale) ** shape)),
  ),
  ...distribution(
    ['GAMMA.DIST', 'GAMMADIST'],
    3,
    (x, shape, scale) => x >= 0 && shape > 0 && scale > 0,
    (x, shape, scale) => incompleteGamma(shape, x / scale).lower,
    (x, shape, scale) =>
      Math.exp((shape - 1) * Math.log(x) - x / scale - shape * Math.log(scale) - logGamma(shape)),
  ),
  ...allowed(
    ['GAMMA.INV', 'GAMMAINV'],
    3,
    (p, shape, scale) => (p === 0 || isChance(p)) && shape > 0 && scale > 0,
    (p, shape, scale) => (p === 0 ? 0 : scale * gammaInverse(p, shape)),
  ),
  define('BETA.DIST', [4, 6], 'value', (given) => beta(given, false)),
  define('BETADIST', [3, 5], 'value', (given) => beta(given, true)),
];

export const distributions: readonly BuiltIn[] = [
  ...normal,
  ...student,
  ...squares,
  ...counts,
  numeric('GAMMA', [1, 1], (x) => gammaOf(x)),
  ...allowed(['GAMMALN', 'GAMMALN.PRECISE'], 1, (x) => x > 0, logGamma),
  numeric('ERF', [1, 2], (from, to) =>
    to === undefined ? errorFunction(from) : errorFunction(to) - errorFunction(from),
  ),
  numeric('ERF.PRECISE', [1, 1], (x) => errorFunction(x)),
  ...named(
    numeric('ERFC', [1, 1], (x) => errorRest(x)),
    'ERFC',
    'ERFC.PRECISE',
  ),
];
