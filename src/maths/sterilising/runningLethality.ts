import { invalid, missing } from '../shared/calcError';
import { requireWithin } from '../shared/checks';
import {
  COLDEST_READING,
  HOTTEST_READING,
  lethalRate,
  requireResistance,
  SPORES,
  type Resistance,
} from './lethalRate';

/**
 * Equivalent minutes at the reference temperature up to each reading of a core logger.
 *
 * The integral of 10^((T − reference) / z) over time, exact for a temperature that runs straight between readings:
 * a step of Δt adds Δt × (L2 − L1) / ln(L2 / L1), the logarithmic mean of its two lethal rates. The trapezoid rule
 * would credit a coarse come-up with too much: 2.52 instead of 1.02 minutes for one step of 5 minutes from 100 to
 * 121.1 °C.
 *
 * @param minutes time of each reading in minutes, rising
 * @param temperaturesC core temperature of each reading in °C, -40 to 160
 * @returns the total so far beside each reading, the first 0
 * @throws invalid where a reading is not later than the one before, a temperature or the resistance out of range
 * @throws missing where there are fewer than two readings
 * @source Ball, C. O. & Olson, F. C. W. (1957) Sterilization in Food Technology, general method; the logarithmic
 * mean follows by integrating over a straight line
 */
export function runningLethality(
  minutes: readonly number[],
  temperaturesC: readonly number[],
  resistance: Resistance = SPORES,
): Float64Array {
  requireResistance(resistance);
  requireReadings(minutes, temperaturesC);
  const perDegree = Math.LN10 / resistance.zC;
  const running = new Float64Array(minutes.length);
  let before = temperaturesC[0]!;
  let rateBefore = lethalRate(before, resistance);
  let total = 0;
  for (let i = 1; i < minutes.length; i++) {
    const now = temperaturesC[i]!;
    const rate = lethalRate(now, resistance);
    const rise = perDegree * (now - before);
    // Where the rates are nearly equal their difference loses its digits: the series of (e^x − 1) / x instead.
    const mean =
      Math.abs(rise) > 1e-3
        ? (rate - rateBefore) / rise
        : rateBefore * (1 + (rise / 2) * (1 + (rise / 3) * (1 + rise / 4)));
    total += mean * (minutes[i]! - minutes[i - 1]!);
    running[i] = total;
    before = now;
    rateBefore = rate;
  }
  return running;
}

/** Passes the readings of a core logger: two or more, one after the other, of a working probe. */
export function requireReadings(minutes: readonly number[], temperaturesC: readonly number[]): void {
  const count = minutes.length;
  if (temperaturesC.length !== count) {
    throw invalid('temperatures', `${count} readings`, temperaturesC.length);
  }
  if (count < 2) throw missing('times', 'two readings or more needed');
  for (let i = 0; i < count; i++) {
    requireWithin('temperatures', temperaturesC[i]!, COLDEST_READING, HOTTEST_READING, '°C', i);
    if (!(i === 0 ? Number.isFinite(minutes[0]) : minutes[i]! > minutes[i - 1]!)) {
      throw invalid('times', 'a time later than the one before', minutes[i], i);
    }
  }
}
