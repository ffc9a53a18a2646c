import { median } from '../shared/statistics';
import { found, type KnownBook, type KnownLot } from './knownBook';
import { grouped, logTail } from './likelihood';
import type { JudgedPick } from './judgedPick';
import { massModel, type GroupEffect, type MassModel } from './massModel';
import { heardIn, seenTogether } from './massNeighbours';
import { tellTare, worstTare } from './groupTares';
import { undone, type MassSlip } from './massSlips';
import { PickingDays } from './pickingDays';

/** Fewer picks than this are no group. */
const LEAST_PICKS = 5;
/** People and scales differ honestly by about this much, on the scale of natural logarithms. */
const BETWEEN = 0.12;
/** What is known this well of a group beside the others in its lots is believed. */
const WELL_KNOWN = 0.15;
/** ln of how often a person or a scale is off throughout. */
const OFF_THROUGHOUT = Math.log(0.01);
/** ln of how often a given stretch of days is off, apart from how many such stretches there are. */
const OFF_AWHILE = Math.log(0.4);
/** Picks of one stretch share their lots and their weather: they count for less than as many of their own. */
const TOGETHER = 0.85;
/** A median is less certain than a mean: π / 2 - 1. */
const MEDIAN_WIDER = 0.57;
/** Days differ by about this much, held to what the book shows, on the scale of natural logarithms. */
const USUAL_DAYS = 0.1;
/** After days without picking by more. */
const RESTED_DAYS = 0.2;
const USUAL_PAIRS = 10;
const LEAST_DAYS = 0.03;
/** So many days after as long a rest show what grew in it; it is not more than for so many days. */
const LEARNT_DAYS = 30;
const MOST_REST = 5;
/** A mass farther from its day's middle than so many spreads counts as if it were nearer. */
const WILD = 2;
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
  const picking = new PickingDays(book);
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
    const stretch = worstStretch(model, slips, picking);
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
  of: MassSlip,
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
      corrected: undone(first.mass!, of),
      slip: of.slip,
      factor: of.factor,
      about,
      sure: Math.min(0.9999, 1 / (1 + Math.exp(-odds))),
    }),
  );
  for (const { pick } of members) pick.mass = undone(pick.mass!, of);
}

function worstThroughout(
  { groups, byLot, spreads }: MassModel,
  slips: readonly MassSlip[],
): { group: GroupEffect; slip: MassSlip; odds: number } | undefined {
  let worst: ReturnType<typeof worstThroughout>;
  for (const group of groups) {
    const others = groups.filter(({ column, name }) => column === group.column && name !== group.name);
    if (others.length === 0 || group.members.length < LEAST_PICKS) continue;
    const above = group.effect - median(others.map(({ effect }) => effect));
    const lots = new Set(group.members.map(({ pick }) => pick.lot)).size;
    const besides = beyondEffect(group, byLot, spreads.pick);
    const [off, spread] =
      besides.spread < WELL_KNOWN
        ? [above + besides.off, Math.hypot(BETWEEN, besides.spread)]
        : [
            above,
            Math.hypot(BETWEEN, (1.3 * spreads.pick) / Math.sqrt(group.members.length), spreads.lot / lots),
          ];
    for (const slip of slips) {
      const odds = OFF_THROUGHOUT + logTail(off - Math.log(slip.factor), spread) - logTail(off, spread);
      if (odds > 0 && !(worst && worst.odds >= odds)) worst = { group, slip, odds };
    }
  }
  return worst;
}

/**
 * By how much a group is above the others in the same flushes of the same lots, beyond its effect: who keeps to lots of
 * their own raises those lots, and only the few picks of others show it.
 */
