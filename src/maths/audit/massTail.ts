import { logLeft, type FlushTotals } from './flushTotals';
import type { JudgedPick } from './judgedPick';
import { logMiddle } from './likelihood';
import type { MassSlip } from './massSlips';
import type { MassModel } from './massModel';
import { seenFromOthers } from './massNeighbours';

/** What is tried: how much wider than the model says masses lie, and how heavy their tails are. */
const SCALES = [0.8, 0.9, 1, 1.15, 1.3, 1.5, 1.75, 2.1, 2.5];
const DEGREES = [3, 4, 6, 10, 20];
/** How often a pick may hold all that was left of its flush. */
const LEFT = [0, 0.05, 0.1, 0.2, 0.35, 0.5, 0.7];
/** How often a flush is as large as it is whatever the lot's other flushes are. */
const APART = [0, 0.02, 0.05, 0.1, 0.2, 0.35];
/** The only pick of a flush holds all of it this often at least. */
const WHOLE_FLUSH = 0.3;
/** Picks that are asked; more tell nothing new. */
const ASKED = 1600;
/** Before a book shows otherwise: as many picks of 6 degrees, as wide as the model says. */
const BEFORE = 40;
/** And as many that do not hold what was left: a slip among few picks is no habit. */
const LEFT_BEFORE = 60;
/** And as many that bear out the lot's other flushes. */
const APART_BEFORE = 20;
/** Picks of one place in their flush lie as those of all until so many show otherwise. */
const PLACE_BEFORE = 40;
/** Any other density than before has to be likelier by so much, on the scale of ln: one wild mass proves none. */
const UNUSUAL = 3;
const ROUNDS = 2;
/** A mass that a slip made another, or that is honestly odd: this often, and this wide. */
const OTHERWISE = 0.004;
const OTHERWISE_SPREAD = 1;
/** Slips are rarer than they are judged by, which errs on the side of telling. */
const SELDOM = 0.3;
/** Nearer than so many spreads no slip is likelier than an honest mass. */
const PLAIN = 1.5;

/** How wide and how heavy one side of a density is. */
interface Side {
  readonly scale: number;
  readonly degrees: number;
}

/**
 * How masses lie about what their neighbours make of them: Student's density, as wide and as heavy as the book shows, on
 * either side.
 */
export class MassTail {
  private readonly height: number;
  private readonly top: number;

  constructor(
    readonly below: Side,
    readonly above: Side,
    /** How often a pick holds all that was left of its flush. */
    readonly left = 0,
    /** How often its flush has nothing to do with the lot's others. */
    readonly apart = 0,
  ) {
    const half = ({ scale, degrees }: Side): number => scale / (2 * Math.exp(logMiddle(degrees)));
    this.height = 1 / (half(below) + half(above));
    this.top = Math.log(this.height);
  }

  log(off: number, spread: number): number {
    const { scale, degrees } = off < 0 ? this.below : this.above;
    return (
      this.top - ((degrees + 1) / 2) * Math.log1p((off / (scale * spread)) ** 2 / degrees) - Math.log(spread)
    );
  }

  /** The density itself, by powers of integers and halves: it is asked a hundred thousand times while it is learnt. */
  density(off: number, spread: number): number {
    const { scale, degrees } = off < 0 ? this.below : this.above;
    const base = 1 + (off / (scale * spread)) ** 2 / degrees;
    let power = degrees % 2 === 0 ? Math.sqrt(base) : 1;
    for (let times = (degrees + 1) >> 1; times > 0; times--) power *= base;
    return this.height / (power * spread);
  }

