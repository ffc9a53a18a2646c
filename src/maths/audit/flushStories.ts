import { median } from '../shared/statistics';
import { lastExpected, type KnownBook, type KnownLot, type KnownPick } from './knownBook';
import { grouped, heldSpread, student } from './likelihood';
import { PickingDays } from './pickingDays';
import { findFlushes } from './pickTimes';

// How a lot comes to be picked as it is: which flushes it bears, when each begins, on how many days it is picked and how
// many days apart, and how many rows a day has. All is counted in the book itself. What a row is worth in a lot is how much
// likelier the lot's story is with it than without: it may fill a day left out, or make a flush longer than any other.

/** A pick anywhere in about a year: what is left to chance. */
const ANYWHERE = 0.0005 / 400;
/** Steps between days of a flush, in days of picking, that are counted one by one; rows of a day likewise. */
const STEPS = 8;
const ROWS = 4;
/** As a book begins, each counts for as many. */
const USUAL_STEPS = [0, 2.2, 0.9, 0.4, 0.2, 0.1, 0.1, 0.1];
const USUAL_ROWS = [0, 3, 0.6, 0.2, 0.1];
/** A step that a day never typed made: this often, and rarer by the square of its length. */
const UNTYPED = 0.02;
const ALL_SQUARES = Math.PI ** 2 / 6;
/** Steps beyond those counted are each day more this much rarer. */
const RARER = 0.6;
/** Rows of a day are not rarer than this against one fewer. */
const LEAST_ROWS = 0.003;
/** What the strain's other flushes count for against the flush's own number of days, and the strains table against both. */
const OTHER_FLUSHES = 4;
/** What other strains' steps and rows count for against their own. */
const OTHERS = 20;
const TABLED = 4;
const DAYS_WIDE = 2;
/** Flushes present and lacking as a book begins: between others, the next one, and beyond those that a strain is kept for. */
const BEGUN = { between: [9, 1], next: [3, 1], beyond: [0.05, 1] } as const;
/** Of a lot that is not over nobody knows whether the next flush is still to come. */
const GRACE_DAYS = 15;
/** A flush is hardly ever not typed at all: its lack is as rare as this at most. */
const MOST_FOR_A_FLUSH = 50;
const UNDECIDED = 0.5;
/** Days of a flush about its usual start, held to what the book shows. */
const USUAL_SPREAD = 2.5;
const LEAST_SPREAD = 1.2;
const FAR_DAYS = 10;
/** What is tried: how heavy its tails are, and how much wider than its middle half says. */
const USUAL_DEGREES = 8;
const DEGREES = [2, 3, 4, USUAL_DEGREES];
const SCALES = [0.7, 0.85, 1, 1.2, 1.45];
const UNUSUAL = 3;
/** The table counts as two lots, and no lot may be far from it, so that a strain's only lots are not their own measure. */
const TABLE_LOTS = 2;
/** A pick that comes before one of an earlier flush, or after one of a later: each is as rare as this. */
const OUT_OF_ORDER = 0.05;
const MOST_CONTRADICTIONS = 3;
/** Where nothing says when flushes are due: days that they may be apart, and how often a pick begins another. */
const REACH = 45;
const OPEN = 0.5;

/** The days of one flush of a lot. */
interface FlushDays {
  readonly flush: number | undefined;
  /** In order, each once. */
  readonly days: readonly number[];
  /** Rows by day and grade, the row that is judged among them. */
  readonly rows: ReadonlyMap<string, number>;
}

interface Starts {
  /** Days from load to the start of a flush. */
  readonly usual: ReadonlyMap<number, number>;
  readonly first: number;
  readonly gap: number;
}

/** How widely days differ from what is usual, and how heavy the tails are. */
interface About {
  readonly spread: number;
  readonly degrees: number;
}

/** The likeliest of a few densities; those with other tails than usual have to be likelier by so much, on the scale of ln. */
function learntAbout(offs: readonly number[]): About {
  const own = heldSpread(offs, USUAL_SPREAD, 6);
  let best = { spread: Math.max(LEAST_SPREAD, own), degrees: USUAL_DEGREES, likely: -Infinity };
  for (const degrees of DEGREES) {
    for (const scale of SCALES) {
      const spread = Math.max(LEAST_SPREAD, scale * own);
      let likely = degrees === USUAL_DEGREES && scale === 1 ? UNUSUAL : 0;
      for (const off of offs)
        likely += Math.log((1 - UNTYPED) * student(off, spread, degrees) + UNTYPED / (2 * FAR_DAYS));
      if (likely > best.likely) best = { spread, degrees, likely };
    }
  }
  return best;
}

