import type { DateSystem } from '../shared/serial';
import { meantDates, type MeantDate } from './dateSlips';
import { found, moveTo, type KnownBook, type KnownLot, type KnownPick } from './knownBook';
import { DayCompany, MOST_COMPANY } from './dayCompany';
import { grouped, learntOften, weigh, type Explanation } from './likelihood';
import { LabelSlips } from './labelSlips';
import { MassPlaces } from './massPlaces';
import type { MassSlip } from './massSlips';
import { FlushStories } from './flushStories';
import { findFlushes, type PickTimes } from './pickTimes';
import { FigureOrder, LotOrder, type OrderOdds } from './rowOrder';
import type { Finding, Slip } from './yieldRecords';

/** A pick as likely as this where it is needs no other explanation. */
const PLAIN = Math.log(0.01);
const RIGHT = Math.log(0.98);
/** A date that is wrong for no reason found, anywhere in most of a year. */
const ODD = Math.log(0.002 / 400);
// How often a pick is typed with another flush, or with another lot's label: judgement, no source.
const FLUSH = Math.log(0.004);
const LABEL = 0.008;
/** And with another date: what all slips of one come to. */
const A_DATE = 0.006;
/** A label that one slip leads to is one of about as many. */
const LIKE_LABELS = 8;
/** An unknown label may be of a lot that is missing from lots: its picks then have any day. */
const NOT_IN_LOTS = Math.log(0.05);
const ANY_DAY = Math.log(1 / 400);
/** A mass is believed this far about the lot that it is of. */
const MOST_MASS = 6;
/** What is so much rarer than the likeliest has no weight. */
const NO_WEIGHT = 4;
/** A mass as likely as this is no reason to look further. */
const PLAIN_MASS = -1.5;
/** A row out of its order is reason enough. */
const OUT_OF_ORDER = 3;
const MOST_SLIPS_A_LOT = 12;
const REPEATED = 3;

/** ln of the sum of what explanations weigh. */
function sumOf(all: readonly Explanation<unknown>[]): number {
  let top = -Infinity;
  for (const { weight } of all) if (weight > top) top = weight;
  let sum = 0;
  for (const { weight } of all) sum += Math.exp(weight - top);
  return top + Math.log(sum);
}

type Meant =
  | { readonly day: number; readonly slip: Slip }
  | { readonly flush: number }
  | { readonly lot: KnownLot }
  | 'odd';

/** The pick of a lot that another explanation fits best. */
interface Worst {
  readonly pick: KnownPick;
  readonly best: Meant;
  readonly wrong: number;
  readonly share: number;
  /** ln of the best explanation over "right". */
  readonly margin: number;
}

/** A pick that is not plain, and what may explain it. */
interface Explained {
  readonly pick: KnownPick;
  readonly right: number;
  readonly others: readonly Explanation<Meant>[];
}

type Kind = 'date' | 'flush' | 'lot';
const kindOf = (meant: Meant): Kind =>
  meant === 'odd' || 'day' in meant ? 'date' : 'flush' in meant ? 'flush' : 'lot';

/** Picks whose date, flush or lot is another than the one typed, by what their dates say. */
export class PickDates {
  private readonly stories: FlushStories;
  private readonly labels: LabelSlips<KnownLot>;
  private readonly near = new Map<string, readonly KnownLot[]>();
  private readonly meant = new Map<number, readonly MeantDate[]>();
  private readonly company: DayCompany;
  private readonly days: FigureOrder;
  private readonly lots: LotOrder;
  private readonly places: ReadonlyMap<KnownPick, number>;
  /** A row that was corrected once is believed. */
  private readonly settled = new Set<KnownPick>();
  private masses!: MassPlaces;
  /** ln of how much rarer each kind of slip is in this book than was taken before. */
  private readonly often: Record<Kind, number> = { date: 0, flush: 0, lot: 0 };

  constructor(
    private readonly book: KnownBook,
    private readonly times: PickTimes,
    private readonly system: DateSystem,
    private readonly slips: readonly MassSlip[],
  ) {
    this.stories = new FlushStories(book);
    this.labels = new LabelSlips(book.lots.values(), ({ record }) => record.lot);
    this.company = new DayCompany(book);
    this.days = new FigureOrder(book.picks.map(({ day }) => day));
    this.lots = new LotOrder(book);
    this.places = new Map(book.picks.map((pick, at) => [pick, at]));
  }

