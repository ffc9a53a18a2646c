import { Lacking } from '../lacking';
import { NUM } from '../values';

// Days as serials. In the system of 1900 serial 60 is 29 February 1900, a day there never was; serial 0 is "0 January".

export type DateSystem = 1900 | 1904;

export interface Day {
  readonly year: number;
  /** From 1. */
  readonly month: number;
  readonly day: number;
}

const DAY = 86_400_000;
const DAYS_TO_1904 = 1462;
/** 31 December 9999. */
const LAST_SERIAL = 2_958_465;
const EPOCH = Date.UTC(1899, 11, 30);

/** A day's whole serial as counted from 1900. @throws ErrorValue #NUM! where there is no such day */
export function since1900(serial: number, system: DateSystem): number {
  const whole = Math.floor(serial) + (system === 1904 ? DAYS_TO_1904 : 0);
  if (serial < 0 || whole > LAST_SERIAL) throw NUM;
  return whole;
}

/** @throws ErrorValue #NUM! */
export function dayOf(serial: number, system: DateSystem): Day {
  const whole = since1900(serial, system);
  if (whole === 0) return { year: 1900, month: 1, day: 0 };
  if (whole === 60) return { year: 1900, month: 2, day: 29 };
  const date = new Date(EPOCH + (whole < 60 ? whole + 1 : whole) * DAY);
  return { year: date.getUTCFullYear(), month: date.getUTCMonth() + 1, day: date.getUTCDate() };
}

/** The serial of a day; months and days past their ends run on. @throws ErrorValue #NUM! */
export function serialOf(year: number, month: number, day: number, system: DateSystem): number {
  const months = (year - 1900) * 12 + month - 1;
  const first = Date.UTC(1900 + Math.floor(months / 12), ((months % 12) + 12) % 12, 1);
  const days = (first - EPOCH) / DAY;
  const serial = (days <= 60 ? days - 1 : days) + day - 1;
  if (months < 0 || serial < 0 || serial > LAST_SERIAL) throw NUM;
  if (system === 1900) return serial;
  if (serial < DAYS_TO_1904) throw NUM;
  return serial - DAYS_TO_1904;
}

/** Years below 1900 count from 1900. @throws ErrorValue #NUM! */
export function fullYear(year: number, system: DateSystem): number {
  if (year < 0 || year > 9999) throw NUM;
  if (system === 1904 && year < 1904)
    throw new Lacking('years before 1904 in a workbook that counts from 1904');
  return year < 1900 ? year + 1900 : year;
}

/** From 0 for Sunday, as a sheet counts: the days before March 1900 are a day off. */
export const weekdayOf = (serial: number, system: DateSystem): number => (since1900(serial, system) + 6) % 7;

export const isLeap = (year: number): boolean =>
  year === 1900 || (year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0));

export const daysIn = (year: number, month: number): number =>
  month === 2 ? (isLeap(year) ? 29 : 28) : [4, 6, 9, 11].includes(month) ? 30 : 31;
