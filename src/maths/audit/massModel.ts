import { MOST_FLUSHES } from '../harvest/flushTimes';
import { median } from '../shared/statistics';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import { grouped, heldSpread } from './likelihood';
import { factorOf, fitEffects, type Factor } from './massEffects';

// Spreads that a book with few picks is taken to have, on the scale of natural logarithms (common practice, no source).
const USUAL = { pick: 0.3, flush: 0.2, lot: 0.35 };
const USUAL_WEIGHT = 3;
const LEAST = 0.05;
/** Of a book without moistures: what it is taken to be changes no comparison. */
const USUAL_MOISTURE = 0.62;
/** A pick this many spreads from its lot's middle says nothing of the others. */
const FAR = 3.5;
/** So many picks of a flush that agree are no slips, though the lot's other flushes were another size. */
const AGREEING = 3;
/** First and later flushes differ by about this much more, where it is not known which a pick is of. */
const UNKNOWN_FLUSH = 0.5;
/** Rows of a lot and day are counted up to here. */
const MOST_SHARED = 4;
/** Days since the last pick are counted up to here; a flush that was picked so shortly before the book ends may go on. */
const MOST_SINCE = 4;
/** Flushes of more days are taken together. */
const MOST_LENGTH = 8;
/** Picks are told apart by how much is usual there, in as many classes of equal size. */
const SIZES = 4;
/** A kind of pick is as wide as all until so many show otherwise, and not by more than this. */
const HELD_WIDE = 40;
const MOST_WIDE = 2;
/** So few of a kind tell nothing of it: one of them may be the slip. */
const FEW_OF_A_KIND = 3;
/** A slip is no measure of a kind: it counts as so many spreads. */
const WILD = 3;

/** A pick with a mass, on the scale of logarithms. */
export interface JudgedPick {
  readonly pick: KnownPick;
  /** Its number among all that are judged. */
  readonly at: number;
  /** ln(mass / dry mass of its lot) less what strain, flush, day and whoever picked it make usual. */
  off: number;
  /** Of what is usual, the part of the day's place in its flush and of the rows it shares the day with. */
  placed: number;
  /** Whether its flush may go on after the end of the book. */
  goesOn: boolean;
  /** Where in its flush its day lies. */
  place: PlaceName | undefined;
  /** How much wider picks of its kind vary than others: those at the ends of a flush, and small ones. */
  wide: number;
  /** What the pick's neighbours make of it: how far off it is and how wide that is known. */
  residual: number;
  spread: number;
  /** Whether it says anything of its neighbours. */
  counts: boolean;
}

/** What a named group is above the rest of the book. */
export interface GroupEffect {
  readonly column: 'picker' | 'scale' | 'crate';
  readonly name: string;
  readonly effect: number;
  readonly members: readonly JudgedPick[];
}

export interface Spreads {
  readonly pick: number;
  /** How far rows of one lot and day are off alike: their correlation. */
  readonly day: number;
  readonly flush: number;
  readonly lot: number;
}

export interface MassModel {
  readonly judged: readonly JudgedPick[];
  readonly byLot: ReadonlyMap<KnownPick['lot'], JudgedPick[]>;
  readonly groups: readonly GroupEffect[];
  readonly spreads: Spreads;
  /** Dry mass of a lot's blocks, as far as it is known. */
  readonly sizeOf: (lot: KnownLot) => number;
  /** ln of what a pick of a flush usually weighs in a lot, but for what lots differ by. */
  readonly usual: (lot: KnownLot, flush: number | undefined) => number;
  /** The part of it that is due to how many rows share the day. */
  readonly usualShared: (grade: string, rows: number) => number;
}

