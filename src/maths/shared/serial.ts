import { UTCDate } from '@date-fns/utc';
import { formatISO } from 'date-fns/formatISO';
import { getISOWeek } from 'date-fns/getISOWeek';
import { getISOWeekYear } from 'date-fns/getISOWeekYear';
import { CalcError } from './calcError';

/**
 * Which day a workbook counts from. Adding days is the same in both systems; a weekday or a written date must
 * know. Serial 61 of the 1900 system is 1900-03-01; lower serials are a day off there, because spreadsheets count
 * a 29 February 1900 that never was. Serial 0 of the 1904 system is 1904-01-01.
 */
export type DateSystem = 1900 | 1904;

/** Serial of 9999-12-31 in the 1900 system: the last date a worksheet can show. */
export const LAST_SERIAL = 2958465;

const MILLISECONDS_A_DAY = 86_400_000;
const EPOCH: Record<DateSystem, number> = {
  1900: Date.UTC(1899, 11, 30),
  1904: Date.UTC(1904, 0, 1),
};

/** The serial of a calendar day given as year, month (1 to 12) and day. */
export function serialOf(year: number, month: number, day: number, system: DateSystem = 1900): number {
  return (Date.UTC(year, month - 1, day) - EPOCH[system]) / MILLISECONDS_A_DAY;
}

/** Midnight UTC of the day a serial falls on; the time of day in its fraction is dropped. */
function utcDay(serial: number, system: DateSystem): UTCDate {
  return new UTCDate(EPOCH[system] + Math.floor(serial) * MILLISECONDS_A_DAY);
}

/** A date as messages write it: `2026-03-01`. */
export function writtenDate(serial: number, system: DateSystem): string {
  return formatISO(utcDay(serial, system), { representation: 'date' });
}

/** A date and time of day as messages write it: `2026-03-01 14:30`. */
export function writtenTime(serial: number, system: DateSystem): string {
  const minutes = Math.round((serial * MILLISECONDS_A_DAY) / 60_000);
  return formatISO(new UTCDate(EPOCH[system] + minutes * 60_000))
    .slice(0, 16)
    .replace('T', ' ');
}

/** `<argument>: <needed> needed, got 2026-03-01`: a date outside its range. */
export function invalidDate(
  argument: string,
  needed: string,
  serial: number,
  system: DateSystem,
  index?: number,
): CalcError {
  const message = `${argument}: ${needed} needed, got ${writtenDate(serial, system)}`;
  return new CalcError('invalid', message, index === undefined ? { argument } : { argument, index });
}

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;

/** The English weekday of a serial: `Monday`. */
export function weekdayOf(serial: number, system: DateSystem): string {
  return WEEKDAYS[utcDay(serial, system).getUTCDay()]!;
}

/** The ISO 8601 week of a serial: `2026-W09`. */
export function isoWeekOf(serial: number, system: DateSystem): string {
  const day = utcDay(serial, system);
  return `${getISOWeekYear(day)}-W${String(getISOWeek(day)).padStart(2, '0')}`;
}
