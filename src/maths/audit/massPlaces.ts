import { median } from '../shared/statistics';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import { logTail } from './likelihood';
import { FlushTotals } from './flushTotals';
import type { JudgedPick } from './judgedPick';
import { massModel, type MassModel } from './massModel';
import type { MassSlip } from './massSlips';
import { learntTails, type MassTails } from './massTail';

/** A mass that a slip made another, or that is honestly odd: this often, and this wide. */
const OTHERWISE = 0.015;
const OTHERWISE_SPREAD = 1.5;
/** This far from its lot's middle a mass is a slip, and no measure of others. */
const WILD = 1.8;

interface Heard {
  sum: number;
  count: number;
}

/** What a lot's picks weigh against what is usual, together and by flush; wild ones are left out. */
interface LotMasses {
  readonly heard: ReadonlySet<KnownPick>;
  readonly all: Heard;
  readonly byFlush: ReadonlyMap<number | undefined, Heard>;
}

/** How well a pick's mass would fit in one lot or another, by their other picks. */
export class MassPlaces {
  private readonly model: MassModel;
  private readonly tails: MassTails;
  private readonly ofPick: ReadonlyMap<KnownPick, JudgedPick>;
  private readonly ofLot = new Map<KnownLot, LotMasses>();

  constructor(book: KnownBook, slips: readonly MassSlip[]) {
    this.model = massModel(book);
    this.tails = learntTails(this.model, new FlushTotals(this.model), slips);
    this.ofPick = new Map(this.model.judged.map((one) => [one.pick, one]));
  }

  /** After a change in a lot's picks. */
  forget(lot: KnownLot): void {
    this.ofLot.delete(lot);
  }

  /** ln of how likely the pick's mass is in a flush of a lot; undefined where it has none. */
  logLikelihood(pick: KnownPick, lot: KnownLot, flush: number | undefined): number | undefined {
    const self = this.ofPick.get(pick);
    if (!self || !pick.lot) return undefined;
    const { usual } = this.model;
    const off =
      self.off +
      (lot === pick.lot
        ? usual(lot, pick.flush) - usual(lot, flush)
        : this.moved(self, pick.lot, lot, flush));
    const { heard, all, byFlush } = this.massesOf(lot);
    const ofFlush = byFlush.get(flush);
    const isOwn = heard.has(pick);
    const isInFlush = isOwn && pick.flush === flush;
    const sameCount = (ofFlush?.count ?? 0) - (isInFlush ? 1 : 0);
    const same = (ofFlush?.sum ?? 0) - (isInFlush ? self.off : 0);
    const otherCount = all.count - (isOwn ? 1 : 0) - sameCount;
    const others = all.sum - (isOwn ? self.off : 0) - same;
    const { spreads } = this.model;
    const [ofPick, ofFlushes, ofLots] = [spreads.pick ** 2, spreads.flush ** 2, spreads.lot ** 2];
    const ofOthers = otherCount ? 1 / (ofFlushes + ofPick / otherCount) : 0;
    const before = {
      mean: otherCount ? (ofOthers * (others / otherCount)) / (1 / ofLots + ofOthers) : 0,
      variance: 1 / (1 / ofLots + ofOthers) + ofFlushes,
    };
    const certainty = 1 / before.variance + sameCount / ofPick;
    const mean = (before.mean / before.variance + same / ofPick) / certainty;
    const spread = Math.sqrt(1 / certainty + ofPick * self.wide ** 2);
    return Math.log(
      (1 - OTHERWISE) * Math.exp(this.tails(self).log(off - mean, spread)) +
        OTHERWISE * Math.exp(logTail(off - mean, OTHERWISE_SPREAD)),
    );
  }

  /** What its picker makes usual goes with a pick; its place in the flush and the rows of its day do not. */
  private moved(
    { pick, placed }: JudgedPick,
    from: KnownLot,
    to: KnownLot,
    flush: number | undefined,
  ): number {
    const { usual, usualShared } = this.model;
    const rows =
      1 + to.picks.filter((other) => other !== pick && other.day === pick.day && other.mass).length;
    return placed - usualShared(pick.record.grade, rows) + usual(from, pick.flush) - usual(to, flush);
  }

  private massesOf(lot: KnownLot): LotMasses {
    const known = this.ofLot.get(lot);
    if (known) return known;
    const own: JudgedPick[] = [];
    const offs = [0];
    for (const pick of lot.picks) {
      const one = this.ofPick.get(pick);
      if (!one) continue;
      own.push(one);
      offs.push(one.off);
    }
    const middle = median(offs);
    const heard = new Set<KnownPick>();
    const all = { sum: 0, count: 0 };
    const byFlush = new Map<number | undefined, Heard>();
    for (const { pick, off } of own) {
      if (Math.abs(off - middle) > WILD) continue;
      heard.add(pick);
      let ofFlush = byFlush.get(pick.flush);
      if (!ofFlush) byFlush.set(pick.flush, (ofFlush = { sum: 0, count: 0 }));
      for (const one of [all, ofFlush]) {
        one.sum += off;
        one.count++;
      }
    }
    const masses = { heard, all, byFlush };
    this.ofLot.set(lot, masses);
    return masses;
  }
}