const rowsKey = (day: number, grade: string): string => `${day}\n${grade}`;

function flushDays(picks: readonly KnownPick[]): FlushDays[] {
  const dated = picks.filter((pick) => !pick.isCopy && pick.day !== undefined);
  return [...grouped(dated, ({ flush }) => flush)].map(([flush, picks]) => {
    const rows = new Map<string, number>();
    const days: number[] = [];
    for (const { day, record } of picks) {
      const key = rowsKey(day!, record.grade);
      rows.set(key, (rows.get(key) ?? 0) + 1);
      if (!days.includes(day!)) days.push(day!);
    }
    return { flush, days: days.sort((a, b) => a - b), rows };
  });
}

/** How much a flush of so many days tells of flushes of as many, or of one more or fewer. */
const alike = (days: number, other: number): number =>
  days === other ? (days === 1 ? 0.75 : 0.5) : Math.abs(days - other) === 1 ? 0.25 : 0;

/** How many flushes were picked on so many days; few are, so that each tells of its neighbours too. */
class Counts {
  private readonly of: number[] = [];
  private all = 0;

  add(days: number): void {
    for (const near of [days - 1, days, days + 1])
      if (near > 0) this.of[near] = (this.of[near] ?? 0) + alike(near, days);
    this.all++;
  }

  /** The share of so many days, held to another share; a flush that is itself counted with `counted` takes no part. */
  share(days: number, counted: number, other: number, held: number): number {
    const own = (this.of[days] ?? 0) - (counted > 0 ? alike(days, counted) : 0);
    return (Math.max(0, own) + held * other) / (Math.max(0, this.all - (counted > 0 ? 1 : 0)) + held);
  }
}

/** Days of picking of a strain's flushes, each by its number and all together. */
class DayCounts {
  private readonly together = new Counts();
  private readonly byFlush = new Map<number | undefined, Counts>();

  constructor(private readonly tabled: number) {}

  add(flush: number | undefined, days: number): void {
    let own = this.byFlush.get(flush);
    if (!own) this.byFlush.set(flush, (own = new Counts()));
    own.add(days);
    this.together.add(days);
  }

  /** How often a flush is picked on so many days; a flush that is itself counted with `counted` days takes no part. */
  share(flush: number | undefined, days: number, counted: number): number {
    const table = Math.exp(-Math.abs(days - this.tabled) / DAYS_WIDE) / (2 * DAYS_WIDE);
    const strain = this.together.share(days, counted, table, TABLED);
    return this.byFlush.get(flush)?.share(days, counted, strain, OTHER_FLUSHES) ?? strain;
  }
}

/** How many days apart lots are picked, and how many rows a day has. */
class Rhythm {
  readonly steps: number[];
  readonly rows: number[];
  private allSteps: number;
  private allRows: number;
  /** Shares that were asked for, once all is counted. */
  private readonly ofSteps: (number | undefined)[] = [];
  private readonly ofRows: (number | undefined)[] = [];

  /** @param among those of which these are some; without them the counts that a book begins with */
  constructor(private readonly among?: Rhythm) {
    const sum = (counts: readonly number[]): number => counts.reduce((all, count) => all + count, 0);
    this.steps = USUAL_STEPS.map((count) => (among ? 0 : count));
    this.rows = USUAL_ROWS.map((count) => (among ? 0 : count));
    this.allSteps = sum(this.steps);
    this.allRows = sum(this.rows);
  }

  countStep(days: number): void {
    this.steps[Math.min(STEPS - 1, days)]!++;
    this.allSteps++;
    this.among?.countStep(days);
  }

  countRows(rows: number): void {
    this.rows[Math.min(ROWS, rows)]!++;
    this.allRows++;
    this.among?.countRows(rows);
  }

  /** The share of a step up to the longest that is counted, `less` of them left out: 0 or 1. */
  step(at: number, less: number): number {
    return (this.ofSteps[2 * at + less] ??= this.stepOf(at, less));
  }

  row(at: number, less: number): number {
    return (this.ofRows[2 * at + less] ??= this.rowOf(at, less));
  }

  private stepOf(at: number, less: number): number {
    if (!this.among) return Math.max(USUAL_STEPS[at]!, this.steps[at]! - less) / this.allSteps;
    const before = OTHERS * this.among.step(at, less);
    return (Math.max(0, this.steps[at]! - less) + before) / (this.allSteps + OTHERS);
  }

