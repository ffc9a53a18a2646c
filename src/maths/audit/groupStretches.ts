import { betweenDays, restsBefore, settled, type Block, type Day, type Days } from './groupDays';
import { LEAST_PICKS } from './groupsThroughout';
import type { JudgedPick } from './judgedPick';
import { grouped, logTail } from './likelihood';
import type { MassModel } from './massModel';
import { heardIn, seenTogether } from './massNeighbours';
import type { MassSlip } from './massSlips';
import type { PickingDays } from './pickingDays';

/** ln of how often a given stretch of days is off, apart from how many such stretches there are. */
const OFF_AWHILE = Math.log(0.4);
/** Picks of one stretch share their lots and their weather: they count for less than as many of their own. */
const TOGETHER = 0.85;
/** Days differ by about this much, held to what the book shows, on the scale of natural logarithms. */
const USUAL_DAYS = 0.1;
/** After days without picking by more. */
const RESTED_DAYS = 0.2;
const MOST_A_PICK = 5;

interface Stretch {
  readonly members: JudgedPick[];
  readonly slip: MassSlip;
  readonly odds: number;
  readonly about: string;
}

/** The run of days on which the masses of all, or of one picker, scale or crate, are most surely off by one factor. */
export function worstStretch(
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