  /**
   * ln of how likely a pick's mass is where a slip moved it by so much, on the scale of ln: by its neighbours, as all that was
   * left of its flush, or by its flush alone.
   *
   * @param rarer ln of how much rarer so far off is than its density says
   */
  logOf(
    { residual, spread, due, apart, apartSpread }: JudgedPick,
    moved: number,
    mass: number,
    rarer: (off: number) => number = () => 0,
  ): number {
    const off = residual - moved;
    const near = this.log(off, spread) - rarer(off);
    // What is left grows over days; less than usual is no such thing.
    const left = !due || off < 0 ? 0 : due.others === 0 ? Math.max(this.left, WHOLE_FLUSH) : this.left;
    const ofItsOwn = Number.isNaN(apart) ? 0 : this.apart;
    if (left === 0 && ofItsOwn === 0) return near;
    const otherwise =
      ofItsOwn === 0 ? 0 : ofItsOwn * Math.exp(USUAL.log(apart - moved, apartSpread) - rarer(apart - moved));
    const ofNeighbours = (1 - ofItsOwn) * Math.exp(near) + otherwise;
    return Math.log(
      left === 0 ? ofNeighbours : (1 - left) * ofNeighbours + left * Math.exp(logLeft(due!, mass)),
    );
  }
}

const even = (scale: number, degrees: number, left = 0, apart = 0): MassTail =>
  new MassTail({ scale, degrees }, { scale, degrees }, left, apart);

const USUAL = even(1, 6);

interface Asked {
  readonly residual: number;
  readonly spread: number;
  /** How likely as a slip or an oddity, and, of more than usual, as all that was left of its flush. */
  readonly otherwise: number;
  readonly left: number | undefined;
  /** How likely by its own flush alone. */
  readonly apart: number | undefined;
}

/** What is small by nature is honestly next to nothing at times: a second grade, the first of a flush. */
const kindOf = ({ place, pick }: JudgedPick): string => `${place} ${pick.record.grade}`;

/** The densities of a book's masses by their place in the flush and their grade. */
export type MassTails = (one: JudgedPick) => MassTail;

/** The likeliest densities for the book's own masses, of those tried: of all together, then of each place and side. */
export function learntTails(
  { byLot, judged, spreads }: MassModel,
  totals: FlushTotals,
  slips: readonly MassSlip[],
): MassTails {
  const every = Math.ceil(judged.length / ASKED);
  const asked: Asked[] = [];
  const byKind = new Map<string, Asked[]>();
  let nth = 0;
  for (const own of byLot.values()) {
    if (nth++ % every > 0) continue;
    seenFromOthers(own, spreads);
    totals.findDues(own);
    for (const one of own.all) {
      const ask = askedOf(one, slips);
      asked.push(ask);
      const kind = kindOf(one);
      const same = byKind.get(kind);
      if (same) same.push(ask);
      else byKind.set(kind, [ask]);
    }
  }
  let best = USUAL;
  let likeliest = BEFORE * crossed(USUAL, USUAL) + likelihoodOf(asked, USUAL);
  const consider = (tail: MassTail, of: readonly Asked[], before: (tail: MassTail) => number): void => {
    const likely = before(tail) + likelihoodOf(of, tail);
    if (likely > likeliest) [best, likeliest] = [tail, likely];
  };
  const usually = (tail: MassTail): number =>
    BEFORE * crossed(tail, USUAL) +
    LEFT_BEFORE * Math.log(1 - tail.left) +
    APART_BEFORE * Math.log(1 - tail.apart) -
    UNUSUAL;
  const all = (scale: number, degrees: number, left: number, apart: number): void =>
    consider(even(scale, degrees, left, apart), asked, usually);
  for (const scale of SCALES) for (const degrees of DEGREES) all(scale, degrees, 0, 0);
  for (let round = 0; round < ROUNDS; round++) {
    const asBefore = best;
    for (const left of LEFT) all(best.above.scale, best.above.degrees, left, best.apart);
    for (const apart of APART) all(best.above.scale, best.above.degrees, best.left, apart);
    for (const scale of SCALES) all(scale, best.above.degrees, best.left, best.apart);
    for (const degrees of DEGREES) all(best.above.scale, degrees, best.left, best.apart);
    // Another round would try the same again.
    if (best === asBefore) break;
  }
  const together = best;
  const asTogether = (tail: MassTail): number =>
    PLACE_BEFORE * crossed(tail, together) + LEFT_BEFORE * likeLeft(tail.left, together.left) - UNUSUAL;
  const ofKinds = new Map<string, MassTail>();
  for (const [kind, own] of byKind) {
    [best, likeliest] = [together, PLACE_BEFORE * crossed(together, together) + likelihoodOf(own, together)];
    for (let round = 0; round < ROUNDS; round++) {
      const asBefore = best;
      for (const scale of SCALES) {
        consider(new MassTail({ ...best.below, scale }, best.above, best.left, best.apart), own, asTogether);
        consider(new MassTail(best.below, { ...best.above, scale }, best.left, best.apart), own, asTogether);
      }
      for (const degrees of DEGREES) {
        consider(
          new MassTail({ ...best.below, degrees }, best.above, best.left, best.apart),
          own,
          asTogether,
        );
        consider(
          new MassTail(best.below, { ...best.above, degrees }, best.left, best.apart),
          own,
          asTogether,
        );
      }
      for (const left of LEFT)
        consider(new MassTail(best.below, best.above, left, best.apart), own, asTogether);
      if (best === asBefore) break;
    }
    ofKinds.set(kind, best);
  }
  return (one) => ofKinds.get(kindOf(one)) ?? together;
}

