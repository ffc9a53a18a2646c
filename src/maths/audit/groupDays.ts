import { median } from '../shared/statistics';
import type { JudgedPick } from './judgedPick';
import type { KnownLot } from './knownBook';
import { grouped, logTail } from './likelihood';
import type { PickingDays } from './pickingDays';

// How far the masses of a day are off together, but for what grew while nobody picked.

/** So many days after as long a rest show what grew in it; it is not more than for so many days. */
const LEARNT_DAYS = 30;
const MOST_REST = 5;
/** A mass farther from its day's middle than so many spreads counts as if it were nearer. */
const WILD = 2;
const USUAL_PAIRS = 10;
const LEAST_DAYS = 0.03;

/** The picks of one lot and day that would be off together, seen from the lot's other picks. */
export interface Block {
  readonly members: readonly JudgedPick[];
  readonly off: number;
  readonly spread: number;
  /** ln of how likely it is as it is. */
  readonly right: number;
}

/** What is picked on a day, by all or by one person. */
export interface Day {
  readonly blocks: readonly Block[];
  /** By how much its masses are off together, and how well that is known. */
  readonly off: number;
  readonly variance: number;
  /** Whether nobody picked for longer than usual before it. */
  readonly isAfterRest: boolean;
}

export type Days = Map<number, Block[]>;

/** By how much the masses of a lot and day may have grown while nobody picked; undefined where it was no longer than usual. */
type Rests = (lot: KnownLot, day: number) => number | undefined;

/**
 * Days before which nobody picked for longer than usual: by how much masses may have grown meanwhile, where the book has
 * too few such days to show it, and 0 where it has. A strain that is picked three times a week has longer ones.
 */
export function restsBefore(days: readonly number[], picking: PickingDays): Rests {
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
export function settled(days: Days, restOf: Rests): Day[] {
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
export function betweenDays(days: readonly Day[], before: number): number {
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
