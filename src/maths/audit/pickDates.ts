import type { DateSystem } from '../shared/serial';
import { DayCompany } from './dayCompany';
import { FlushStories } from './flushStories';
import { found, moveTo, type KnownBook, type KnownLot, type KnownPick } from './knownBook';
import { LabelSlips } from './labelSlips';
import { grouped, learntOften, weigh, type Explanation } from './likelihood';
import { MassPlaces } from './massPlaces';
import type { MassSlip } from './massSlips';
import { kindOf, PickExplanations, type Explained, type Kind, type Meant } from './pickExplanations';
import { findFlushes, type PickTimes } from './pickTimes';
import { LotOrder } from './rowOrder';
import { placeUnknownLabels } from './unknownLabels';
import type { Finding, Rival, Slip } from './yieldRecords';

/** Another explanation with a smaller share is not said. */
const RIVAL = 0.05;
const MOST_SLIPS_A_LOT = 12;
const KINDS = ['date', 'flush', 'lot'] as const;

/** ln of the sum of what explanations weigh. */
function sumOf(all: readonly Explanation<unknown>[]): number {
  let top = -Infinity;
  for (const { weight } of all) if (weight > top) top = weight;
  let sum = 0;
  for (const { weight } of all) sum += Math.exp(weight - top);
  return top + Math.log(sum);
}

/** The pick of a lot that another explanation fits best. */
interface Worst {
  readonly pick: KnownPick;
  readonly best: Meant;
  readonly wrong: number;
  readonly share: number;
  /** What else it may be. */
  readonly rivals: readonly Rival[];
  /** ln of the best explanation over "right". */
  readonly margin: number;
}

/** Picks whose date, flush or lot is another than the one typed, by what their dates say. */
export class PickDates {
  private readonly explanations: PickExplanations;
  private readonly labels: LabelSlips<KnownLot>;
  /** ln of how much rarer each kind of slip is in this book than was taken before. */
  private readonly often: Record<Kind, number> = { date: 0, flush: 0, lot: 0 };

  constructor(
    private readonly book: KnownBook,
    private readonly times: PickTimes,
    system: DateSystem,
    slips: readonly MassSlip[],
  ) {
    this.labels = new LabelSlips(book.lots.values(), ({ record }: KnownLot) => record.lot);
    const known = {
      stories: new FlushStories(book),
      labels: this.labels,
      company: new DayCompany(book),
      lots: new LotOrder(book),
    };
    placeUnknownLabels(book, known);
    this.explanations = new PickExplanations(book, known, new MassPlaces(book, slips), system);
  }