function beyondEffect(
  { column, name, members }: GroupEffect,
  byLot: MassModel['byLot'],
  ofPick: number,
): { off: number; spread: number } {
  const ahead: { off: number; weight: number }[] = [];
  for (const lot of new Set(members.map(({ pick }) => pick.lot!))) {
    for (const flush of byLot.get(lot)!.flushes) {
      const [theirs, others]: [number[], number[]] = [[], []];
      for (const { pick, off } of flush) {
        const of = pick.record[column];
        if (of === name) theirs.push(off);
        else if (of !== '') others.push(off);
      }
      if (theirs.length === 0 || others.length === 0) continue;
      const variance = ofPick ** 2 * (1 / theirs.length + 1 / others.length);
      ahead.push({ off: median(theirs) - median(others), weight: 1 / variance });
    }
  }
  if (ahead.length === 0) return { off: 0, spread: Infinity };
  ahead.sort((a, b) => a.off - b.off);
  const all = ahead.reduce((sum, { weight }) => sum + weight, 0);
  let below = 0;
  const middle = ahead.find(({ weight }) => (below += weight) >= all / 2)!;
  return { off: middle.off, spread: Math.sqrt((1 + MEDIAN_WIDER) / all) };
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
  /** ln of how likely it is as it is. */
  readonly right: number;
}

/** What is picked on a day, by all or by one person. */
interface Day {
  readonly blocks: readonly Block[];
  /** By how much its masses are off together, and how well that is known. */
  readonly off: number;
  readonly variance: number;
  /** Whether nobody picked for longer than usual before it. */
  readonly isAfterRest: boolean;
}

type Days = Map<number, Block[]>;

function worstStretch(
  { judged, byLot, spreads }: MassModel,
  slips: readonly MassSlip[],
  picking: PickingDays,
): Stretch | undefined {
  const heard = new Map([...byLot].map(([lot, own]) => [lot, heardIn(own, spreads)]));
  const blockOf = (members: readonly JudgedPick[]): Block => {
    const { off, spread } = seenTogether(members, heard.get(members[0]!.pick.lot!)!, spreads);
    return { members, off, spread, right: logTail(off, spread) };
  };
  // First and later flushes that cannot be told apart look like good and bad days.
  const dated = judged.filter(({ pick }) => pick.day !== undefined && pick.flush !== undefined);
  const all: Days = new Map();
  for (const [day, ofDay] of grouped(dated, ({ pick }) => pick.day!)) {
    const ofLots = grouped(ofDay, ({ pick }) => pick.lot);
    for (const members of ofLots.values()) addTo(all, day, blockOf(members));
  }
  const rests = restsBefore([...all.keys()], picking);
  let worst: Stretch | undefined;
  const consider = (days: Days, about: string): void => {
    const inOrder = settled(days, rests);
    const usual = betweenDays(inOrder, USUAL_DAYS ** 2);
    // What grew meanwhile differs more from day to day, with the weather and with what was left before.
    const rested = betweenDays(
      inOrder.filter(({ isAfterRest }) => isAfterRest),
      Math.max(RESTED_DAYS ** 2, usual),
    );
    const between = ({ isAfterRest }: Day): number => (isAfterRest ? rested : usual);
    for (const slip of slips) {
      const stretch = likeliestStretch(inOrder, slip, between);
      if (stretch && !(worst && worst.odds >= stretch.odds)) worst = { ...stretch, slip, about };
    }
  };
  consider(all, '');
  for (const column of ['picker', 'scale', 'crate'] as const) {
    const names = grouped(dated, ({ pick }) => pick.record[column]);
    if (names.size < 2) continue;
    const ofNames = new Map<string, Days>();
    for (const [name, { length }] of names) {
      if (name !== '' && length >= LEAST_PICKS) ofNames.set(name, new Map());
    }
    for (const [day, blocks] of all) {
      for (const block of blocks) {
        const parts = grouped(block.members, ({ pick }) => pick.record[column]);
        for (const [name, members] of parts) {
          const days = ofNames.get(name);
          if (days) addTo(days, day, parts.size === 1 ? block : blockOf(members));
        }
      }
    }
    for (const [name, days] of ofNames) consider(days, `${column} ${name}`);
  }
  return worst;
}

function addTo(days: Days, day: number, block: Block): void {
  const there = days.get(day);
  if (there) there.push(block);
  else days.set(day, [block]);
}

/** By how much the masses of a lot and day may have grown while nobody picked; undefined where it was no longer than usual. */
type Rests = (lot: KnownLot, day: number) => number | undefined;

/**
 * Days before which nobody picked for longer than usual: by how much masses may have grown meanwhile, where the book has
 * too few such days to show it, and 0 where it has. A strain that is picked three times a week has longer ones.
 */
