import { requireAtLeast, requireNumber } from '../shared/checks';

/** Days from inoculation of each lot, in any order. */
export interface Waits {
  /** Of lots that are ready: until they were. */
  readonly ready: readonly number[];
  /** Of lots that still wait: so far. */
  readonly waiting: readonly number[];
}

/** The Kaplan–Meier curve just after a time at which lots became ready. */
export interface CurveStep {
  readonly days: number;
  /** Lots still waiting just before. */
  readonly atRisk: number;
  readonly ready: number;
  /** Share of lots still waiting after this time. */
  readonly waiting: number;
  /** Greenwood's standard error of `waiting`. */
  readonly standardError: number;
  /** The 95% band around `waiting`; undefined where it is 0 and the band has no width to speak of. */
  readonly band: { readonly low: number; readonly high: number } | undefined;
}

/** A number of days by which a share of lots is ready, and its 95% interval; undefined where the records end first. */
export interface DaysBy {
  readonly days: number | undefined;
  readonly from: number | undefined;
  readonly to: number | undefined;
}

/** 97.5% point of the standard normal distribution. */
const Z95 = 1.959963984540054;

/** Shares that should be equal differ by rounding: a product of a hundred thousand fractions stays well within this. */
const SAME_SHARE = 1e-9;

/**
 * How the share of lots still waiting falls with the days since inoculation, learnt from lots that are ready and lots
 * that still wait: the Kaplan–Meier estimate.
 *
 * At each time at which lots became ready the share is multiplied by 1 − ready / at risk. A lot that still waits
 * counts as at risk up to its days so far. One that waits exactly as long as another took to be ready still counts
 * then. Its standard error is Greenwood's: share × √Σ ready / (at risk × (at risk − ready)). The band is the one on
 * the log(−log) scale, which stays within 0 and 1 and holds its promise in small samples better than share ± z × error.
 *
 * @param waits days of 0 or more
 * @returns one step for each time at which lots became ready, in order
 * @throws invalid where days are not a number of 0 or more
 * @source Kaplan, E. L., Meier, P. (1958) Nonparametric estimation from incomplete observations. J. American
 * Statistical Association 53:457–481; Greenwood, M. (1926) The natural duration of cancer. Reports on Public Health and
 * Medical Subjects 33; Kalbfleisch, J. D., Prentice, R. L. (1980) The Statistical Analysis of Failure Time Data, sect. 1.3
 */
export function waitingCurve(waits: Waits): CurveStep[] {
  const readyDays = sortedDays('ready', waits.ready);
  const waitingDays = sortedDays('waiting', waits.waiting);
  const lots = readyDays.length + waitingDays.length;
  const steps: CurveStep[] = [];
  let waiting = 1;
  let greenwood = 0;
  let waitingBefore = 0;
  for (let at = 0; at < readyDays.length;) {
    const days = readyDays[at]!;
    while (waitingBefore < waitingDays.length && waitingDays[waitingBefore]! < days) waitingBefore++;
    const atRisk = lots - at - waitingBefore;
    let ready = 0;
    for (; at < readyDays.length && readyDays[at] === days; at++) ready++;
    waiting *= 1 - ready / atRisk;
    greenwood += ready / (atRisk * (atRisk - ready));
    const isLast = ready === atRisk;
    steps.push({
      days,
      atRisk,
      ready,
      waiting: isLast ? 0 : waiting,
      standardError: isLast ? 0 : waiting * Math.sqrt(greenwood),
      band: isLast ? undefined : logLogBand(waiting, greenwood),
    });
  }
  return steps;
}

function sortedDays(argument: string, days: readonly number[]): Float64Array {
  days.forEach((one, index) => requireAtLeast(argument, one, 0, index));
  return Float64Array.from(days).sort();
}

function logLogBand(waiting: number, greenwood: number): { low: number; high: number } {
  const reach = Math.exp((Z95 * Math.sqrt(greenwood)) / -Math.log(waiting));
  return { low: waiting ** reach, high: waiting ** (1 / reach) };
}

/**
 * The days by which a share of lots is ready, read off the curve of those waiting.
 *
 * The first time at which no more than 1 − share still wait; where exactly that share waits from one time to the next,
 * the middle of the two, so that without waiting lots the median is the ordinary one. The interval runs between the
 * times at which the curve's band passes 1 − share (Brookmeyer and Crowley).
 *
 * @param share of lots ready, above 0 and below 1
 * @returns days, each undefined where the records do not reach so far
 * @throws invalid where the share is out of range
 * @source Brookmeyer, R., Crowley, J. (1982) A confidence interval for the median survival time. Biometrics 38:29–41;
 * Klein, J. P., Moeschberger, M. L. (1997) Survival Analysis, sect. 4.5
 */
export function daysBy(share: number, curve: readonly CurveStep[]): DaysBy {
  requireNumber('share', share, { above: 0, below: 1 });
  return {
    days: crossing(curve, 1 - share, (step) => step.waiting),
    from: crossing(curve, 1 - share, (step) => step.band?.low),
    to: crossing(curve, 1 - share, (step) => step.band?.high),
  };
}

function crossing(
  curve: readonly CurveStep[],
  level: number,
  height: (step: CurveStep) => number | undefined,
): number | undefined {
  for (let i = 0; i < curve.length; i++) {
    const here = height(curve[i]!);
    if (here === undefined) return undefined;
    if (here < level - SAME_SHARE) return curve[i]!.days;
    if (here <= level + SAME_SHARE) {
      const next = curve[i + 1];
      return next === undefined ? curve[i]!.days : (curve[i]!.days + next.days) / 2;
    }
  }
  return undefined;
}

/** Standard deviations from the 10% to the 90% point of a normal distribution. */
const TENTHS_APART = 2.563103131;

/**
 * How far lots of one strain differ in the days they take: the standard deviation of the times on the curve, which
 * without waiting lots is that of the sample. Where the longest still wait, the curve's 10% and 90% points tell it as
 * those of a normal distribution would.
 *
 * @returns undefined where fewer than two lots are ready, or the records end before nine tenths are
 */
export function daysSpread(curve: readonly CurveStep[]): number | undefined {
  const lots = curve.reduce((sum, { ready }) => sum + ready, 0);
  if (lots < 2) return undefined;
  if (curve.at(-1)!.waiting > 0) {
    const [early, late] = [daysBy(0.1, curve).days, daysBy(0.9, curve).days];
    return early === undefined || late === undefined ? undefined : (late - early) / TENTHS_APART;
  }
  const shares = curve.map(({ days, waiting }, i) => ({
    days,
    share: (curve[i - 1]?.waiting ?? 1) - waiting,
  }));
  const mean = shares.reduce((sum, { days, share }) => sum + share * days, 0);
  const variance = shares.reduce((sum, { days, share }) => sum + share * (days - mean) ** 2, 0);
  return Math.sqrt((variance * lots) / (lots - 1));
}
