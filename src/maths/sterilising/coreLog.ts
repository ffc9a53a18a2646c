import { invalid, type CalcError } from '../shared/fault';
import { isSound, readingFault, requireTwoReadings } from './readings';

declare module '../shared/fault' {
  interface FaultDetails {
    /** Dates or times of day where minutes are expected. */
    datesForMinutes: object;
    /** Dates that lie too far apart to be one log. */
    logTooLong: { readonly most: number; readonly days: number };
    /** A row without a reading before the first that has one: minute 0 with a dead probe, or an empty row. */
    noFirstReading: object;
    /** A reading without a date beside it. */
    noTime: object;
  }
}

/** What the times of a log count; undefined where nobody said, which is minutes unless they look like dates. */
export type TimeUnit = 'minutes' | 'dates' | undefined;

/** The readings of a core logger without the entries that hold none. */
export interface CoreLog {
  /** Minutes since the first reading. */
  readonly minutes: Float64Array;
  readonly temperaturesC: Float64Array;
  /** The entry of each reading in the lists given. */
  readonly entries: Int32Array;
}

const MINUTES_A_DAY = 1440;
const LONGEST_LOG_DAYS = 30;
/** A day in 1954: no log of minutes is as long, no logger as old. */
const FIRST_DATE = 20_000;

/** Whether a log's first time is a date, said or seen: then 0 is no time of it. */
const startsInDates = (time: number, timeUnit: TimeUnit): boolean =>
  timeUnit === 'dates' || (timeUnit === undefined && time >= FIRST_DATE);

/** The readings of a log up to the first that is at fault. */
interface Readings {
  readonly times: Float64Array;
  readonly temperaturesC: Float64Array;
  readonly entries: Int32Array;
  readonly fault: CalcError | undefined;
}

function readingsUpToFault(
  times: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  timeUnit: TimeUnit,
): Readings {
  const entries = new Int32Array(times.length);
  const soundTimes = new Float64Array(times.length);
  const sound = new Float64Array(times.length);
  let count = 0;
  let before = -Infinity;
  let fault: CalcError | undefined;
  for (let i = 0; i < times.length; i++) {
    const time = times[i]!;
    const reading = temperaturesC[i]!;
    if (!isSound(time, before, reading)) {
      if (time === 0 && Number.isNaN(reading)) continue;
      fault = readingFault(i, time, before, reading, timeUnit === 'dates' ? 'dates' : 'numbers');
      break;
    }
    if (count === 0 && i > 0 && time !== 0 && !startsInDates(time, timeUnit)) {
      // The row of minute 0 has no reading, or is empty: the sheet hands both over alike.
      fault = invalid('temperatures', 'noFirstReading', undefined, 0);
      break;
    }
    if (time === 0 && timeUnit === 'dates') {
      fault = invalid('times', 'noTime', undefined, i);
      break;
    }
    entries[count] = i;
    soundTimes[count] = time;
    sound[count] = reading;
    count++;
    before = time;
  }
  return {
    times: soundTimes.subarray(0, count),
    temperaturesC: sound.subarray(0, count),
    entries: entries.subarray(0, count),
    fault,
  };
}

/** Counts the times of sound readings in minutes from the first. */
function inMinutes({ times, temperaturesC, entries }: Readings, timeUnit: TimeUnit): CoreLog {
  requireTwoReadings(times.length);
  const first = times[0]!;
  const span = times.at(-1)! - first;
  if (timeUnit === undefined && (first >= FIRST_DATE || span < 1)) throw invalid('times', 'datesForMinutes');
  if (timeUnit === 'dates' && !(span <= LONGEST_LOG_DAYS)) {
    throw invalid('times', 'logTooLong', { most: LONGEST_LOG_DAYS, days: span });
  }
  const scale = timeUnit === 'dates' ? MINUTES_A_DAY : 1;
  const minutes = new Float64Array(times.length);
  for (let i = 0; i < times.length; i++) minutes[i] = (times[i]! - first) * scale;
  return { minutes, temperaturesC, entries };
}

/**
 * A core logger's readings in minutes from the first.
 *
 * An entry with neither time nor temperature does not count, but before the first reading of a log in minutes: it may be
 * minute 0 with a dead probe. A time without a temperature is refused: to bridge a dead
 * probe would credit heat that nobody saw.
 *
 * @param times of each reading, rising: minutes, or serials of dates with times of day; 0 where there is none
 * @param temperaturesC core temperature of each reading in °C, -40 to 160; NaN where there is none
 * @throws invalid where a reading is at fault, times look like dates unsaid, or dates span more than 30 days
 * @throws missing where there are fewer than two readings
 */
export function coreLog(
  times: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  timeUnit: TimeUnit,
): CoreLog {
  const readings = readingsUpToFault(times, temperaturesC, timeUnit);
  if (readings.fault) throw readings.fault;
  return inMinutes(readings, timeUnit);
}

/** The same up to the first reading at fault, and that fault; a log at fault in its first two entries has no such part. */
export function coreLogUpToFault(
  times: ArrayLike<number>,
  temperaturesC: ArrayLike<number>,
  timeUnit: TimeUnit,
): CoreLog & { readonly fault: CalcError | undefined } {
  const readings = readingsUpToFault(times, temperaturesC, timeUnit);
  const { fault } = readings;
  if (fault && fault.fault.index! < 2) throw fault;
  return { ...inMinutes(readings, timeUnit), fault };
}
