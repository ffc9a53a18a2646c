import { labelKey } from '../shared/labels';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';

// Books are mostly written day by day, and lots in the order of loading: a row out of its order speaks of a slip, and
// the rows around it say what was meant. How much the order is worth is counted in the book itself.

/** However well a book is kept, one row in as many may be written late. */
const MOST_ORDERED = 0.99;
/** A book may have been sorted since: then a slip is in its order too. */
const UNSORTED = 0.5;
const NEIGHBOURS = 2;

/** ln of what the order makes of what was typed, and of something else that may have been meant. */
export interface OrderOdds<T> {
  readonly typed: number;
  readonly meant: (other: T) => number;
  /** Of a slip that does not tell what was meant. */
  readonly unknown: number;
  readonly isOut: boolean;
}

const NO_ORDER: OrderOdds<unknown> = { typed: 0, meant: () => 0, unknown: 0, isOut: false };

/** Whether something is in its order in a row; undefined where the rows around say nothing. */
type Fits<T> = (at: number, one: T) => boolean | undefined;

class Odds<T> implements OrderOdds<T> {
  readonly typed: number;
  readonly unknown: number;

  constructor(
    private readonly share: number,
    readonly isOut: boolean,
    private readonly at: number,
    private readonly fits: Fits<T>,
  ) {
    this.typed = Math.log(isOut ? 1 - share : share);
    this.unknown = Math.log(isOut ? UNSORTED * share : UNSORTED);
  }

  meant(other: T): number {
    const isIn = this.fits(this.at, other) === true;
    if (!this.isOut) return isIn ? 0 : Math.log(1 - UNSORTED);
    return Math.log(UNSORTED * (isIn ? this.share : 1 - this.share));
  }
}

/** Share of rows that are in their order, of those of which it can be said; two of four to begin with. */
function shareOf(fits: readonly (boolean | undefined)[]): number {
  let [fitting, all] = [2, 4];
  for (const fit of fits) {
    if (fit === undefined) continue;
    all++;
    if (fit) fitting++;
  }
  return Math.min(MOST_ORDERED, fitting / all);
}

/** Rows in the order of a figure, such as days: upwards or downwards, whichever fits more of them. */
export class FigureOrder {
  private readonly share: number = NaN;
  private readonly sign: 1 | -1 = 1;
  private readonly fits: Fits<number> = (at, value) => this.isIn(at, value, this.sign);

  constructor(private readonly values: (number | undefined)[]) {
    const share = (sign: 1 | -1): number =>
      shareOf(values.map((value, at) => (value === undefined ? undefined : this.isIn(at, value, sign))));
    const [up, down] = [share(1), share(-1)];
    this.sign = up >= down ? 1 : -1;
    this.share = Math.max(up, down);
  }

  correct(at: number, value: number | undefined): void {
    this.values[at] = value;
  }

  of(at: number): OrderOdds<number> {
    const typed = this.values[at];
    if (typed === undefined) return NO_ORDER;
    return new Odds(this.share, !this.isIn(at, typed, this.sign), at, this.fits);
  }

  private isIn(at: number, value: number, sign: 1 | -1): boolean {
    return sign * value >= this.bound(at, -1, sign) && sign * value <= this.bound(at, 1, sign);
  }

  /** Of the two nearest on a side the one that asks less, since one of them may itself be wrong. */
  private bound(at: number, step: 1 | -1, sign: 1 | -1): number {
    let bound: number | undefined;
    let seen = 0;
    for (
      let other = at + step;
      seen < NEIGHBOURS && other >= 0 && other < this.values.length;
      other += step
    ) {
      const value = this.values[other];
      if (value === undefined) continue;
      seen++;
      const far = sign * value;
      bound = bound === undefined ? far : step < 0 ? Math.min(bound, far) : Math.max(bound, far);
    }
    return bound ?? step * Infinity;
  }
}

/** Lots in the order of rows: within a day by label or as lots has them, or each beside its own. */
export class LotOrder {
  private readonly fits: Fits<KnownLot>;
  private readonly share: number;
  private readonly places: ReadonlyMap<KnownPick, number>;

  constructor({ picks, lots }: KnownBook) {
    this.places = new Map(picks.map((pick, at) => [pick, at]));
    const sameDay = (at: number, beside: number): KnownLot | undefined =>
      picks[beside]?.day === picks[at]!.day ? picks[beside]?.lot : undefined;
    const sorted =
      <K extends string | number>(keyOf: (lot: KnownLot) => K): Fits<KnownLot> =>
      (at, lot) => {
        const before = sameDay(at, at - 1);
        const after = sameDay(at, at + 1);
        if (!before && !after) return undefined;
        const key = keyOf(lot);
        return !(before && keyOf(before) > key) && !(after && keyOf(after) < key);
      };
    const together: Fits<KnownLot> = (at, lot) => {
      const [before, after] = [picks[at - 1]?.lot, picks[at + 1]?.lot];
      return before || after ? before === lot || after === lot : undefined;
    };
    const keys = new Map([...lots.values()].map((lot) => [lot, labelKey(lot.record.lot)]));
    const ways = [sorted((lot) => keys.get(lot)!), sorted(({ record }) => record.row), together];
    const counted = ways.map((fits) => ({
      fits,
      share: shareOf(picks.map(({ lot }, at) => (lot ? fits(at, lot) : undefined))),
    }));
    const best = counted.reduce((one, other) => (other.share > one.share ? other : one));
    this.fits = best.fits;
    this.share = best.share;
  }

  /** What the rows around a pick make of its lot. */
  of(pick: KnownPick): OrderOdds<KnownLot> {
    const at = this.places.get(pick)!;
    const isTypedIn = pick.lot && this.fits(at, pick.lot);
    if (isTypedIn === undefined) return NO_ORDER;
    return new Odds(this.share, !isTypedIn, at, this.fits);
  }

  /** ln of what the rows around a pick make of a lot, where its own label is no lot's. */
  meant(pick: KnownPick, lot: KnownLot): number {
    const isIn = this.fits(this.places.get(pick)!, lot);
    return isIn === undefined ? 0 : Math.log(isIn ? this.share : Math.max(1 - this.share, 1 - UNSORTED));
  }
}
