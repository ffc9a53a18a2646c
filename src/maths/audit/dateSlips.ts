import { serialOf, utcDay, type DateSystem } from '../shared/serial';
import type { Slip } from './yieldRecords';

/** A date that may have been meant, and ln of how often the slip happens to a date. */
export interface MeantDate {
  readonly day: number;
  readonly slip: Slip;
  readonly prior: number;
}

// How often a typed date has each slip, of its own: judgement, no source.
const SWAPPED = Math.log(0.002);
const YEAR = Math.log(0.001);
const MONTH = Math.log(0.0004);
const DAY = Math.log(0.0001);

/**
 * The dates that a typed one may have been meant for: day and month swapped, another year, the month before or after, one
 * digit of the day.
 */
export function meantDates(typed: number, system: DateSystem): MeantDate[] {
  const date = utcDay(typed, system);
  const [year, month, day] = [date.getUTCFullYear(), date.getUTCMonth() + 1, date.getUTCDate()];
  const meant: MeantDate[] = [];
  const add = (y: number, m: number, d: number, slip: Slip, prior: number): void => {
    const serial = serialOf(y, m, d, system);
    // A day that the month does not have would be one of the next month.
    if (utcDay(serial, system).getUTCDate() === d) meant.push({ day: serial, slip, prior });
  };
  if (day <= 12 && day !== month) add(year, day, month, 'swapped date', SWAPPED);
  for (const years of [-1, 1]) add(year + years, month, day, 'other year', YEAR);
  for (const months of [-1, 1]) add(year, month + months, day, 'other month', MONTH);
  for (let other = 1; other <= 31; other++) {
    const [tens, ones] = [Math.floor(other / 10), other % 10];
    const sameTens = tens === Math.floor(day / 10);
    const isTurned = 10 * ones + tens === day;
    if (other !== day && (sameTens || ones === day % 10 || isTurned))
      add(year, month, other, 'other day', DAY);
  }
  return meant;
}
