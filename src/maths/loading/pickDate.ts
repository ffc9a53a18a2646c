import { invalid, missing } from '../shared/calcError';
import { requirePositive, requireWhole } from '../shared/checks';
import { LAST_SERIAL } from '../shared/serial';

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
 * The date of a flush's first pick: load date + days to the first pick + (flush − 1) × flush gap.
 *
 * @param loadedSerial date the blocks were opened and set on the shelf, a worksheet serial
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
  if (flush > flushes)
    throw missing('flush', `the strain is kept for ${flushes} in strains, flush ${flush} was asked for`);
  if (flush > 1 && flushGap === undefined) throw missing('flush', 'the strain has no flush gap in strains');
  const pick = loadedSerial + firstPick + (flush - 1) * (flushGap ?? 0);
  if (!(pick < LAST_SERIAL + 1)) throw invalid('loaded', 'a date picked before the year 10000', loadedSerial);
  return pick;
}
