import { middleOf } from '../shared/statistics';

/** A way to sort picks into groups that may each be above or below the rest. */
export interface Factor {
  /** The group of each pick, from 0. */
  readonly groups: Int32Array;
  readonly count: number;
  /** A group's effect is held towards 0 by as many picks that lie there, so that two wild ones of three move nothing. */
  readonly held: number;
}

/** Groups of so many values, numbered in the order in which their names come. */
export function factorOf<K>(size: number, nameOf: (at: number) => K, held: number): Factor {
  const numbers = new Map<K, number>();
  const groups = new Int32Array(size);
  for (let at = 0; at < size; at++) {
    const name = nameOf(at);
    let number = numbers.get(name);
    if (number === undefined) numbers.set(name, (number = numbers.size));
    groups[at] = number;
  }
  return { groups, count: numbers.size, held };
}

const ROUNDS = 4;
/** Of a large group every so many are asked: its median is known well enough. */
const MOST = 600;

/**
 * The effects of several factors on a value by Tukey's median polish. Each in turn is fitted by the medians of what the
 * others leave over, so that a few wild values move none of them.
 *
 * @returns the effect of each group of each factor
 */
export function fitEffects(values: Float64Array, factors: readonly Factor[]): Float64Array[] {
  const effects = factors.map(({ count }) => new Float64Array(count));
  const left = Float64Array.from(values);
  const members = factors.map(membersOf);
  const asked = new Float64Array(MOST + factors.reduce((most, { held }) => Math.max(most, held), 0));
  for (let round = 0; round < ROUNDS; round++) {
    for (let f = 0; f < factors.length; f++) fitOne(left, effects[f]!, members[f]!, factors[f]!.held, asked);
  }
  return effects;
}

/** Where each group's members begin, one group after the other, and the members in their order. */
interface Members {
  readonly from: Int32Array;
  readonly all: Int32Array;
}

function membersOf({ groups, count }: Factor): Members {
  const from = beginnings(groups, count);
  return { from, all: inGroups(groups, from.slice()) };
}

function beginnings(groups: Int32Array, count: number): Int32Array {
  const from = new Int32Array(count + 1);
  for (let at = 0; at < groups.length; at++) from[groups[at]! + 1]! += 1;
  for (let group = 0; group < count; group++) from[group + 1]! += from[group]!;
  return from;
}

function inGroups(groups: Int32Array, next: Int32Array): Int32Array {
  const all = new Int32Array(groups.length);
  for (let at = 0; at < groups.length; at++) all[next[groups[at]!]!++] = at;
  return all;
}

/** Fits one factor's effects to what the others leave over. */
function fitOne(
  left: Float64Array,
  effects: Float64Array,
  { from, all }: Members,
  held: number,
  asked: Float64Array,
): void {
  for (let group = 0; group < effects.length; group++) {
    const before = effects[group]!;
    const [start, end] = [from[group]!, from[group + 1]!];
    const step = Math.ceil((end - start) / MOST);
    let count = 0;
    for (let at = start; at < end; at += step) asked[count++] = left[all[at]!]! + before;
    for (let none = 0; none < held; none++) asked[count++] = 0;
    const effect = middleOf(asked, count);
    effects[group] = effect;
    for (let at = start; at < end; at++) left[all[at]!]! += before - effect;
  }
}
