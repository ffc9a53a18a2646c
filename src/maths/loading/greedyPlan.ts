import { loadColumns } from './loadModel';
import type { PlanView } from './loadingProblem';
import { PlanRoom, type GroupLoad } from './planRoom';

/** Blocks added at a time. */
const CHUNK = 5;

/**
 * A plan by the rule a grower would use by hand: day by day, open a few blocks of whichever lot brings most now
 * (orders it fills that are still short, what it would cost if left, less what it costs to open), until nothing that
 * fits brings anything. No limit is broken, but it does not look ahead.
 */
export function greedyPlan(view: PlanView): GroupLoad[] {
  const { orders, problem } = view;
  const share = 1 - problem.settings.margin;
  const room = new PlanRoom(view);
  const short = orders.map(({ order }) => order.mass);
  const take = (atom: number, mass: number): number => {
    let value = 0;
    let left = mass;
    for (const order of view.atoms[atom]!.orders) {
      const taken = Math.min(left, short[order]!);
      value += taken * orders[order]!.order.price;
      short[order]! -= taken;
      left -= taken;
    }
    return value - left * view.surplusCost;
  };
  view.atoms.forEach(({ standing }, atom) => take(atom, standing));

  const worth = (lot: number, day: number, blocks: number): number => {
    const { picks, kind, costOn, leftCost } = view.lots[lot]!;
    let value = blocks * (leftCost - costOn(day));
    const taken = new Map<number, number>();
    for (const [k, mass] of picks) {
      const atom = view.atomOf[kind]![day + k]!;
      let left = blocks * mass * share;
      if (atom < 0) {
        if (day + k < view.countedDays) value -= left * view.surplusCost;
        continue;
      }
      for (const order of view.atoms[atom]!.orders) {
        const more = Math.min(left, short[order]! - (taken.get(order) ?? 0));
        if (more <= 0) continue;
        value += more * orders[order]!.order.price;
        taken.set(order, (taken.get(order) ?? 0) + more);
        left -= more;
      }
      value -= left * view.surplusCost;
    }
    return value / blocks;
  };

  const loads = new Map<string, GroupLoad>();
  const byDay = new Map<number, { lot: number; group: number }[]>();
  for (const { lot, day, group } of loadColumns(view)) {
    byDay.set(day, [...(byDay.get(day) ?? []), { lot, group }]);
  }
  for (const day of [...byDay.keys()].sort((a, b) => a - b)) {
    for (;;) {
      let best: GroupLoad | undefined;
      let bestWorth = 0;
      for (const { lot, group } of byDay.get(day)!) {
        const blocks = Math.min(CHUNK, room.most(lot, day, group));
        if (blocks < 1) continue;
        const value = worth(lot, day, blocks);
        if (value > bestWorth + 1e-9) {
          bestWorth = value;
          best = { lot, day, group, blocks };
        }
      }
      if (!best) break;
      room.add(best);
      const { picks, kind } = view.lots[best.lot]!;
      for (const [k, mass] of picks) {
        const atom = view.atomOf[kind]![day + k]!;
        if (atom >= 0) take(atom, best.blocks * mass * share);
      }
      const key = `${best.lot} ${day} ${best.group}`;
      const before = loads.get(key);
      loads.set(key, { ...best, blocks: best.blocks + (before?.blocks ?? 0) });
    }
  }
  return [...loads.values()];
}
