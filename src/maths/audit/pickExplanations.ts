import type { DateSystem } from '../shared/serial';
import { meantDates, type MeantDate } from './dateSlips';
import { MOST_COMPANY, type DayCompany } from './dayCompany';
import type { FlushStories } from './flushStories';
import type { KnownBook, KnownLot, KnownPick } from './knownBook';
import type { LabelSlips } from './labelSlips';
import { grouped, type Explanation } from './likelihood';
import type { MassPlaces } from './massPlaces';
import { FigureOrder, type LotOrder, type OrderOdds } from './rowOrder';
import type { Slip } from './yieldRecords';

/** A pick as likely as this where it is needs no other explanation. */
const PLAIN = Math.log(0.01);
const RIGHT = Math.log(0.98);
/** A date that is wrong for no reason found, anywhere in most of a year. */
const ODD = Math.log(0.002 / 400);
// How often a pick is typed with another flush, or with another lot's label: judgement, no source.
const FLUSH = Math.log(0.004);
const LABEL = 0.008;
/** Or with that of any other lot that is on the shelf, from another line or another block: of the strain, and of others. */
const [ANY_LABEL, OF_OTHERS] = [0.002, 0.001];
const LEAST_ON_SHELF = 3;
/** Of more lots than this every so many are asked. */
const MOST_BESIDE = 24;
/** And with another date: what all slips of one come to. */
const A_DATE = 0.006;
/** A label that one slip leads to is one of about as many. */
const LIKE_LABELS = 8;
/** A mass is believed this far about the lot that it is of. */
const MOST_MASS = 6;
/** What is so much rarer than the likeliest has no weight. */
const NO_WEIGHT = 4;
/** A mass as likely as this is no reason to look further. */
const PLAIN_MASS = -1.5;
/** A row out of its order is reason enough. */
const OUT_OF_ORDER = 3;

export type Meant =
  | { readonly day: number; readonly slip: Slip }
  | { readonly flush: number }
  | { readonly lot: KnownLot }
  | 'odd';

/** A pick that is not plain, and what may explain it. */
export interface Explained {
  readonly pick: KnownPick;
  readonly right: number;
  readonly others: readonly Explanation<Meant>[];
}

export type Kind = 'date' | 'flush' | 'lot';
export const kindOf = (meant: Meant): Kind =>
  meant === 'odd' || 'day' in meant ? 'date' : 'flush' in meant ? 'flush' : 'lot';

/** What a book shows of where its picks belong. */
export interface PickHabits {
  readonly stories: FlushStories;
  readonly labels: LabelSlips<KnownLot>;
  readonly company: DayCompany;
  readonly lots: LotOrder;
}

/** A lot that may be picked on a day, and how many of its strain it stands for. */
interface DayLot {
  readonly lot: KnownLot;
  readonly strainKey: string;
  readonly step: number;
}

/** Every so many of very many lots, each of which then stands for as many. */
function thinned(lots: readonly DayLot[]): readonly DayLot[] {
  const every = Math.ceil(lots.length / MOST_BESIDE);
  return every < 2
    ? lots
    : lots.filter((_lot, at) => at % every === 0).map((one) => ({ ...one, step: one.step * every }));
}

/** What may explain the picks that are not plain where and when they are typed. */
export class PickExplanations {
  private readonly near = new Map<string, readonly KnownLot[]>();
  private readonly meant = new Map<number, readonly MeantDate[]>();
  private readonly days: FigureOrder;
  private readonly places: ReadonlyMap<KnownPick, number>;
  private readonly ofStrains: ReadonlyMap<string, readonly KnownLot[]>;
  /** The lots of each strain with the days on which they may be picked, and those of a day. */
  private reaches: (DayLot & { readonly from: number; readonly to: number })[][] | undefined;
  private readonly ofDays = new Map<number, readonly DayLot[]>();
  /** A row that was corrected once is believed. */
  private readonly settled = new Set<KnownPick>();