function restsBefore(days: readonly number[], picking: PickingDays): Rests {
  const sorted = [...days].sort((a, b) => a - b);
  const steps = sorted.slice(1).map((day, i) => day - sorted[i]!);
  const often = grouped(steps, (step) => step);
  const usual = median([1, ...steps]);
  const stepTo = new Map(sorted.slice(1).map((day, i) => [day, steps[i]!]));
  const grown = (step: number, ordinary: number): number => Math.log(Math.min(MOST_REST, step) / ordinary);
  return (lot, day) => {
    const step = stepTo.get(day) ?? 0;
    const ofAll = step <= usual ? undefined : often.get(step)!.length < LEARNT_DAYS ? grown(step, usual) : 0;
    const own = picking.restBefore(lot, day);
    // A week's rest of its own is learnt like any other: only a holiday makes it longer.
    if (!own.isHoliday) return ofAll;
    return Math.max(ofAll ?? 0, grown(own.days, own.usual));
  };
}

/** Days in order, with how far off each is as a whole, but for what grew while nobody picked. */
function settled(days: Days, restOf: Rests): Day[] {
  const inOrder = [...days].sort(([a], [b]) => a - b);
  return inOrder.map(([at, blocks]) => {
    const rests = blocks.map(({ members }) => restOf(members[0]!.pick.lot!, at));
    const isAfterRest = rests.some((rest) => rest !== undefined);
    const day = weighed(blocks, isAfterRest);
    if (!isAfterRest || day.off <= 0) return day;
    return weighed(
      blocks.map(({ members, off, spread }, i) => {
        const left = off - Math.min(rests[i] ?? 0, day.off);
        return { members, off: left, spread, right: logTail(left, spread) };
      }),
      true,
    );
  });
}

/** By how much the picks of a day are off together. */
function weighed(blocks: Block[], isAfterRest: boolean): Day {
  const middle = median(blocks.map(({ off }) => off));
  let [sum, certainty] = [0, 0];
  for (const { off, spread } of blocks) {
    // One wild mass makes no day good or bad.
    const held = Math.max(-WILD * spread, Math.min(WILD * spread, off - middle));
    sum += (middle + held) / spread ** 2;
    certainty += 1 / spread ** 2;
  }
  return { blocks, off: sum / certainty, variance: 1 / certainty, isAfterRest };
}

/**
 * Days are honestly good and bad, with the weather or after a day off: the variance that they show, from how far two lots
 * of a day are off alike.
 */
function betweenDays(days: readonly Day[], before: number): number {
  let [sum, pairs] = [USUAL_PAIRS * before, USUAL_PAIRS];
  for (const { blocks } of days) {
    let [all, squares] = [0, 0];
    for (const { off, spread } of blocks) {
      const held = Math.max(-WILD * spread, Math.min(WILD * spread, off));
      all += held;
      squares += held * held;
    }
    sum += (all * all - squares) / 2;
    pairs += (blocks.length * (blocks.length - 1)) / 2;
  }
  return Math.max(LEAST_DAYS ** 2, sum / pairs);
}

/** The run of days that a factor explains best (Kadane's method): ln of the odds that it is off. */
function likeliestStretch(
  days: readonly Day[],
  { factor }: MassSlip,
  between: (day: Day) => number,
): { members: JudgedPick[]; odds: number } | undefined {
  const log = Math.log(factor);
  const gain = ({ members, off, spread, right }: Block): number => {
    const most = MOST_A_PICK * Math.min(2, members.length);
    return Math.max(-most, Math.min(most, logTail(off - log, spread) - right));
  };
  const gains = days.map((day) => {
    const { blocks, off, variance } = day;
    let sum = 0;
    for (const block of blocks) sum += gain(block);
    // Picks that are off together show no more than their day does.
    return TOGETHER * Math.min(sum, (log * (off - log / 2)) / (variance + between(day)));
  });
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
      const odds = OFF_AWHILE + sum - chance;
      if (odds > 0 && !(best && best.odds >= odds)) best = { from: start, to, odds };
    }
  });
  if (!best) return undefined;
  const blocks = days.slice(best.from, best.to + 1).flatMap((day) => day.blocks);
  const those = blocks.filter((one) => gain(one) > -2).flatMap(({ members }) => members);
  return those.length >= LEAST_PICKS ? { members: those, odds: best.odds } : undefined;
}
