import { logLeft, type Due, type FlushTotals } from './flushTotals';
import { seenFromOthers, type JudgedPick, type MassModel } from './massModel';

/** What is tried: how much wider than the model says masses lie, and how heavy their tails are. */
const SCALES = [0.8, 0.9, 1, 1.15, 1.3, 1.5, 1.75];
const DEGREES = [4, 6, 10, 20];
/** How often a pick may hold all that was left of its flush. */
const LEFT = [0, 0.05, 0.1, 0.2];
/** Picks that are asked; more tell nothing new. */
const ASKED = 800;
/** Before a book shows otherwise: as many picks of 6 degrees, as wide as the model says. */
const BEFORE = 40;
/** And as many that do not hold what was left: a slip among few picks is no habit. */
const LEFT_BEFORE = 60;
const ROUNDS = 2;
/** A mass that a slip made another, or that is honestly odd: this often, and this wide. */
const OTHERWISE = 0.015;
const OTHERWISE_SPREAD = 1.5;

const HALF_LN_TWO_PI = 0.9189;

/** How masses lie about what their neighbours make of them: Student's density, as wide and as heavy as the book shows. */
export class MassTail {
  constructor(
    private readonly scale: number,
    private readonly degrees: number,
    /** How often a pick holds all that was left of its flush. */
    private readonly left = 0,
  ) {}

  log(off: number, spread: number): number {
    const { scale, degrees } = this;
    const wide = scale * spread;
    // Γ((n + 1) / 2) / (Γ(n / 2) √(n π)) is 1 / √(2 π) less 1 / 4n of it, to a thousandth from n = 4 on.
    return (
      -HALF_LN_TWO_PI -
      1 / (4 * degrees) -
      ((degrees + 1) / 2) * Math.log1p((off / wide) ** 2 / degrees) -
      Math.log(wide)
    );
  }

  /** ln of how likely a mass is that is so far off, where `near` is how likely its neighbours make it. */
  withLeft(near: number, off: number, due: Due | undefined, mass: number): number {
    // What is left grows over days; less than usual is no such thing.
    if (this.left === 0 || !due || off < 0) return near;
    return Math.log((1 - this.left) * Math.exp(near) + this.left * Math.exp(logLeft(due, mass)));
  }
}

const USUAL = new MassTail(1, 6);

interface Asked {
  readonly residual: number;
  readonly spread: number;
  /** How likely as a slip or an oddity, and, of more than usual, as all that was left of its flush. */
  readonly otherwise: number;
  readonly left: number | undefined;
}

/** The likeliest density for the book's own masses, of those tried. */
export function learntTail({ byLot, judged, spreads }: MassModel, totals: FlushTotals): MassTail {
  const every = Math.ceil(judged.length / ASKED);
  const asked: Asked[] = [];
  let nth = 0;
  for (const own of byLot.values()) {
    if (nth++ % every > 0) continue;
    seenFromOthers(own, spreads);
    const dues = totals.dues(own);
    for (const one of own) asked.push(askedOf(one, dues.get(one)));
  }
  let best = { scale: 1, degrees: 6, left: 0, likely: -Infinity };
  const consider = (scale: number, degrees: number, left: number): void => {
    const tail = new MassTail(scale, degrees);
    let likely = BEFORE * crossed(tail) + LEFT_BEFORE * Math.log(1 - left);
    for (const one of asked) {
      const near = Math.exp(tail.log(one.residual, one.spread));
      const all = one.left === undefined ? near : (1 - left) * near + left * one.left;
      likely += Math.log((1 - OTHERWISE) * all + one.otherwise);
    }
    if (likely > best.likely) best = { scale, degrees, left, likely };
  };
  for (const scale of SCALES) for (const degrees of DEGREES) consider(scale, degrees, 0);
  for (let round = 0; round < ROUNDS; round++) {
    for (const left of LEFT) consider(best.scale, best.degrees, left);
    for (const scale of SCALES) consider(scale, best.degrees, best.left);
    for (const degrees of DEGREES) consider(best.scale, degrees, best.left);
  }
  return new MassTail(best.scale, best.degrees, best.left);
}

function askedOf({ pick, residual, spread }: JudgedPick, due: Due | undefined): Asked {
  return {
    residual,
    spread,
    otherwise: OTHERWISE * Math.exp(USUAL.log(residual, OTHERWISE_SPREAD)),
    left: due && residual > 0 ? Math.exp(logLeft(due, pick.mass!)) : undefined,
  };
}

/** Quantiles of Student's density of 6 degrees at 5, 15, … 95%: one side. */
const QUANTILES = [0.065, 0.196, 0.333, 0.48, 0.643, 0.831, 1.058, 1.358, 1.811, 2.969];

/** ln of how likely an ordinary mass is by a density, in the mean. */
const crossed = (tail: MassTail): number =>
  QUANTILES.reduce((sum, off) => sum + tail.log(off, 1), 0) / QUANTILES.length;