  constructor(
    { picks, lots }: KnownBook,
    private readonly known: PickHabits,
    private readonly masses: MassPlaces,
    private readonly system: DateSystem,
  ) {
    this.days = new FigureOrder(picks.map(({ day }) => day));
    this.places = new Map(picks.map((pick, at) => [pick, at]));
    this.ofStrains = grouped([...lots.values()], ({ strainKey }) => strainKey);
  }

  /** Believes a row as it is now. */
  settle(pick: KnownPick): void {
    this.settled.add(pick);
    this.days.correct(this.places.get(pick)!, pick.day);
  }

  /** After a change in a lot's picks. */
  forget(lot: KnownLot): void {
    this.masses.forget(lot);
    this.known.stories.forget(lot);
  }

  /** How often each kind of slip was taken to be made in a pick. */
  expected(pick: KnownPick): Readonly<Record<Kind, number>> {
    return {
      date: A_DATE,
      flush: pick.isRecorded ? Math.exp(FLUSH) : 0,
      lot:
        LABEL * Math.min(1, this.labelsNear(pick).length / LIKE_LABELS) +
        (pick.isRecorded ? ANY_LABEL + OF_OTHERS : 0),
    };
  }

  /** The picks of a lot that are not plain. */
  of(lot: KnownLot): Explained[] {
    const all: Explained[] = [];
    for (const pick of lot.picks) {
      if (pick.day === undefined || pick.isCopy || this.settled.has(pick)) continue;
      const here = this.known.stories.logGain(lot, pick.day, pick);
      const inDays = this.days.of(this.places.get(pick)!);
      const inLots = this.known.lots.of(pick);
      const mass = this.masses.logLikelihood(pick, lot, pick.flush) ?? PLAIN_MASS;
      const company = this.known.company.strangeness(pick);
      const strangeness =
        Math.max(0, PLAIN_MASS - mass) +
        Math.max(0, company) +
        (inDays.isOut || inLots.isOut ? OUT_OF_ORDER : 0);
      const right = RIGHT + here + inDays.typed + inLots.typed;
      const near = this.nearLots(lot, pick, company, right - inDays.typed, inLots);
      const isPlain = here - strangeness > PLAIN;
      if (isPlain && !near.some(({ weight }) => weight + inDays.typed + MOST_MASS > right)) continue;
      const labels = pick.isRecorded ? [...near, ...this.lotsBeside(lot, pick, company, inLots)] : near;
      all.push({ pick, right, others: this.explanations(lot, pick, mass, labels, inDays, inLots) });
    }
    return all;
  }

  private labelsNear({ record: { lot: label } }: KnownPick): readonly KnownLot[] {
    let near = this.near.get(label);
    if (!near) this.near.set(label, (near = this.known.labels.oneSlipFrom(label)));
    return near;
  }

  /** Lots whose label one slip makes of the pick's own, as far as they can come near `right`: weights but for the mass. */
  private nearLots(
    lot: KnownLot,
    pick: KnownPick,
    company: number,
    right: number,
    inLots: OrderOdds<KnownLot>,
  ): Explanation<KnownLot>[] {
    const near = this.labelsNear(pick);
    const prior = Math.log(LABEL / Math.max(LIKE_LABELS, near.length));
    const found: Explanation<KnownLot>[] = [];
    for (const other of near) {
      if (other === lot || !this.known.stories.mayBePicked(other, pick.day!)) continue;
      const weight = prior + inLots.meant(other) + this.known.stories.logGain(other, pick.day!, pick);
      if (weight + MOST_COMPANY + MOST_MASS < right - NO_WEIGHT) continue;
      found.push({ weight: weight + this.known.company.gain(pick, other, pick.day!, company), of: other });
    }
    return found;
  }

  /** Other lots that may be picked on that day, whatever their labels: weights but for the mass. */
  private lotsBeside(
    lot: KnownLot,
    pick: KnownPick,
    company: number,
    inLots: OrderOdds<KnownLot>,
  ): Explanation<KnownLot>[] {
    const ofDay = this.lotsOf(pick.day!);
    const ofStrain = ofDay.filter(({ strainKey }) => strainKey === lot.strainKey);
    const ofOthers = ofDay.filter(({ strainKey }) => strainKey !== lot.strainKey);
    return [
      ...this.anyOf(ofStrain, ANY_LABEL, lot, pick, company, inLots),
      ...this.anyOf(thinned(ofOthers), OF_OTHERS, lot, pick, company, inLots),
    ];
  }

