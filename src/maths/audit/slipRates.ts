import type { JudgedPick } from './judgedPick';
import { learntOften, NEARLY_SURE, type Explanation } from './likelihood';
import type { MassSlip } from './massSlips';
import type { Slip } from './yieldRecords';

/** An honest mass that is simply odd: a wide bell. */
export const ODD = Math.log(0.004);
export const ODD_SPREAD = 1;
/** Nearer than this to what was expected, no slip is likelier than chance. */
export const NEAR = 1.5;
/** A mass ten times too large spoils a lot's crop: it is worth two rows looked at in vain. */
const WORTH = 2;

/** A mass that is far from what was expected, and what may explain it. */
export interface Explained {
  readonly one: JudgedPick;
  readonly right: number;
  readonly others: readonly Explanation<MassSlip | 'odd'>[];
}

/** ln of how much more or less often masses are slipped or honestly odd in a book than was taken before. */
export interface Rates {
  readonly slips: number;
  readonly odd: number;
  /** Which slips the book holds, each against how often it was taken before: whether a mass is slipped is not judged by it. */
  readonly mix: ReadonlyMap<Slip, number>;
}

const ROUNDS = 8;
/** A book is taken to hold so many odd masses beside those that it shows. */
const ODD_BEFORE = 1;
const LEAST_ODD = 0.25;
/** Before a book shows which slips it holds it is taken to hold so many, each as often as ever. */
const MIXED_BEFORE = 3;

/** How likely an odd mass is to be farther off than this: of Student's density of 6 degrees, to a few hundredths. */
const beyond = (off: number): number => (1 + (off / ODD_SPREAD) ** 2) ** -1.5;

/**
 * Learns how often masses are slipped and how often they are only odd (EM): a book whose masses lie anywhere has many that
 * are odd, a tenth and ten times among them, and a clean one raises its own bar.
 */
export function learntRates(
  explained: readonly Explained[],
  judged: readonly JudgedPick[],
  slips: readonly MassSlip[],
): Rates {
  let expected = 0;
  for (const { spread } of judged) expected += Math.exp(ODD) * beyond(NEAR * spread);
  const expectedSlips = judged.length * slips.reduce((sum, { prior }) => sum + Math.exp(prior), 0);
  const likely = explained.map(({ right, others }) => {
    let [odd, slipped] = [0, 0];
    for (const { weight, of } of others) {
      if (of === 'odd') odd += Math.exp(weight - right);
      else slipped += Math.exp(weight - right);
    }
    return { odd, slipped };
  });
  let [often, slipping] = [1, 0];
  for (let round = 0; round < ROUNDS; round++) {
    slipping = learntOften(
      likely.map(({ odd, slipped }) => slipped / (1 + often * odd)),
      expectedSlips,
    );
    let seen = ODD_BEFORE;
    for (const { odd, slipped } of likely)
      seen += (often * odd) / (1 + often * odd + Math.exp(slipping) * slipped);
    often = Math.max(LEAST_ODD, seen / (expected + ODD_BEFORE));
  }
  const rates = { slips: Math.min(0, slipping + Math.log(WORTH)), odd: Math.log(often), mix: new Map() };
  return { ...rates, mix: learntMix(explained, slips, rates) };
}

/** Learns which slips a book holds (EM) by its masses that are slipped: whoever typed ounces once has done so again. */
function learntMix(
  explained: readonly Explained[],
  slips: readonly MassSlip[],
  rates: Rates,
): ReadonlyMap<Slip, number> {
  const all = slips.reduce((sum, { prior }) => sum + Math.exp(prior), 0);
  const usual = new Map<Slip, number>();
  for (const { slip, prior } of slips) usual.set(slip, (usual.get(slip) ?? 0) + Math.exp(prior) / all);
  const slipped = explained.filter((one) => verdictOn(one, rates).slipped > 0.5);
  let mix = rates.mix;
  for (let round = 0; round < ROUNDS; round++) {
    const seen = new Map<Slip, number>();
    for (const one of slipped) {
      const verdict = verdictOn(one, { ...rates, mix });
      for (const { of, sure } of verdict.slips)
        seen.set(of.slip, (seen.get(of.slip) ?? 0) + sure / verdict.slipped);
    }
    mix = new Map(
      Array.from(usual, ([slip, share]) => [
        slip,
        (MIXED_BEFORE + (seen.get(slip) ?? 0) / share) / (MIXED_BEFORE + slipped.length),
      ]),
    );
  }
  return mix;
}

/** What a mass is judged to be. */
export interface Verdict {
  /** The share of all explanations that is not "right", and that of the slips. */
  readonly wrong: number;
  readonly slipped: number;
  /** ln of how much likelier the likeliest other explanation is than "right". */
  readonly margin: number;
  /** The slips, the likeliest first, each with its share of all. */
  readonly slips: readonly { readonly of: MassSlip; readonly sure: number }[];
}

export function verdictOn({ right, others }: Explained, { slips: ofSlips, odd: ofOdd, mix }: Rates): Verdict {
  let [odd, slipped, mixed] = [0, 0, 0];
  let margin = -Infinity;
  const slips: { of: MassSlip; sure: number }[] = [];
  for (const { weight, of } of others) {
    const above = weight - right + (of === 'odd' ? ofOdd : ofSlips);
    if (above > margin) margin = above;
    if (of === 'odd') odd = Math.exp(above);
    else {
      slipped += Math.exp(above);
      const sure = Math.exp(above) * (mix.get(of.slip) ?? 1);
      mixed += sure;
      slips.push({ of, sure });
    }
  }
  const all = 1 + odd + slipped;
  for (const one of slips) one.sure = Math.min(NEARLY_SURE, ((one.sure / mixed) * slipped) / all);
  slips.sort((a, b) => b.sure - a.sure);
  return { wrong: Math.min(NEARLY_SURE, (odd + slipped) / all), slipped: slipped / all, margin, slips };
}
