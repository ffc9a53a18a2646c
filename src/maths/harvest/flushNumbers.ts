import { requirePositive, requireWhole } from '../shared/checks';
import { CalcError, dateOf, invalid, type Placed } from '../shared/fault';
import { MOST_FLUSHES } from './flushTimes';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A date far from every other pick of its lot. */
    farFromPicks: { readonly nearest: Quantity; readonly days: number; readonly given: Quantity };
  }
}

/** One pick of a lot. */
export interface DatedPick extends Placed {
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
  /** Flushes that blocks are kept for; undefined where that is not told. */
  readonly flushes?: number | undefined;
}

// Spreads that a strain's times are allowed, and prices of what is unlikely: minus the logarithm of its chance, so that the
// least sum is the likeliest cut. Common practice, no source; scored on synthetic lots in the tests.
const FIRST_SPREAD = 0.25;
const GAP_SPREAD = 0.25;
const LENGTH_SPREAD = 0.3;
/** Degrees of freedom of Student's t: some lots come weeks late. */
const FREEDOM = 6;
const LOST = 4;
const FIRST_LOST = 5;
/** A flush more than the usual three, where nobody told how many are kept. */
const USUAL_FLUSHES = 3;
const BEYOND_USUAL = 3;
/** A flush more than the strain is kept for. */
const BEYOND_KEPT = 8;
/** Each day without a pick inside a flush, beyond a weekend. */
const QUIET_DAY = 0.25;
const WEEKEND = 2;
/** More than all other prices together, for each pick. */
const AGAINST_RECORD = 1000;

/** More starts of a flush than this are not weighed: those after the longest pauses are. */
const MOST_STARTS = 150;
/** A pick after a pause of so many days, and of so many gaps between flushes, belongs to no lot that was picked before. */
const FAR_DAYS = 120;
const FAR_GAPS = 5;

/**
 * The flush of each pick of one lot from its dates, and a fault in place of a flush where a date cannot be right: on or
 * before the day of loading, or months from every other pick. Such a date moves no other pick. A flush on record is given
 * back as it is.
 *
 * @see flushNumbers
 */
export function flushesFromDates(
  picks: readonly DatedPick[],
  loadedSerial: number | undefined,
  times: ExpectedTimes,
): (number | CalcError)[] {
  requireTimes(times);
  const faults = misdated(picks, loadedSerial, times);
  const found = flushNumbers(
    picks.filter((_, i) => !faults[i]),
    loadedSerial,
    times,
  );
  let next = 0;
  return picks.map(({ flush }, i) => {
    const fault = faults[i];
    return fault ? (flush ?? fault) : found[next++]!;
  });
}

/** Why each pick's date cannot be right; undefined where it can. */
function misdated(
  picks: readonly DatedPick[],
  loadedSerial: number | undefined,
  times: ExpectedTimes,
): (CalcError | undefined)[] {
  const loaded = loadedSerial === undefined ? -Infinity : Math.floor(loadedSerial);
  const days = daysOf(picks.filter(({ dateSerial }) => Math.floor(dateSerial) > loaded));
  const [first, last] = mainSpan(days, loadedSerial, times);
  return picks.map((pick) => {
    const day = Math.floor(pick.dateSerial);
    const given = dateOf(pick.dateSerial);
    if (day <= loaded) {
      return invalid(
        'harvests, date',
        'after',
        { other: 'loaded', date: dateOf(loadedSerial!), given },
        pick,
      );
    }
    if (day >= first && day <= last) return undefined;
    const nearest = day < first ? first : last;
    const details = { nearest: dateOf(nearest), days: Math.abs(day - nearest), given };
    return invalid('harvests, date', 'farFromPicks', details, pick);
  });
}

