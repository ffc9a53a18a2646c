import { requireAtLeast, requireInCalendar, requirePositive } from '../shared/checks';
import { missing } from '../shared/fault';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A temperature at which the strain never ripens. */
    noGrowth: object;
  }
}

/** Days from inoculation until a strain's blocks may be opened; a point that is not known is undefined. */
export interface RipeningDays {
  readonly earliest: number | undefined;
  readonly best: number | undefined;
  readonly latest: number | undefined;
}

export type RipeningPoint = keyof RipeningDays;

/**
 * The date on which a lot is ready: its inoculation plus the strain's days to the point asked for, divided by the speed
 * at which they pass. The time of day of the inoculation stays in the fraction.
 *
 * @param inoculatedSerial date of inoculation, a worksheet serial
 * @param days the strain's days to ready, above 0, at the temperature they were seen at
 * @param speed days of the strain that pass in a day of the calendar, 0 or more: 1 at the temperature they were seen at
 * @returns serial of the ready date
 * @throws missing where the strain has no days for the point, or speed is 0 and the lot is never ready
 * @throws invalid where an input is out of range, or the date would lie after 9999-12-31
 */
export function readyDate(
  inoculatedSerial: number,
  days: RipeningDays,
  point: RipeningPoint,
  speed = 1,
): number {
  requirePositive('inoculated', inoculatedSerial);
  const wait = days[point];
  if (wait === undefined) throw missing('strain', 'blank', { header: point, table: 'strains' });
  requirePositive(point, wait);
  requireAtLeast('speed', speed, 0);
  if (speed === 0) throw missing('temperature', 'noGrowth');
  return requireInCalendar('inoculated', inoculatedSerial + wait / speed, inoculatedSerial);
}
