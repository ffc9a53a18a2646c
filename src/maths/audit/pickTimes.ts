import { flushNumbers } from '../harvest/flushNumbers';
import { median } from '../shared/statistics';
import { grouped, heldSpread, tail } from './likelihood';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';

/** A lot picked on more days than these is not sought through for its flushes. */
const MOST_DAYS = 200;
/** Days within a flush differ by about this much, and a lot's flushes from the strain's; both held to what the book shows. */
const USUAL_WITHIN = 2;
const LEAST_SPREAD = 1.2;
/** A pick anywhere in about a year: what is left to chance. */
const ANYWHERE = 0.0005 / 400;
/** Days to the nearest other pick of the flush that are counted one by one, as a book begins: 0, 1, 2, 3, 4 days. */
const NEAREST = [0.3, 3, 0.4, 0.2, 0.1];
/** Of each of them, days in order apart, this share of the rows may be slips. */
const BY_SLIPS = 0.005;
/** Beyond them each day more is this much rarer. */
const RARER = 0.6;
/** A day that its flush leaves out between two picked ones asks for a pick: by this much at most. */
const MOST_FOR_A_HOLE = 10;
/** What the flush's own other picks count for, by how many there are, against the strain's times. */
const OWN_FLUSH = [0, 0.6, 0.85, 0.93];
/** A pick that comes before one of an earlier flush, or after one of a later: each is as rare as this. */
const OUT_OF_ORDER = 0.05;
const MOST_CONTRADICTIONS = 3;
/** Where nothing says when flushes are due: days that they may be apart, and how often a pick begins another. */
const REACH = 45;
const OPEN = 0.5;
/** A flush that the strain's blocks are not kept for. */
const BEYOND_LAST = 0.05;

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
  /** Spread of days within a flush, of a lot about its strain, and of flushes about the lot's own shift. */
  private within = USUAL_WITHIN;
  readonly aboutStrain: number;
  private readonly aboutLot: number;
  /** How often a pick lies so many days from the nearest other of its flush. */
  private readonly nearest: readonly number[];
  /** By how much a pick is likelier on a day left out between two others. */
  private readonly forHole: number;

  constructor({ lots }: KnownBook) {
    const nearest = [...NEAREST];
    let [steps, holes] = [2, 1];
    const withins: number[] = [];
    const byStrain = grouped([...lots.values()], ({ strainKey }) => strainKey);
    for (const members of byStrain.values()) {
      const offsets = new Map<number, number[]>();
      for (const lot of members) {
        for (const [flush, picks] of byFlush(lot)) {
          const middle = median(picks.map(({ day }) => day!));
          if (picks.length > 2) for (const { day } of picks) withins.push(day! - middle);
          const days = new Set(picks.map(({ day }) => day!));
          for (const day of days) {
            if (days.has(day + 1)) steps++;
            else if (days.has(day + 2)) holes++;
          }
          for (const distance of nearestDistances(picks)) nearest[Math.min(distance, nearest.length - 1)]!++;
          if (lot.loaded === undefined || flush === undefined) continue;
          const found = offsets.get(flush);
          if (found) found.push(middle - lot.loaded);
          else offsets.set(flush, [middle - lot.loaded]);
        }
      }
      this.strains.set(members[0]!.strainKey, strainTimes(members[0]!, offsets));
    }
    const rows = nearest.reduce((sum, count) => sum + count, 0);
    const honest = nearest.map((count, distance) =>
      distance === 1 ? count : Math.max(NEAREST[distance]!, count - BY_SLIPS * rows),
    );
    const counted = honest.reduce((sum, count) => sum + count, 0);
    this.nearest = honest.map((count) => count / counted);
    this.forHole = Math.max(1, Math.min(MOST_FOR_A_HOLE, steps / holes / 3));
    this.within = Math.max(LEAST_SPREAD, heldSpread(within(withins), USUAL_WITHIN, 6));
    const shifts = [...lots.values()].map((lot) => this.shiftOf(lot)).filter((shift) => shift !== undefined);
    this.aboutStrain = Math.max(LEAST_SPREAD, heldSpread(within(shifts), 2.5, 6));
    const own: number[] = [];
    for (const lot of lots.values()) {
      const middle = this.shiftOf(lot);
      if (middle === undefined) continue;
      const flushes = [...byFlush(lot)];
      if (flushes.length < 2) continue;
      for (const [flush, picks] of flushes) {
        if (flush !== undefined)
          own.push(this.offOf(lot, flush, median(picks.map(({ day }) => day!)))! - middle);
      }
    }
    this.aboutLot = Math.max(LEAST_SPREAD, heldSpread(within(own), 2.5, 6));
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

  /** The flush whose usual day is the nearest. */
  nearestFlush(lot: KnownLot, day: number): number | undefined {
    if (lot.loaded === undefined) return undefined;
    let nearest = 1;
    for (let flush = 2; flush <= (lot.strain?.flushes ?? 1); flush++) {
      const [one, other] = [nearest, flush].map((number) => Math.abs(this.offOf(lot, number, day)!));
      if (other! < one!) nearest = flush;
    }
    return nearest;
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

  /**
   * How likely it is that a lot is picked on a day in a flush, by its other picks and by its strain's times. With no flush
   * given, by all flushes together.
   */
  likelihood(lot: KnownLot, flush: number | undefined, day: number, self: KnownPick): number {
    if (lot.loaded !== undefined && day <= lot.loaded) return ANYWHERE / 1000;
    let [nearest, count, contradictions] = [Infinity, 0, 0];
    const days = new Set<number>();
    const middles = new Map<number, number>();
    for (const other of lot.picks) {
      if (other === self || other.isCopy || other.day === undefined) continue;
      if (flush === undefined || other.flush === flush) {
        // Two grades of one pick are rows of one day.
        if (other.day === day && other.record.grade !== self.record.grade) continue;
        nearest = Math.min(nearest, Math.abs(day - other.day));
        days.add(other.day);
        count++;
      } else if (other.flush !== undefined) {
        if (!middles.has(other.flush)) middles.set(other.flush, other.day);
        if (other.flush < flush ? other.day > day : other.day < day) contradictions++;
      }
    }
    let likely = ANYWHERE;
    let left = 1 - OWN_FLUSH[Math.min(count, OWN_FLUSH.length - 1)]!;
    if (count > 0) {
      const isHole = !days.has(day) && days.has(day - 1) && days.has(day + 1);
      likely += (1 - left) * this.nearestDensity(nearest, days.size) * (isHole ? this.forHole : 1);
    }
    // Where a lot is weighed once a day, a day that has its weighing is taken.
    if (nearest === 0) left *= this.nearest[0]!;
    const isKnown = lot.strain?.firstPick !== undefined;
    const last = Math.max(1, lot.strain?.flushes ?? 1);
    if (lot.loaded !== undefined && isKnown) {
      const share = middles.size ? left / 2 : left;
      left -= share;
      const flushes = flush === undefined ? last : 1;
      for (let f = 1; f <= flushes; f++) {
        const off = this.offOf(lot, flush ?? f, day)!;
        likely += (share / flushes) * tail(off, Math.hypot(this.aboutStrain, this.within));
      }
    }
    // With no load or no times to go by, another flush may be any day near the others.
    if (lot.loaded === undefined || !isKnown) {
      const isOpen = flush === undefined;
      const reach = isOpen ? REACH : REACH / 3;
      const share = isOpen ? Math.max(left, OPEN) : left;
      // A lot of which nothing is known is no better a place for another lot's pick.
      if (nearest <= reach || (nearest === Infinity && lot === self.lot)) likely += share / (2 * reach);
    }
    if (flush !== undefined && isKnown) {
      for (const [other, middle] of middles) {
        const due = middle + this.fromLoad(lot, flush) - this.fromLoad(lot, other);
        likely +=
          (left / middles.size) * tail(day - due, Math.hypot(this.aboutLot, this.within * Math.SQRT2));
      }
    }
    if (isKnown && flush !== undefined && flush > last) likely *= BEYOND_LAST;
    return likely * OUT_OF_ORDER ** Math.min(MOST_CONTRADICTIONS, contradictions);
  }

  /** A day's share of the days that lie as far from the flush's other picks. */
  private nearestDensity(distance: number, days: number): number {
    const end = this.nearest.length - 1;
    const often = this.nearest[Math.min(distance, end)]! * RARER ** Math.max(0, distance - end);
    return often / (distance === 0 ? days : 2);
  }
}

/** Days from each pick to the nearest other row, those of another grade on its day left out. */
function nearestDistances(picks: readonly KnownPick[]): number[] {
  if (picks.length < 2) return [];
  const sorted = [...picks].sort((a, b) => a.day! - b.day!);
  return sorted.flatMap((pick, i) => {
    let nearest = Infinity;
    for (const step of [-1, 1]) {
      for (let at = i + step; at >= 0 && at < sorted.length; at += step) {
        const other = sorted[at]!;
        if (other.day === pick.day && other.record.grade !== pick.record.grade) continue;
        nearest = Math.min(nearest, Math.abs(other.day! - pick.day!));
        break;
      }
    }
    return nearest < Infinity ? [nearest] : [];
  });
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
export function findFlushes(lot: KnownLot, isAnchored: boolean): void {
  const { firstPick, pickDays, flushGap, flushes = 1 } = lot.strain ?? {};
  if (firstPick === undefined || pickDays === undefined || lot.picks.every(({ isRecorded }) => isRecorded))
    return;
  const dated = lot.picks.filter(({ day }) => day !== undefined);
  if (dated.length === 0 || new Set(dated.map(({ day }) => day)).size > MOST_DAYS) return;
  const middle = median(dated.map(({ day }) => day!));
  const reach = 20 + 0.75 * (pickDays + flushes * (flushGap ?? 15));
  const near = dated.filter(({ day }) => Math.abs(day! - middle) <= reach);
  const found = flushNumbers(
    near.map(({ day, flush, isRecorded }) => ({ dateSerial: day!, flush: isRecorded ? flush : undefined })),
    isAnchored ? lot.loaded : undefined,
    { firstPick, pickDays, flushGap },
  );
  for (const pick of lot.picks) if (!pick.isRecorded) pick.flush = undefined;
  near.forEach((pick, i) => (pick.flush = found[i]));
}