/** First and last of the days of picking that no long pause parts from most of the others. */
function mainSpan(
  days: readonly number[],
  loadedSerial: number | undefined,
  times: ExpectedTimes,
): readonly [first: number, last: number] {
  const pause = Math.max(FAR_DAYS, FAR_GAPS * gapOf(times));
  const spans: { first: number; last: number; days: number }[] = [];
  for (const day of days) {
    const span = spans.at(-1);
    if (span && day - span.last <= pause) {
      span.last = day;
      span.days++;
    } else spans.push({ first: day, last: day, days: 1 });
  }
  if (spans.length === 0) return [0, 0];
  const most = Math.max(...spans.map((span) => span.days));
  const main = spans.filter((span) => span.days === most);
  // The one nearest to the load, which is the earliest; without a load nothing tells which of them is right.
  return loadedSerial === undefined ? [main[0]!.first, main.at(-1)!.last] : [main[0]!.first, main[0]!.last];
}

/**
 * The flush of each pick of one lot from its dates.
 *
 * Over all ways to cut the days of picking into runs and to number the runs as flushes, the likeliest. The first run
 * comes at the strain's first pick (or, where flushes were lost, gaps later), shifted with the whole lot; each next one a
 * gap after the one before, or several where flushes between were lost; a run is as long as a flush, without long pauses.
 * Deviations have the heavy tails of Student's t. A lost flush is unlikely, a lost first flush more so, a flush beyond
 * those that the strain is kept for most. A flush on record binds its day and is given back as it is. Found by dynamic
 * programming over days, so that the likeliest cut is certain.
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
  requireTimes(times);
  if (picks.length === 0) return [];
  const days = daysOf(picks);
  const flushOfDay = new LikeliestCut(days, recordedByDay(days, picks), loadedSerial, times).flushOfDay();
  return picks.map(({ dateSerial, flush }) => flush ?? flushOfDay.get(Math.floor(dateSerial))!);
}

function requireTimes(times: ExpectedTimes): void {
  requirePositive('strains, first pick', times.firstPick, times);
  requirePositive('strains, pick days', times.pickDays, times);
  if (times.flushGap !== undefined) requirePositive('strains, flush gap', times.flushGap, times);
  if (times.flushes !== undefined) requireWhole('strains, flushes', times.flushes, 1, times);
}

const gapOf = ({ firstPick, pickDays, flushGap }: ExpectedTimes): number =>
  flushGap ?? Math.max(2 * pickDays, firstPick);

/** The days of picking, each once, in order. */
const daysOf = (picks: readonly DatedPick[]): number[] =>
  [...new Set(picks.map(({ dateSerial }) => Math.floor(dateSerial)))].sort((a, b) => a - b);

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

/** Minus the logarithm of Student's density, but for a constant; `usual` is the spread that costs nothing. */
const unlikely = (deviation: number, spread: number, usual = spread): number =>
  ((FREEDOM + 1) / 2) * Math.log1p((deviation / spread) ** 2 / FREEDOM) + Math.log(spread / usual);

/** A way to number the days up to a run: its price, and start and flush of the run before; -1 for none. */
interface Cut {
  cost: number;
  start: number;
  flush: number;
}

class LikeliestCut {
  private readonly gap: number;
  private readonly flushes: number;
  private readonly gapSpread: number;
  /** Positions of the days on which a flush may begin. */
  private readonly starts: readonly number[];
  private readonly contradicted: readonly (readonly number[])[];
  /** Price of the quiet days before each day, summed. */
  private readonly quiet: readonly number[];

  constructor(
    private readonly days: readonly number[],
    recorded: readonly Map<number, number>[],
    private readonly loadedSerial: number | undefined,
    private readonly times: ExpectedTimes,
  ) {
    this.gap = gapOf(times);
    this.gapSpread = Math.max(2, GAP_SPREAD * this.gap);
    const onRecord = recorded.flatMap((ofDay) => [...ofDay.keys()]);
    const fitting = 2 + Math.ceil((2 * (days.at(-1)! - days[0]!)) / this.gap);
    this.flushes = Math.min(MOST_FLUSHES, Math.max(...onRecord, fitting) + 1);
    this.starts = startsOf(days);
    this.contradicted = Array.from({ length: this.flushes + 1 }, (_, flush) =>
      contradictedUpTo(recorded, flush),
    );
    let sum = 0;
    this.quiet = days.map((day, i) => {
      const pause = i === 0 ? 0 : day - days[i - 1]! - 1;
      return (sum += QUIET_DAY * Math.max(0, pause - WEEKEND));
    });
  }

