import type { CalcError } from '../shared/fault';
import { coreLogUpToFault, type TimeUnit } from './coreLog';
import { requireResistance, SPORES, type Resistance } from './lethalRate';
import { runningLethality } from './runningLethality';

/**
 * Equivalent minutes so far beside each entry of a core logger, as `runningLethality` reckons them.
 *
 * The total is known up to the reading before a bad one: from there on each entry holds the fault.
 *
 * @param times of each reading, rising: minutes, or serials of dates with times of day; 0 where there is none
 * @param temperaturesC core temperature of each reading in °C, -40 to 160; NaN where there is none
 * @returns an answer for each entry; undefined where it holds neither time nor temperature
 * @throws invalid where the resistance is out of range, one of the first two entries is at fault, times look like dates
 * unsaid, or dates span more than 30 days
 * @throws missing where there are fewer than two readings
 */
export function lethalityCurve(
  times: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  timeUnit: TimeUnit,
  resistance: Resistance = SPORES,
): (number | CalcError | undefined)[] {
  requireResistance(resistance);
  const log = coreLogUpToFault(times, temperaturesC, timeUnit);
  const running = runningLethality(log.minutes, log.temperaturesC, resistance);
  const answers = new Array<number | CalcError | undefined>(times.length).fill(undefined);
  log.entries.forEach((entry, i) => (answers[entry] = running[i]!));
  if (log.fault) answers.fill(log.fault, log.fault.fault.index);
  return answers;
}
