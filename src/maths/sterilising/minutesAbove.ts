import { requireCelsius } from '../shared/checks';
import { COLDEST_READING, HOTTEST_READING, requireReadings } from './readings';

export interface TimeAbove {
  /** Minutes at or above the threshold. */
  readonly minutes: number;
  /** Minutes of the longest spell without a drop below it. */
  readonly longest: number;
  /** The first of the hottest readings, by its place in the log. */
  readonly hottest: number;
}

/**
 * How long a core was at or above a threshold, and how hot it got.
 *
 * The temperature runs straight between readings, so that a crossing lies where that line meets the threshold. Nothing
 * is counted before the first reading or after the last.
 *
 * @param minutes time of each reading in minutes, rising
 * @param temperaturesC core temperature of each reading in °C, -40 to 160
 * @param thresholdC -40 to 160 °C
 * @throws invalid where a reading is not later than the one before, or a temperature is out of range
 * @throws missing where there are fewer than two readings
 * @source definition
 */
export function minutesAbove(
  minutes: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  thresholdC: number,
): TimeAbove {
  requireCelsius('threshold', thresholdC, COLDEST_READING, HOTTEST_READING);
  requireReadings(minutes, temperaturesC);
  const last = minutes.length - 1;
  let [total, longest, hottest] = [0, 0, 0];
  /** When the spell began that the reading before is in; undefined where it lies below. */
  let began: number | undefined;
  const end = (minute: number): void => {
    total += minute - began!;
    longest = Math.max(longest, minute - began!);
    began = undefined;
  };
  for (let i = 0; i <= last; i++) {
    const reading = temperaturesC[i]!;
    if (reading > temperaturesC[hottest]!) hottest = i;
    const isAbove = reading >= thresholdC;
    if (isAbove === (began !== undefined)) continue;
    if (!isAbove) end(crossing(minutes, temperaturesC, i, thresholdC));
    else began = i === 0 ? minutes[0]! : crossing(minutes, temperaturesC, i, thresholdC);
  }
  if (began !== undefined) end(minutes[last]!);
  return { minutes: total, longest, hottest };
}

/** When the line to reading i from the one before, which lies on the other side, meets the threshold. */
function crossing(
  minutes: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  i: number,
  thresholdC: number,
): number {
  const [from, to] = [temperaturesC[i - 1]!, temperaturesC[i]!];
  const [start, end] = [minutes[i - 1]!, minutes[i]!];
  return start + ((thresholdC - from) / (to - from)) * (end - start);
}