  private rowOf(at: number, less: number): number {
    if (this.among) {
      const before = OTHERS * this.among.row(at, less);
      return (Math.max(0, this.rows[at]! - less) + before) / (this.allRows + OTHERS);
    }
    const counted = Math.max(USUAL_ROWS[at]!, this.rows[at]! - less);
    return Math.max(counted, at > 1 ? LEAST_ROWS * this.rows[at - 1]! : 0) / this.allRows;
  }
}

/** How a strain's lots are picked. */
interface Habits {
  readonly days: DayCounts;
  readonly rhythm: Rhythm;
}

/** What days and flushes make of a pick, by how the book's lots are picked. */
export class FlushStories {
  private readonly picking: PickingDays;
  private readonly rhythm = new Rhythm();
  private readonly habits = new Map<string, Habits>();
  private readonly starts = new Map<string, Starts>();
  private readonly present = {
    between: [...BEGUN.between],
    next: [...BEGUN.next],
    beyond: [...BEGUN.beyond],
  };
  private readonly ofLot = new Map<KnownLot, FlushDays[]>();
  private readonly spans = new Map<KnownLot, readonly [from: number, to: number]>();
  private lastDay = -Infinity;
  private readonly aboutLoad: About;
  private readonly aboutGap: About;

  constructor(book: KnownBook) {
    const { lots } = book;
    this.picking = new PickingDays(book);
    for (const lot of lots.values()) {
      const last = lastExpected(lot);
      for (const { day } of lot.picks) {
        if (day !== undefined && day > this.lastDay && !(last !== undefined && day > last + 60))
          this.lastDay = day;
      }
    }
    for (const members of grouped([...lots.values()], ({ strainKey }) => strainKey).values()) {
      this.learnStrain(members);
    }
    const [fromLoad, gaps]: [number[], number[]] = [[], []];
    const held = (off: number): number => Math.max(-FAR_DAYS, Math.min(FAR_DAYS, off));
    for (const lot of lots.values()) {
      if (lot.strain?.firstPick === undefined) continue;
      const starts = new Map(this.flushesOf(lot).map(({ flush, days }) => [flush, days[0]!]));
      for (const [flush, start] of starts) {
        if (flush === undefined) continue;
        if (flush === 1 && lot.loaded !== undefined)
          fromLoad.push(held(start - lot.loaded - this.fromLoad(lot, 1)));
        const next = starts.get(flush + 1);
        if (next !== undefined)
          gaps.push(held(next - start - this.fromLoad(lot, flush + 1) + this.fromLoad(lot, flush)));
      }
    }
    this.aboutLoad = learntAbout(fromLoad);
    this.aboutGap = learntAbout(gaps);
  }

  private learnStrain(members: readonly KnownLot[]): void {
    const { strainKey, strain } = members[0]!;
    const days = new DayCounts(strain?.pickDays ?? 3);
    const rhythm = new Rhythm(this.rhythm);
    this.habits.set(strainKey, { days, rhythm });
    const offsets = new Map<number, number[]>();
    for (const lot of members) {
      const flushes = this.flushesOf(lot);
      for (const { flush, days: own, rows } of flushes) {
        days.add(flush, own.length);
        own.forEach((day, i) => {
          if (i > 0) rhythm.countStep(this.picking.between(lot, own[i - 1]!, day));
        });
        for (const count of rows.values()) rhythm.countRows(count);
        if (flush === undefined || lot.loaded === undefined) continue;
        const found = offsets.get(flush);
        if (found) found.push(own[0]! - lot.loaded);
        else offsets.set(flush, [own[0]! - lot.loaded]);
      }
      this.countFlushes(lot, flushes);
    }
    const first = strain?.firstPick ?? (offsets.get(1)?.length ? median(offsets.get(1)!) : 10);
    const gap = strain?.flushGap ?? 15;
    const reach = Math.max(10, 0.6 * gap);
    const usual = new Map<number, number>();
    for (const [flush, all] of offsets) {
      const tabled = first + (flush - 1) * gap;
      const held = all.map((day) => Math.max(tabled - reach, Math.min(tabled + reach, day)));
      usual.set(flush, (TABLE_LOTS * tabled + held.length * median(held)) / (TABLE_LOTS + held.length));
    }
    this.starts.set(strainKey, { usual, first, gap });
  }