/** What every mass should be by the rest of the book. */
export function massModel({ picks, lots }: KnownBook): MassModel {
  const judged = picks
    .filter(({ mass, lot, isCopy }) => mass !== undefined && mass > 0 && lot !== undefined && !isCopy)
    .map((pick, at): JudgedPick => ({
      pick,
      at,
      off: NaN,
      placed: NaN,
      goesOn: false,
      place: undefined,
      wide: NaN,
      residual: NaN,
      spread: NaN,
      counts: true,
    }));
  const sizeOf = sizesOf([...lots.values()]);
  const logs = Float64Array.from(judged, ({ pick }) => Math.log(pick.mass! / sizeOf.get(pick.lot!)!));
  const places = placesOf(judged);
  const names = (of: (one: KnownPick, i: number) => unknown, held: number): Factor =>
    factorOf(judged.length, (i) => of(judged[i]!.pick, i), held);
  const lotFactor = names(({ lot }) => lot, 1);
  const columns = ['picker', 'scale', 'crate'] as const;
  const isThere = (column: (typeof columns)[number] | 'grade'): boolean =>
    picks.some(({ record }) => record[column] !== '');
  const ofColumns = columns.map((column) =>
    isThere(column) ? names(({ record }) => record[column], 3) : undefined,
  );
  const ofPlace = names((_, i) => places[i]!.place, 3);
  const ofCell = names((_, i) => places[i]!.cell, 8);
  const ofShared = names((_, i) => places[i]!.shared, 3);
  const ofGrade = isThere('grade')
    ? names(({ record }, i) => sharedKey(record.grade, places[i]!.shared), 3)
    : undefined;
  const placeFactors = [
    ofPlace,
    ofCell,
    names((_, i) => places[i]!.length, 5),
    names((_, i) => places[i]!.since, 5),
    ofShared,
    ...(ofGrade ? [ofGrade] : []),
  ];
  const strainNumbers = new Map([...lots.values()].map(({ strainKey }, i) => [strainKey, i]));
  const flushKey = ({ strainKey }: KnownLot, flush: number | undefined): number =>
    strainNumbers.get(strainKey)! * (MOST_FLUSHES + 1) + (flush ?? 0);
  const factors = [
    names(({ lot, flush }) => flushKey(lot!, flush), 0),
    lotFactor,
    ...placeFactors,
    ...ofColumns.filter((factor) => factor !== undefined),
    names(({ day }) => (day === undefined ? undefined : Math.floor(day / 30.44)), 12),
  ].filter(({ count }, i) => i < 2 || count > 1);
  const effects = fitEffects(logs, factors);
  const placed = new Float64Array(judged.length);
  factors.forEach((factor, f) => {
    if (factor === lotFactor) return;
    const isPlaced = factor === ofPlace || factor === ofCell || factor === ofShared || factor === ofGrade;
    const [ofFactor, { groups }] = [effects[f]!, factor];
    for (let i = 0; i < judged.length; i++) {
      const effect = ofFactor[groups[i]!]!;
      logs[i]! -= effect;
      if (isPlaced) placed[i]! += effect;
    }
  });
  judged.forEach((one, i) => {
    one.off = logs[i]!;
    one.placed = placed[i]!;
    one.goesOn = places[i]!.length === 0;
    one.place = places[i]!.place;
  });
  const groups = columns.flatMap((column, c) => {
    const factor = ofColumns[c];
    const at = factor ? factors.indexOf(factor) : -1;
    if (at < 0) return [];
    return [...grouped(judged, ({ pick }) => pick.record[column])]
      .map(([name, members], group) => ({ column, name, effect: effects[at]![group]!, members }))
      .filter(({ name }) => name !== '');
  });
  const byLot = grouped(judged, ({ pick }) => pick.lot);
  widen(judged, byLot, places);
  const ofFlush = new Map<number, number>();
  judged.forEach(({ pick: { lot, flush } }, i) => {
    ofFlush.set(flushKey(lot!, flush), effects[0]![factors[0]!.groups[i]!]!);
  });
  const usual = (lot: KnownLot, flush: number | undefined): number =>
    Math.log(sizeOf.get(lot)!) + (ofFlush.get(flushKey(lot, flush)) ?? 0);
  const shared = new Map<string, number>();
  judged.forEach(({ pick: { record } }, i) => {
    const key = sharedKey(record.grade, places[i]!.shared);
    if (shared.has(key)) return;
    const effectIn = (factor: Factor | undefined): number =>
      factor && factors.includes(factor) ? effects[factors.indexOf(factor)]![factor.groups[i]!]! : 0;
    shared.set(key, effectIn(ofShared) + effectIn(ofGrade));
  });
  const usualShared = (grade: string, rows: number): number =>
    shared.get(sharedKey(grade, Math.min(MOST_SHARED, rows))) ?? 0;
  const sizeOfLot = (lot: KnownLot): number => sizeOf.get(lot)!;
  return { judged, byLot, groups, spreads: spreadsOf(byLot), sizeOf: sizeOfLot, usual, usualShared };
}

/** Dry mass of each lot's blocks; for a figure that is not known the middle of those that are. */
function sizesOf(lots: readonly KnownLot[]): Map<KnownLot, number> {
  const usual = (of: (lot: KnownLot) => number | undefined, otherwise: number): number => {
    const known = lots.map(of).filter((figure) => figure !== undefined);
    return known.length ? median(known) : otherwise;
  };
  const [blocks, blockMass, moisture] = [
    usual((lot) => lot.blocks, 1),
    usual((lot) => lot.blockMass, 1),
    usual((lot) => lot.moisture, USUAL_MOISTURE),
  ];
  const sizeOf = (lot: KnownLot): number =>
    (lot.blocks ?? blocks) * (lot.blockMass ?? blockMass) * (1 - (lot.moisture ?? moisture));
  return new Map(lots.map((lot) => [lot, sizeOf(lot)]));
}

