import { missing } from '../shared/fault';
import { labelKey, nearestLabel } from '../shared/labels';

/** A lot and the lots it was made from; none for one whose parents are not known. */
export interface LotParents {
  readonly lot: string;
  readonly parents: readonly string[];
}

/** A lot above or below another. */
export interface Relative {
  readonly lot: string;
  /** Generations between the two: 1 for a parent or child; the fewest where there are several ways. */
  readonly steps: number;
  /** The lots on such a shortest way, from the lot asked about to this one, both included. */
  readonly path: readonly string[];
  /** Whether the lot has a row of its own; a parent may be named without one. */
  readonly isRecorded: boolean;
  /** Parents of the lot that are named but have no row of their own. */
  readonly unknownParents: readonly string[];
}

/** The lots above or below another. */
export interface Relatives {
  readonly relatives: readonly Relative[];
  /** Lots that are made from one another in a ring, the first of them again at the end; a long ring is shortened. */
  readonly loop?: readonly string[];
}

/** A path is written out up to this many lots; of a longer one only so many from either end. */
const LONGEST_PATH = 12;
const PATH_ENDS = 5;

/**
 * Every lot made from a lot, directly or through others: what to recall after a bad one.
 *
 * @param lot the lot asked about
 * @param records each lot with its parents; a lot may have several rows, its parents then add up
 * @returns the lots below, nearest first and by label within a generation, the same in any order of the rows; and the
 * first ring of lots made from one another, wherever it is: it keeps no lot from the list
 * @throws missing where no row knows the lot, as lot or as parent
 */
export function descendants(lot: string, records: readonly LotParents[]): Relatives {
  return relatives(lot, new SpawnFamily(records), 'down');
}

/**
 * Every lot that a lot was made from, directly or through others: where a fault may have come from. As `descendants`,
 * upwards, where only a ring above the lot counts; a parent without a row of its own is listed too.
 */
export function ancestors(lot: string, records: readonly LotParents[]): Relatives {
  return relatives(lot, new SpawnFamily(records), 'up');
}

/** Lists of numbers packed one behind the other: those of `i` run from `starts[i]` up to `starts[i + 1]`. */
interface Packed {
  readonly starts: Int32Array;
  readonly items: Int32Array;
}

/** The lots by number, in the order of their labels, with their parents and children. */
class SpawnFamily {
  readonly labels: string[];
  /** A row of each lot, from 0; −1 for one that is only named as a parent. */
  readonly rowOf: Int32Array;
  readonly parents: Packed;
  readonly children: Packed;
  private readonly numbers: ReadonlyMap<string, number>;

  constructor(records: readonly LotParents[]) {
    const written = new Map<string, string>();
    const note = (label: string): string => {
      const same = labelKey(label);
      const known = written.get(same);
      // Of several ways to write a label the first in order, whatever the order of the rows.
      if (known === undefined || label < known) written.set(same, label);
      return same;
    };
    const rows = records.map(({ lot, parents }) => ({ lot: note(lot), parents: parents.map(note) }));
    const keys = [...written.keys()].sort();
    const numbers = new Map(keys.map((same, number) => [same, number]));
    this.numbers = numbers;
    this.labels = keys.map((same) => written.get(same)!);
    this.rowOf = new Int32Array(keys.length).fill(-1);
    const childOf: number[] = [];
    const parentOf: number[] = [];
    rows.forEach(({ lot, parents }, row) => {
      const child = numbers.get(lot)!;
      if (this.rowOf[child]! < 0) this.rowOf[child] = row;
      for (const parent of parents) {
        childOf.push(child);
        parentOf.push(numbers.get(parent)!);
      }
    });
    this.parents = packed(keys.length, childOf, parentOf);
    this.children = packed(keys.length, parentOf, childOf);
  }

  numberOf(lot: string): number | undefined {
    return this.numbers.get(labelKey(lot));
  }
}

/** For each number, what it is linked with, in order. The links run from `from[i]` to `to[i]`. */
function packed(size: number, from: readonly number[], to: readonly number[]): Packed {
  const starts = new Int32Array(size + 1);
  for (const number of from) starts[number + 1]!++;
  for (let i = 0; i < size; i++) starts[i + 1]! += starts[i]!;
  const next = starts.slice(0, size);
  const items = new Int32Array(to.length);
  for (let i = 0; i < to.length; i++) items[next[from[i]!]!++] = to[i]!;
  for (let i = 0; i < size; i++) {
    if (starts[i + 1]! - starts[i]! > 1) items.subarray(starts[i], starts[i + 1]).sort();
  }
  return { starts, items };
}

