import { median } from '../shared/statistics';
import { found, type KnownBook } from './knownBook';
import { grouped, logTail } from './likelihood';
import {
  heardIn,
  massModel,
  seenTogether,
  type GroupEffect,
  type JudgedPick,
  type MassModel,
} from './massModel';
import { tellTare, worstTare } from './groupTares';
import type { MassSlip } from './massSlips';

/** Fewer picks than this are no group. */
const LEAST_PICKS = 5;
/** People and scales differ honestly by about this much, on the scale of natural logarithms. */
const BETWEEN = 0.12;
/** ln of how often a person or a scale is off throughout. */
const OFF_THROUGHOUT = Math.log(0.01);
/** ln of how often a given stretch of days is off, apart from how many such stretches there are. */
const OFF_AWHILE = Math.log(0.4);
/** Picks of one stretch share their lots and their weather: they count for less than as many of their own. */
const TOGETHER = 0.85;
const MOST_A_PICK = 5;
const MOST_FINDINGS = 20;

/**
 * Masses that are all off by one factor: of a picker, a scale or a crate throughout, or on a stretch of days. Nothing
 * shows in a single mass; together they do.
 *
 * @returns the model of the book with what was found corrected
 */
export function judgeGroups(book: KnownBook, known: MassModel, slips: readonly MassSlip[]): MassModel {
  let model = known;
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const throughout = worstThroughout(model, slips);
    if (!throughout) break;
    const { group, slip, odds } = throughout;
    tell(book, group.members, slip, odds, `${group.column} ${group.name}`);
    model = massModel(book);
  }
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const tare = worstTare(model);
    if (!tare) break;
    tellTare(book, tare);
    model = massModel(book);
  }
  for (let round = 0; round < MOST_FINDINGS; round++) {
    const stretch = worstStretch(model, slips);
    if (!stretch) break;
    const { members, slip, odds, about } = stretch;
    tell(book, members, slip, odds, about);
    for (const one of members) one.off -= Math.log(slip.factor);
  }
  return model;
}

function tell(
  book: KnownBook,
  members: readonly JudgedPick[],
  { slip, factor }: MassSlip,
  odds: number,
  about: string,
): void {
  const rows = members.map(({ pick }) => pick.record.row).sort((a, b) => a - b);
  const first = members.reduce((one, other) =>
    other.pick.record.row < one.pick.record.row ? other : one,
  ).pick;
  book.findings.push(
    found(first.record, 'group', 'mass', first.mass!, {
      rows,
      corrected: first.mass! / factor,
      slip,
      factor,
      about,
      sure: Math.min(0.9999, 1 / (1 + Math.exp(-odds))),
    }),
  );
  for (const { pick } of members) pick.mass! /= factor;
}

function worstThroughout(
  { groups, spreads }: MassModel,
  slips: readonly MassSlip[],
): { group: GroupEffect; slip: MassSlip; odds: number } | undefined {
  let worst: ReturnType<typeof worstThroughout>;
  for (const group of groups) {
    const others = groups.filter(({ column, name }) => column === group.column && name !== group.name);
    if (others.length === 0 || group.members.length < LEAST_PICKS) continue;
    const off = group.effect - median(others.map(({ effect }) => effect));
    const lots = new Set(group.members.map(({ pick }) => pick.lot)).size;
    const spread = Math.hypot(
      BETWEEN,
      (1.3 * spreads.pick) / Math.sqrt(group.members.length),
      spreads.lot / lots,
    );
    for (const slip of slips) {
      const odds = OFF_THROUGHOUT + logTail(off - Math.log(slip.factor), spread) - logTail(off, spread);
      if (odds > 0 && !(worst && worst.odds >= odds)) worst = { group, slip, odds };
    }
  }
  return worst;
}

interface Stretch {
  readonly members: JudgedPick[];
  readonly slip: MassSlip;
  readonly odds: number;
  readonly about: string;
}

/** The picks of one lot and day that would be off together, seen from the lot's other picks. */
interface Block {
  readonly members: readonly JudgedPick[];
  readonly off: number;
  readonly spread: number;
}

function worstStretch(
  { judged, byLot, spreads }: MassModel,
  slips: readonly MassSlip[],
): Stretch | undefined {
  // First and later flushes that cannot be told apart look like good and bad days.
  const dated = judged.filter(({ pick }) => pick.day !== undefined && pick.flush !== undefined);
  const heard = new Map([...byLot].map(([lot, own]) => [lot, heardIn(own, spreads)]));
  let worst: Stretch | undefined;
  const consider = (members: JudgedPick[], about: string): void => {
    const days = [...grouped(members, ({ pick }) => pick.day!)]
      .sort(([a], [b]) => a - b)
      .map(([, ofDay]) =>
        [...grouped(ofDay, ({ pick }) => pick.lot!)].map(([lot, own]): Block => ({
          members: own,
          ...seenTogether(own, heard.get(lot)!, spreads),
        })),
      );
    for (const slip of slips) {
      const stretch = likeliestStretch(days, slip);
      if (stretch && !(worst && worst.odds >= stretch.odds)) worst = { ...stretch, slip, about };
    }
  };
  consider(dated, '');
  for (const column of ['picker', 'scale', 'crate'] as const) {
    const groups = grouped(dated, ({ pick }) => pick.record[column]);
    if (groups.size < 2) continue;
    for (const [name, members] of groups) {
      if (name !== '' && members.length >= LEAST_PICKS) consider(members, `${column} ${name}`);
    }
  }
  return worst;
}

/** The run of days that a factor explains best (Kadane's method): ln of the odds that it is off. */
function likeliestStretch(
  days: readonly (readonly Block[])[],
  { factor }: MassSlip,
): { members: JudgedPick[]; odds: number } | undefined {
  const log = Math.log(factor);
  const gain = ({ members, off, spread }: Block): number => {
    const most = MOST_A_PICK * Math.min(2, members.length);
    return Math.max(-most, Math.min(most, logTail(off - log, spread) - logTail(off, spread)));
  };
  const gains = days.map((blocks) => blocks.reduce((sum, one) => sum + gain(one), 0));
  const where = Math.log(days.length + 1);
  let best: { from: number; to: number; odds: number } | undefined;
  let [from, running] = [0, 0];
  gains.forEach((own, to) => {
    if (running <= 0) [from, running] = [to, 0];
    running += own;
    // One day of its own is one of as many as there are days; a run has an end as well as a start.
    for (const [start, sum, chance] of [
      [from, running, from === to ? where : where + Math.log(10)],
      [to, own, where],
    ] as const) {
      const odds = OFF_AWHILE + TOGETHER * sum - chance;
      if (odds > 0 && !(best && best.odds >= odds)) best = { from: start, to, odds };
    }
  });
  if (!best) return undefined;
  const blocks = days.slice(best.from, best.to + 1).flat();
  const those = blocks.filter((one) => gain(one) > -2).flatMap(({ members }) => members);
  return those.length >= LEAST_PICKS ? { members: those, odds: best.odds } : undefined;
}
