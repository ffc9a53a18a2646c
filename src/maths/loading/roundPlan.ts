import { FreeCapacity } from './freeCapacity';
import { slotKey, type GroupLoad, type LoadSlot } from './groupLoad';
import type { PlanView } from './planView';

/** A load as the programme wants it: its blocks may be parts of blocks. */
export interface Wish extends GroupLoad {
  /** What loading a block costs against leaving it. */
  readonly cost: number;
}

/**
 * Whole blocks from the programme's parts of blocks, by error diffusion. Day by day, a kind is owed today's wishes and
 * what earlier days left over. That is rounded to a whole number and given to its lots from the largest remainder
 * down, as far as stocks, places, loading and picking still allow. What is cut or rounded off is owed to the kind's
 * next day. Totals over any run of days stay within a block of the programme's, and no limit is broken.
 */
export class Rounding {
  private readonly free: FreeCapacity;
  private readonly placed = new Map<string, GroupLoad>();
  private owed = new Map<string, number>();

  constructor(private readonly view: PlanView) {
    this.free = new FreeCapacity(view);
  }

  get loads(): GroupLoad[] {
    return [...this.placed.values()];
  }

  /** Blocks placed in a slot. */
  blocksOf(load: LoadSlot): number {
    return this.placed.get(slotKey(load))?.blocks ?? 0;
  }

  /** Rounds the wishes of the days from `from` to the day before `to`. The new wishes include what was owed before. */
  roundDays(wishes: readonly Wish[], from: number, to: number): void {
    this.owed = new Map();
    const byDay = new Map<number, Map<string, Wish[]>>();
    for (const wish of wishes) {
      if (wish.blocks < 1e-6 || wish.day < from || wish.day >= to) continue;
      const kindKey = `${this.view.lots[wish.lot]!.kind} ${wish.group}`;
      if (!byDay.has(wish.day)) byDay.set(wish.day, new Map());
      const byKind = byDay.get(wish.day)!;
      byKind.set(kindKey, [...(byKind.get(kindKey) ?? []), wish]);
    }
    for (const day of [...byDay.keys()].sort((a, b) => a - b)) {
      for (const [kindKey, kindWishes] of byDay.get(day)!) this.roundKind(kindKey, kindWishes);
    }
  }

  private roundKind(kindKey: string, wishes: readonly Wish[]): void {
    const wanted = wishes.reduce((sum, { blocks }) => sum + blocks, this.owed.get(kindKey) ?? 0);
    const sizes = sizesOf(this.view, wishes, Math.max(0, Math.round(wanted)));
    let placed = 0;
    wishes.forEach((wish, at) => {
      const blocks = this.allowed(wish, sizes[at]!);
      if (blocks < 1) return;
      this.place(wish, blocks);
      placed += blocks;
    });
    this.owed.set(kindKey, wanted - placed);
  }

  /** The size nearest to `wanted` that limits, whole shelves and the smallest load allow. */
  private allowed({ lot, day, group }: Wish, wanted: number): number {
    const { wholeShelves, smallestLoad } = this.view.problem.settings;
    const left = this.free.left[lot]!;
    const most = this.free.most({ lot, day, group });
    let blocks = Math.min(wanted, most);
    if (wholeShelves && blocks < left) {
      const { perShelf } = this.view.groups[group]!;
      blocks = Math.min(Math.round(blocks / perShelf), Math.floor(most / perShelf)) * perShelf;
      if (blocks > left) blocks = left;
    }
    if (blocks > 0 && blocks < smallestLoad && blocks < left) {
      const least = Math.min(smallestLoad, left);
      blocks = 2 * blocks >= least && least <= most ? least : 0;
    }
    return blocks;
  }

  private place({ lot, day, group }: LoadSlot, blocks: number): void {
    const load = { lot, day, group, blocks };
    this.free.add(load);
    this.placed.set(slotKey(load), { ...load, blocks: blocks + this.blocksOf(load) });
  }

  /** Gives each kind the whole blocks it is still owed, where loading them costs least. */
  placeOwed(wishes: readonly Wish[]): void {
    const { wholeShelves, smallestLoad } = this.view.problem.settings;
    if (wholeShelves) return;
    const missing = new Map<number, number>();
    for (const [kindKey, blocks] of this.owed) {
      const kind = Number(kindKey.split(' ')[0]);
      missing.set(kind, (missing.get(kind) ?? 0) + blocks);
    }
    for (const wish of [...wishes].sort((a, b) => a.cost - b.cost)) {
      const { kind } = this.view.lots[wish.lot]!;
      const blocks = Math.min(Math.round(missing.get(kind) ?? 0), this.free.most(wish));
      if (blocks < 1) continue;
      const left = this.free.left[wish.lot]!;
      const least =
        left === this.view.lots[wish.lot]!.lot.blocks ? Math.min(smallestLoad, left) : smallestLoad;
      if (this.blocksOf(wish) === 0 && blocks < least) continue;
      this.place(wish, blocks);
      missing.set(kind, missing.get(kind)! - blocks);
    }
  }
}

/** Whole blocks for each wish that add up to `total` where stocks allow, larger remainders and last days first. */
function sizesOf(view: PlanView, wishes: readonly Wish[], total: number): number[] {
  const sizes = wishes.map(({ blocks }) => Math.floor(blocks + 1e-6));
  const turn = wishes
    .map((wish, at) => ({
      at,
      last: wish.day === view.lots[wish.lot]!.to ? 1 : 0,
      over: wish.blocks - sizes[at]!,
    }))
    .sort((a, b) => b.last - a.last || b.over - a.over || wishes[a.at]!.lot - wishes[b.at]!.lot);
  let missing = total - sizes.reduce((sum, size) => sum + size, 0);
  for (let round = 0; missing > 0 && round < 2; round++) {
    for (const { at } of turn) {
      if (missing <= 0) break;
      sizes[at]!++;
      missing--;
    }
  }
  for (const { at } of [...turn].reverse()) {
    if (missing >= 0) break;
    const taken = Math.min(sizes[at]!, -missing);
    sizes[at]! -= taken;
    missing += taken;
  }
  return sizes;
}
