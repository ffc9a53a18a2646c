import { flushNumbers } from '../harvest/flushNumbers';
import { median } from '../shared/statistics';
import { grouped, heldSpread } from './likelihood';
import { lastExpected, type KnownBook, type KnownLot, type KnownPick } from './knownBook';

/** A lot picked on more days than these is not sought through for its flushes. */
const MOST_DAYS = 200;
/** A lot's days differ from the strain's by about this much, held to what the book shows. */
const USUAL_SPREAD = 2.5;
const LEAST_SPREAD = 1.2;

/** The days of a strain's flushes, from the book as far as it shows them and from the strains table beyond. */
interface StrainTimes {
  /** Middle day of a flush, from the load. */
  readonly usual: ReadonlyMap<number, number>;
  readonly first: number;
  readonly gap: number;
}

/** When lots are picked, learnt from the book itself. */
export class PickTimes {
  private readonly strains = new Map<string, StrainTimes>();
  /** Spread of a lot's days about its strain's. */
  readonly aboutStrain: number;

  constructor({ lots }: KnownBook) {
    for (const members of grouped([...lots.values()], ({ strainKey }) => strainKey).values()) {
      const offsets = new Map<number, number[]>();
      for (const lot of members) {
        if (lot.loaded === undefined) continue;
        for (const [flush, picks] of byFlush(lot)) {
          if (flush === undefined) continue;
          const middle = median(picks.map(({ day }) => day!)) - lot.loaded;
          const found = offsets.get(flush);
          if (found) found.push(middle);
          else offsets.set(flush, [middle]);
        }
      }
      this.strains.set(members[0]!.strainKey, strainTimes(members[0]!, offsets));
    }
    const shifts = [...lots.values()].map((lot) => this.shiftOf(lot)).filter((shift) => shift !== undefined);
    this.aboutStrain = Math.max(LEAST_SPREAD, heldSpread(within(shifts), USUAL_SPREAD, 6));
  }

  /** Days that a flush comes after the strain's usual day. */
  offOf(lot: KnownLot, flush: number, day: number): number | undefined {
    const usual = this.usualDay(lot, flush);
    return usual === undefined ? undefined : day - usual;
  }

  /** The day on which the middle of a flush is due. */
  usualDay(lot: KnownLot, flush: number): number | undefined {
    return lot.loaded === undefined ? undefined : lot.loaded + this.fromLoad(lot, flush);
  }

  private fromLoad({ strainKey }: KnownLot, flush: number): number {
    const { usual, first, gap } = this.strains.get(strainKey)!;
    return usual.get(flush) ?? first + (flush - 1) * gap;
  }

  gapOf({ strainKey }: KnownLot): number {
    return this.strains.get(strainKey)!.gap;
  }

  /** By how many days a lot as a whole is off: the median of its picks. */
  shiftOf(lot: KnownLot): number | undefined {
    const offs: number[] = [];
    for (const { day, flush } of lot.picks) {
      const off = day === undefined || flush === undefined ? undefined : this.offOf(lot, flush, day);
      if (off !== undefined) offs.push(off);
    }
    return offs.length ? median(offs) : undefined;
  }

  /** Last day that a lot may be picked on: its strain's by the table or by the book, and later where the lot itself is late. */
  lastDue(lot: KnownLot): number | undefined {
    const last = lastExpected(lot);
    if (last === undefined) return undefined;
    const { flushes, pickDays } = lot.strain!;
    const seen = this.usualDay(lot, flushes)! + (pickDays ?? 0) / 2;
    return Math.max(last, seen) + Math.max(0, this.shiftOf(lot) ?? 0);
  }
}

/** Days that are farther off are slips, and no measure of a spread. */
const FAR_DAYS = 10;
const within = (days: readonly number[]): number[] =>
  days.map((day) => Math.max(-FAR_DAYS, Math.min(FAR_DAYS, day)));

function byFlush(lot: KnownLot): Map<number | undefined, KnownPick[]> {
  return grouped(
    lot.picks.filter(({ day }) => day !== undefined),
    ({ flush }) => flush,
  );
}

function strainTimes(lot: KnownLot, offsets: ReadonlyMap<number, readonly number[]>): StrainTimes {
  const { firstPick, pickDays, flushGap } = lot.strain ?? {};
  const usual = new Map<number, number>();
  const first = offsets.get(1)?.length ? median(offsets.get(1)!) : 10;
  const start = firstPick === undefined ? first : firstPick + ((pickDays ?? 1) - 1) / 2;
  const gap = flushGap ?? 15;
  for (const [flush, days] of offsets) {
    // The table counts as two lots, and no lot may be far from it, so that a strain's only lots are not their own measure.
    const tabled = start + (flush - 1) * gap;
    const reach = Math.max(10, 0.6 * gap);
    const held = days.map((day) => Math.max(tabled - reach, Math.min(tabled + reach, day)));
    usual.set(flush, (2 * tabled + held.length * median(held)) / (2 + held.length));
  }
  return { usual, first: start, gap };
}

/**
 * Finds the flush of picks that have none on record, by their dates. Picks far from the lot's others take no part.
 *
 * @param isAnchored whether the first days of picking are numbered by the load, or are the first flush whatever the load
 */
export function findFlushes(lot: KnownLot, isAnchored: boolean, picks = lot.picks): void {
  const { firstPick, pickDays, flushGap, flushes = 1 } = lot.strain ?? {};
  if (firstPick === undefined || pickDays === undefined || picks.every(({ isRecorded }) => isRecorded))
    return;
  const dated = picks.filter(({ day }) => day !== undefined);
  if (dated.length === 0 || new Set(dated.map(({ day }) => day)).size > MOST_DAYS) return;
  const middle = median(dated.map(({ day }) => day!));
  const reach = 20 + 0.75 * (pickDays + flushes * (flushGap ?? 15));
  const near = dated.filter(({ day }) => Math.abs(day! - middle) <= reach);
  const found = flushNumbers(
    near.map(({ day, flush, isRecorded }) => ({ dateSerial: day!, flush: isRecorded ? flush : undefined })),
    isAnchored ? lot.loaded : undefined,
    { firstPick, pickDays, flushGap },
  );
  for (const pick of picks) if (!pick.isRecorded) pick.flush = undefined;
  near.forEach((pick, i) => (pick.flush = found[i]));
}