  private countFlushes(lot: KnownLot, flushes: readonly FlushDays[]): void {
    const numbers = new Set(flushes.map(({ flush }) => flush).filter((flush) => flush !== undefined));
    if (numbers.size === 0 || !lot.strain) return;
    const highest = Math.max(...numbers);
    for (let flush = 1; flush <= highest; flush++) {
      const kind = kindOf(flush, highest, lot.strain.flushes);
      this.present[kind][numbers.has(flush) ? 0 : 1]!++;
    }
    if (this.isOver(lot)) this.present[highest < lot.strain.flushes ? 'next' : 'beyond'][1]!++;
  }

  private isOver(lot: KnownLot): boolean {
    const last = lastExpected(lot);
    return last !== undefined && this.lastDay > last + GRACE_DAYS;
  }

  private fromLoad({ strainKey }: KnownLot, flush: number): number {
    const { usual, first, gap } = this.starts.get(strainKey)!;
    return usual.get(flush) ?? first + (flush - 1) * gap;
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

  /** Whether a lot may be picked on a day at all: near the days it is picked on, or those it is due on. */
  mayBePicked(lot: KnownLot, day: number): boolean {
    let span = this.spans.get(lot);
    if (!span) {
      const { gap } = this.starts.get(lot.strainKey)!;
      let [from, to] = [Infinity, -Infinity];
      for (const { days } of this.flushesOf(lot)) {
        from = Math.min(from, days[0]!);
        to = Math.max(to, days.at(-1)!);
      }
      if (from > to && lot.loaded !== undefined) {
        from = lot.loaded + this.fromLoad(lot, 1);
        to = lot.loaded + this.fromLoad(lot, lot.strain?.flushes ?? 1);
      }
      const reach = 1.5 * gap + FAR_DAYS;
      span = [Math.max(from - reach, (lot.loaded ?? -Infinity) + 1), to + reach];
      this.spans.set(lot, span);
    }
    return day >= span[0] && day <= span[1];
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
        : this.rowsShare(lot, there + 1, isTyped) / this.rowsShare(lot, there, !isTyped && !isOwn);
    }
    const counts = this.habits.get(lot.strainKey)!.days;
    const counted = days.length + (typed === undefined || days.includes(typed) ? 0 : 1);
    const longer = counts.share(flush, days.length + 1, counted) / counts.share(flush, days.length, counted);
    const one = this.rowsShare(lot, 1, isTyped);
    if (at === days.length)
      return longer * one * this.picking.often(lot, day) * this.step(lot, days[at - 1]!, day, isTyped);
    if (at === 0) {
      return (
        longer *
        one *
        this.step(lot, day, days[0]!, isTyped) *
        Math.min(1e3, this.begins(lot, flush, others, day) / this.begins(lot, flush, others, days[0]!))
      );
    }
    const [before, after] = [days[at - 1]!, days[at]!];
    const steps = this.step(lot, before, day, isTyped) * this.step(lot, day, after, isTyped);
    return (longer * one * this.picking.often(lot, day) * steps) / this.step(lot, before, after, !isOwn);
  }

  /** How much likelier a lot's whole story is with a row that is a flush of its own, each with the flushes found for it. */
  private gainAlone(lot: KnownLot, self: KnownPick): number {
    const typed = this.flushesOf(lot);
    return Math.exp(this.story(lot, typed, typed) - this.story(lot, this.without(lot, self), typed));
  }

