import { requireAtLeast, requireInCalendar, requireNumber, requirePositive } from '../shared/checks';
import { missing, type Placed } from '../shared/fault';
import { LAST_SERIAL } from '../shared/serial';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A temperature at which the strain never ripens. */
    noGrowth: object;
    /** A lot that ripens too slowly to be ready within the years that a sheet can show. */
    neverReady: object;
  }
}

/** Days from inoculation until a strain's blocks may be opened; a point that is not known is undefined. */
export interface RipeningDays extends Placed {
  readonly earliest: number | undefined;
  readonly best: number | undefined;
  readonly latest: number | undefined;
}

export type RipeningPoint = Exclude<keyof RipeningDays, keyof Placed>;

/**
 * Passes days of a strain that are in order: those of them that are known, earliest to latest.
 *
 * @throws invalid where best is below earliest, or latest below either
 */
export function requireInOrder(days: Partial<RipeningDays>): void {
  let before: RipeningPoint | undefined;
  for (const point of ['earliest', 'best', 'latest'] as const) {
    const own = days[point];
    if (own === undefined) continue;
    if (before !== undefined) {
      const limits = { from: days[before]!, unit: 'days' };
      requireNumber(`strains, ${point}`, own, limits, `which is ${before}`, days);
    }
    before = point;
  }
}

/**
 * The date on which a lot is ready: its inoculation plus the strain's days to the point asked for, divided by the speed
 * at which they pass. The time of day of the inoculation stays in the fraction.
 *
 * @param inoculatedSerial date of inoculation, a worksheet serial
 * @param days the strain's days to ready, above 0, at the temperature they were seen at
 * @param speed days of the strain that pass in a day of the calendar, 0 or more: 1 at the temperature they were seen at
 * @returns serial of the ready date
 * @throws missing where the strain has no days for the point, or at this speed the lot is never ready
 * @throws invalid where an input is out of range, days are not in order, or the date would lie after 9999-12-31
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
  requireInOrder(days);
  requireAtLeast('speed', speed, 0);
  if (speed === 0) throw missing('temperature', 'noGrowth');
  const ready = inoculatedSerial + wait / speed;
  if (speed < 1 && !(ready < LAST_SERIAL + 1) && inoculatedSerial + wait < LAST_SERIAL + 1) {
    throw missing('temperature', 'neverReady');
  }
  return requireInCalendar('inoculated', ready, inoculatedSerial);
}
