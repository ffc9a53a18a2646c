import { MOST_FLUSHES } from '../harvest/flushTimes';
import { median } from '../shared/statistics';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import { MOST_SHARED, placesOf } from './flushPlaces';
import { JudgedPick, type LotPicks } from './judgedPick';
import { grouped } from './likelihood';
import { factorOf, fitEffects, type Factor } from './massEffects';
import { learntSpreads, type Spreads } from './massSpreads';

/** Of a book without moistures: what it is taken to be changes no comparison. */
const USUAL_MOISTURE = 0.62;

/** What a named group is above the rest of the book. */
export interface GroupEffect {
  readonly column: 'picker' | 'scale' | 'crate';
  readonly name: string;
  readonly effect: number;
  readonly members: readonly JudgedPick[];
}

export interface MassModel {
  readonly judged: readonly JudgedPick[];
  readonly byLot: ReadonlyMap<KnownLot, LotPicks>;
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
  const judged: JudgedPick[] = [];
  for (const pick of picks) {
    const { mass, lot, isCopy } = pick;
    if (mass !== undefined && mass > 0 && lot !== undefined && !isCopy)
      judged.push(new JudgedPick(pick, judged.length));
  }
  const byLot = lotsOf(judged);
  const sizeOf = sizesOf([...lots.values()]);
  const logs = Float64Array.from(judged, ({ pick }) => Math.log(pick.mass! / sizeOf.get(pick.lot!)!));
  const places = placesOf(judged, byLot.values());
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
  const spreads = learntSpreads(judged, byLot.values(), places);
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
  return { judged, byLot, groups, spreads, sizeOf: sizeOfLot, usual, usualShared };
}
function lotsOf(judged: readonly JudgedPick[]): Map<KnownLot, LotPicks> {
  const byLot = grouped(judged, ({ pick }) => pick.lot!);
  return new Map(
    Array.from(byLot, ([lot, all]) => [
      lot,
      { all, flushes: [...grouped(all, ({ pick }) => pick.flush).values()] },
    ]),
  );
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