  /** Price of a run from the day at `start` up to but not including `end`, whatever its flush. */
  private length(start: number, end: number): number {
    const { pickDays } = this.times;
    const over = Math.max(0, this.days[end - 1]! - this.days[start]! + 1 - pickDays);
    const spread = Math.max(1, LENGTH_SPREAD * pickDays);
    return unlikely(over, spread) + this.quiet[end - 1]! - this.quiet[start]!;
  }

  private againstRecord(start: number, end: number, flush: number): number {
    const others = this.contradicted[flush]!;
    return AGAINST_RECORD * (others[end]! - others[start]!);
  }

  /** Price of a first run that is `flush`. */
  private first(flush: number): number {
    const lost = flush === 1 ? 0 : FIRST_LOST + LOST * (flush - 2);
    if (this.loadedSerial === undefined) return lost + this.beyond(flush);
    const expected = Math.floor(this.loadedSerial) + this.times.firstPick + (flush - 1) * this.gap;
    const usual = Math.max(2, FIRST_SPREAD * this.times.firstPick);
    const spread = Math.hypot(usual, Math.sqrt(flush - 1) * this.gapSpread);
    return lost + this.beyond(flush) + unlikely(this.days[0]! - expected, spread, usual);
  }

  private beyond(flush: number): number {
    const { flushes } = this.times;
    if (flushes === undefined) return flush > USUAL_FLUSHES ? BEYOND_USUAL : 0;
    return flush > flushes ? BEYOND_KEPT : 0;
  }

  private cuts(): Cut[][] {
    const { days, starts, flushes } = this;
    const cuts = starts.map(() =>
      Array.from({ length: flushes + 1 }, (): Cut => ({ cost: Infinity, start: -1, flush: -1 })),
    );
    for (let flush = 1; flush <= flushes; flush++) cuts[0]![flush]!.cost = this.first(flush);
    for (let s = 1; s < starts.length; s++) {
      const start = starts[s]!;
      for (let e = 0; e < s; e++) {
        const earlier = starts[e]!;
        const length = this.length(earlier, start);
        for (let steps = 1; steps < flushes; steps++) {
          const apart = days[start]! - days[earlier]! - steps * this.gap;
          const passed =
            length + unlikely(apart, this.gapSpread * Math.sqrt(steps), this.gapSpread) + LOST * (steps - 1);
          for (let before = 1; before + steps <= flushes; before++) {
            const flush = before + steps;
            const cost =
              cuts[e]![before]!.cost +
              passed +
              this.againstRecord(earlier, start, before) +
              this.beyond(flush);
            const best = cuts[s]![flush]!;
            if (cost < best.cost) [best.cost, best.start, best.flush] = [cost, e, before];
          }
        }
      }
    }
    return cuts;
  }

  flushOfDay(): Map<number, number> {
    const { days, starts, flushes } = this;
    const cuts = this.cuts();
    let [s, flush, least] = [0, 1, Infinity];
    for (let last = 0; last < starts.length; last++) {
      const length = this.length(starts[last]!, days.length);
      for (let number = 1; number <= flushes; number++) {
        const against = this.againstRecord(starts[last]!, days.length, number);
        const cost = cuts[last]![number]!.cost + length + against;
        if (cost < least) [s, flush, least] = [last, number, cost];
      }
    }
    const found = new Map<number, number>();
    for (let end = days.length; s >= 0;) {
      for (let i = starts[s]!; i < end; i++) found.set(days[i]!, flush);
      end = starts[s]!;
      ({ start: s, flush } = cuts[s]![flush]!);
    }
    return found;
  }
}

/** Positions of the days on which a flush may begin: all, or in a very long list those after the longest pauses. */
function startsOf(days: readonly number[]): number[] {
  const all = [...days.keys()];
  if (days.length <= MOST_STARTS) return all;
  const pause = (i: number): number => (i === 0 ? Infinity : days[i]! - days[i - 1]!);
  return all
    .sort((a, b) => pause(b) - pause(a) || a - b)
    .slice(0, MOST_STARTS)
    .sort((a, b) => a - b);
}
