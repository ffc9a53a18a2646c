import { seenFromOthers, type MassModel } from './massModel';

/** What is tried: how much wider than the model says masses lie, and how heavy their tails are. */
const SCALES = [0.8, 0.9, 1, 1.15, 1.3, 1.5, 1.75];
const DEGREES = [4, 6, 10, 20];
/** Picks that are asked; more tell nothing new. */
const ASKED = 800;
/** Before a book shows otherwise: as many picks of 6 degrees, as wide as the model says. */
const BEFORE = 40;
/** A mass that a slip made another, or that is honestly odd: this often, and this wide. */
const OTHERWISE = 0.015;
const OTHERWISE_SPREAD = 1.5;

const HALF_LN_TWO_PI = 0.9189;

/** How masses lie about what their neighbours make of them: Student's density, as wide and as heavy as the book shows. */
export class MassTail {
  constructor(
    private readonly scale: number,
    private readonly degrees: number,
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
}

const USUAL = new MassTail(1, 6);

/** The likeliest density for the book's own masses, of those tried. */
export function learntTail({ byLot, judged, spreads }: MassModel): MassTail {
  const every = Math.ceil(judged.length / ASKED);
  const asked: { residual: number; spread: number; otherwise: number }[] = [];
  let nth = 0;
  for (const own of byLot.values()) {
    if (nth++ % every > 0) continue;
    seenFromOthers(own, spreads);
    for (const { residual, spread } of own) {
      const otherwise = OTHERWISE * Math.exp(USUAL.log(residual, OTHERWISE_SPREAD));
      asked.push({ residual, spread, otherwise });
    }
  }
  let best = USUAL;
  let most = -Infinity;
  for (const scale of SCALES) {
    for (const degrees of DEGREES) {
      const tail = new MassTail(scale, degrees);
      let likely = BEFORE * crossed(tail);
      for (const { residual, spread, otherwise } of asked)
        likely += Math.log((1 - OTHERWISE) * Math.exp(tail.log(residual, spread)) + otherwise);
      if (likely > most) [most, best] = [likely, tail];
    }
  }
  return best;
}

/** Quantiles of Student's density of 6 degrees at 5, 15, … 95%: one side. */
const QUANTILES = [0.065, 0.196, 0.333, 0.48, 0.643, 0.831, 1.058, 1.358, 1.811, 2.969];

/** ln of how likely an ordinary mass is by a density, in the mean. */
const crossed = (tail: MassTail): number =>
  QUANTILES.reduce((sum, off) => sum + tail.log(off, 1), 0) / QUANTILES.length;
