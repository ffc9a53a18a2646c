import { compensatedSum } from '../shared/numeric';
import { FlushTotals } from './flushTotals';
import type { JudgedPick, LotPicks } from './judgedPick';
import { found, type KnownBook, type KnownPick } from './knownBook';
import { logTail, type Explanation } from './likelihood';
import type { MassModel } from './massModel';
import { seenFromOthers } from './massNeighbours';
import { decimalsOf, extraDigits, undone, type MassSlip, type TypedDigits } from './massSlips';
import { learntTails, type MassTail } from './massTail';
import {
  learntRates,
  NEAR,
  ODD,
  ODD_SPREAD,
  verdictOn,
  type Explained,
  type Rates,
  type Verdict,
} from './slipRates';

const RIGHT = Math.log(0.985);
/** Another slip is said beside the likeliest from this share on. */
const RIVAL = 0.05;
/** Where no one slip is likelier than all else, the mass is told only from this share of all slips. */
const EITHER = 0.9;
/** An odd mass is told only from this share: nobody can do much about it. */
const ODD_TOLD = 0.97;
/** A total that agrees once a slip is undone, within its rounding: worth as much as a hundred to one. */
const TOTAL_AGREES = Math.log(100);
/** A block gives little often, but hardly ever more than three times what is usual: ln 3, and how fast it grows rarer. */
const MUCH = 1.1;
const tooMuch = (residual: number): number => 1.5 * Math.max(0, residual - MUCH) ** 2;
const MOST_SLIPS_A_LOT = 40;

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
      const right = RIGHT + tail.logOf(one, 0, one.pick.mass!, tooMuch);
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

/** Settles the mass of a lot that is most surely wrong. */
function settleWorst(book: KnownBook, explained: readonly Explained[], rates: Rates): boolean {
  let worst: { verdict: Verdict; one: JudgedPick } | undefined;
  for (const mass of explained) {
    const verdict = verdictOn(mass, rates);
    if (verdict.wrong > 0.5 && !(worst && worst.verdict.margin >= verdict.margin))
      worst = { verdict, one: mass.one };
  }
  if (!worst) return false;
  const { one, verdict } = worst;
  const { pick } = one;
  const { wrong, slipped, slips } = verdict;
  const expected = pick.mass! / Math.exp(one.residual);
  const [named, ...others] = slips;
  if (!named || (named.sure < 0.5 && slipped < EITHER)) {
    one.counts = false;
    if (wrong > ODD_TOLD && rates.odd <= 0)
      book.findings.push(found(pick.record, 'mass odd', 'mass', pick.mass!, { expected, sure: wrong }));
    return true;
  }
  const corrected = meantBy(pick, named.of);
  const rivals = others
    .filter(({ sure }) => sure >= RIVAL)
    .map(({ of, sure }) => ({ slip: of.slip, corrected: meantBy(pick, of), sure }));
  book.findings.push(
    found(pick.record, 'mass', 'mass', pick.mass!, {
      expected,
      corrected,
      slip: named.of.slip,
      sure: named.sure,
      wrong,
      ...(rivals.length > 0 && { rivals }),
      ...(pick.tare > 0 && { tare: pick.tare }),
    }),
  );
  one.off -= Math.log(pick.tare === 0 ? named.of.factor : pick.mass! / corrected);
  pick.mass = corrected;
  one.isSettled = true;
  return true;
}

/** The mass with the slip undone in what was typed. */
const meantBy = ({ mass, tare }: KnownPick, slip: MassSlip): number =>
  tare === 0 ? undone(mass!, slip) : Number((undone(mass! + tare, slip) - tare).toPrecision(12));

function explanations(
  own: readonly JudgedPick[],
  one: JudgedPick,
  tail: MassTail,
  slips: readonly MassSlip[],
  digits: TypedDigits,
): Explanation<MassSlip | 'odd'>[] {
  const { pick, residual } = one;
  const total = pick.lot?.total;
  const sum = total === undefined ? 0 : compensatedSum(own.map((other) => other.pick.mass!));
  const all: Explanation<MassSlip | 'odd'>[] = [{ weight: ODD + logTail(residual, ODD_SPREAD), of: 'odd' }];
  // The hand slipped in the mass that was typed, crate and all.
  const typed = pick.mass! + pick.tare;
  for (const slip of [...slips, ...extraDigits(typed)]) {
    const meant = meantBy(pick, slip);
    if (meant <= 0) continue;
    const after = sum - pick.mass! + meant;
    const moved = Math.log(pick.tare === 0 ? slip.factor : pick.mass! / meant);
    const agrees =
      total !== undefined && agreesWith(total, after, own.length) && !agreesWith(total, sum, own.length);
    all.push({
      weight:
        slip.prior +
        tail.logOf(one, moved, meant) +
        digits.evidence(typed, slip) +
        (agrees ? TOTAL_AGREES : 0),
      of: slip,
    });
  }
  return all;
}
