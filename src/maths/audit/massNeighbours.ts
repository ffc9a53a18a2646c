import { median } from '../shared/statistics';
import type { JudgedPick, LotPicks } from './judgedPick';
import { NEAR_DAY, type Spreads } from './massSpreads';

/** A pick this many spreads from its lot's middle says nothing of the others. */
const FAR = 3.5;
/** So many picks of a flush that agree are no slips, though the lot's other flushes were another size. */
const AGREEING = 3;
/** First and later flushes differ by about this much more, where it is not known which a pick is of. */
const UNKNOWN_FLUSH = 0.5;

/** The middle of a lot's picks and one 0, which stands for an ordinary lot: one wild pick of two moves nothing. */
function middleWithUsual(own: readonly JudgedPick[]): number {
  const offs = [0];
  for (const { counts, off } of own) if (counts) offs.push(off);
  return median(offs);
}

/** What the picks of a flush that are heard weigh together. */
interface FlushHeard {
  readonly members: readonly JudgedPick[];
  readonly sum: number;
  readonly count: number;
}

/**
 * Finds the picks of a flush that say something of the others: none far from the lot's middle, unless the flush agrees on
 * it. What varies widely says less.
 */
function hear(members: readonly JudgedPick[], middle: number, spreads: Spreads): FlushHeard {
  const far = FAR * Math.hypot(spreads.pick, spreads.flush);
  let [counted, near] = [0, 0];
  for (const one of members) {
    one.isHeard = one.counts && Math.abs(one.off - middle) < far;
    if (one.counts) counted++;
    if (one.isHeard) near++;
  }
  if (near < counted && counted >= AGREEING) {
    const ofFlush = median(members.filter(({ counts }) => counts).map(({ off }) => off));
    for (const one of members)
      if (one.counts && Math.abs(one.off - ofFlush) < FAR * spreads.pick) one.isHeard = true;
  }
  let [sum, count] = [0, 0];
  for (const one of members) {
    if (!one.isHeard) continue;
    sum += weightOf(one) * one.off;
    count += weightOf(one);
  }
  return { members, sum, count };
}

/** Degrees of Student's density of what lots and flushes differ by. */
const HEAVY = 6;

/**
 * The variance that something so far off is taken to come from: lots are honestly far off more often than a bell says, and
 * one that is gives its picks no pull towards the others.
 */
const variance = (off: number, usual: number): number =>
  (usual * Math.max(HEAVY + 1, HEAVY + off ** 2 / usual)) / (HEAVY + 1);

const weightOf = ({ wide }: JudgedPick): number => 1 / wide ** 2;

const ALONE = { off: 0, left: 1 };

/** What the other rows of its day make of a pick: by how much it is off with them, and how much of its variance is left. */
function ofDay(
  self: JudgedPick,
  members: readonly JudgedPick[],
  mean: number,
  { pick, day: alike }: Spreads,
): { off: number; left: number } {
  let [sum, count] = [0, 0];
  for (const other of members) {
    if (other.pick.day !== self.pick.day || other === self || !other.isHeard) continue;
    sum += Math.max(-NEAR_DAY * pick, Math.min(NEAR_DAY * pick, (other.off - mean) / other.wide));
    count++;
  }
  if (count === 0) return ALONE;
  const share = (alike * count) / (1 + (count - 1) * alike);
  return { off: (share * sum) / count, left: 1 - alike * share };
}

/**
 * What each pick of a lot is off by, seen from the lot's other picks: its own flush counts fully, other flushes with the
 * spread between flushes, the strain with the spread between lots.
 */
export function seenFromOthers({ all: own, flushes: ofLotFlushes }: LotPicks, spreads: Spreads): void {
  const middle = middleWithUsual(own);
  const flushes = ofLotFlushes.map((members) => hear(members, middle, spreads));
  const [ofPick, ofFlush, ofLot] = [
    spreads.pick ** 2,
    spreads.flush ** 2,
    variance(middle, spreads.lot ** 2),
  ];
  for (const { members, sum, count: all } of flushes) {
    let weight = 1 / ofLot;
    let weighted = 0;
    for (const other of flushes) {
      if (other.members === members || other.count === 0) continue;
      const certainty = 1 / (ofFlush + ofPick / other.count);
      weight += certainty;
      weighted += (certainty * other.sum) / other.count;
    }
    const before = { mean: weighted / weight, variance: 1 / weight + ofFlush };
    const isAlone = flushes.every((other) => other.members === members || other.count === 0);
    for (const one of members) {
      const own = one.isHeard ? weightOf(one) : 0;
      const count = all - own;
      const total = sum - own * one.off;
      const certainty = 1 / before.variance + count / ofPick;
      const mean = (before.mean / before.variance + total / ofPick) / certainty;
      const day = spreads.day > 0 ? ofDay(one, members, mean, spreads) : ALONE;
      one.residual = one.off - mean - day.off * one.wide;
      const ofItself =
        ofPick * one.wide ** 2 * day.left + (one.pick.flush === undefined ? UNKNOWN_FLUSH ** 2 : 0);
      one.spread = Math.sqrt(1 / certainty + ofItself);
      const apart = 1 / (ofLot + ofFlush) + count / ofPick;
      one.apart = isAlone ? NaN : one.off - total / ofPick / apart - day.off * one.wide;
      one.apartSpread = Math.sqrt(1 / apart + ofItself);
    }
  }
}

/** A weight that is left over where all picks are taken out. */
const NOTHING = 1e-9;
/** Rows of a lot and day vary together by this share. */
const ALIKE = 0.5;

/** A lot's picks as they bear out those of one day: what those of each flush that are not far off weigh. */
export function heardIn({ all, flushes }: LotPicks, spreads: Spreads): readonly FlushHeard[] {
  const middle = middleWithUsual(all);
  return flushes.map((members) => hear(members, middle, spreads));
}

/**
 * By how much picks of one lot and day are off together, seen from the lot's others: what may be off by one factor does
 * not bear itself out.
 */
export function seenTogether(
  members: readonly JudgedPick[],
  heard: readonly FlushHeard[],
  spreads: Spreads,
): { off: number; spread: number } {
  const [ofPick, ofFlush, ofLot] = [spreads.pick ** 2, spreads.flush ** 2, spreads.lot ** 2];
  const { flush } = members[0]!.pick;
  let [weight, weighted] = [1 / ofLot, 0];
  let [sum, count] = [0, 0];
  for (const all of heard) {
    const of = all.members[0]!.pick.flush;
    let [total, picks] = [all.sum, all.count];
    for (const one of members) {
      if (one.pick.flush !== of || !one.isHeard) continue;
      total -= weightOf(one) * one.off;
      picks -= weightOf(one);
    }
    if (picks < NOTHING) continue;
    if (of === flush) [sum, count] = [total, picks];
    else {
      const certainty = 1 / (ofFlush + ofPick / picks);
      weight += certainty;
      weighted += (certainty * total) / picks;
    }
  }
  const before = 1 / (1 / weight + ofFlush);
  const certainty = before + count / ofPick;
  const mean = (before * (weighted / weight) + sum / ofPick) / certainty;
  const meanOf = (of: (one: JudgedPick) => number): number =>
    members.reduce((all, one) => all + of(one), 0) / members.length;
  const off = meanOf((one) => one.off);
  const apart = ((1 + (members.length - 1) * ALIKE) / members.length) * meanOf(({ wide }) => wide ** 2);
  return { off: off - mean, spread: Math.sqrt(1 / certainty + ofPick * apart) };
}
