import { median } from '../shared/statistics';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import { logTail } from './likelihood';
import { massModel, type JudgedPick, type MassModel } from './massModel';

/** A mass that a slip made another, or that is honestly odd: this often, and this wide. */
const OTHERWISE = 0.015;
const OTHERWISE_SPREAD = 1.5;
/** This far from its lot's middle a mass is a slip, and no measure of others. */
const WILD = 1.8;

/** How well a pick's mass would fit in one lot or another, by their other picks. */
export class MassPlaces {
  private readonly model: MassModel;
  private readonly ofPick: ReadonlyMap<KnownPick, JudgedPick>;

  constructor(book: KnownBook) {
    this.model = massModel(book);
    this.ofPick = new Map(this.model.judged.map((one) => [one.pick, one]));
  }

  /** ln of how likely the pick's mass is in a flush of a lot; undefined where it has none. */
  logLikelihood(pick: KnownPick, lot: KnownLot, flush: number | undefined): number | undefined {
    const self = this.ofPick.get(pick);
    if (!self || !pick.lot) return undefined;
    const { spreads, usual, usualShared, byLot } = this.model;
    // What its picker makes usual goes with the pick; its place in the flush and the rows of its day do not.
    const rows =
      1 + lot.picks.filter((other) => other !== pick && other.day === pick.day && other.mass).length;
    const moved =
      lot === pick.lot
        ? 0
        : self.placed -
          usualShared(pick.record.grade, rows) +
          usual(pick.lot, pick.flush) -
          usual(lot, flush);
    const off = self.off + moved;
    const own = (byLot.get(lot) ?? []).filter((one) => one !== self && one.pick.lot === lot);
    const middle = median([0, ...own.map((one) => one.off)]);
    let [same, sameCount, others, otherCount] = [0, 0, 0, 0];
    for (const one of own) {
      if (Math.abs(one.off - middle) > WILD) continue;
      if (one.pick.flush === flush) [same, sameCount] = [same + one.off, sameCount + 1];
      else [others, otherCount] = [others + one.off, otherCount + 1];
    }
    const [ofPick, ofFlush, ofLot] = [spreads.pick ** 2, spreads.flush ** 2, spreads.lot ** 2];
    const ofOthers = otherCount ? 1 / (ofFlush + ofPick / otherCount) : 0;
    const before = {
      mean: otherCount ? (ofOthers * (others / otherCount)) / (1 / ofLot + ofOthers) : 0,
      variance: 1 / (1 / ofLot + ofOthers) + ofFlush,
    };
    const certainty = 1 / before.variance + sameCount / ofPick;
    const mean = (before.mean / before.variance + same / ofPick) / certainty;
    const spread = Math.sqrt(1 / certainty + ofPick);
    return Math.log(
      (1 - OTHERWISE) * Math.exp(logTail(off - mean, spread)) +
        OTHERWISE * Math.exp(logTail(off - mean, OTHERWISE_SPREAD)),
    );
  }
}
