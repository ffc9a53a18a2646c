import { celsiusOf, invalid, missing, timeOf, type CalcError } from '../shared/fault';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A time without a temperature beside it: the heat of that while is not known. */
    noReading: object;
  }
}

/** Lowest and highest temperature (°C) taken for a reading of a core in moist heat; beyond it a probe is at fault. */
export const COLDEST_READING = -40;
export const HOTTEST_READING = 160;

/** Passes a log that holds two readings or more. */
export function requireTwoReadings(found: number): void {
  if (found < 2) throw missing('times', 'tooFew', { least: 2, things: 'readings', found });
}

/** Whether a reading is later than the one before and of a working probe; NaN is no reading. */
export const isSound = (time: number, before: number, temperatureC: number): boolean =>
  time > before && temperatureC >= COLDEST_READING && temperatureC <= HOTTEST_READING;

/** Why a reading is not sound. `written` is how its times are told, as numbers or as dates. */
export function readingFault(
  index: number,
  time: number,
  before: number,
  temperatureC: number,
  written: 'numbers' | 'dates' = 'numbers',
): CalcError {
  if (Number.isNaN(temperatureC)) return invalid('temperatures', 'noReading', undefined, index);
  if (time > before) {
    const limits = { from: celsiusOf(COLDEST_READING), to: celsiusOf(HOTTEST_READING) };
    return invalid('temperatures', 'outside', { ...limits, given: celsiusOf(temperatureC) }, index);
  }
  if (before === -Infinity) return invalid('times', 'outside', { given: time }, index);
  const told = written === 'dates' ? timeOf : (figure: number) => figure;
  return invalid('times', 'notLater', { before: told(before), given: told(time) }, index);
}

/** Passes the readings of a core logger: two or more, one after the other, of a working probe. */
export function requireReadings(minutes: ArrayLike<number>, temperaturesC: ArrayLike<number>): void {
  const count = minutes.length;
  if (temperaturesC.length !== count) {
    const details = { other: 'times', length: count, found: temperaturesC.length };
    throw invalid('temperatures', 'notAsLong', details);
  }
  requireTwoReadings(count);
  let before = -Infinity;
  for (let i = 0; i < count; i++) {
    const minute = minutes[i]!;
    const reading = temperaturesC[i]!;
    if (!isSound(minute, before, reading)) throw readingFault(i, minute, before, reading);
    before = minute;
  }
}
