import { median } from '../shared/statistics';
import type { KnownLot } from './knownBook';
import { grouped, heldSpread, logTail } from './likelihood';
import type { Due, LotPicks } from './judgedPick';
import { factorOf, fitEffects } from './massEffects';
import type { MassModel } from './massModel';

// What is not picked today is picked tomorrow: after days without picking one pick holds what several would have held. It
// is far from the others then, but it makes the flush what it should be by the lot's other flushes.

/** Spreads that a book with few lots is taken to have, on the scale of natural logarithms (common practice, no source). */
const USUAL = { flush: 0.3, lot: 0.4 };
const USUAL_WEIGHT = 6;
const LEAST = 0.1;

/** A flush's whole mass. */
interface Whole {
  readonly lot: KnownLot;
  readonly flush: number;
  /** ln of it for each dry mass, less what strain and flush make usual. */
  off: number;
}

/** ln of how likely a pick's mass is, where it holds all that was left of its flush. */
export function logLeft({ others, whole, spread }: Due, mass: number): number {
  return logTail(Math.log(mass + others) - whole, spread) + Math.log(mass / (mass + others));
}

/** What flushes weigh as a whole, by the lot and by the strain. */
export class FlushTotals {
  private readonly byLot: ReadonlyMap<KnownLot, readonly Whole[]>;
  private readonly effects = new Map<string, number>();
  private readonly spreads: { readonly flush: number; readonly lot: number };

  constructor(private readonly model: MassModel) {
    const wholes: (Whole & { readonly mass: number })[] = [];
    for (const [lot, { flushes }] of model.byLot) {
      for (const members of flushes) {
        const { flush } = members[0]!.pick;
        if (flush === undefined || members.some(({ goesOn }) => goesOn)) continue;
        const mass = members.reduce((sum, { pick }) => sum + pick.mass!, 0);
        wholes.push({ lot, flush, mass, off: NaN });
      }
    }
    const logs = Float64Array.from(wholes, ({ lot, mass }) => Math.log(mass / model.sizeOf(lot)));
    const ofFlush = factorOf(wholes.length, (i) => keyOf(wholes[i]!.lot, wholes[i]!.flush), 0);
    const ofLot = factorOf(wholes.length, (i) => wholes[i]!.lot, 1);
    const [flushes] = fitEffects(logs, [ofFlush, ofLot]);
    wholes.forEach((one, i) => {
      const effect = flushes![ofFlush.groups[i]!]!;
      this.effects.set(keyOf(one.lot, one.flush), effect);
      one.off = logs[i]! - effect;
    });
    this.byLot = grouped(wholes, ({ lot }) => lot);
    const [ofFlushes, ofLots]: [number[], number[]] = [[], []];
    for (const own of this.byLot.values()) {
      const middle = median(own.map(({ off }) => off));
      ofLots.push(middle);
      if (own.length < 2) continue;
      const wider = Math.sqrt(own.length / (own.length - 1));
      for (const { off } of own) ofFlushes.push((off - middle) * wider);
    }
    this.spreads = {
      flush: Math.max(LEAST, heldSpread(ofFlushes, USUAL.flush, USUAL_WEIGHT)),
      lot: Math.max(LEAST, heldSpread(ofLots, USUAL.lot, USUAL_WEIGHT)),
    };
  }

  /** Finds what is due for each of a lot's picks, by the other flushes and the flush's other picks. */
  findDues({ all, flushes }: LotPicks): void {
    for (const one of all) one.due = undefined;
    const lot = all[0]?.pick.lot;
    if (!lot) return;
    const [ofFlush, ofLot] = [this.spreads.flush ** 2, this.spreads.lot ** 2];
    const ownFlushes = this.byLot.get(lot) ?? [];
    for (const members of flushes) {
      const { flush } = members[0]!.pick;
      const effect = flush === undefined ? undefined : this.effects.get(keyOf(lot, flush));
      if (effect === undefined || members.some(({ goesOn }) => goesOn)) continue;
      let [certainty, sum] = [1 / ofLot, 0];
      for (const other of ownFlushes) {
        if (other.flush === flush) continue;
        certainty += 1 / ofFlush;
        sum += other.off / ofFlush;
      }
      const whole = Math.log(this.model.sizeOf(lot)) + effect + sum / certainty;
      const spread = Math.sqrt(1 / certainty + ofFlush);
      const mass = members.reduce((all, { pick }) => all + pick.mass!, 0);
      for (const one of members) one.due = { others: Math.max(0, mass - one.pick.mass!), whole, spread };
    }
  }
}

const keyOf = ({ strainKey }: KnownLot, flush: number): string => `${flush} ${strainKey}`;