  run(): void {
    const asTyped = this.learnOften();
    const worst = new Map<KnownLot, Worst>();
    const judge = (lot: KnownLot, explained = this.explanations.of(lot)): void => {
      const one = this.worstOf(explained);
      if (one) worst.set(lot, one);
      else worst.delete(lot);
    };
    const slips = new Map<KnownLot, number>();
    for (const [lot, explained] of asTyped) judge(lot, explained);
    // Of all lots the surest first: a row that is one too many here may be what another lot lacks.
    while (worst.size > 0) {
      const [lot, surest] = [...worst].reduce((one, other) =>
        other[1].margin > one[1].margin ? other : one,
      );
      this.settle(lot, surest);
      const touched = new Set([lot, surest.pick.lot!]);
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

  /** Learns how often dates, flushes and lots are slips in this book, by all picks as they were typed. */
  private learnOften(): Map<KnownLot, Explained[]> {
    const odds: Record<Kind, number[]> = { date: [], flush: [], lot: [] };
    const expected: Record<Kind, number> = { date: 0, flush: 0, lot: 0 };
    const asTyped = new Map<KnownLot, Explained[]>();
    for (const lot of this.book.lots.values()) {
      const explained = this.explanations.of(lot);
      asTyped.set(lot, explained);
      for (const { right, others } of explained) {
        const byKind = grouped(others, ({ of }) => kindOf(of));
        for (const [kind, own] of byKind) {
          const rest = others.filter(({ of }) => kindOf(of) !== kind);
          odds[kind].push(Math.exp(sumOf(own) - sumOf([{ weight: right, of: undefined }, ...rest])));
        }
      }
      for (const pick of lot.picks) {
        const own = this.explanations.expected(pick);
        for (const kind of KINDS) expected[kind] += own[kind];
      }
    }
    for (const kind of KINDS) this.often[kind] = learntOften(odds[kind], expected[kind]);
    return asTyped;
  }

  /** The pick of a lot that is most surely wrong: once it is settled it no longer speaks against the others. */
  private worstOf(explained: readonly Explained[]): Worst | undefined {
    let worst: Worst | undefined;
    for (const { pick, right, others: asBefore } of explained) {
      const others = asBefore.map(({ weight, of }) => ({ weight: weight + this.often[kindOf(of)], of }));
      const { best, wrong, share } = weigh(right, others);
      const margin = Math.max(...others.map(({ weight }) => weight)) - right;
      if (
        best !== undefined &&
        wrong > leastSure(best === 'odd' ? undefined : this.slipOf(best, pick), pick) &&
        !(worst && worst.margin >= margin)
      )
        worst = { pick, best, wrong, share, rivals: this.rivalsOf(best, pick, right, others), margin };
    }
    return worst;
  }

  /** The likeliest of each other slip that has a share worth saying. */
  private rivalsOf(
    best: Meant,
    pick: KnownPick,
    right: number,
    others: readonly Explanation<Meant>[],
  ): Rival[] {
    const all = sumOf([{ weight: right, of: undefined }, ...others]);
    const bySlip = new Map<Slip, Rival>();
    for (const { weight, of } of others) {
      if (of === best || of === 'odd') continue;
      const sure = Math.exp(weight - all);
      if (sure < RIVAL) continue;
      const slip = this.slipOf(of, pick);
      if (!(sure <= (bySlip.get(slip)?.sure ?? 0)))
        bySlip.set(slip, { slip, corrected: correctedBy(of), sure });
    }
    return [...bySlip.values()].sort((a, b) => b.sure - a.sure);
  }

  private slipOf(meant: Exclude<Meant, 'odd'>, { record }: KnownPick): Slip {
    if ('day' in meant) return meant.slip;
    if ('flush' in meant) return 'flush';
    return this.labels.oneSlipFrom(record.lot).includes(meant.lot) ? 'label' : 'other lot';
  }

  private settle(lot: KnownLot, { pick, best, wrong, share, rivals }: Worst): void {
    const { record, day, flush } = pick;
    // A pick on or before the load is wrong, whatever it was meant to be.
    const isImpossible = lot.loaded !== undefined && day! <= lot.loaded;
    const shareOf = (sure: number): number => (isImpossible ? Math.min(1, sure / wrong) : sure);
    const due = flush === undefined ? undefined : this.times.usualDay(lot, flush);
    const expected = due === undefined ? undefined : Math.round(due);
    let finding: Finding;
    if (best === 'odd') {
      finding = found(record, 'date odd', 'date', day!, { sure: shareOf(wrong), expected });
      pick.day = undefined;
    } else {
      const more = {
        sure: shareOf(share),
        wrong: shareOf(wrong),
        corrected: correctedBy(best),
        slip: this.slipOf(best, pick),
        ...(rivals.length > 0 && {
          rivals: rivals.map((rival) => ({ ...rival, sure: shareOf(rival.sure) })),
        }),
      };
      if ('day' in best) {
        finding = found(record, 'date', 'date', day!, { ...more, expected });
        pick.day = best.day;
      } else if ('flush' in best) {
        finding = found(record, 'flush', 'flush', flush!, { ...more, expected: best.flush });
        pick.flush = best.flush;
      } else {
        finding = found(record, 'lot other', 'lot', record.lot, more);
        moveTo(pick, best.lot);
      }
    }
    for (const changed of new Set([lot, pick.lot!])) {
      findFlushes(changed, true);
      this.explanations.forget(changed);
    }
    this.explanations.settle(pick);
    this.book.findings.push(finding);
  }
}

const correctedBy = (meant: Exclude<Meant, 'odd'>): number | string =>
  'day' in meant ? meant.day : 'flush' in meant ? meant.flush : meant.lot.record.lot;

/**
 * Lots on the shelf at once are told apart by little where no flush is on record, and less where the label is no slip of the
 * fingers: nearly sure is asked for then. So it is of dates: a slipped one is far from all that its lot does, and where less
 * is sure the pick is mostly out of its rhythm.
 */
function leastSure(slip: Slip | undefined, { isRecorded }: KnownPick): number {
  if (slip === 'other lot') return 0.9;
  return slip === 'flush' || (slip === 'label' && isRecorded) ? 0.5 : 0.8;
}
