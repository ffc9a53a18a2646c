import type { Pick } from './lotCrop';

/** Flushes counted at most: no block bears more. */
export const MOST_FLUSHES = 20;

/** When a lot's flushes came, in days. */
export interface FlushTimes {
  /** Days from load to the first pick of the first flush; undefined where the load or that flush was not recorded. */
  readonly firstPick: number | undefined;
  /** Length of each recorded flush, first and last day of picking included. */
  readonly lengths: readonly number[];
  /** Days from one flush's first pick to the next flush's. */
  readonly gaps: readonly number[];
}

/** The times of one lot's flushes, from picks whose flush was recorded; a crop that failed has none. */
export function flushTimes(picks: readonly Pick[], loadedSerial: number | undefined): FlushTimes {
  const flushes = new Map<number, { first: number; last: number }>();
  for (const { flush, dateSerial, mass } of picks) {
    if (flush === undefined || mass === 0) continue;
    const day = Math.floor(dateSerial);
    const known = flushes.get(flush);
    if (!known) flushes.set(flush, { first: day, last: day });
    else flushes.set(flush, { first: Math.min(known.first, day), last: Math.max(known.last, day) });
  }
  const first = flushes.get(1)?.first;
  return {
    firstPick:
      first === undefined || loadedSerial === undefined ? undefined : first - Math.floor(loadedSerial),
    lengths: [...flushes.values()].map((flush) => flush.last - flush.first + 1),
    gaps: [...flushes].flatMap(([flush, { first: start }]) => {
      const before = flushes.get(flush - 1);
      return before ? [start - before.first] : [];
    }),
  };
}
