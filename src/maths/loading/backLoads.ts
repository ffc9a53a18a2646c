import { wholeUnitsFor, wholeUnitsIn } from '../shared/rounding';
import type { BackProblem, OrderToPlan, StrainToPlan } from './backPlan';
import { picksAfterLoading, type PickCurve } from './pickCurve';

/** Blocks of a strain to load on a day. */
export interface BackLoad {
  readonly day: number;
  readonly blocks: number;
  /** Share of its picking that falls in the days of the orders it was added for. */
  readonly inTime: number;
}

/** An order that the loads do not fill: no work day's picking falls in its days, or the limits leave no room. */
export interface UnmetOrder {
  readonly order: OrderToPlan;
  readonly short: number;
  readonly why: 'no day' | 'limits';
}

/** A day's load is taken where it puts at least this share of the best day's yield in the days of an order. */
const WORTH_LOADING = 0.5;

/**
 * The blocks to load so that orders are filled. Orders are taken by due date. Each first uses up what loads already
 * planned give in its days. Blocks are added for the rest, on the work day that puts most of their yield in those days.
 * They are as many as the limits of that day and of all days of their picking allow. The rest goes on the next best
 * days, as long as they put at least half as much of their yield in time.
 *
 * @returns the loads of each strain in the order of their days, and the orders that stay short
 */
export function loadsForOrders({
  strains,
  orders,
  limitsOn,
}: Pick<BackProblem, 'strains' | 'orders' | 'limitsOn'>): {
  loads: readonly (readonly BackLoad[])[];
  unmet: readonly UnmetOrder[];
} {
  const planned = strains.map(() => new Map<number, { blocks: number; inTime: number }>());
  const free = strains.map(() => new Map<number, number>());
  const picked = new Map<number, number>();
  const loaded = new Map<number, number>();
  const unmet: UnmetOrder[] = [];

  const roomOn = (day: number, { curve, yieldPerBlock }: StrainToPlan): number =>
    picksAfterLoading(curve, yieldPerBlock).reduce(
      (room, [k, mass]) =>
        Math.min(room, wholeUnitsIn(Math.max(0, limitsOn(day + k).pick - (picked.get(day + k) ?? 0)) / mass)),
      limitsOn(day).load - (loaded.get(day) ?? 0),
    );
  const load = (strain: number, day: number, blocks: number, inTime: number): void => {
    const { curve, yieldPerBlock } = strains[strain]!;
    const before = planned[strain]!.get(day) ?? { blocks: 0, inTime: 0 };
    const all = before.blocks + blocks;
    const share = (before.blocks * before.inTime + blocks * inTime) / all;
    planned[strain]!.set(day, { blocks: all, inTime: share });
    loaded.set(day, (loaded.get(day) ?? 0) + blocks);
    for (const [k, mass] of picksAfterLoading(curve, blocks * yieldPerBlock)) {
      picked.set(day + k, (picked.get(day + k) ?? 0) + mass);
      free[strain]!.set(day + k, (free[strain]!.get(day + k) ?? 0) + mass);
    }
  };

  for (const order of [...orders].sort((a, b) => a.due - b.due || a.from - b.from)) {
    const { strain, from, due, mass } = order;
    const { curve, yieldPerBlock } = strains[strain]!;
    let short = mass - takeFrom(free[strain]!, from, due, mass);
    if (short <= 1e-9 * mass) continue;
    const inTime = daysInTime(curve, order).filter(({ day }) => limitsOn(day).load > 0);
    const open = inTime.filter(({ day }) => roomOn(day, strains[strain]!) >= 1);
    for (const { day, share } of open) {
      if (share < WORTH_LOADING * open[0]!.share) break;
      const blocks = Math.min(wholeUnitsFor(short / (share * yieldPerBlock)), roomOn(day, strains[strain]!));
      if (blocks < 1) continue;
      load(strain, day, blocks, share);
      short -= takeFrom(free[strain]!, from, due, short);
    }
    // What a count of blocks rounded by its last digits leaves is not short.
    if (short > 2e-9 * Math.max(mass, yieldPerBlock)) {
      unmet.push({ order, short, why: inTime.length > 0 ? 'limits' : 'no day' });
    }
  }
  const loads = planned.map((days) =>
    [...days].map(([day, one]) => ({ day, ...one })).sort((a, b) => a.day - b.day),
  );
  return { loads, unmet };
}

/** Takes up to `mass` from the days of a window, the earliest first. @returns what was taken */
function takeFrom(free: Map<number, number>, from: number, due: number, mass: number): number {
  let taken = 0;
  for (let day = from; day <= due && taken < mass; day++) {
    const here = Math.min(free.get(day) ?? 0, mass - taken);
    if (here > 0) free.set(day, free.get(day)! - here);
    taken += here;
  }
  return taken;
}

/** Days whose loading puts a share of its yield in an order's days: the largest share first, later days before earlier. */
function daysInTime({ shares }: PickCurve, { from, due }: OrderToPlan): { day: number; share: number }[] {
  const days: { day: number; share: number }[] = [];
  for (let day = due; day > from - shares.length; day--) {
    const share = shares.reduce((sum, part, k) => (day + k >= from && day + k <= due ? sum + part : sum), 0);
    // Equal shares must not differ by the last digit of their sums.
    if (share > 0) days.push({ day, share: Math.round(share * 1e12) / 1e12 });
  }
  return days.filter(({ share }) => share > 0).sort((a, b) => b.share - a.share);
}
