import { FlushTotals } from '../../../../src/maths/audit/flushTotals';
import type { JudgedPick } from '../../../../src/maths/audit/judgedPick';
import { knownBook } from '../../../../src/maths/audit/knownBook';
import { massModel } from '../../../../src/maths/audit/massModel';
import { seenFromOthers } from '../../../../src/maths/audit/massNeighbours';
import { TypedDigits, massSlipsOf } from '../../../../src/maths/audit/massSlips';
import type { LotRecord, PickRecord } from '../../../../src/maths/audit/yieldRecords';
import { seeded } from '../../../bench/measure';
import type { Book } from './farms';

// What could be had of slipped decimals at most: a scorer that is given what no grower's book tells. It knows the farm from
// thousands of its lots: what every strain, flush, place and picker makes usual, how masses of each kind truly scatter about
// what their neighbours make of them, and how often a decimal slips. It goes by the odds of ten times and of a tenth
// against right, with no other slip to be taken in by, and sets its bar where it has the false alarms that are allowed.

/** Books of the farm that it has seen, none of them the one that is judged. */
const SEEN = 40;
/** Books judged at once, and slipped decimals in each: as many as a book of the table holds. */
const JUDGED = 12;
const SLIPS = 6;
/** False alarms in 1,000 rows that the oracle may have, of decimals alone. */
const ALLOWED = 0.5;
const TEN = Math.log(10);
/** Bins of the densities, on the scale of natural logarithms, and how far they reach. */
const BIN = 0.1;
const REACH = 7;
/** A bin is smoothed over so many spreads of a bell. */
const SMOOTH = 0.25;
/** What a kind's own masses count for against those of all. */
const HELD = 30;
const LEAST = 1e-7;

interface Context {
  readonly kind: string;
  readonly wide: string;
}

/** How much of its flush is on record without a pick, in four steps: a flush that lacks little leaves little for it. */
function contextOf(one: JudgedPick): Context {
  const { due } = one;
  const without = due === undefined ? '' : Math.log(Math.max(1e-9, due.others)) - due.whole;
  const lacking = without === '' ? '' : without < -2 ? 0 : without < -0.7 ? 1 : without < 0 ? 2 : 3;
  const { place, pick } = one;
  return {
    kind: `${place} ${pick.record.grade} ${lacking} ${pick.lot!.strainKey}`,
    wide: `${place} ${lacking}`,
  };
}

/** A density of offs in bins, smoothed. */
class Binned {
  private readonly counts = new Float64Array(2 * Math.round(REACH / BIN) + 1);
  all = 0;

  add(off: number): void {
    const at = Math.round((Math.max(-REACH, Math.min(REACH, off)) + REACH) / BIN);
    this.counts[at]!++;
    this.all++;
  }

  at(off: number): number {
    let sum = 0;
    this.counts.forEach((count, i) => {
      if (count > 0) sum += count * Math.exp(-0.5 * ((off - i * BIN + REACH) / SMOOTH) ** 2);
    });
    return sum / (SMOOTH * Math.sqrt(2 * Math.PI));
  }
}

const named = (label: string, copy: number): string => `${label}~${copy}`;

/** Percent of tenfold and of tenth masses that are named, with as many false alarms as are allowed at most. */
export function oracleOfDecimals(
  farm: (scatter: number, seed: number) => Book,
  scatter: number,
  from: number,
): { readonly right: number; readonly left: number } {
  const picks: PickRecord[] = [];
  const lots: LotRecord[] = [];
  const truth = new Map<number, number>();
  const judged = new Set<number>();
  let first: Book | undefined;
  for (let copy = 0; copy < SEEN + JUDGED; copy++) {
    const book = farm(scatter, from + copy);
    first ??= book;
    const random = seeded(from + copy);
    const slipped = new Map<number, number>();
    const taken = new Set<string>();
    while (copy < JUDGED && slipped.size < SLIPS) {
      const { row, lot, mass } = book.picks[Math.floor(random() * book.picks.length)]!;
      if (taken.has(lot) || typeof mass !== 'number') continue;
      taken.add(lot);
      slipped.set(row, slipped.size % 2 ? 10 : 0.1);
    }
    for (const pick of book.picks) {
      const row = picks.length + 2;
      const factor = slipped.get(pick.row) ?? 1;
      if (copy < JUDGED) judged.add(row);
      if (factor !== 1) truth.set(row, factor);
      // Each book has years of its own, so that no two share a day.
      const date = Number(pick.date) - 40_000 + 2_000 * copy;
      const mass = typeof pick.mass === 'number' ? Number((pick.mass * factor).toPrecision(4)) : pick.mass;
      picks.push({ ...pick, row, lot: named(pick.lot, copy), date, mass });
    }
    for (const lot of book.lots) {
      const moved = (serial: LotRecord['loaded']): LotRecord['loaded'] =>
        typeof serial === 'number' ? serial - 40_000 + 2_000 * copy : serial;
      const [inoculated, loaded] = [moved(lot.inoculated), moved(lot.loaded)];
      lots.push({ ...lot, row: lots.length + 2, lot: named(lot.lot, copy), inoculated, loaded });
    }
  }
  const model = massModel(knownBook(picks, lots, first!.strains));
  const totals = new FlushTotals(model);
  const kinds = new Map<string, Binned>();
  const binned = (kind: string): Binned => {
    let own = kinds.get(kind);
    if (!own) kinds.set(kind, (own = new Binned()));
    return own;
  };
  const asked: { readonly one: JudgedPick; readonly of: Context }[] = [];
  for (const own of model.byLot.values()) {
    seenFromOthers(own, model.spreads);
    totals.findDues(own);
    for (const one of own.all) {
      const of = contextOf(one);
      if (judged.has(one.pick.record.row)) asked.push({ one, of });
      else for (const kind of [of.kind, of.wide]) binned(kind).add(one.residual);
    }
  }
  const digits = new TypedDigits(model.judged.map(({ pick }) => pick.mass!));
  const [tenfold, tenth] = massSlipsOf(first!.unit).filter(({ slip }) => slip.startsWith('decimal'));
  const often = SLIPS / 2 / (asked.length / JUDGED);
  const scored = asked.map(({ one, of }) => {
    const [own, wide] = [binned(of.kind), binned(of.wide)];
    const density = (off: number): number =>
      (own.at(off) + (HELD * wide.at(off)) / wide.all + LEAST) / (own.all + HELD);
    const { mass, record } = one.pick;
    const right = (1 - 2 * often) * density(one.residual);
    const up = often * density(one.residual - TEN) * Math.exp(digits.evidence(mass!, tenfold!));
    const down = often * density(one.residual + TEN) * Math.exp(digits.evidence(mass!, tenth!));
    return { odds: Math.max(up, down) / right, named: up > down ? 10 : 0.1, is: truth.get(record.row) };
  });
  // As many false alarms as are allowed, and not one more.
  const alarms = scored.filter(({ is }) => is === undefined).map(({ odds }) => odds);
  const least = alarms.sort((a, b) => b - a)[Math.floor((ALLOWED * asked.length) / 1000)]!;
  const found = (factor: number): number =>
    scored.filter(({ odds, named, is }) => is === factor && named === is && odds > least).length;
  const each = (JUDGED * SLIPS) / 2;
  return {
    right: (100 * found(10)) / each,
    left: (100 * found(0.1)) / each,
  };
}