const sharedKey = (grade: string, rows: number): string => `${rows}${grade}`;

const PLACES = [undefined, 'first', 'second', 'middle', 'last but one', 'last', 'only'] as const;
export type PlaceName = Exclude<(typeof PLACES)[number], undefined>;

/** Where in its flush a lot's picks of a day lie. */
interface Place {
  readonly day: number;
  place: PlaceName | undefined;
  /** Which day of how many, where the flush is no longer than is counted. */
  cell: number;
  /** Days that the flush was picked on; 0 where more may come after the end of the book. */
  length: number;
  /** Rows that share the day. */
  shared: number;
  /** Days in which what was picked grew: since the flush was last picked, or, below 0, since anything was. */
  since: number;
}

const NOWHERE: Place = { day: 0, place: undefined, cell: 0, length: 0, shared: 1, since: 0 };

function placesOf(judged: readonly JudgedPick[]): Place[] {
  const flushes = new Map<KnownPick['lot'], Map<number | undefined, Place[]>>();
  const all = new Set<number>();
  const places = judged.map(({ pick }): Place => {
    const { lot, flush, day } = pick;
    if (day === undefined) return NOWHERE;
    all.add(day);
    let ofLot = flushes.get(lot);
    if (!ofLot) flushes.set(lot, (ofLot = new Map<number | undefined, Place[]>()));
    let days = ofLot.get(flush);
    if (!days) ofLot.set(flush, (days = []));
    let place = days.find((one) => one.day === day);
    if (!place) days.push((place = { day, place: 'middle', cell: 0, length: 0, shared: 0, since: 0 }));
    if (place.shared < MOST_SHARED) place.shared++;
    return place;
  });
  const sinceAny = new Map<number, number>();
  let before = -Infinity;
  for (const day of Float64Array.from(all).sort()) {
    sinceAny.set(day, Math.min(MOST_SINCE, day - before));
    before = day;
  }
  for (const ofLot of flushes.values()) {
    for (const days of ofLot.values()) {
      days.sort((a, b) => a.day - b.day);
      const goesOn = days.at(-1)!.day > before - MOST_SINCE;
      const length = goesOn ? 0 : Math.min(MOST_LENGTH, days.length);
      days.forEach((one, at) => {
        one.length = length;
        one.place = placeOf(at, days.length, goesOn);
        one.cell =
          (length > 0 && days.length <= MOST_LENGTH ? length * MOST_LENGTH : 0) +
          Math.min(at, MOST_LENGTH - 1);
        // Before the first pick a day off let it grow as well.
        one.since = at > 0 ? Math.min(MOST_SINCE, one.day - days[at - 1]!.day) : -sinceAny.get(one.day)!;
      });
    }
  }
  return places;
}

function placeOf(at: number, length: number, goesOn: boolean): PlaceName {
  if (at === 0) return length > 1 || goesOn ? 'first' : 'only';
  if (goesOn) return at === 1 ? 'second' : 'middle';
  if (at === length - 1) return 'last';
  if (length < 4) return 'middle';
  return at === 1 ? 'second' : at === length - 2 ? 'last but one' : 'middle';
}

/** Learns how much wider some kinds of picks vary about the middle of their flush than others do. */
function widen(judged: readonly JudgedPick[], byLot: MassModel['byLot'], places: readonly Place[]): void {
  const usual = judged.map(({ pick, off }) => Math.log(pick.mass!) - off);
  const sorted = Float64Array.from(usual).sort();
  const bounds = Array.from(
    { length: SIZES - 1 },
    (_, i) => sorted[Math.floor(((i + 1) * sorted.length) / SIZES)]!,
  );
  const kindsOf = judged.map((one, i) => {
    one.wide = 1;
    const { place, length } = places[i]!;
    const size = bounds.filter((bound) => usual[i]! >= bound).length;
    const { lot, record } = one.pick;
    return [
      4 * PLACES.indexOf(place) + Math.min(3, length),
      size,
      lot!.strainKey + sharedKey(record.grade, 0),
    ] as const;
  });
  const known: { readonly one: JudgedPick; readonly from: number }[] = [];
  for (const own of byLot.values()) {
    for (const members of grouped(own, ({ pick }) => pick.flush).values()) {
      if (members.length < 3) continue;
      const middle = median(members.map(({ off }) => off));
      for (const one of members) known.push({ one, from: one.off - middle });
    }
  }
  const all = heldSpread(
    known.map(({ from }) => from),
    USUAL.pick,
    USUAL_WEIGHT,
  );
  for (const which of [0, 1, 2] as const) {
    const wides = new Map(
      [...grouped(known, ({ one }): number | string => kindsOf[one.at]![which])].map(([kind, members]) => {
        if (members.length < FEW_OF_A_KIND) return [kind, 1];
        const own = heldSpread(
          members.map(({ one, from }) => Math.max(-WILD * all, Math.min(WILD * all, from / one.wide))),
          all,
          HELD_WIDE,
        );
        return [kind, Math.max(1 / MOST_WIDE, Math.min(MOST_WIDE, own / all))];
      }),
    );
    judged.forEach((one, i) => (one.wide *= wides.get(kindsOf[i]![which]) ?? 1));
  }
}

