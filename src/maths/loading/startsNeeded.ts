import { requireFractionBelowOne, requireWhole } from '../shared/checks';
import { invalid } from '../shared/fault';

const MILLION = 1_000_000;

/**
 * How many units to start so that enough of them turn out good.
 *
 * Without a confidence, the expected number suffices: the smallest n with n × (1 − loss) ≥ good. It is worked out in
 * whole millionths, since good / (1 − loss) in floating point is sometimes one too many: 21 at 30% lost is 30, not
 * 31. With a confidence, it is the smallest n of which at least `good` are good with that chance, if each unit is
 * lost independently. Contamination comes in batches, so the true chance is lower.
 *
 * @param good units wanted good, a whole number of 0 or more
 * @param loss share of units lost, 0 up to less than 1, taken to the nearest millionth
 * @param confidence chance of enough good ones, 0 up to less than 1; expected value if undefined
 * @throws invalid where an input is outside its range
 */
export function startsNeeded(good: number, loss: number, confidence?: number): number {
  requireWhole('units', good, 0);
  requireFractionBelowOne('loss', loss);
  const keep = MILLION - Math.round(loss * MILLION);
  if (keep < 1) throw invalid('loss', 'outside', { from: 0, below: 0.999_999_5, given: loss });
  if (good === 0) return 0;
  let starts = Math.floor((good * MILLION) / keep);
  while (starts * keep < good * MILLION) starts++;
  if (confidence === undefined || keep === MILLION) return starts;
  requireFractionBelowOne('confidence', confidence);
  let low = good - 1;
  let high = starts;
  while (chanceOfEnough(high, good, 1 - keep / MILLION) < confidence) {
    low = high;
    high *= 2;
  }
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (chanceOfEnough(middle, good, 1 - keep / MILLION) >= confidence) high = middle;
    else low = middle;
  }
  return high;
}

/** The chance that at least `good` of `starts` units are good: the binomial terms of up to starts − good losses. */
export function chanceOfEnough(starts: number, good: number, loss: number): number {
  if (starts < good) return 0;
  const odds = Math.log(loss) - Math.log1p(-loss);
  let log = starts * Math.log1p(-loss);
  let chance = 0;
  for (let lost = 0; lost <= starts - good; lost++) {
    chance += Math.exp(log);
    log += Math.log((starts - lost) / (lost + 1)) + odds;
  }
  return Math.min(1, chance);
}
