import { flushDays, rowsKey, type FlushDays } from './flushDays';
import { FlushHabits } from './flushHabits';
import { FlushPresence } from './flushPresence';
import { FAR_DAYS, FlushStarts, REACH } from './flushStarts';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import { PickingDays } from './pickingDays';
import { findFlushes } from './pickTimes';

// How a lot comes to be picked as it is: which flushes it bears, when each begins, on how many days it is picked and how
// many days apart, and how many rows a day has. All is counted in the book itself. What a row is worth in a lot is how much
// likelier the lot's story is with it than without: it may fill a day left out, or make a flush longer than any other.

/** A pick anywhere in about a year: what is left to chance. */
const ANYWHERE = 0.0005 / 400;
/** A pick that comes before one of an earlier flush, or after one of a later: each is as rare as this. */
const OUT_OF_ORDER = 0.05;
const MOST_CONTRADICTIONS = 3;
/** Where nothing says when flushes are due: how often a pick begins another. */
const OPEN = 0.5;

/** What days and flushes make of a pick, by how the book's lots are picked. */
export class FlushStories {
  private readonly picking: PickingDays;
  private readonly habits: FlushHabits;
  private readonly starts: FlushStarts;
  private readonly presence: FlushPresence;
  private readonly ofLot = new Map<KnownLot, FlushDays[]>();
  private readonly spans = new Map<KnownLot, readonly [from: number, to: number]>();

  constructor(book: KnownBook) {
    this.picking = new PickingDays(book);
    this.habits = new FlushHabits(this.picking);
    this.presence = new FlushPresence(book);
    const lots = [...book.lots.values()];
    for (const lot of lots) {
      const flushes = this.flushesOf(lot);
      this.habits.count(lot, flushes);
      this.presence.count(lot, flushes);
    }
    this.starts = new FlushStarts(this.picking, lots, (lot) => this.flushesOf(lot));
  }

  private flushesOf(lot: KnownLot): FlushDays[] {
    let flushes = this.ofLot.get(lot);
    if (!flushes) this.ofLot.set(lot, (flushes = flushDays(lot.picks)));
    return flushes;
  }

  /**
   * A lot's flushes without one of its rows. A flush found from dates that had no other row leaves the others' to be found
   * again.
   */
  private without(lot: KnownLot, self: KnownPick): readonly FlushDays[] {
    const flushes = this.flushesOf(lot);
    if (self.day === undefined) return flushes;
    if (isAlone(self)) {
      const others = lot.picks.filter((pick) => pick !== self);
      const before = others.map(({ flush }) => flush);
      findFlushes(lot, true, others);
      const found = flushDays(others);
      others.forEach((pick, i) => (pick.flush = before[i]));
      return found;
    }
    for (const pick of lot.picks) {
      const isShared = pick !== self && pick.flush === self.flush && pick.day === self.day && !pick.isCopy;
      if (isShared) return flushes;
    }
    const others: FlushDays[] = [];
    for (const own of flushes) {
      if (own.flush !== self.flush) others.push(own);
      else {
        const days: number[] = [];
        for (const day of own.days) if (day !== self.day) days.push(day);
        if (days.length > 0) others.push({ flush: own.flush, days, rows: own.rows });
      }
    }
    return others;
  }

  /** After a change in a lot's picks. */
  forget(lot: KnownLot): void {
    this.ofLot.delete(lot);
    this.spans.delete(lot);
  }

  /** The days a lot is picked on, or, where it has no picks yet, those it is due on. */
  private spanOf(lot: KnownLot): readonly [from: number, to: number] {
    let span = this.spans.get(lot);
    if (!span) {
      let [from, to] = [Infinity, -Infinity];
      for (const { days } of this.flushesOf(lot)) {
        from = Math.min(from, days[0]!);
        to = Math.max(to, days.at(-1)!);
      }
      if (from > to && lot.loaded !== undefined) {
        from = lot.loaded + this.starts.fromLoad(lot, 1);
        to = lot.loaded + this.starts.fromLoad(lot, lot.strain?.flushes ?? 1);
      }
      this.spans.set(lot, (span = [from, to]));
    }
    return span;
  }

  /** Whether a lot may be picked on a day at all: near the days it is picked on, or those it is due on. */
  mayBePicked(lot: KnownLot, day: number): boolean {
    const [from, to] = this.reachOf(lot);
    return day >= from && day <= to && !(lot.loaded !== undefined && day <= lot.loaded);
  }

