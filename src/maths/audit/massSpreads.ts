import { median } from '../shared/statistics';
import type { Place } from './flushPlaces';
import { PLACES, type JudgedPick, type LotPicks } from './judgedPick';
import { heldSpread } from './likelihood';

// Spreads that a book with few picks is taken to have, on the scale of natural logarithms (common practice, no source).
const USUAL = { pick: 0.3, flush: 0.2, lot: 0.35 };
const USUAL_WEIGHT = 3;
const LEAST = 0.05;
/** Picks are told apart by how much is usual there, in as many classes of equal size. */
const SIZES = 4;
/** A kind of pick is as wide as all until so many show otherwise, and not by more than this. */
const HELD_WIDE = 40;
const MOST_WIDE = 2;
/** So few of a kind tell nothing of it: one of them may be the slip. */
const FEW_OF_A_KIND = 3;
/** A slip is no measure of a kind: it counts as so many spreads. */
const WILD = 3;

export interface Spreads {
  readonly pick: number;
  /** How far rows of one lot and day are off alike: their correlation. */
  readonly day: number;
  readonly flush: number;
  readonly lot: number;
}

/** A lot's picks and the middle of each flush, in the order of the flushes. */
interface Middles extends LotPicks {
  readonly middles: readonly number[];
}

const middlesOf = ({ all, flushes }: LotPicks): Middles => ({
  all,
  flushes,
  middles: flushes.map((members) => median(members.map(({ off }) => off))),
});

/** Learns by how much picks, flushes and lots differ, and how much wider some kinds of picks vary than others. */
export function learntSpreads(
  judged: readonly JudgedPick[],
  byLot: Iterable<LotPicks>,
  places: readonly Place[],
): Spreads {
  const lots = Array.from(byLot, middlesOf);
  widen(judged, lots, places);
  return spreadsOf(lots);
}

/** A way to tell picks apart: the kind of each by its number, from 0, and how many kinds there are. */
interface Kinds {
  readonly of: Int32Array;
  readonly count: number;
}

/** By the place in the flush, by how much is usual there, and by strain and grade. */
function kindsOf(judged: readonly JudgedPick[], places: readonly Place[]): Kinds[] {
  const usual = Float64Array.from(judged, ({ pick, off }) => Math.log(pick.mass!) - off);
  const sorted = usual.slice().sort();
  const bounds = Array.from(
    { length: SIZES - 1 },
    (_, i) => sorted[Math.floor(((i + 1) * sorted.length) / SIZES)]!,
  );
  const [ofPlaces, ofSizes, ofLabels] = [0, 1, 2].map(() => new Int32Array(judged.length));
  const byStrain = new Map<string, Map<string, number>>();
  let labels = 0;
  for (let at = 0; at < judged.length; at++) {
    const { place, length } = places[at]!;
    ofPlaces![at] = 4 * PLACES.indexOf(place) + Math.min(3, length);
    let size = 0;
    for (const bound of bounds) if (usual[at]! >= bound) size++;
    ofSizes![at] = size;
    const { lot, record } = judged[at]!.pick;
    let ofGrades = byStrain.get(lot!.strainKey);
    if (!ofGrades) byStrain.set(lot!.strainKey, (ofGrades = new Map<string, number>()));
    let label = ofGrades.get(record.grade);
    if (label === undefined) ofGrades.set(record.grade, (label = labels++));
    ofLabels![at] = label;
  }
  return [
    { of: ofPlaces!, count: 4 * PLACES.length },
    { of: ofSizes!, count: SIZES },
    { of: ofLabels!, count: labels },
  ];
}

