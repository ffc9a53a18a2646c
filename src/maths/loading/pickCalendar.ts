import { invalid } from '../shared/calcError';
import { invalidDate, type DateSystem } from '../shared/serial';
import { picksAfterLoading, type PickCurve } from './pickCurve';

/** Blocks opened and set on the shelf on one day. */
export interface Load {
  /** Serial of the day; a time of day is dropped. */
  readonly loaded: number;
  readonly blocks: number;
  /** Fresh mass one block gives over all flushes. */
  readonly yieldPerBlock: number;
  readonly curve: PickCurve;
}

/** Expected picking from the day `from` on, one entry a day. */
export interface PickCalendar {
  readonly from: number;
  readonly total: readonly number[];
  /** The same split by the label of each load, in the order of the alphabet. */
  readonly byGroup: ReadonlyMap<string, readonly number[]>;
}

/** Days a table of days may be long: ten years. */
export const MOST_DAYS = 3660;

/**
 * Expected fresh mass on each day from a list of loads: every load's yield falls on the days of its strain's pick
 * curve, and what falls on one day adds up.
 *
 * @param groupOf label under which a load's picking is counted
 * @param from first day shown; the first day anything is picked if undefined
 * @param to last day shown; the last day anything is picked if undefined
 * @param system what the serials count from, for the words of a fault
 * @throws invalid where there is no load, `to` is before `from`, or the days are more than ten years
 */
export function pickCalendar<L extends Load>(
  loads: readonly L[],
  groupOf: (load: L) => string,
  from?: number,
  to?: number,
  system: DateSystem = 1900,
): PickCalendar {
  if (loads.length === 0) throw invalid('loads', 'at least one load', 'no rows with a date');
  const first =
    from ??
    loads.reduce((day, { loaded, curve }) => Math.min(day, Math.floor(loaded) + curve.firstPick), Infinity);
  const last =
    to ?? loads.reduce((day, { loaded, curve }) => Math.max(day, Math.floor(loaded) + curve.stay - 1), 0);
  const days = daysBetween(first, last, system);
  const total = new Array<number>(days).fill(0);
  const groups = new Map<string, number[]>();
  for (const label of [...new Set(loads.map(groupOf))].sort())
    groups.set(label, new Array<number>(days).fill(0));
  for (const load of loads) {
    const group = groups.get(groupOf(load))!;
    const offset = Math.floor(load.loaded) - Math.floor(first);
    for (const [k, mass] of picksAfterLoading(load.curve, load.blocks * load.yieldPerBlock)) {
      if (offset + k < 0 || offset + k >= days) continue;
      total[offset + k]! += mass;
      group[offset + k]! += mass;
    }
  }
  return { from: Math.floor(first), total, byGroup: groups };
}

/** Number of days from `from` to `to`, both included. @throws invalid where there is none, or too many to list */
export function daysBetween(from: number, to: number, system: DateSystem): number {
  const days = Math.floor(to) - Math.floor(from) + 1;
  if (!(days >= 1)) throw invalidDate('to', 'a day on or after from', to, system);
  if (!(days <= MOST_DAYS)) throw invalid('to', `at most ${MOST_DAYS} days from the first`, days);
  return days;
}