  /** The days from and to which a lot may be picked, but for those before it is loaded. */
  reachOf(lot: KnownLot): readonly [from: number, to: number] {
    const [from, to] = this.spanOf(lot);
    const reach = 1.5 * this.starts.gap(lot) + FAR_DAYS;
    return [from - reach, to + reach];
  }

  /** Whether a lot was on the shelf on a day, as far as its load and its picks say. */
  isOnShelf(lot: KnownLot, day: number): boolean {
    const [from, to] = this.spanOf(lot);
    return day >= (lot.loaded ?? from) && day <= to;
  }

  /**
   * How much likelier a lot's story is with a row on a day in a flush than without it; with no flush given, by all
   * flushes together.
   */
  gain(lot: KnownLot, flush: number | undefined, day: number, self: KnownPick): number {
    if (lot.loaded !== undefined && day <= lot.loaded) return ANYWHERE / 1000;
    const isOwn = self.lot === lot;
    if (isOwn && day === self.day && isAlone(self)) return ANYWHERE + this.gainAlone(lot, self);
    const others = isOwn ? this.without(lot, self) : this.flushesOf(lot);
    if (flush === undefined) {
      let sum = 0;
      for (const own of others) sum += this.inFlush(lot, own, others, day, self, isOwn);
      for (let lone = 1; lone <= (lot.strain?.flushes ?? 1); lone++) {
        if (!others.some((own) => own.flush === lone)) sum += this.alone(lot, lone, others, day, isOwn);
      }
      return ANYWHERE + sum;
    }
    let own: FlushDays | undefined;
    for (const one of others) if (one.flush === flush) own = one;
    const gain = own
      ? this.inFlush(lot, own, others, day, self, isOwn)
      : this.alone(lot, flush, others, day, isOwn);
    let contradictions = 0;
    for (const other of others) {
      if (other.flush === undefined || other.flush === flush) continue;
      const isBefore = other.flush < flush;
      if (isBefore ? other.days.at(-1)! <= day : other.days[0]! >= day) continue;
      for (const one of other.days) if (isBefore ? one > day : one < day) contradictions++;
    }
    return (ANYWHERE + gain) * OUT_OF_ORDER ** Math.min(MOST_CONTRADICTIONS, contradictions);
  }

  /** ln of how much likelier a lot's story is with a row on a day: in the row's flush where one is on record. */
  logGain(lot: KnownLot, day: number, self: KnownPick): number {
    return Math.log(this.gain(lot, self.isRecorded ? self.flush : undefined, day, self));
  }

  /** The flush of a lot that a day is likeliest in. */
  likeliestFlush(lot: KnownLot, day: number, self: KnownPick): number | undefined {
    const isOwn = self.lot === lot;
    const others = isOwn ? this.without(lot, self) : this.flushesOf(lot);
    let best: { flush: number | undefined; gain: number } | undefined;
    const consider = (flush: number | undefined, gain: number): void => {
      if (!best || gain > best.gain) best = { flush, gain };
    };
    for (const own of others) consider(own.flush, this.inFlush(lot, own, others, day, self, isOwn));
    for (let lone = 1; lone <= (lot.strain?.flushes ?? 1); lone++) {
      if (!others.some((own) => own.flush === lone))
        consider(lone, this.alone(lot, lone, others, day, isOwn));
    }
    return best?.flush;
  }

