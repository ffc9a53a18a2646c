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
  const members = factors.map(({ groups, count }) => {
    const lists: number[][] = Array.from({ length: count }, () => []);
    groups.forEach((group, i) => lists[group]!.push(i));
    return lists;
  });
  for (let round = 0; round < ROUNDS; round++) {
    factors.forEach(({ held }, f) => {
      members[f]!.forEach((own, group) => {
        const before = effects[f]![group]!;
        const step = Math.ceil(own.length / MOST);
        const count = Math.ceil(own.length / step);
        const values = new Float64Array(count + held);
        for (let at = 0; at < count; at++) values[at] = left[own[at * step]!]! + before;
        const effect = sortedMiddle(values.sort());
        effects[f]![group] = effect;
        for (const i of own) left[i]! += before - effect;
      });
    });
  }
  return effects;
}

function sortedMiddle(sorted: Float64Array): number {
  const middle = sorted.length >> 1;
  return sorted.length % 2 ? sorted[middle]! : (sorted[middle - 1]! + sorted[middle]!) / 2;
}
