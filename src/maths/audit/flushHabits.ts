import type { FlushDays } from './flushDays';
import type { KnownLot } from './knownBook';
import type { PickingDays } from './pickingDays';

// On how many days a strain's flushes are picked, how many days apart, and how many rows a day has: counted in the book.

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
const USUAL_DAYS = 3;

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

/** How the lots of a book are picked, each strain's among them. */
export class FlushHabits {
  private readonly rhythm = new Rhythm();
  private readonly ofStrains = new Map<string, Habits>();

  constructor(private readonly picking: PickingDays) {}

  /** Counts a lot's flushes. */
  count(lot: KnownLot, flushes: readonly FlushDays[]): void {
    let habits = this.ofStrains.get(lot.strainKey);
    if (!habits) {
      habits = {
        days: new DayCounts(lot.strain?.pickDays ?? USUAL_DAYS),
        rhythm: new Rhythm(this.rhythm),
      };
      this.ofStrains.set(lot.strainKey, habits);
    }
    const { days, rhythm } = habits;
    for (const { flush, days: own, rows } of flushes) {
      days.add(flush, own.length);
      own.forEach((day, i) => {
        if (i > 0) rhythm.countStep(this.picking.between(lot, own[i - 1]!, day));
      });
      for (const count of rows.values()) rhythm.countRows(count);
    }
  }

  /** How often a lot's flush is picked on so many days; one that is itself counted with `counted` days takes no part. */
  days({ strainKey }: KnownLot, flush: number | undefined, days: number, counted: number): number {
    return this.ofStrains.get(strainKey)!.days.share(flush, days, counted);
  }

  /** How often a flush is picked on the one day and next on the other. */
  step(lot: KnownLot, from: number, to: number, isCounted: boolean): number {
    const days = this.picking.between(lot, from, to);
    const share = this.ofStrains
      .get(lot.strainKey)!
      .rhythm.step(Math.min(days, STEPS - 1), isCounted ? 1 : 0);
    const beyond = days < STEPS - 1 ? 1 : (1 - RARER) * RARER ** (days - STEPS + 1);
    return (1 - UNTYPED) * share * beyond + UNTYPED / ALL_SQUARES / days ** 2;
  }

  /** How often a day has so many rows. */
  rows({ strainKey }: KnownLot, rows: number, isCounted: boolean): number {
    const share = this.ofStrains.get(strainKey)!.rhythm.row(Math.min(ROWS, rows), isCounted ? 1 : 0);
    return share * (rows > ROWS ? 0.5 ** (rows - ROWS) : 1);
  }
}
