import { compensatedSum } from '../shared/numeric';
import { FlushTotals } from './flushTotals';
import type { JudgedPick, LotPicks } from './judgedPick';
import { found, type KnownBook } from './knownBook';
import { learntOften, logTail, weigh, type Explanation } from './likelihood';
import type { MassModel } from './massModel';
import { seenFromOthers } from './massNeighbours';
import { decimalsOf, extraDigits, undone, type MassSlip, type TypedDigits } from './massSlips';
import { learntTails, type MassTail } from './massTail';

const RIGHT = Math.log(0.985);
/** An honest mass that is simply odd: a wide bell. */
const ODD = Math.log(0.004);
const ODD_SPREAD = 1;
/** Another slip is said beside the likeliest from this share on. */
const RIVAL = 0.05;
/** An odd mass is told only from this share: nobody can do much about it. */
const ODD_TOLD = 0.97;
/** A total that agrees once a slip is undone, within its rounding: worth as much as a hundred to one. */
const TOTAL_AGREES = Math.log(100);
/** A block gives little often, but hardly ever more than three times what is usual: ln 3, and how fast it grows rarer. */
const MUCH = 1.1;
const tooMuch = (residual: number): number => 1.5 * Math.max(0, residual - MUCH) ** 2;
/** Nearer than this to what was expected, no slip is likelier than chance. */
const NEAR = 1.5;
const MOST_SLIPS_A_LOT = 40;
/** A mass ten times too large spoils a lot's crop: it is worth two rows looked at in vain. */
const WORTH = 2;

/** Typed totals are rounded to their last digit; this share, and this much for each row, may be off besides. */
const TOTAL_SHARE = 0.002;
const TOTAL_PER_ROW = 0.005;

export const agreesWith = (total: number, sum: number, rows: number): boolean =>
  Math.abs(total - sum) <= 0.5 * 10 ** -decimalsOf(total) + TOTAL_SHARE * total + TOTAL_PER_ROW * rows;

/** Masses that a slip explains better than "right", judged lot by lot, the worst first. */
export function judgeMasses(
  book: KnownBook,
  model: MassModel,
  slips: readonly MassSlip[],
  digits: TypedDigits,
): void {
  const totals = new FlushTotals(model);
  const tails = learntTails(model, totals, slips);
  const explained = (own: LotPicks): Explained[] => {
    seenFromOthers(own, model.spreads);
    totals.findDues(own);
    const all: Explained[] = [];
    for (const one of own.all) {
      if (!one.counts || one.isSettled || Math.abs(one.residual) < NEAR * one.spread) continue;
      const tail = tails(one);
      const near = tail.log(one.residual, one.spread) - tooMuch(one.residual);
      const right = RIGHT + tail.withLeft(near, one.residual, one.due, one.pick.mass!);
      all.push({ one, right, others: explanations(own.all, one, tail, slips, digits) });
    }
    return all;
  };
  const asTyped = new Map([...model.byLot.values()].map((own) => [own, explained(own)]));
  const often = learntRates([...asTyped.values()].flat(), model.judged, slips);
  for (const [own, first] of asTyped) {
    for (
      let [settled, left] = [0, first];
      settled < MOST_SLIPS_A_LOT && settleWorst(book, left, often);
      settled++, left = explained(own)
    );
  }
}

/** A mass that is far from what was expected, and what may explain it. */
interface Explained {
  readonly one: JudgedPick;
  readonly right: number;
  readonly others: readonly Explanation<MassSlip | 'odd'>[];
}

/** ln of how much more or less often masses are slipped or honestly odd in a book than was taken before. */
interface Rates {
  readonly slips: number;
  readonly odd: number;
}

const ROUNDS = 8;
/** A book is taken to hold so many odd masses beside those that it shows. */
const ODD_BEFORE = 1;
const LEAST_ODD = 0.25;

/** How likely an odd mass is to be farther off than this: of Student's density of 6 degrees, to a few hundredths. */
const beyond = (off: number): number => (1 + (off / ODD_SPREAD) ** 2) ** -1.5;

/**
 * Learns how often masses are slipped and how often they are only odd (EM): a book whose masses lie anywhere has many that
 * are odd, a tenth and ten times among them, and a clean one raises its own bar.
 */
function learntRates(
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
  return { slips: Math.min(0, slipping + Math.log(WORTH)), odd: Math.log(often) };
}

function settleWorst(book: KnownBook, explained: readonly Explained[], often: Rates): boolean {
  let worst: { one: JudgedPick; right: number; others: Explained['others']; margin: number } | undefined;
  for (const { one, right, others: asBefore } of explained) {
    const others = asBefore.map(({ weight, of }) => ({
      weight: weight + (of === 'odd' ? often.odd : often.slips),
      of,
    }));
    const margin = Math.max(...others.map(({ weight }) => weight)) - right;
    if (weigh(right, others).wrong > 0.5 && !(worst && worst.margin >= margin)) {
      worst = { one, right, others, margin };
    }
  }
  if (!worst) return false;
  const { one, right, others } = worst;
  const { best: slip = 'odd', wrong, share, all } = weigh(right, others);
  const { pick } = one;
  const expected = pick.mass! / Math.exp(one.residual);
  const rivals = others.flatMap(({ weight, of }) => {
    const sure = Math.exp(weight - all);
    return of === 'odd' || of === slip || sure < RIVAL
      ? []
      : [{ slip: of.slip, corrected: undone(pick.mass!, of), sure }];
  });
  if (slip === 'odd' || share + rivals.reduce((sum, { sure }) => sum + sure, 0) < 0.5) {
    one.counts = false;
    if (wrong > ODD_TOLD && often.odd <= 0)
      book.findings.push(found(pick.record, 'mass odd', 'mass', pick.mass!, { expected, sure: wrong }));
    return true;
  }
  const corrected = undone(pick.mass!, slip);
  book.findings.push(
    found(pick.record, 'mass', 'mass', pick.mass!, {
      expected,
      corrected,
      slip: slip.slip,
      sure: share,
      wrong,
      ...(rivals.length > 0 && { rivals: rivals.sort((a, b) => b.sure - a.sure) }),
    }),
  );
  pick.mass = corrected;
  one.isSettled = true;
  one.off -= Math.log(slip.factor);
  return true;
}

function explanations(
  own: readonly JudgedPick[],
  { pick, residual, spread, due }: JudgedPick,
  tail: MassTail,
  slips: readonly MassSlip[],
  digits: TypedDigits,
): Explanation<MassSlip | 'odd'>[] {
  const total = pick.lot?.total;
  const sum = total === undefined ? 0 : compensatedSum(own.map((other) => other.pick.mass!));
  const all: Explanation<MassSlip | 'odd'>[] = [{ weight: ODD + logTail(residual, ODD_SPREAD), of: 'odd' }];
  for (const slip of [...slips, ...extraDigits(pick.mass!)]) {
    const meant = undone(pick.mass!, slip);
    const after = sum - pick.mass! + meant;
    const off = residual - Math.log(slip.factor);
    const near = tail.log(off, spread);
    const agrees =
      total !== undefined && agreesWith(total, after, own.length) && !agreesWith(total, sum, own.length);
    all.push({
      weight:
        slip.prior +
        tail.withLeft(near, off, due, meant) +
        digits.evidence(pick.mass!, slip) +
        (agrees ? TOTAL_AGREES : 0),
      of: slip,
    });
  }
  return all;
}