/** ln of how likely a pick of one share of those that hold what was left is by another share, in the mean. */
const likeLeft = (left: number, usual: number): number =>
  usual * Math.log(Math.max(left, 1e-3) / Math.max(usual, 1e-3)) +
  (1 - usual) * Math.log((1 - left) / (1 - usual));

function likelihoodOf(asked: readonly Asked[], tail: MassTail): number {
  let [likely, product] = [0, 1];
  for (const { residual, spread, left, apart, otherwise } of asked) {
    const near = tail.density(residual, spread);
    const own = apart === undefined || tail.apart === 0 ? near : (1 - tail.apart) * near + tail.apart * apart;
    const all = left === undefined ? own : (1 - tail.left) * own + tail.left * left;
    product *= (1 - OTHERWISE) * all + otherwise;
    // The product of many is one logarithm.
    if (product < 1e-100 || product > 1e100) [likely, product] = [likely + Math.log(product), 1];
  }
  return likely + Math.log(product);
}

function askedOf(
  { pick, residual, spread, due, apart, apartSpread }: JudgedPick,
  slips: readonly MassSlip[],
): Asked {
  let otherwise = OTHERWISE * Math.exp(USUAL.log(residual, OTHERWISE_SPREAD));
  // A slip teaches nothing of honest masses, or the only one of a small book would be its own measure.
  if (Math.abs(residual) > PLAIN * spread) {
    for (const { prior, factor } of slips)
      otherwise += SELDOM * Math.exp(prior + USUAL.log(residual - Math.log(factor), spread));
  }
  return {
    residual,
    spread,
    otherwise,
    apart: Number.isNaN(apart) ? undefined : Math.exp(USUAL.log(apart, apartSpread)),
    left: due && residual > 0 ? Math.exp(logLeft(due, pick.mass!)) : undefined,
  };
}

/** Quantiles of Student's density of 6 degrees at 5, 15, … 95%: one side. */
const QUANTILES = [0.065, 0.196, 0.333, 0.48, 0.643, 0.831, 1.058, 1.358, 1.811, 2.969];

/** ln of how likely an ordinary mass of one density is by another, in the mean. */
function crossed(tail: MassTail, { below, above }: MassTail): number {
  let sum = 0;
  for (const off of QUANTILES) sum += tail.log(-off * below.scale, 1) + tail.log(off * above.scale, 1);
  return sum / (2 * QUANTILES.length);
}