  /** The lots that may be picked on a day; of very many of a strain every so many, as together they weigh the same. */
  private lotsOf(day: number): readonly DayLot[] {
    let lots = this.ofDays.get(day);
    if (!lots) {
      this.reaches ??= [...this.ofStrains.values()].map((all) =>
        all.map((lot) => {
          const [from, to] = this.known.stories.reachOf(lot);
          return { lot, strainKey: lot.strainKey, step: 1, from, to };
        }),
      );
      lots = this.reaches.flatMap((all) => thinned(all.filter(({ from, to }) => day >= from && day <= to)));
      this.ofDays.set(day, lots);
    }
    return lots;
  }

  /** Lots of which any may be the one whose label was taken, so often. */
  private anyOf(
    lots: readonly DayLot[],
    often: number,
    own: KnownLot,
    pick: KnownPick,
    company: number,
    inLots: OrderOdds<KnownLot>,
  ): Explanation<KnownLot>[] {
    const { stories } = this.known;
    const day = pick.day!;
    const alike = this.labelsNear(pick);
    const others = lots.filter(({ lot }) => lot !== own && stories.mayBePicked(lot, day));
    const onShelf = others.reduce((sum, { lot, step }) => sum + (stories.isOnShelf(lot, day) ? step : 0), 0);
    const prior = Math.log(often / Math.max(LEAST_ON_SHELF, onShelf));
    return others
      .filter(({ lot }) => !alike.includes(lot))
      .map(({ lot, step }) => ({
        weight:
          prior +
          Math.log(step) +
          inLots.meant(lot) +
          stories.logGain(lot, day, pick) +
          this.known.company.gain(pick, lot, day, company),
        of: lot,
      }));
  }

  private explanations(
    lot: KnownLot,
    pick: KnownPick,
    mass: number,
    near: readonly Explanation<KnownLot>[],
    inDays: OrderOdds<number>,
    inLots: OrderOdds<KnownLot>,
  ): Explanation<Meant>[] {
    const all: Explanation<Meant>[] = [{ weight: ODD + inLots.typed + inDays.unknown, of: 'odd' }];
    for (const { day, slip, prior } of this.meantBy(pick.day!)) {
      const likely = this.known.stories.logGain(lot, day, pick) + this.known.company.gain(pick, lot, day);
      all.push({ weight: prior + likely + inDays.meant(day) + inLots.typed, of: { day, slip } });
    }
    if (pick.isRecorded) {
      const flushes = new Set(lot.picks.map(({ flush }) => flush));
      for (let flush = 1; flush <= (lot.strain?.flushes ?? 1); flush++) flushes.add(flush);
      flushes.delete(pick.flush);
      flushes.delete(undefined);
      for (const flush of flushes) {
        // A mass that does not fit the flush typed speaks for another; days tell better than masses that it is this.
        const fits = Math.max(0, bounded((this.masses.logLikelihood(pick, lot, flush) ?? mass) - mass));
        const likely = Math.log(this.known.stories.gain(lot, flush, pick.day!, pick)) + fits;
        all.push({
          weight: FLUSH - Math.log(flushes.size) + likely + inDays.typed + inLots.typed,
          of: { flush: flush! },
        });
      }
    }
    for (const { weight, of: other } of near) {
      const flush = pick.isRecorded ? pick.flush : this.known.stories.likeliestFlush(other, pick.day!, pick);
      const there = this.masses.logLikelihood(pick, other, flush) ?? mass;
      all.push({ weight: weight + inDays.typed + bounded(there - mass), of: { lot: other } });
    }
    return all;
  }

  private meantBy(day: number): readonly MeantDate[] {
    let meant = this.meant.get(day);
    if (!meant) this.meant.set(day, (meant = meantDates(day, this.system)));
    return meant;
  }
}

const bounded = (evidence: number): number => Math.max(-MOST_MASS, Math.min(MOST_MASS, evidence));
