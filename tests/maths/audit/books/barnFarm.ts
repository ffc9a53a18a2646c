import type { LotRecord } from '../../../../src/maths/audit/yieldRecords';
import { bookOf, Draw, FIRST_DAY, NOTHING, steps, strain, type Book, type Picked } from './farms';

// A farm grown cluster by cluster: nothing is drawn for a pick or a flush. Blocks pin when they have rested, clusters grow
// with the warmth, and what is large enough on a day of picking is picked. Once little is left a lot is cleared and rests;
// flushes, their shares and their days follow.
// Run once before and once after the audit was changed, and not looked into. Invented; nothing here was measured.

const DAYS = 330;
const CLOSED = new Set([74, 75, 151, 232, 233, 300]);
/** A full crate is taken for so much; what is beyond is weighed. */
const CRATE = 4;
/** From here on even the rest is counted, in half crates. */
const MUCH = 20;

/** How a strain grows, beside what the grower's table says of it. */
interface Growth {
  /** Days from load to the first pins, and of rest after a lot is cleared. */
  readonly pins: number;
  readonly rest: number;
  /** Warm days from pin to full size. */
  readonly ripens: number;
  /** Clusters of a block and flush beyond the first. */
  readonly clusters: number;
  /** What a block gives at once of what it could still give. */
  readonly gives: number;
  /** Weekdays of picking, Sunday being 1 as serials count. */
  readonly visits: readonly number[];
}

const DAILY = [2, 3, 4, 5, 6, 0];
const KINDS: readonly (Growth & { readonly own: ReturnType<typeof strain> })[] = [
  {
    own: strain(['Pearl', 13, 17, 7, 5, 13, 0.85, [0.6, 0.25, 0.15], 3.2, 0.64]),
    ...{ pins: 3, rest: 7, ripens: 5, clusters: 1.5, gives: 0.55, visits: DAILY },
  },
  {
    own: strain(['Slate', 13, 18, 8, 6, 14, 0.75, [0.55, 0.3, 0.15], 3.2, 0.64]),
    ...{ pins: 4, rest: 7, ripens: 5.5, clusters: 2.5, gives: 0.5, visits: DAILY },
  },
  {
    own: strain(['Copper', 60, 75, 9, 8, 24, 0.7, [0.5, 0.3, 0.2], 2.4, 0.58]),
    ...{ pins: 4, rest: 15, ripens: 6, clusters: 9, gives: 0.45, visits: [2, 4, 6] },
  },
];

interface Cluster {
  readonly full: number;
  readonly pinned: number;
  grown: number;
}

interface Block {
  left: number;
  /** Day on which it pins again. */
  pins: number;
  clusters: Cluster[];
}

interface Growing {
  readonly label: string;
  readonly kind: (typeof KINDS)[number];
  blocks: Block[];
  flush: number;
  /** Mass that has pinned in this flush and in the first, and what was picked of it. */
  pinned: number;
  first: number;
  taken: number;
}

const poisson = (draw: Draw, mean: number): number => {
  const left = Math.exp(-mean);
  let count = 0;
  for (let product = draw.random(); product > left; product *= draw.random()) count++;
  return count;
};

/**
 * A barn with two species of three strains interleaved under plain numbers: some hundred lots of 3 to 120 blocks. One
 * species is picked daily but Sundays, the other three times a week; two people by turns; whole crates are counted and not
 * weighed; lots share the moisture of their mix; a poor lot goes out early. It ends mid-season.
 */
