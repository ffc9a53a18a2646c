import type { JStat } from 'jstat';

/** The probability distributions that intervals and comparisons ask for. */
export interface Distributions {
  /** Natural logarithm of the gamma function, above 0. */
  readonly logGamma: (x: number) => number;
  /** Probability that a standard normal variate is at most z. */
  readonly normalBelow: (z: number) => number;
  /** The z that a standard normal variate stays within, above and below 0, with probability `coverage`. */
  readonly normalHalfWidth: (coverage: number) => number;
  /** Probability that Student's t with `freedom` degrees of freedom (1 or more) is farther from 0 than t. */
  readonly studentBeyond: (t: number, freedom: number) => number;
  /** The t that Student's t stays within, above and below 0, with probability `coverage`. */
  readonly studentHalfWidth: (coverage: number, freedom: number) => number;
  /**
   * Probability that Fisher's F with the given degrees of freedom (1 or more each) is above f; not 1 less that below,
   * which would lose small ones.
   */
  readonly fisherAbove: (f: number, freedomAbove: number, freedomBelow: number) => number;
}

/** The distributions by the given package. */
export const distributionsBy = (jStat: JStat): Distributions => ({
  logGamma: (x) => jStat.gammaln(x),
  normalBelow: (z) => jStat.normal.cdf(z, 0, 1),
  normalHalfWidth: (coverage) => jStat.normal.inv((1 + coverage) / 2, 0, 1),
  studentBeyond: (t, freedom) => jStat.ibeta(freedom / (freedom + t * t), freedom / 2, 0.5),
  studentHalfWidth: (coverage, freedom) => jStat.studentt.inv((1 + coverage) / 2, freedom),
  fisherAbove: (f, freedomAbove, freedomBelow) =>
    f <= 0
      ? 1
      : jStat.ibeta(freedomBelow / (freedomBelow + freedomAbove * f), freedomBelow / 2, freedomAbove / 2),
});

/** Loads the package of distributions, which most calls can do without. */
export async function loadDistributions(): Promise<Distributions> {
  const { default: module } = await import('jstat');
  return distributionsBy(module.jStat);
}
