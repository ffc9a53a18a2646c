import type { DateSystem } from '../shared/serial';
import { median } from '../shared/statistics';
import { meantDates, type MeantDate } from './dateSlips';
import { found, type KnownBook, type KnownLot } from './knownBook';
import { grouped, heldSpread, logTail, weigh, type Explanation } from './likelihood';
import { findFlushes, type PickTimes } from './pickTimes';
import { FigureOrder, type OrderOdds } from './rowOrder';

const RIGHT = Math.log(0.98);
/** A load date that is wrong for no reason found, anywhere in most of a year. */
const ODD = Math.log(0.002 / 300);
/** The first flush is not on record. */
const FIRST_LOST = Math.log(0.006);
/** ln of what all slips of a load together come to at most: nearer to what is usual than this, none is likelier. */
const NO_SLIP = Math.log(0.03);
/** A lot whose run from inoculation to load has the wrong sign or nothing of its strain's. */
const NO_RUN = -12;
const UNRIPE = 0.75;

/** How long the strains run from inoculation to load, and how likely a run is: ln, 0 where nothing is known. */
class Runs {
  private readonly usual = new Map<string, number>();
  private readonly spread: number;

  constructor({ lots }: KnownBook) {
    const logs: number[] = [];
    for (const [key, members] of grouped([...lots.values()], ({ strainKey }) => strainKey)) {
      const own = members.map(runOf).filter((run) => run !== undefined && run > 0) as number[];
      if (own.length < 3) continue;
      const middle = median(own);
      this.usual.set(key, middle);
      for (const run of own) logs.push(Math.log(run / middle));
    }
    this.spread = Math.max(0.04, heldSpread(logs, 0.1, 6));
  }

  logLikelihood({ strainKey }: KnownLot, run: number | undefined): number {
    const usual = this.usual.get(strainKey);
    if (usual === undefined || run === undefined) return 0;
    return run > 0 ? Math.max(NO_RUN, logTail(Math.log(run / usual), this.spread)) : NO_RUN;
  }

  /** ln of how likely a run is at most. */
  get most(): number {
    return this.usual.size > 0 ? Math.max(0, logTail(0, this.spread)) : 0;
  }

  usualOf({ strainKey, strain }: KnownLot): number | undefined {
    return this.usual.get(strainKey) ?? strain?.earliest;
  }
}

const runOf = ({ loaded, inoculated }: KnownLot): number | undefined =>
  loaded === undefined || inoculated === undefined ? undefined : loaded - inoculated;

/**
 * Loads that all picks of a lot contradict, and inoculations that the load contradicts: one finding for each, with the
 * date that was meant where a slip of the hand explains it.
 */
export function judgeLoads(book: KnownBook, times: PickTimes, system: DateSystem): void {
  const runs = new Runs(book);
  const lots = [...book.lots.values()];
  const order = new FigureOrder(lots.map(({ loaded }) => loaded));
  lots.forEach((lot, at) => {
    if (!judgeLoad(book, lot, times, runs, order.of(at), system)) judgeRun(book, lot, runs, system);
    order.correct(at, lot.loaded);
    findFlushes(lot, true);
  });
}

function judgeLoad(
  book: KnownBook,
  lot: KnownLot,
  times: PickTimes,
  runs: Runs,
  inLots: OrderOdds<number>,
  system: DateSystem,
): boolean {
  const { loaded, inoculated, record } = lot;
  if (loaded === undefined || lot.strain?.firstPick === undefined) return false;
  const offs = lot.picks
    .filter(({ day, flush }) => day !== undefined && flush !== undefined)
    .map(({ day, flush }) => times.offOf(lot, flush!, day!)!);
  // One pick may be as wrong as the load, unless the lots around it speak against the load.
  if (offs.length < (inLots.isOut ? 1 : 2)) return false;
  const shift = median(offs);
  const spread = times.aboutStrain;
  // Of two picks that disagree either may be wrong: that is the picks' own matter.
  if (2 * offs.filter((off) => Math.abs(off - shift) < 3 * spread).length <= offs.length) return false;
  const runFrom = (load: number): number =>
    runs.logLikelihood(lot, inoculated === undefined ? undefined : load - inoculated);
  const right = RIGHT + logTail(shift, spread) + runFrom(loaded) + inLots.typed;
  if (right > logTail(0, spread) + runs.most + NO_SLIP) return false;
  const others: Explanation<MeantDate | 'odd' | 'first lost'>[] = meantDates(loaded, system).map((meant) => ({
    weight:
      meant.prior +
      logTail(shift - (meant.day - loaded), spread) +
      runFrom(meant.day) +
      inLots.meant(meant.day),
    of: meant,
  }));
  const due = loaded + Math.round(shift);
  others.push({ weight: ODD + runFrom(due) + inLots.meant(due), of: 'odd' });
  if (lot.picks.some(({ isRecorded }) => !isRecorded)) {
    others.push({
      weight: FIRST_LOST + logTail(shift - times.gapOf(lot), spread) + runFrom(loaded) + inLots.typed,
      of: 'first lost',
    });
  }
  const { best, share, wrong } = weigh(right, others);
  if (wrong < 0.5 || best === undefined || best === 'first lost') return false;
  // The likeliest of several dates is no correction while the others together are likelier.
  const meant = best !== 'odd' && share > 0.5 ? best : undefined;
  lot.loaded = meant?.day ?? due;
  book.findings.push(
    found(record, 'load date', 'loaded', loaded, {
      expected: due,
      corrected: meant?.day,
      slip: meant?.slip,
      sure: meant ? share : wrong,
      wrong,
    }),
  );
  return true;
}

function judgeRun(book: KnownBook, lot: KnownLot, runs: Runs, system: DateSystem): void {
  const { loaded, inoculated, record, strain } = lot;
  const run = runOf(lot);
  if (run === undefined) return;
  const usual = runs.usualOf(lot);
  const right = RIGHT + runs.logLikelihood(lot, run);
  const isUnripe = run < 0 || (strain?.earliest !== undefined && run < UNRIPE * strain.earliest);
  if (!isUnripe && right > runs.most + NO_SLIP) return;
  const others = meantDates(inoculated!, system).map((meant) => ({
    weight: meant.prior + runs.logLikelihood(lot, loaded! - meant.day),
    of: meant,
  }));
  const { best, share, wrong } = weigh(right, others);
  if (wrong > 0.5 && best) {
    lot.inoculated = best.day;
    book.findings.push(
      found(record, 'inoculated', 'inoculated', inoculated!, {
        expected: loaded! - usual!,
        corrected: best.day,
        slip: best.slip,
        sure: share,
        wrong,
      }),
    );
  } else if (isUnripe) {
    const sure = run < 0 ? 1 : 0.9;
    // Picks that fit the load bear it out: then the inoculation is wrong.
    const isBorneOut = lot.picks.filter(({ day }) => day !== undefined).length >= 2;
    book.findings.push(
      isBorneOut
        ? found(record, 'inoculated', 'inoculated', inoculated!, {
            expected: usual === undefined ? undefined : loaded! - usual,
            sure,
          })
        : found(record, 'unripe', 'loaded', loaded!, {
            expected: usual === undefined ? undefined : inoculated! + usual,
            sure,
          }),
    );
  }
}
