import { UTCDate } from '@date-fns/utc';
import { formatISO } from 'date-fns/formatISO';

/**
 * Which day a workbook counts from. Adding days is the same in both systems; a weekday or a written date must
 * know. Serial 61 of the 1900 system is 1900-03-01; lower serials are a day off there, because spreadsheets count
 * a 29 February 1900 that never was. Serial 0 of the 1904 system is 1904-01-01.
 */
export type DateSystem = 1900 | 1904;

/** Serial of 9999-12-31 in the 1900 system: the last date a worksheet can show. */
export const LAST_SERIAL = 2958465;

export const MILLISECONDS_A_DAY = 86_400_000;
/** Midnight UTC of day 0 in each system. */
export const EPOCH: Record<DateSystem, number> = {
  1900: Date.UTC(1899, 11, 30),
  1904: Date.UTC(1904, 0, 1),
};

/** The serial of a calendar day given as year, month (1 to 12) and day. */
export function serialOf(year: number, month: number, day: number, system: DateSystem = 1900): number {
  return (Date.UTC(year, month - 1, day) - EPOCH[system]) / MILLISECONDS_A_DAY;
}

/** Midnight UTC of the day a serial falls on; the time of day in its fraction is dropped. */
export function utcDay(serial: number, system: DateSystem): UTCDate {
  return new UTCDate(EPOCH[system] + Math.floor(serial) * MILLISECONDS_A_DAY);
}

/** A date as people write it for each other across borders: `2026-03-01`. */
export function writtenDate(serial: number, system: DateSystem): string {
  return formatISO(utcDay(serial, system), { representation: 'date' });
}