  /** ln of how likely a lot's flushes are; its own, as they are counted, take no part. */
  private story(lot: KnownLot, flushes: readonly FlushDays[], counted: readonly FlushDays[]): number {
    const counts = this.habits.get(lot.strainKey)!.days;
    const last = lot.strain?.flushes ?? 1;
    const exists = (flush: number, highest: number, isThere: boolean): number => {
      const [there, lacking] = this.present[kindOf(flush, highest, last)] as [number, number];
      return Math.log(Math.max(1 / MOST_FOR_A_FLUSH, (isThere ? there : lacking) / (there + lacking)));
    };
    let likely = 0;
    const numbered = flushes.filter(({ flush }) => flush !== undefined).sort((a, b) => a.flush! - b.flush!);
    const highest = numbered.at(-1)?.flush ?? 0;
    numbered.forEach(({ flush, days, rows }, i) => {
      const before = numbered[i - 1];
      for (let lost = (before?.flush ?? 0) + 1; lost < flush!; lost++) likely += exists(lost, highest, false);
      likely += exists(flush!, highest, true);
      const [from, start] = before ? [before.flush!, before.days[0]!] : [0, lot.loaded];
      likely += Math.log(
        start === undefined ? 1 / (2 * REACH) : ANYWHERE + this.steadily(lot, from, start, flush!, days[0]!),
      );
      const own = counted.find((one) => one.flush === flush)?.days.length ?? 0;
      likely += Math.log(counts.share(flush, days.length, own));
      for (let at = 1; at < days.length; at++)
        likely += Math.log(
          this.picking.often(lot, days[at]!) * this.step(lot, days[at - 1]!, days[at]!, true),
        );
      for (const count of rows.values()) likely += Math.log(this.rowsShare(lot, count, true));
    });
    if (highest < last && this.isOver(lot)) likely += exists(highest + 1, highest, false);
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
    const kind = kindOf(flush, isBetween ? Infinity : 0, lot.strain.flushes);
    const [there, lacking] = this.present[kind] as [number, number];
    const [most, least] = BEGUN[kind];
    const odds = Math.min(
      MOST_FOR_A_FLUSH,
      Math.max(most, there - (isOwn ? 1 : 0)) / Math.max(least, lacking - (isOwn ? 0 : 1)),
    );
    const exists = isBetween || this.isOver(lot) ? odds : Math.min(odds, odds ** UNDECIDED);
    const one =
      this.rowsShare(lot, 1, isOwn) * this.habits.get(lot.strainKey)!.days.share(flush, 1, isOwn ? 1 : 0);
    return exists * one * this.begins(lot, flush, others, day);
  }

  /** How likely a flush is to begin on a day between those before and after it, whose own distance is then explained. */
  private begins(
    lot: KnownLot,
    flush: number | undefined,
    others: readonly FlushDays[],
    day: number,
  ): number {
    if (flush === undefined || lot.strain?.firstPick === undefined) return 1 / (2 * REACH);
    let before: FlushDays | undefined;
    let after: FlushDays | undefined;
    for (const other of others) {
      if (other.flush === undefined || other.flush === flush) continue;
      if (other.flush < flush) {
        if (!before || other.flush > before.flush!) before = other;
      } else if (!after || other.flush < after.flush!) after = other;
    }
    const [from, start] = before ? [before.flush!, before.days[0]!] : [0, lot.loaded];
    const reached = start === undefined ? undefined : this.steadily(lot, from, start, flush, day);
    if (!after) return reached ?? 1 / (2 * REACH);
    const left = this.steadily(lot, flush, day, after.flush!, after.days[0]!);
    if (reached === undefined) return left;
    return (reached * left) / this.steadily(lot, from, start!, after.flush!, after.days[0]!);
  }

  /** Density of a flush's start, from the start of one before it or from the load (0). */
  private steadily(lot: KnownLot, from: number, start: number, to: number, day: number): number {
    const due = this.fromLoad(lot, to) - (from === 0 ? 0 : this.fromLoad(lot, from));
    const gaps = from === 0 ? to - 1 : to - from;
    const [load, gap] = [this.aboutLoad, this.aboutGap];
    const spread = Math.hypot(from === 0 ? load.spread : 0, Math.sqrt(gaps) * gap.spread);
    const likely = student(day - start - due, spread, from === 0 ? load.degrees : gap.degrees);
    return likely * this.picking.often(lot, day);
  }

  private step(lot: KnownLot, from: number, to: number, isCounted: boolean): number {
    const days = this.picking.between(lot, from, to);
    const share = this.habits.get(lot.strainKey)!.rhythm.step(Math.min(days, STEPS - 1), isCounted ? 1 : 0);
    const beyond = days < STEPS - 1 ? 1 : (1 - RARER) * RARER ** (days - STEPS + 1);
    return (1 - UNTYPED) * share * beyond + UNTYPED / ALL_SQUARES / days ** 2;
  }

  private rowsShare(lot: KnownLot, rows: number, isCounted: boolean): number {
    const share = this.habits.get(lot.strainKey)!.rhythm.row(Math.min(ROWS, rows), isCounted ? 1 : 0);
    return share * (rows > ROWS ? 0.5 ** (rows - ROWS) : 1);
  }
}

/** Whether a flush lies between others, is the next one, or is one that the strain is not kept for. */
const kindOf = (flush: number, highest: number, last: number): keyof typeof BEGUN =>
  flush > last ? 'beyond' : flush < highest ? 'between' : 'next';

/** Whether a flush that was found from dates has no other row. */
function isAlone(self: KnownPick): boolean {
  if (self.flush === undefined || self.isRecorded) return false;
  for (const pick of self.lot!.picks)
    if (pick !== self && pick.day !== undefined && pick.flush === self.flush) return false;
  return true;
}
