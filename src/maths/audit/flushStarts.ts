import { median } from '../shared/statistics';
import type { FlushDays } from './flushDays';
import type { KnownLot } from './knownBook';
import { grouped, heldSpread, student } from './likelihood';
import type { PickingDays } from './pickingDays';

/** A row that was never typed, or typed elsewhere, makes a start as far off as any: this often. */
const UNTYPED = 0.02;
/** Days of a flush about its usual start, held to what the book shows. */
const USUAL_SPREAD = 2.5;
const LEAST_SPREAD = 1.2;
export const FAR_DAYS = 10;
/** What is tried: how heavy its tails are, and how much wider than its middle half says. */
const USUAL_DEGREES = 8;
const DEGREES = [2, 3, 4, USUAL_DEGREES];
const SCALES = [0.7, 0.85, 1, 1.2, 1.45];
const UNUSUAL = 3;
/** The table counts as two lots, and no lot may be far from it, so that a strain's only lots are not their own measure. */
const TABLE_LOTS = 2;
/** Where neither lots nor table say them: days from load to first pick, and from flush to flush (common practice, no source). */
const USUAL_FIRST = 10;
const USUAL_GAP = 15;
/** Where nothing says when flushes are due: days that they may be apart. */
export const REACH = 45;

interface Starts {
  /** Days from load to the start of a flush. */
  readonly usual: ReadonlyMap<number, number>;
  readonly first: number;
  readonly gap: number;
}

/** How widely days differ from what is usual, and how heavy the tails are. */
interface About {
  readonly spread: number;
  readonly degrees: number;
}

/** The likeliest of a few densities; those with other tails than usual have to be likelier by so much, on the scale of ln. */
function learntAbout(offs: readonly number[]): About {
  const own = heldSpread(offs, USUAL_SPREAD, 6);
  let best = { spread: Math.max(LEAST_SPREAD, own), degrees: USUAL_DEGREES, likely: -Infinity };
  for (const degrees of DEGREES) {
    for (const scale of SCALES) {
      const spread = Math.max(LEAST_SPREAD, scale * own);
      let likely = degrees === USUAL_DEGREES && scale === 1 ? UNUSUAL : 0;
      for (const off of offs)
        likely += Math.log((1 - UNTYPED) * student(off, spread, degrees) + UNTYPED / (2 * FAR_DAYS));
      if (likely > best.likely) best = { spread, degrees, likely };
    }
  }
  return best;
}

/** When the flushes of a book begin. */
export class FlushStarts {
  private readonly ofStrains = new Map<string, Starts>();
  private readonly aboutLoad: About;
  private readonly aboutGap: About;

  constructor(
    private readonly picking: PickingDays,
    lots: readonly KnownLot[],
    flushesOf: (lot: KnownLot) => readonly FlushDays[],
  ) {
    for (const members of grouped(lots, ({ strainKey }) => strainKey).values())
      this.learnStrain(members, flushesOf);
    const [fromLoad, gaps]: [number[], number[]] = [[], []];
    const held = (off: number): number => Math.max(-FAR_DAYS, Math.min(FAR_DAYS, off));
    for (const lot of lots) {
      if (lot.strain?.firstPick === undefined) continue;
      const starts = new Map(flushesOf(lot).map(({ flush, days }) => [flush, days[0]!]));
      for (const [flush, start] of starts) {
        if (flush === undefined) continue;
        if (flush === 1 && lot.loaded !== undefined)
          fromLoad.push(held(start - lot.loaded - this.fromLoad(lot, 1)));
        const next = starts.get(flush + 1);
        if (next !== undefined)
          gaps.push(held(next - start - this.fromLoad(lot, flush + 1) + this.fromLoad(lot, flush)));
      }
    }
    this.aboutLoad = learntAbout(fromLoad);
    this.aboutGap = learntAbout(gaps);
  }

  private learnStrain(
    members: readonly KnownLot[],
    flushesOf: (lot: KnownLot) => readonly FlushDays[],
  ): void {
    const { strainKey, strain } = members[0]!;
    const offsets = new Map<number, number[]>();
    for (const lot of members) {
      for (const { flush, days } of flushesOf(lot)) {
        if (flush === undefined || lot.loaded === undefined) continue;
        const found = offsets.get(flush);
        if (found) found.push(days[0]! - lot.loaded);
        else offsets.set(flush, [days[0]! - lot.loaded]);
      }
    }
    const first = strain?.firstPick ?? (offsets.get(1)?.length ? median(offsets.get(1)!) : USUAL_FIRST);
    const gap = strain?.flushGap ?? USUAL_GAP;
    const reach = Math.max(10, 0.6 * gap);
    const usual = new Map<number, number>();
    for (const [flush, all] of offsets) {
      const tabled = first + (flush - 1) * gap;
      const held = all.map((day) => Math.max(tabled - reach, Math.min(tabled + reach, day)));
      usual.set(flush, (TABLE_LOTS * tabled + held.length * median(held)) / (TABLE_LOTS + held.length));
    }
    this.ofStrains.set(strainKey, { usual, first, gap });
  }

  /** Days from one flush to the next. */
  gap({ strainKey }: KnownLot): number {
    return this.ofStrains.get(strainKey)!.gap;
  }

  /** Days from the load to the usual start of a flush. */
  fromLoad({ strainKey }: KnownLot, flush: number): number {
    const { usual, first, gap } = this.ofStrains.get(strainKey)!;
    return usual.get(flush) ?? first + (flush - 1) * gap;
  }

  /** How likely a flush is to begin on a day between those before and after it, whose own distance is then explained. */
  begins(lot: KnownLot, flush: number | undefined, others: readonly FlushDays[], day: number): number {
    if (flush === undefined || lot.strain?.firstPick === undefined) return 1 / (2 * REACH);
    let before: FlushDays | undefined;
    let after: FlushDays | undefined;
    for (const other of others) {
      if (other.flush === undefined || other.flush === flush) continue;
      if (other.flush < flush) {
        if (!before || other.flush > before.flush!) before = other;
      } else if (!after || other.flush < after.flush!) after = other;
    }
    const [from, start] = before ? [before.flush!, before.days[0]!] : [0, lot.loaded];
    const reached = start === undefined ? undefined : this.steadily(lot, from, start, flush, day);
    if (!after) return reached ?? 1 / (2 * REACH);
    const left = this.steadily(lot, flush, day, after.flush!, after.days[0]!);
    if (reached === undefined) return left;
    return (reached * left) / this.steadily(lot, from, start!, after.flush!, after.days[0]!);
  }

  /** Density of a flush's start, from the start of one before it or from the load (0). */
  steadily(lot: KnownLot, from: number, start: number, to: number, day: number): number {
    const due = this.fromLoad(lot, to) - (from === 0 ? 0 : this.fromLoad(lot, from));
    const gaps = from === 0 ? to - 1 : to - from;
    const [load, gap] = [this.aboutLoad, this.aboutGap];
    const spread = Math.hypot(from === 0 ? load.spread : 0, Math.sqrt(gaps) * gap.spread);
    const likely = student(day - start - due, spread, from === 0 ? load.degrees : gap.degrees);
    return likely * this.picking.often(lot, day);
  }
}
