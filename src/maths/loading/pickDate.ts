import { requireInCalendar, requirePositive, requireWhole } from '../shared/checks';
import { missing } from '../shared/fault';
import { daysToFlush } from './pickCurve';

/** When a strain's opened blocks are picked, in days from loading. */
export interface FlushSchedule {
  /** Days from load to the first pick of the first flush. */
  readonly firstPick: number;
  /** Days from one flush's first pick to the next's; undefined where not known. */
  readonly flushGap: number | undefined;
  /** Flushes the strain is kept for. */
  readonly flushes: number;
}

/**
 * The day of a flush's first pick: load day + days to the first pick + (flush − 1) × flush gap. The days are rounded
 * to whole ones, as for the days of a pick calendar.
 *
 * @param loadedSerial day the blocks were opened and set on the shelf, a worksheet serial; a time of day is dropped
 * @param flush which flush, from 1
 * @returns serial of the first pick
 * @throws missing where the strain is not kept for that flush, or its flush gap is not known
 * @throws invalid where an input is out of range, or the date would lie after 9999-12-31
 */
export function pickDate(
  loadedSerial: number,
  { firstPick, flushGap, flushes }: FlushSchedule,
  flush: number,
): number {
  requirePositive('loaded', loadedSerial);
  requirePositive('first pick', firstPick);
  requireWhole('flush', flush, 1);
  if (flush > flushes) {
    const what = 'the flushes the strain is kept for in strains';
    throw missing('flush', 'outside', { to: flushes, given: flush, what });
  }
  if (flush > 1 && flushGap === undefined) {
    throw missing('flush', 'blank', { header: 'flush gap', table: 'strains' });
  }
  const pick = Math.floor(loadedSerial) + daysToFlush(firstPick, flushGap, flush - 1);
  return requireInCalendar('loaded', pick, loadedSerial);
}