  run(): void {
    this.placeUnknown();
    this.masses = new MassPlaces(this.book, this.slips);
    const asTyped = this.learnOften();
    const worst = new Map<KnownLot, Worst>();
    const judge = (lot: KnownLot, explained = this.explained(lot)): void => {
      const one = this.worstOf(explained);
      if (one) worst.set(lot, one);
      else worst.delete(lot);
    };
    const slips = new Map<KnownLot, number>();
    for (const [lot, explained] of asTyped) judge(lot, explained);
    // Of all lots the surest first: a row that is one too many here may be what another lot lacks.
    while (worst.size > 0) {
      const [lot, { pick, best, wrong, share }] = [...worst].reduce((one, other) =>
        other[1].margin > one[1].margin ? other : one,
      );
      this.settle(lot, pick, best, wrong, share);
      const touched = new Set([lot, pick.lot!]);
      slips.set(lot, (slips.get(lot) ?? 0) + 1);
      for (const [other, { best: meant }] of worst) {
        if (meant !== 'odd' && 'lot' in meant && touched.has(meant.lot)) touched.add(other);
      }
      for (const other of touched) {
        if ((slips.get(other) ?? 0) < MOST_SLIPS_A_LOT) judge(other);
        else worst.delete(other);
      }
    }
  }

  private likelihood(lot: KnownLot, { flush, isRecorded }: KnownPick, day: number, self: KnownPick): number {
    return this.stories.gain(lot, isRecorded ? flush : undefined, day, self);
  }

  /** Learns how often dates, flushes and lots are slips in this book, by all picks as they were typed. */
  private learnOften(): Map<KnownLot, Explained[]> {
    const odds: Record<Kind, number[]> = { date: [], flush: [], lot: [] };
    const expected: Record<Kind, number> = { date: 0, flush: 0, lot: 0 };
    const asTyped = new Map<KnownLot, Explained[]>();
    for (const lot of this.book.lots.values()) {
      const explained = this.explained(lot);
      asTyped.set(lot, explained);
      for (const { right, others } of explained) {
        const byKind = grouped(others, ({ of }) => kindOf(of));
        for (const [kind, own] of byKind) {
          const rest = others.filter(({ of }) => kindOf(of) !== kind);
          odds[kind].push(Math.exp(sumOf(own) - sumOf([{ weight: right, of: undefined }, ...rest])));
        }
      }
      for (const pick of lot.picks) {
        expected.date += A_DATE;
        if (pick.isRecorded) expected.flush += Math.exp(FLUSH);
        expected.lot += LABEL * Math.min(1, this.labelsNear(pick).length / LIKE_LABELS);
      }
    }
    for (const kind of ['date', 'flush', 'lot'] as const)
      this.often[kind] = learntOften(odds[kind], expected[kind]);
    return asTyped;
  }

  /** The pick of a lot that is most surely wrong: once it is settled it no longer speaks against the others. */
  private worstOf(explained: readonly Explained[]): Worst | undefined {
    let worst: Worst | undefined;
    for (const { pick, right, others: asBefore } of explained) {
      const others = asBefore.map(({ weight, of }) => ({ weight: weight + this.often[kindOf(of)], of }));
      const { best, wrong, share } = weigh(right, others);
      const margin = Math.max(...others.map(({ weight }) => weight)) - right;
      if (best !== undefined && wrong > leastSure(best, pick) && !(worst && worst.margin >= margin))
        worst = { pick, best, wrong, share, margin };
    }
    return worst;
  }

  private explained(lot: KnownLot): Explained[] {
    const all: Explained[] = [];
    for (const pick of lot.picks) {
      if (pick.day === undefined || pick.isCopy || this.settled.has(pick)) continue;
      const here = Math.log(this.likelihood(lot, pick, pick.day, pick));
      const inDays = this.days.of(this.places.get(pick)!);
      const inLots = this.lots.of(pick);
      const mass = this.masses.logLikelihood(pick, lot, pick.flush) ?? PLAIN_MASS;
      const company = this.company.strangeness(pick);
      const strangeness =
        Math.max(0, PLAIN_MASS - mass) +
        Math.max(0, company) +
        (inDays.isOut || inLots.isOut ? OUT_OF_ORDER : 0);
      const right = RIGHT + here + inDays.typed + inLots.typed;
      const near = this.nearLots(lot, pick, company, right - inDays.typed, inLots);
      const isPlain = here - strangeness > PLAIN;
      if (isPlain && !near.some(({ weight }) => weight + inDays.typed + MOST_MASS > right)) continue;
      all.push({ pick, right, others: this.explanations(lot, pick, mass, near, inDays, inLots) });
    }
    return all;
  }

