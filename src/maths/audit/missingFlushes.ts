import { median } from '../shared/statistics';
import { found, lastExpected, type KnownBook, type KnownLot } from './knownBook';
import { grouped, heldSpread } from './likelihood';
import type { PickTimes } from './pickTimes';

/** How often the picks of a flush are not typed at all. */
const NOT_TYPED = 0.02;
/** A lot is over this long after the last pick that is due. */
const GRACE_DAYS = 15;
/** Lots from which a habit can be read. */
const LEAST_LOTS = 20;
/** Flushes of a strain differ by about this much, on the scale of natural logarithms, held to what the book shows. */
const USUAL_SPREAD = 0.4;
/** Lots that are thrown out early gave about so many spreads less than usual before (judgement, no source). */
const POOR = 1.5;
const MOST_POOR = 6;

/**
 * Flushes without a pick although a later one has some, and last flushes of lots that are over where hardly another lot
 * lacks its own. What is honestly common in the book is not told.
 */
export function judgeMissingFlushes({ lots, findings }: KnownBook, times: PickTimes): void {
  let lastDay = -Infinity;
  for (const lot of lots.values()) {
    const last = lastExpected(lot);
    for (const { day } of lot.picks)
      if (day !== undefined && day > lastDay && !(last !== undefined && day > last + 60)) lastDay = day;
  }
  const seen = [...lots.values()].flatMap((lot) => {
    const flushes = new Set(lot.picks.filter(({ day }) => day !== undefined).map(({ flush }) => flush));
    const numbers = [...flushes].filter((flush) => flush !== undefined);
    if (numbers.length === 0 || !lot.strain) return [];
    const highest = Math.max(...numbers);
    const gaps: number[] = [];
    for (let flush = 1; flush < highest; flush++) if (!flushes.has(flush)) gaps.push(flush);
    const last = times.lastDue(lot);
    const isOver = last !== undefined && lastDay > last + GRACE_DAYS;
    const ends = isOver && highest < lot.strain.flushes ? [highest + 1] : [];
    return [{ lot, gaps, ends, isOver }];
  });
  const tell = (
    of: readonly { lot: KnownLot; flushes: readonly number[] }[],
    all: number,
    poor: (lot: KnownLot) => number = () => 1,
  ): void => {
    const lacking = of.filter(({ flushes }) => flushes.length > 0);
    for (const { lot, flushes } of lacking) {
      const honest = (poor(lot) * (lacking.length - 1 + 0.2)) / all;
      const sure = NOT_TYPED / (NOT_TYPED + honest);
      for (const flush of flushes) {
        if (sure > 0.5)
          findings.push(found(lot.record, 'flush missing', 'flush', '', { about: flush, sure }));
      }
    }
  };
  // A gap between flushes is honest far less often than an early end.
  tell(
    seen.map(({ lot, gaps }) => ({ lot, flushes: gaps })),
    5 * Math.max(LEAST_LOTS, seen.length),
  );
  const over = seen.filter(({ isOver }) => isOver);
  if (over.length >= LEAST_LOTS) {
    tell(
      over.map(({ lot, ends }) => ({ lot, flushes: ends })),
      over.length,
      poorness(over.map(({ lot }) => lot)),
    );
  }
}

/**
 * How much likelier a lot was thrown out than others are, by what its last flush on record gave: a poor one goes out early,
 * where a flush that nobody typed may be of any lot.
 */
function poorness(lots: readonly KnownLot[]): (lot: KnownLot) => number {
  const flushes = lots.flatMap((lot) => {
    const { blocks, blockMass, picks, strainKey } = lot;
    if (!blocks || !blockMass) return [];
    return [...grouped(picks, ({ flush }) => flush)].flatMap(([flush, own]) => {
      const mass = own.reduce((sum, pick) => sum + (pick.mass ?? 0), 0);
      const gave = Math.log(mass / blocks / blockMass);
      return flush === undefined || mass === 0 ? [] : [{ lot, flush, kind: `${flush} ${strainKey}`, gave }];
    });
  });
  const offs: number[] = [];
  const lasts = new Map<KnownLot, { readonly flush: number; readonly off: number }>();
  for (const own of grouped(flushes, ({ kind }) => kind).values()) {
    const middle = median(own.map(({ gave }) => gave));
    for (const { lot, flush, gave } of own) {
      const off = gave - middle;
      offs.push(off);
      if ((lasts.get(lot)?.flush ?? 0) < flush) lasts.set(lot, { flush, off });
    }
  }
  const spread = heldSpread(offs, USUAL_SPREAD, LEAST_LOTS);
  return (lot) => {
    const last = lasts.get(lot);
    if (!last) return 1;
    const likelier = Math.exp(-POOR * (last.off / spread) - POOR ** 2 / 2);
    // A good lot may be thrown out too: what it gave is no proof that its flush was not typed.
    return Math.max(1, Math.min(MOST_POOR, likelier));
  };
}
