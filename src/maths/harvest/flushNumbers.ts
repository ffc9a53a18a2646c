import { requirePositive } from '../shared/checks';
import type { Placed } from '../shared/fault';

/** One pick of a lot. */
export interface DatedPick {
  readonly dateSerial: number;
  /** As recorded; undefined where it is to be found. */
  readonly flush: number | undefined;
}

/** When a strain is picked, in days. */
export interface ExpectedTimes extends Placed {
  /** From load to the first pick. */
  readonly firstPick: number;
  /** Length of a flush, first and last day included. */
  readonly pickDays: number;
  /** From one flush's first pick to the next's; undefined for a strain of one flush. */
  readonly flushGap: number | undefined;
}

/** Flushes counted at most: no block bears more. */
export const MOST_FLUSHES = 20;

// Standard deviations a strain's times are allowed, and prices of what is unlikely, in halves of a squared deviation: a
// strain's first pick and flush gap wander by about a fifth, a flush by a day or two (common practice, no source).
const FIRST_SPREAD = 0.25;
const GAP_SPREAD = 0.2;
const LENGTH_SPREAD = 0.4;
const SKIPPED = 6;
const AGAINST_RECORD = 12;

/**
 * The flush of each pick of one lot from its dates.
 *
 * Days of picking are cut into runs, one a flush, so that the sum of squared deviations from the strain's times, each over
 * its allowed spread, is least: first pick from load, gap between first picks, and days by which a run is longer than
 * a flush. Skipping a flush number, and contradicting a recorded flush, cost a fixed price. Found by dynamic
 * programming over days, so the best cut is certain; a flush on record is given back as it is.
 *
 * @param picks of one lot, in any order
 * @param loadedSerial day of load; undefined where not recorded: the first run then is the first flush
 * @returns the flush of each pick, in the order given
 * @throws invalid where the strain's times are out of range
 */
export function flushNumbers(
  picks: readonly DatedPick[],
  loadedSerial: number | undefined,
  times: ExpectedTimes,
): number[] {
  requirePositive('strains, first pick', times.firstPick, times);
  requirePositive('strains, pick days', times.pickDays, times);
  if (times.flushGap !== undefined) requirePositive('strains, flush gap', times.flushGap, times);
  const days = [...new Set(picks.map(({ dateSerial }) => Math.floor(dateSerial)))].sort((a, b) => a - b);
  const flushOfDay = cutIntoFlushes(days, recordedByDay(days, picks), loadedSerial, times);
  return picks.map(({ dateSerial, flush }) => flush ?? flushOfDay.get(Math.floor(dateSerial))!);
}

/** For each day, how many of its picks are on record as each flush. */
function recordedByDay(days: readonly number[], picks: readonly DatedPick[]): Map<number, number>[] {
  const place = new Map(days.map((day, i) => [day, i]));
  const recorded = days.map(() => new Map<number, number>());
  for (const { dateSerial, flush } of picks) {
    if (flush === undefined) continue;
    const ofDay = recorded[place.get(Math.floor(dateSerial))!]!;
    ofDay.set(flush, (ofDay.get(flush) ?? 0) + 1);
  }
  return recorded;
}

/** How many picks before each day are on record as another flush than `flush`. */
function contradictedUpTo(recorded: readonly Map<number, number>[], flush: number): number[] {
  const upTo = [0];
  for (const ofDay of recorded) {
    let others = upTo.at(-1)!;
    for (const [other, count] of ofDay) if (other !== flush) others += count;
    upTo.push(others);
  }
  return upTo;
}

interface Cut {
  readonly cost: number;
  /** Start and flush of the run before; undefined for the first. */
  readonly before: readonly [start: number, flush: number] | undefined;
}

const squared = (deviation: number, spread: number): number => (deviation / spread) ** 2 / 2;

function cutIntoFlushes(
  days: readonly number[],
  recorded: readonly Map<number, number>[],
  loadedSerial: number | undefined,
  { firstPick, pickDays, flushGap }: ExpectedTimes,
): Map<number, number> {
  const gap = flushGap ?? Math.max(2 * pickDays, firstPick);
  const flushes = Math.min(
    MOST_FLUSHES,
    Math.max(
      ...recorded.flatMap((ofDay) => [...ofDay.keys()]),
      1 + Math.ceil((2 * (days.at(-1)! - days[0]!)) / gap),
    ) + 1,
  );
  const startSpread = Math.max(2, FIRST_SPREAD * firstPick);
  const gapSpread = Math.max(2, GAP_SPREAD * gap);
  const lengthSpread = Math.max(1, LENGTH_SPREAD * pickDays);

  const contradictions = Array.from({ length: flushes + 1 }, (_, flush) => contradictedUpTo(recorded, flush));

  /** Price of a run of days from `start` up to but not including `end` being `flush`. */
  const runCost = (start: number, end: number, flush: number): number => {
    const over = Math.max(0, days[end - 1]! - days[start]! + 1 - pickDays);
    const contradicted = contradictions[flush]![end]! - contradictions[flush]![start]!;
    return squared(over, lengthSpread) + AGAINST_RECORD * contradicted;
  };

  const cuts: (Cut | undefined)[][] = days.map(() => []);
  for (let flush = 1; flush <= flushes; flush++) {
    const expected =
      loadedSerial === undefined ? undefined : Math.floor(loadedSerial) + firstPick + (flush - 1) * gap;
    cuts[0]![flush] = {
      cost:
        SKIPPED * (flush - 1) +
        (expected === undefined ? 0 : squared(days[0]! - expected, startSpread + (flush - 1) * gapSpread)),
      before: undefined,
    };
  }
  for (let start = 1; start < days.length; start++) {
    for (let flush = 2; flush <= flushes; flush++) {
      let best: Cut | undefined;
      for (let earlier = 0; earlier < start; earlier++) {
        for (let skipped = 0; skipped < 2 && flush - 1 - skipped >= 1; skipped++) {
          const came = cuts[earlier]![flush - 1 - skipped];
          if (!came) continue;
          const steps = 1 + skipped;
          const cost =
            came.cost +
            runCost(earlier, start, flush - steps) +
            squared(days[start]! - days[earlier]! - steps * gap, gapSpread * Math.sqrt(steps)) +
            SKIPPED * skipped;
          if (!best || cost < best.cost) best = { cost, before: [earlier, flush - steps] };
        }
      }
      cuts[start]![flush] = best;
    }
  }
  return walkedBack(days, cuts, flushes, runCost);
}

function walkedBack(
  days: readonly number[],
  cuts: readonly (Cut | undefined)[][],
  flushes: number,
  runCost: (start: number, end: number, flush: number) => number,
): Map<number, number> {
  let last: readonly [start: number, flush: number] | undefined;
  let least = Infinity;
  for (let start = 0; start < days.length; start++) {
    for (let flush = 1; flush <= flushes; flush++) {
      const cut = cuts[start]![flush];
      if (!cut) continue;
      const cost = cut.cost + runCost(start, days.length, flush);
      if (cost < least) [least, last] = [cost, [start, flush]];
    }
  }
  const flushOfDay = new Map<number, number>();
  let end = days.length;
  while (last) {
    const [start, flush]: readonly [number, number] = last;
    for (let i = start; i < end; i++) flushOfDay.set(days[i]!, flush);
    end = start;
    last = cuts[start]![flush]!.before;
  }
  return flushOfDay;
}
