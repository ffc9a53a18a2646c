import { UTCDate } from '@date-fns/utc';
import { formatISO } from 'date-fns/formatISO';
import { EPOCH, MILLISECONDS_A_DAY, utcDay, type DateSystem } from '../maths/shared/serial';

export { LEAST_LOADED_DATE } from '../maths/shared/loadedBlocks';
export { serialOf, utcDay, writtenDate, LAST_SERIAL, type DateSystem } from '../maths/shared/serial';

const MILLISECONDS_A_MINUTE = 60_000;

/** A date and time of day, to the nearest minute: `2026-03-01 14:30`. */
export function writtenTime(serial: number, system: DateSystem): string {
  const minutes = Math.round((serial * MILLISECONDS_A_DAY) / MILLISECONDS_A_MINUTE);
  return formatISO(new UTCDate(EPOCH[system] + minutes * MILLISECONDS_A_MINUTE))
    .slice(0, 16)
    .replace('T', ' ');
}

const WEEKDAYS = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'] as const;

/** The English weekday of a serial: `Monday`. */
export function weekdayOf(serial: number, system: DateSystem): string {
  return WEEKDAYS[utcDay(serial, system).getUTCDay()]!;
}