function relatives(lot: string, family: SpawnFamily, direction: 'down' | 'up'): Relatives {
  const root = family.numberOf(lot);
  if (root === undefined) {
    const nearest = nearestLabel(lot, family.labels);
    throw missing('lot', 'notIn', { label: lot, table: 'lots', ...(nearest !== undefined && { nearest }) });
  }
  const links = direction === 'down' ? family.children : family.parents;
  // One of the parents in a ring is wrong, and the right one may be the lot asked about: downwards any ring counts.
  const from = direction === 'down' ? [root, ...family.labels.keys()] : [root];
  const loop = firstLoop(from, links, family, direction);

  const ways = shortestWays(root, links, family.labels.length);
  const relatives = ways.order.map((number) => ({
    lot: family.labels[number]!,
    steps: ways.steps[number]!,
    path: pathTo(number, ways, family.labels),
    isRecorded: family.rowOf[number]! >= 0,
    unknownParents: unknownParents(number, family),
  }));
  return loop ? { relatives, loop } : { relatives };
}

function unknownParents(
  number: number,
  { parents: { starts, items }, rowOf, labels }: SpawnFamily,
): string[] {
  const unknown: string[] = [];
  for (let i = starts[number]!; i < starts[number + 1]!; i++) {
    const parent = items[i]!;
    // A parent named twice is listed twice, side by side.
    const isAgain = i > starts[number]! && parent === items[i - 1];
    if (rowOf[parent]! < 0 && !isAgain) unknown.push(labels[parent]!);
  }
  return unknown;
}

interface Ways {
  /** The lots reached, nearest first. */
  readonly order: readonly number[];
  readonly steps: Int32Array;
  /** The lot before on the way. */
  readonly cameFrom: Int32Array;
  /** The lot at the end of the part of the way that is always written out. */
  readonly head: Int32Array;
}

function shortestWays(root: number, links: Packed, size: number): Ways {
  const steps = new Int32Array(size).fill(-1);
  const cameFrom = new Int32Array(size).fill(-1);
  const head = new Int32Array(size).fill(-1);
  const order: number[] = [];
  steps[root] = 0;
  head[root] = root;
  for (let level = [root]; level.length > 0;) {
    const next: number[] = [];
    // Lots are numbered by label and a level is in order, so that of several shortest ways always the same is taken.
    for (const number of level) {
      for (let i = links.starts[number]!; i < links.starts[number + 1]!; i++) {
        const relative = links.items[i]!;
        if (steps[relative]! >= 0) continue;
        steps[relative] = steps[number]! + 1;
        cameFrom[relative] = number;
        head[relative] = steps[relative] < PATH_ENDS ? relative : head[number]!;
        next.push(relative);
      }
    }
    next.sort((a, b) => a - b);
    for (const number of next) order.push(number);
    level = next;
  }
  return { order, steps, cameFrom, head };
}

/** The labels on the way to a lot. Never longer than LONGEST_PATH: a hundred thousand whole ways would fill the memory. */
function pathTo(number: number, { steps, cameFrom, head }: Ways, labels: readonly string[]): string[] {
  const backwards = (from: number, most: number): string[] => {
    const path: string[] = [];
    for (let at = from; at >= 0 && path.length < most; at = cameFrom[at]!) path.push(labels[at]!);
    return path.reverse();
  };
  const length = steps[number]! + 1;
  if (length <= LONGEST_PATH) return backwards(number, length);
  return [
    ...backwards(head[number]!, PATH_ENDS),
    `… ${length - 2 * PATH_ENDS} more …`,
    ...backwards(number, PATH_ENDS),
  ];
}

/** Goes through every lot reached from some, in depth first; one that is met again on its own way closes a loop. */
function firstLoop(
  from: readonly number[],
  links: Packed,
  family: SpawnFamily,
  direction: 'down' | 'up',
): string[] | undefined {
  const UNSEEN = 0;
  const ON_THE_WAY = 1;
  const DONE = 2;
  const state = new Uint8Array(family.labels.length);
  const next = links.starts.slice();
  for (const root of from) {
    if (state[root] !== UNSEEN) continue;
    const way = [root];
    state[root] = ON_THE_WAY;
    while (way.length > 0) {
      const number = way.at(-1)!;
      if (next[number]! === links.starts[number + 1]!) {
        state[number] = DONE;
        way.pop();
        continue;
      }
      const relative = links.items[next[number]!++]!;
      if (state[relative] === ON_THE_WAY)
        return shownLoop(way.slice(way.indexOf(relative)), family, direction);
      if (state[relative] === UNSEEN) {
        state[relative] = ON_THE_WAY;
        way.push(relative);
      }
    }
  }
  return undefined;
}

function shownLoop(loop: number[], family: SpawnFamily, direction: 'down' | 'up'): string[] {
  const madeInto = direction === 'down' ? loop : [...loop].reverse();
  const first = madeInto.indexOf(madeInto.reduce((lowest, number) => Math.min(lowest, number)));
  const around = [...madeInto.slice(first), ...madeInto.slice(0, first)];
  const labels = [...around, around[0]!].map((number) => family.labels[number]!);
  return labels.length <= LONGEST_PATH
    ? labels
    : [
        ...labels.slice(0, PATH_ENDS),
        `… ${labels.length - 2 * PATH_ENDS} more …`,
        ...labels.slice(-PATH_ENDS),
      ];
}