function spreadsOf(byLot: MassModel['byLot']): Spreads {
  const ofPicks: number[] = [];
  const ofFlushes: number[] = [];
  const ofLots: number[] = [];
  let [sizes, flushes] = [0, 0];
  for (const own of byLot.values()) {
    const middles: number[] = [];
    for (const members of grouped(own, ({ pick }) => pick.flush).values()) {
      const middle = median(members.map(({ off }) => off));
      middles.push(middle);
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
  const perLot = (flush ** 2 + perFlush) / Math.max(1, flushes / Math.max(1, byLot.size));
  const lot = less(heldSpread(ofLots, Math.hypot(USUAL.lot, Math.sqrt(perLot)), USUAL_WEIGHT), perLot);
  return { pick, day: alikeOnDays(byLot, pick), flush, lot };
}

/** A row this many spreads off counts as if it were nearer. */
const NEAR_DAY = 2;
/** Pairs of rows of one day count from so many on. */
const PAIRS_BEFORE = 20;
const MOST_ALIKE = 0.9;

/** Grades of one pick are large or small together: how much, from pairs of rows of one lot and day. */
function alikeOnDays(byLot: MassModel['byLot'], pick: number): number {
  let [alike, all] = [0, PAIRS_BEFORE];
  for (const own of byLot.values()) {
    for (const members of grouped(own, ({ pick: { flush } }) => flush).values()) {
      if (members.length < 4) continue;
      const middle = median(members.map(({ off }) => off));
      const from = ({ off, wide }: JudgedPick): number =>
        Math.max(-NEAR_DAY, Math.min(NEAR_DAY, (off - middle) / wide / pick));
      for (const [one, other] of pairsOfDays(members)) {
        const [a, b] = [from(one), from(other)];
        alike += a * b;
        all += (a * a + b * b) / 2;
      }
    }
  }
  return Math.max(0, Math.min(MOST_ALIKE, alike / all));
}

/** Rows of one day beside each other. */
function pairsOfDays(members: readonly JudgedPick[]): [JudgedPick, JudgedPick][] {
  const pairs: [JudgedPick, JudgedPick][] = [];
  members.forEach((one, i) => {
    for (let j = i + 1; j < members.length; j++)
      if (members[j]!.pick.day === one.pick.day && one.pick.day !== undefined) pairs.push([one, members[j]!]);
  });
  return pairs;
}

/** The middle of values and one 0, which stands for an ordinary lot: one wild value of two moves nothing. */
const middleWithUsual = (values: readonly number[]): number => median([...values, 0]);

/** Picks of a flush that say something of the others: none far from the lot's middle, unless the flush agrees on it. */
function heardOf(members: readonly JudgedPick[], middle: number, spreads: Spreads): JudgedPick[] {
  const far = FAR * Math.hypot(spreads.pick, spreads.flush);
  const counted = members.filter(({ counts }) => counts);
  const near = counted.filter(({ off }) => Math.abs(off - middle) < far);
  if (near.length === counted.length || counted.length < AGREEING) return near;
  const ofFlush = median(counted.map(({ off }) => off));
  const isNear = (off: number, of: number, reach: number): boolean => Math.abs(off - of) < reach;
  return counted.filter(({ off }) => isNear(off, middle, far) || isNear(off, ofFlush, FAR * spreads.pick));
}

/** Degrees of Student's density of what lots and flushes differ by. */
const HEAVY = 6;

/**
 * The variance that something so far off is taken to come from: lots are honestly far off more often than a bell says, and
 * one that is gives its picks no pull towards the others.
 */
const variance = (off: number, usual: number): number =>
  (usual * Math.max(HEAVY + 1, HEAVY + off ** 2 / usual)) / (HEAVY + 1);

/** What varies widely says less. */
const weightOf = ({ wide }: JudgedPick): number => 1 / wide ** 2;

function weighed(picks: readonly JudgedPick[]): [sum: number, count: number] {
  let [sum, count] = [0, 0];
  for (const one of picks) {
    sum += weightOf(one) * one.off;
    count += weightOf(one);
  }
  return [sum, count];
}

const ALONE = { off: 0, left: 1 };

/** What the other rows of its day make of a pick: by how much it is off with them, and how much of its variance is left. */
function ofDay(
  self: JudgedPick,
  members: readonly JudgedPick[],
  heard: ReadonlySet<JudgedPick>,
  mean: number,
  { pick, day: alike }: Spreads,
): { off: number; left: number } {
  let [sum, count] = [0, 0];
  for (const other of members) {
    if (other.pick.day !== self.pick.day || other === self || !heard.has(other)) continue;
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
export function seenFromOthers(own: readonly JudgedPick[], spreads: Spreads): void {
  const middle = middleWithUsual(own.filter(({ counts }) => counts).map(({ off }) => off));
  const flushes = [...grouped(own, ({ pick }) => pick.flush).values()].map((members) => {
    const heard = heardOf(members, middle, spreads);
    const [sum, count] = weighed(heard);
    return { members, heard: new Set(heard), sum, count };
  });
  const [ofPick, ofFlush, ofLot] = [
    spreads.pick ** 2,
    spreads.flush ** 2,
    variance(middle, spreads.lot ** 2),
  ];
  for (const { members, heard, sum, count: all } of flushes) {
    let weight = 1 / ofLot;
    let weighted = 0;
    for (const other of flushes) {
      if (other.members === members || other.heard.size === 0) continue;
      const certainty = 1 / (ofFlush + ofPick / other.count);
      weight += certainty;
      weighted += (certainty * other.sum) / other.count;
    }
    const before = { mean: weighted / weight, variance: 1 / weight + ofFlush };
    for (const one of members) {
      const own = heard.has(one) ? weightOf(one) : 0;
      const count = all - own;
      const total = sum - own * one.off;
      const certainty = 1 / before.variance + count / ofPick;
      const mean = (before.mean / before.variance + total / ofPick) / certainty;
      const day = spreads.day > 0 ? ofDay(one, members, heard, mean, spreads) : ALONE;
      one.residual = one.off - mean - day.off * one.wide;
      one.spread = Math.sqrt(
        1 / certainty +
          ofPick * one.wide ** 2 * day.left +
          (one.pick.flush === undefined ? UNKNOWN_FLUSH ** 2 : 0),
      );
    }
  }
}

/** A weight that is left over where all picks are taken out. */
const NOTHING = 1e-9;
/** Rows of a lot and day vary together by this share. */
const ALIKE = 0.5;

/** A lot's picks as they bear out those of one day: sums by flush of all that are not far off. */
export interface LotHeard {
  readonly heard: ReadonlySet<JudgedPick>;
  readonly byFlush: ReadonlyMap<number | undefined, { readonly sum: number; readonly count: number }>;
}

export function heardIn(own: readonly JudgedPick[], spreads: Spreads): LotHeard {
  const middle = middleWithUsual(own.filter(({ counts }) => counts).map(({ off }) => off));
  const heard = new Set<JudgedPick>();
  for (const members of grouped(own, ({ pick }) => pick.flush).values()) {
    for (const one of heardOf(members, middle, spreads)) heard.add(one);
  }
  const byFlush = new Map<number | undefined, { sum: number; count: number }>();
  for (const one of heard) {
    const { flush } = one.pick;
    let ofFlush = byFlush.get(flush);
    if (!ofFlush) byFlush.set(flush, (ofFlush = { sum: 0, count: 0 }));
    ofFlush.sum += weightOf(one) * one.off;
    ofFlush.count += weightOf(one);
  }
  return { heard, byFlush };
}

/**
 * By how much picks of one lot and day are off together, seen from the lot's others: what may be off by one factor does
 * not bear itself out.
 */
export function seenTogether(
  members: readonly JudgedPick[],
  { heard, byFlush }: LotHeard,
  spreads: Spreads,
): { off: number; spread: number } {
  const [ofPick, ofFlush, ofLot] = [spreads.pick ** 2, spreads.flush ** 2, spreads.lot ** 2];
  const { flush } = members[0]!.pick;
  let [weight, weighted] = [1 / ofLot, 0];
  let [sum, count] = [0, 0];
  for (const [of, all] of byFlush) {
    let [total, picks] = [all.sum, all.count];
    for (const one of members) {
      if (one.pick.flush !== of || !heard.has(one)) continue;
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
