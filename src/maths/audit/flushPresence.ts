import type { FlushDays } from './flushDays';
import { lastExpected, type KnownBook, type KnownLot } from './knownBook';

/** Flushes present and lacking as a book begins: between others, the next one, and beyond those that a strain is kept for. */
const BEGUN = { between: [9, 1], next: [3, 1], beyond: [0.05, 1] } as const;
/** Of a lot that is not over nobody knows whether the next flush is still to come. */
const GRACE_DAYS = 15;
/** A flush is hardly ever not typed at all: its lack is as rare as this at most. */
const MOST_FOR_A_FLUSH = 50;
const UNDECIDED = 0.5;

/** Whether a flush lies between others, is the next one, or is one that the strain is not kept for. */
const kindOf = (flush: number, highest: number, last: number): keyof typeof BEGUN =>
  flush > last ? 'beyond' : flush < highest ? 'between' : 'next';

/** How often a book has flushes that it could have. */
export class FlushPresence {
  private readonly present = {
    between: [...BEGUN.between] as [there: number, lacking: number],
    next: [...BEGUN.next] as [there: number, lacking: number],
    beyond: [...BEGUN.beyond] as [there: number, lacking: number],
  };
  private lastDay = -Infinity;

  constructor({ lots }: KnownBook) {
    for (const lot of lots.values()) {
      const last = lastExpected(lot);
      for (const { day } of lot.picks) {
        if (day !== undefined && day > this.lastDay && !(last !== undefined && day > last + 60))
          this.lastDay = day;
      }
    }
  }

  /** Counts a lot's flushes, and those that it lacks. */
  count(lot: KnownLot, flushes: readonly FlushDays[]): void {
    const numbers = new Set(flushes.map(({ flush }) => flush).filter((flush) => flush !== undefined));
    if (numbers.size === 0 || !lot.strain) return;
    const highest = Math.max(...numbers);
    for (let flush = 1; flush <= highest; flush++) {
      const kind = kindOf(flush, highest, lot.strain.flushes);
      this.present[kind][numbers.has(flush) ? 0 : 1]++;
    }
    if (this.isOver(lot)) this.present[highest < lot.strain.flushes ? 'next' : 'beyond'][1]++;
  }

  isOver(lot: KnownLot): boolean {
    const last = lastExpected(lot);
    return last !== undefined && this.lastDay > last + GRACE_DAYS;
  }

  /** How often a flush is there, or is lacking, in a lot whose highest is given. */
  share(lot: KnownLot, flush: number, highest: number, isThere: boolean): number {
    const [there, lacking] = this.present[kindOf(flush, highest, lot.strain?.flushes ?? 1)];
    return Math.max(1 / MOST_FOR_A_FLUSH, (isThere ? there : lacking) / (there + lacking));
  }

  /** The odds that a lot has a flush of one row, which is counted where it is the lot's own. */
  odds(lot: KnownLot, flush: number, isBetween: boolean, isOwn: boolean): number {
    const kind = kindOf(flush, isBetween ? Infinity : 0, lot.strain?.flushes ?? 1);
    const [there, lacking] = this.present[kind];
    const [most, least] = BEGUN[kind];
    const odds = Math.min(
      MOST_FOR_A_FLUSH,
      Math.max(most, there - (isOwn ? 1 : 0)) / Math.max(least, lacking - (isOwn ? 0 : 1)),
    );
    return isBetween || this.isOver(lot) ? odds : Math.min(odds, odds ** UNDECIDED);
  }
}
