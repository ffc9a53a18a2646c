import type { JStat } from 'jstat';

let loading: Promise<{ readonly jStat: JStat }> | undefined;
let loaded: JStat | undefined;

/** Loads the package of distributions once. A function that needs one of them names this as its `prepare`. */
export async function loadDistributions(): Promise<void> {
  loading ??= import('jstat').then((module) => module.default);
  loaded = (await loading).jStat;
}

function distributions(): JStat {
  if (!loaded)
    throw new Error('the distributions must be loaded before a function that needs them is called');
  return loaded;
}

/** Natural logarithm of the gamma function, above 0. */
export const logGamma = (x: number): number => distributions().gammaln(x);

/** Probability that a standard normal variate is at most z. */
export const normalBelow = (z: number): number => distributions().normal.cdf(z, 0, 1);

/** The z that a standard normal variate stays within, above and below 0, with probability `coverage`. */
export const normalHalfWidth = (coverage: number): number =>
  distributions().normal.inv((1 + coverage) / 2, 0, 1);

/** Probability that Student's t with `freedom` degrees of freedom (1 or more) is farther from 0 than t. */
export const studentBeyond = (t: number, freedom: number): number =>
  distributions().ibeta(freedom / (freedom + t * t), freedom / 2, 0.5);

/** The t that Student's t stays within, above and below 0, with probability `coverage`. */
export const studentHalfWidth = (coverage: number, freedom: number): number =>
  distributions().studentt.inv((1 + coverage) / 2, freedom);

/** Probability that Fisher's F with the given degrees of freedom (1 or more each) is above f; not 1 less that below,
 * which would lose small ones. */
export function fisherAbove(f: number, freedomAbove: number, freedomBelow: number): number {
  if (f <= 0) return 1;
  const x = freedomBelow / (freedomBelow + freedomAbove * f);
  return distributions().ibeta(x, freedomBelow / 2, freedomAbove / 2);
}