/** Learns how much wider some kinds of picks vary about the middle of their flush than others do. */
function widen(judged: readonly JudgedPick[], lots: readonly Middles[], places: readonly Place[]): void {
  const known: JudgedPick[] = [];
  const from: number[] = [];
  for (const { flushes, middles } of lots) {
    for (let f = 0; f < flushes.length; f++) {
      if (flushes[f]!.length < 3) continue;
      for (const one of flushes[f]!) {
        known.push(one);
        from.push(one.off - middles[f]!);
      }
    }
  }
  for (const one of judged) one.wide = 1;
  const all = heldSpread(from, USUAL.pick, USUAL_WEIGHT);
  for (const { of, count } of kindsOf(judged, places)) {
    const ofKinds = Array.from({ length: count }, (): number[] => []);
    for (let i = 0; i < known.length; i++) {
      const { at, wide } = known[i]!;
      ofKinds[of[at]!]!.push(Math.max(-WILD * all, Math.min(WILD * all, from[i]! / wide)));
    }
    const wides = ofKinds.map((own) =>
      own.length < FEW_OF_A_KIND
        ? 1
        : Math.max(1 / MOST_WIDE, Math.min(MOST_WIDE, heldSpread(own, all, HELD_WIDE) / all)),
    );
    for (const one of judged) one.wide *= wides[of[one.at]!]!;
  }
}

function spreadsOf(lots: readonly Middles[]): Spreads {
  const ofPicks: number[] = [];
  const ofFlushes: number[] = [];
  const ofLots: number[] = [];
  let [sizes, flushes] = [0, 0];
  for (const { flushes: own, middles } of lots) {
    for (let f = 0; f < own.length; f++) {
      const [members, middle] = [own[f]!, middles[f]!];
      sizes += members.length;
      // The middle of few lies nearer to them than the truth does.
      const wider = Math.sqrt(members.length / (members.length - 1));
      if (members.length > 2)
        for (const { off, wide } of members) ofPicks.push(((off - middle) * wider) / wide);
    }
    flushes += middles.length;
    const middle = median(middles);
    ofLots.push(middle);
    if (middles.length > 1) {
      const wider = Math.sqrt(middles.length / (middles.length - 1));
      for (const one of middles) ofFlushes.push((one - middle) * wider);
    }
  }
  const pick = Math.max(LEAST, heldSpread(ofPicks, USUAL.pick, USUAL_WEIGHT));
  const less = (total: number, part: number): number => Math.sqrt(Math.max(LEAST ** 2, total ** 2 - part));
  const perFlush = (1.2 * pick ** 2) / Math.max(1, sizes / Math.max(1, flushes));
  const flush = less(
    heldSpread(ofFlushes, Math.hypot(USUAL.flush, Math.sqrt(perFlush)), USUAL_WEIGHT),
    perFlush,
  );
  const perLot = (flush ** 2 + perFlush) / Math.max(1, flushes / Math.max(1, lots.length));
  const lot = less(heldSpread(ofLots, Math.hypot(USUAL.lot, Math.sqrt(perLot)), USUAL_WEIGHT), perLot);
  return { pick, day: alikeOnDays(lots, pick), flush, lot };
}

/** A row this many spreads off counts as if it were nearer. */
export const NEAR_DAY = 2;
/** Pairs of rows of one day count from so many on. */
const PAIRS_BEFORE = 20;
const MOST_ALIKE = 0.9;

/** Grades of one pick are large or small together: how much, from pairs of rows of one lot and day. */
function alikeOnDays(lots: readonly Middles[], pick: number): number {
  let [alike, all] = [0, PAIRS_BEFORE];
  for (const { flushes, middles } of lots) {
    for (let f = 0; f < flushes.length; f++) {
      const [members, middle] = [flushes[f]!, middles[f]!];
      if (members.length < 4) continue;
      const from = ({ off, wide }: JudgedPick): number =>
        Math.max(-NEAR_DAY, Math.min(NEAR_DAY, (off - middle) / wide / pick));
      for (let i = 0; i < members.length; i++) {
        const { day } = members[i]!.pick;
        if (day === undefined) continue;
        for (let j = i + 1; j < members.length; j++) {
          if (members[j]!.pick.day !== day) continue;
          const [a, b] = [from(members[i]!), from(members[j]!)];
          alike += a * b;
          all += (a * a + b * b) / 2;
        }
      }
    }
  }
  return Math.max(0, Math.min(MOST_ALIKE, alike / all));
}
