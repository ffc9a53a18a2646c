import { jStat } from './jstat';
import { NUM } from '../values';

// The functions behind the distributions, to about fourteen digits: the library's own end after eight to ten and serve
// as a first guess only. Formulas: NIST Digital Library of Mathematical Functions, 8.9.2 and 8.17.22.

/** Stirling's series, 5.11.1 there: Bernoulli numbers over 2k(2k−1). */
const STIRLING = [1 / 12, -1 / 360, 1 / 1260, -1 / 1680, 1 / 1188, -691 / 360_360, 1 / 156, -3617 / 122_400];

/** Natural logarithm of the gamma function, above 0: the series from 15 on, smaller numbers lifted there. */
export function logGamma(x: number): number {
  let lifted = x;
  let product = 1;
  for (; lifted < 15; lifted++) product *= lifted;
  const square = lifted * lifted;
  const rest = STIRLING.reduceRight((sum, term) => sum / square + term, 0) / lifted;
  return (lifted - 0.5) * Math.log(lifted) - lifted + Math.log(2 * Math.PI) / 2 + rest - Math.log(product);
}

const TINY = 1e-300;
const MOST_STEPS = 5000;

/** A continued fraction by Lentz's method. @throws ErrorValue where it does not settle */
function continued(
  first: number,
  term: (n: number) => readonly [numerator: number, denominator: number],
): number {
  let value = first || TINY;
  let [c, d] = [value, 0];
  for (let n = 1; n < MOST_STEPS; n++) {
    const [a, b] = term(n);
    d = 1 / (b + a * d || TINY);
    c = b + a / c || TINY;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) return value;
  }
  throw NUM;
}

/** Regularised lower and upper incomplete gamma functions, 8.11.4 and 8.9.2. */
export function incompleteGamma(a: number, x: number): { lower: number; upper: number } {
  if (x <= 0) return { lower: 0, upper: 1 };
  const front = Math.exp(a * Math.log(x) - x - logGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < MOST_STEPS && term > sum * 1e-17; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return { lower: front * sum, upper: 1 - front * sum };
  }
  const upper = front / continued(x + 1 - a, (n) => [-n * (n - a), x + 2 * n + 1 - a]);
  return { lower: 1 - upper, upper };
}

/** Regularised incomplete beta function. */
export function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  if (x > (a + 1) / (a + b + 2)) return 1 - incompleteBeta(1 - x, b, a);
  const front = Math.exp(logGamma(a + b) - logGamma(a) - logGamma(b) + a * Math.log(x) + b * Math.log1p(-x));
  const below = continued(1, (n) => {
    const m = n >> 1;
    const over = a + n - 1;
    const numerator =
      n % 2 === 1
        ? (-(a + m) * (a + b + m) * x) / (over * (over + 1))
        : (m * (b - m) * x) / (over * (over + 1));
    return [numerator, 1];
  });
  return front / (a * below);
}

/** The chance that a standard normal number is at most `z`; both tails without loss. */
export function normalBelow(z: number): number {
  const { lower, upper } = incompleteGamma(0.5, (z * z) / 2);
  return z < 0 ? upper / 2 : 0.5 + lower / 2;
}

export const normalDensity = (z: number): number => Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI);

/** The number below which a standard normal one is with chance `p`; sharpened by Newton's method. */
export function normalInverse(p: number): number {
  if (p <= 0 || p >= 1) throw NUM;
  if (p > 0.5) return -normalInverse(1 - p);
  let z: number = jStat.normal.inv(p, 0, 1);
  for (let n = 0; n < 3; n++) z -= (normalBelow(z) - p) / normalDensity(z);
  return p === 0.5 ? 0 : z;
}

/**
 * Where a rising function reaches a value: bounds widened, then halved until they meet. @throws ErrorValue #NUM!
 */
export function rootOf(rising: (x: number) => number, wanted: number, low: number, high: number): number {
  let [from, to] = [low, high];
  for (let n = 0; rising(to) < wanted; n++) {
    if (n > 1000) throw NUM;
    [from, to] = [to, to * 2];
  }
  for (let n = 0; n < 2000; n++) {
    const middle = (from + to) / 2;
    if (middle <= from || middle >= to) return middle;
    if (rising(middle) < wanted) from = middle;
    else to = middle;
  }
  return (from + to) / 2;
}

/** Twice the chance that Student's t is past a positive number. */
export const studentBothTails = (t: number, freedom: number): number =>
  incompleteBeta(freedom / (freedom + t * t), freedom / 2, 0.5);

export const studentBelow = (t: number, freedom: number): number => {
  const tail = studentBothTails(Math.abs(t), freedom) / 2;
  return t < 0 ? tail : 1 - tail;
};

/** The positive number past which, on both sides together, Student's t is with chance `p`. */
export const studentInverse = (p: number, freedom: number): number =>
  rootOf((t) => -studentBothTails(t, freedom), -p, 0, 1);

export const betaInverse = (p: number, a: number, b: number): number =>
  rootOf((x) => incompleteBeta(x, a, b), p, 0, 1);

export const gammaInverse = (p: number, a: number): number =>
  rootOf((x) => incompleteGamma(a, x).lower, p, 0, Math.max(1, a));