  private inFlush(
    lot: KnownLot,
    { flush, days, rows }: FlushDays,
    others: readonly FlushDays[],
    day: number,
    self: KnownPick,
    isOwn: boolean,
  ): number {
    let at = 0;
    while (at < days.length && days[at]! < day) at++;
    // A row is left out of the counts: with the day where it is counted itself, without it elsewhere.
    const typed = isOwn && self.flush === flush ? self.day : undefined;
    const isTyped = typed === day;
    if (days[at] === day) {
      // Two grades of one pick are rows of one day.
      const there = (rows.get(rowsKey(day, self.record.grade)) ?? 0) - (isTyped ? 1 : 0);
      return there === 0
        ? 1
        : this.habits.rows(lot, there + 1, isTyped) / this.habits.rows(lot, there, !isTyped && !isOwn);
    }
    const counted = days.length + (typed === undefined || days.includes(typed) ? 0 : 1);
    const longer =
      this.habits.days(lot, flush, days.length + 1, counted) /
      this.habits.days(lot, flush, days.length, counted);
    const one = this.habits.rows(lot, 1, isTyped);
    if (at === days.length)
      return longer * one * this.picking.often(lot, day) * this.habits.step(lot, days[at - 1]!, day, isTyped);
    if (at === 0) {
      return (
        longer *
        one *
        this.habits.step(lot, day, days[0]!, isTyped) *
        Math.min(
          1e3,
          this.starts.begins(lot, flush, others, day) / this.starts.begins(lot, flush, others, days[0]!),
        )
      );
    }
    const [before, after] = [days[at - 1]!, days[at]!];
    const steps = this.habits.step(lot, before, day, isTyped) * this.habits.step(lot, day, after, isTyped);
    return (
      (longer * one * this.picking.often(lot, day) * steps) / this.habits.step(lot, before, after, !isOwn)
    );
  }

  /** How much likelier a lot's whole story is with a row that is a flush of its own, each with the flushes found for it. */
  private gainAlone(lot: KnownLot, self: KnownPick): number {
    const typed = this.flushesOf(lot);
    return Math.exp(this.story(lot, typed, typed) - this.story(lot, this.without(lot, self), typed));
  }

  /** ln of how likely a lot's flushes are; its own, as they are counted, take no part. */
  private story(lot: KnownLot, flushes: readonly FlushDays[], counted: readonly FlushDays[]): number {
    const last = lot.strain?.flushes ?? 1;
    const exists = (flush: number, highest: number, isThere: boolean): number =>
      Math.log(this.presence.share(lot, flush, highest, isThere));
    let likely = 0;
    const numbered = flushes.filter(({ flush }) => flush !== undefined).sort((a, b) => a.flush! - b.flush!);
    const highest = numbered.at(-1)?.flush ?? 0;
    numbered.forEach(({ flush, days, rows }, i) => {
      const before = numbered[i - 1];
      for (let lost = (before?.flush ?? 0) + 1; lost < flush!; lost++) likely += exists(lost, highest, false);
      likely += exists(flush!, highest, true);
      const [from, start] = before ? [before.flush!, before.days[0]!] : [0, lot.loaded];
      likely += Math.log(
        start === undefined
          ? 1 / (2 * REACH)
          : ANYWHERE + this.starts.steadily(lot, from, start, flush!, days[0]!),
      );
      const own = counted.find((one) => one.flush === flush)?.days.length ?? 0;
      likely += Math.log(this.habits.days(lot, flush, days.length, own));
      for (let at = 1; at < days.length; at++)
        likely += Math.log(
          this.picking.often(lot, days[at]!) * this.habits.step(lot, days[at - 1]!, days[at]!, true),
        );
      for (const count of rows.values()) likely += Math.log(this.habits.rows(lot, count, true));
    });
    if (highest < last && this.presence.isOver(lot)) likely += exists(highest + 1, highest, false);
    return likely;
  }

  /** How likely a flush with no other row is to have this one, against its not being on record. */
  private alone(
    lot: KnownLot,
    flush: number,
    others: readonly FlushDays[],
    day: number,
    isOwn: boolean,
  ): number {
    if (lot.strain?.firstPick === undefined || (lot.loaded === undefined && others.length === 0)) {
      const isNear = others.some(({ days }) => days.some((one) => Math.abs(one - day) <= REACH));
      return isNear || (isOwn && others.length === 0) ? OPEN / (2 * REACH) : 0;
    }
    const isBetween = others.some((other) => other.flush !== undefined && other.flush > flush);
    const exists = this.presence.odds(lot, flush, isBetween, isOwn);
    const one = this.habits.rows(lot, 1, isOwn) * this.habits.days(lot, flush, 1, isOwn ? 1 : 0);
    return exists * one * this.starts.begins(lot, flush, others, day);
  }
}

/** Whether a flush that was found from dates has no other row. */
function isAlone(self: KnownPick): boolean {
  if (self.flush === undefined || self.isRecorded) return false;
  for (const pick of self.lot!.picks)
    if (pick !== self && pick.day !== undefined && pick.flush === self.flush) return false;
  return true;
}