export function barnFarm(scatter: number, seed: number): Book {
  const draw = new Draw(seed ^ 0x4cf5ad43);
  const lots: Omit<LotRecord, 'row'>[] = [];
  const picks: Picked[] = [];
  const growing: Growing[] = [];
  let [warmth, moistened] = [0, 0];
  let number = 3080;
  let left = 0;

  const load = (today: number): void => {
    const kind = draw.of(KINDS);
    const { own } = kind;
    if (left-- <= 0) [left, moistened] = [draw.whole(2, 4), 0.01 * draw.normal()];
    const size = draw.random();
    const blocks = size < 0.5 ? 40 : size < 0.65 ? 20 : size < 0.75 ? 120 : draw.whole(3, 16);
    const moisture = Number((own.moisture + moistened).toFixed(3));
    const dry = own.blockMass * (1 - own.moisture - moistened);
    const vigour = (1.25 * own.efficiency! * dry * draw.factor(scatter)) / (1 - (1 - kind.gives) ** 3);
    number += 1 + Number(draw.random() < 0.15);
    growing.push({
      label: String(number),
      kind,
      blocks: Array.from({ length: blocks }, () => ({
        left: draw.random() < 0.03 ? 0 : vigour * draw.factor(0.3),
        pins: today + kind.pins + 1.1 * draw.normal(),
        clusters: [],
      })),
      ...{ flush: 1, pinned: 0, first: 0, taken: 0 },
    });
    lots.push({
      lot: String(number),
      strain: own.label,
      blocks,
      blockMass: own.blockMass,
      moisture,
      inoculated: today - Math.max(own.earliest!, own.best + draw.whole(-3, 6)),
      loaded: today,
      total: undefined,
    });
  };

  /** What is left is cut away, and some blocks turn bad; a lot that gave a quarter of its first flush goes out, others rest. */
  const clear = (lot: Growing, today: number): void => {
    const { kind, flush, taken } = lot;
    if (flush === 1) lot.first = taken;
    if (flush === kind.own.flushes || taken < 0.25 * lot.first) lot.blocks = [];
    const spoils = draw.random() < 0.15 ? 0.7 * draw.random() : 0.02;
    for (const block of lot.blocks) {
      block.clusters = [];
      if (draw.random() < spoils) block.left = 0;
      block.pins = today + kind.rest + 1.1 * draw.normal();
    }
    Object.assign(lot, { flush: flush + 1, pinned: 0, taken: 0 });
  };

  for (let day = 0; day < DAYS; day++) {
    const today = FIRST_DAY + day;
    const weekday = today % 7;
    warmth = 0.85 * warmth + 0.5 * scatter * draw.normal();
    const pace = Math.exp(0.2 * Math.max(-2, Math.min(2, warmth)));
    if (day < DAYS - 40 && [3, 5].includes(weekday)) for (let n = draw.whole(1, 2); n > 0; n--) load(today);
    const isClosed = CLOSED.has(day);
    for (const lot of growing) {
      const { kind } = lot;
      let [taken, isLate] = [0, false];
      const ready: [Block, Cluster, number][] = [];
      for (const block of lot.blocks) {
        if (block.left > 0 && today >= block.pins) {
          const gives = kind.gives * block.left;
          const parts = Array.from({ length: 1 + poisson(draw, kind.clusters) }, () => draw.factor(0.5));
          const all = parts.reduce((sum, part) => sum + part, 0);
          block.pins = Infinity;
          block.left -= gives;
          lot.pinned += gives;
          block.clusters = parts.map((part) => ({
            full: (gives * part) / all,
            pinned: today + Math.floor(-1.1 * Math.log(1 - draw.random())),
            grown: 0,
          }));
        }
        for (const cluster of block.clusters) {
          if (today < cluster.pinned) continue;
          cluster.grown += pace * draw.factor(0.1);
          const over = cluster.grown - kind.ripens;
          if (over < -0.4) continue;
          if (over > 2) isLate = true;
          // What is picked late weighs more, until it is spoilt.
          const mass = over > 5 ? 0 : cluster.full * (1 + 0.07 * Math.min(3, over));
          taken += mass;
          ready.push([block, cluster, mass]);
        }
      }
      if (isClosed || !kind.visits.includes(weekday) || ready.length === 0) continue;
      // A handful is left for another day.
      if (taken < 0.25 && !isLate) continue;
      for (const [block, cluster] of ready) block.clusters.splice(block.clusters.indexOf(cluster), 1);
      lot.taken += taken;
      const crates = Math.floor(taken / (CRATE * draw.factor(0.03)));
      const rest = Math.max(0, taken - CRATE * crates);
      const mass = crates * CRATE + steps(rest, taken >= MUCH ? CRATE / 2 : 0.05);
      if (mass > 0)
        picks.push({
          ...NOTHING,
          lot: lot.label,
          date: today,
          mass: Number(mass.toFixed(2)),
          flush: lot.flush,
          blocks: undefined,
          picker: (Math.floor(day / 7) + (weekday > 4 ? 1 : 0)) % 2 ? 'Una' : 'Vic',
        });
      if (lot.taken >= 0.88 * lot.pinned) clear(lot, today);
    }
  }
  const strains = KINDS.map(({ own }) => own);
  const book = bookOf([], lots, strains, 'kg', 0.6, picks);
  const flushOf = new Map(book.picks.map(({ row, flush }) => [row, flush as number]));
  return { ...book, flushOf };
}
