import { dateOf, invalid } from '../shared/fault';
import { labelKey } from '../shared/labels';
import { picksAfterLoading, type PickCurve } from './pickCurve';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A table of loads without a load. */
    noLoads: object;
    /** More days than a table can list. */
    tooManyDays: { readonly most: number; readonly days: number };
  }
}

/** Blocks opened and set on the shelf on one day. */
export interface Load {
  /** Serial of the day; a time of day is dropped. */
  readonly loaded: number;
  readonly blocks: number;
  /** Fresh mass one block gives over all flushes. */
  readonly yieldPerBlock: number;
  readonly curve: PickCurve;
}

/** Expected picking on each of a number of days. */
export interface PicksByDay {
  readonly total: readonly number[];
  /**
   * The same split by the label of each load, in the order of the alphabet. Labels that differ only in letter case are
   * one, headed as first written.
   */
  readonly byGroup: ReadonlyMap<string, readonly number[]>;
}

/** Expected picking from the day `from` on, one entry a day. */
export interface PickCalendar extends PicksByDay {
  readonly from: number;
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
 * @throws invalid where there is no load, `to` is before `from`, or the days are more than ten years
 */
export function pickCalendar<L extends Load>(
  loads: readonly L[],
  groupOf: (load: L) => string,
  from?: number,
  to?: number,
): PickCalendar {
  if (loads.length === 0) throw invalid('loads', 'noLoads');
  const first =
    from ??
    loads.reduce((day, { loaded, curve }) => Math.min(day, Math.floor(loaded) + curve.firstPick), Infinity);
  const last =
    to ?? loads.reduce((day, { loaded, curve }) => Math.max(day, Math.floor(loaded) + curve.stay - 1), 0);
  return { from: Math.floor(first), ...picksByDay(loads, groupOf, first, daysBetween(first, last)) };
}

/** Expected fresh mass on each of `days` days from the day of `first` on. What is picked on other days is left out. */
export function picksByDay<L extends Load>(
  loads: readonly L[],
  groupOf: (load: L) => string,
  first: number,
  days: number,
): PicksByDay {
  const total = new Array<number>(days).fill(0);
  const headers = new Map<string, string>();
  for (const label of loads.map(groupOf)) {
    if (!headers.has(labelKey(label))) headers.set(labelKey(label), label);
  }
  const groups = new Map(
    [...headers.values()].sort().map((label) => [label, new Array<number>(days).fill(0)]),
  );
  for (const load of loads) {
    const group = groups.get(headers.get(labelKey(groupOf(load)))!)!;
    const offset = Math.floor(load.loaded) - Math.floor(first);
    for (const [k, mass] of picksAfterLoading(load.curve, load.blocks * load.yieldPerBlock)) {
      if (offset + k < 0 || offset + k >= days) continue;
      total[offset + k]! += mass;
      group[offset + k]! += mass;
    }
  }
  return { total, byGroup: groups };
}

/** Number of days from `from` to `to`, both included. @throws invalid where there is none, or too many to list */
export function daysBetween(from: number, to: number): number {
  const days = Math.floor(to) - Math.floor(from) + 1;
  if (!(days >= 1))
    throw invalid('to', 'notBefore', { other: 'from', date: dateOf(from), given: dateOf(to) });
  if (!(days <= MOST_DAYS)) throw invalid('to', 'tooManyDays', { most: MOST_DAYS, days });
  return days;
}
