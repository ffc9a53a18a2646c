import { lethalRate, requireResistance, SPORES, type Resistance } from './lethalRate';
import { requireReadings } from './readings';

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
  minutes: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  resistance: Resistance = SPORES,
): Float64Array {
  requireResistance(resistance);
  requireReadings(minutes, temperaturesC);
  const { zC, referenceC } = resistance;
  const perDegree = Math.LN10 / zC;
  const running = new Float64Array(minutes.length);
  let before = temperaturesC[0]!;
  let rateBefore = lethalRate(before, resistance);
  let total = 0;
  for (let i = 1; i < minutes.length; i++) {
    const now = temperaturesC[i]!;
    // The lethal rate written out: a call a reading would cost as much as the rest of the loop.
    const rate = Math.exp(perDegree * (now - referenceC));
    const rise = perDegree * (now - before);
    // Where the rates are nearly equal their difference loses its digits: the series of (e^x − 1) / x instead.
    const mean =
      rise > 1e-3 || rise < -1e-3
        ? (rate - rateBefore) / rise
        : rateBefore * (1 + (rise / 2) * (1 + (rise / 3) * (1 + rise / 4)));
    total += mean * (minutes[i]! - minutes[i - 1]!);
    running[i] = total;
    before = now;
    rateBefore = rate;
  }
  return running;
}