  private labelsNear({ record: { lot: label } }: KnownPick): readonly KnownLot[] {
    let near = this.near.get(label);
    if (!near) this.near.set(label, (near = this.labels.oneSlipFrom(label)));
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
      if (other === lot || !this.stories.mayBePicked(other, pick.day!)) continue;
      const weight = prior + inLots.meant(other) + Math.log(this.likelihood(other, pick, pick.day!, pick));
      if (weight + MOST_COMPANY + MOST_MASS < right - NO_WEIGHT) continue;
      found.push({ weight: weight + this.company.gain(pick, other, pick.day!, company), of: other });
    }
    return found;
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
      const likely = Math.log(this.likelihood(lot, pick, day, pick)) + this.company.gain(pick, lot, day);
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
        const likely = Math.log(this.stories.gain(lot, flush, pick.day!, pick)) + fits;
        all.push({
          weight: FLUSH - Math.log(flushes.size) + likely + inDays.typed + inLots.typed,
          of: { flush: flush! },
        });
      }
    }
    for (const { weight, of: other } of near) {
      const flush = pick.isRecorded ? pick.flush : this.stories.likeliestFlush(other, pick.day!, pick);
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

  private settle(lot: KnownLot, pick: KnownPick, best: Meant, wrong: number, share: number): void {
    this.settled.add(pick);
    const { record, day, flush } = pick;
    const isClear = share > 0.5;
    const more = { sure: lot.loaded !== undefined && day! <= lot.loaded ? 1 : wrong };
    const due = flush === undefined ? undefined : this.times.usualDay(lot, flush);
    const expected = due === undefined ? undefined : Math.round(due);
    let finding: Finding;
    if (best === 'odd') {
      finding = found(record, 'date odd', 'date', day!, { ...more, expected });
      pick.day = undefined;
      this.days.correct(this.places.get(pick)!, undefined);
    } else if ('day' in best) {
      const corrected = isClear ? { corrected: best.day, slip: best.slip } : {};
      finding = found(record, 'date', 'date', day!, { ...more, expected, ...corrected });
      pick.day = best.day;
      this.days.correct(this.places.get(pick)!, best.day);
    } else if ('flush' in best) {
      const corrected = isClear ? { corrected: best.flush } : {};
      finding = found(record, 'flush', 'flush', flush!, {
        ...more,
        expected: best.flush,
        ...corrected,
        slip: 'flush',
      });
      pick.flush = best.flush;
    } else {
      const corrected = isClear ? { corrected: best.lot.record.lot } : {};
      finding = found(record, 'lot other', 'lot', record.lot, { ...more, ...corrected, slip: 'label' });
      moveTo(pick, best.lot);
    }
    for (const changed of new Set([lot, pick.lot!])) {
      findFlushes(changed, true);
      this.masses.forget(changed);
      this.stories.forget(changed);
    }
    this.book.findings.push(finding);
  }

  /** Picks of lots that are not in lots: the lot meant, where dates tell it from others with a label one slip away. */
  private placeUnknown(): void {
    const unknown = this.book.picks.filter(({ lot, record }) => lot === undefined && record.lot !== '');
    for (const [label, picks] of grouped(unknown, ({ record }) => record.lot)) {
      const alike = this.labels.alike(label);
      const candidates = alike.length ? alike : this.labels.oneSlipFrom(label);
      const weights = candidates.map((lot) => ({
        weight: picks.reduce((sum, pick) => {
          const likely = pick.day === undefined ? 0 : Math.log(this.likelihood(lot, pick, pick.day, pick));
          return sum + likely + this.lots.meant(pick, lot);
        }, -Math.log(candidates.length)),
        of: lot,
      }));
      const missing = NOT_IN_LOTS + picks.length * ANY_DAY;
      const { best, share } = weigh(missing, weights);
      const meant = share > 0.5 ? best : undefined;
      const isSpelling = alike.length > 0 && meant !== undefined;
      const findingOf = (own: readonly KnownPick[]): Finding =>
        found(own[0]!.record, isSpelling ? 'lot spelling' : 'lot unknown', 'lot', label, {
          rows: own.map(({ record }) => record.row),
          corrected: meant?.record.lot,
          slip: meant === undefined ? undefined : isSpelling ? 'spelling' : 'label',
        });
      if (isSpelling || picks.length >= REPEATED) this.book.findings.push(findingOf(picks));
      else for (const pick of picks) this.book.findings.push(findingOf([pick]));
      for (const pick of picks) moveTo(pick, meant);
      if (!meant) continue;
      findFlushes(meant, true);
      this.stories.forget(meant);
    }
  }
}

/** Lots on the shelf at once are told apart by little where no flush is on record: nearly sure is asked for then. */
const leastSure = (best: Meant, { isRecorded }: KnownPick): number =>
  best !== 'odd' && 'lot' in best && !isRecorded ? 0.8 : 0.5;

const bounded = (evidence: number): number => Math.max(-MOST_MASS, Math.min(MOST_MASS, evidence));
