import { openSlots } from './openSlots';
import { FreeCapacity } from './freeCapacity';
import { addedUp, type GroupLoad, type LoadSlot } from './groupLoad';
import { eachPick, type PlanView } from './planView';

/** Blocks added at a time. */
const CHUNK = 5;

/**
 * The rule of thumb, as a grower would plan by hand: day by day, open a few blocks of whichever lot is worth most now,
 * until nothing that fits is worth opening. A lot is worth the orders it fills that are still short, plus what it
 * would cost if left, less what it costs to open. The rule breaks no limit, but it does not look ahead.
 */
export function greedyPlan(view: PlanView): GroupLoad[] {
  const { orders, problem } = view;
  const share = 1 - problem.settings.margin;
  const free = new FreeCapacity(view);
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

  const worth = (slot: LoadSlot, blocks: number): number => {
    const { costOn, leftCost } = view.lots[slot.lot]!;
    let value = blocks * (leftCost - costOn(slot.day));
    const taken = new Map<number, number>();
    eachPick(view, slot, (day, mass, atom) => {
      let left = blocks * mass * share;
      if (atom < 0) {
        if (day < view.countedDays) value -= left * view.surplusCost;
        return;
      }
      for (const order of view.atoms[atom]!.orders) {
        const more = Math.min(left, short[order]! - (taken.get(order) ?? 0));
        if (more <= 0) continue;
        value += more * orders[order]!.order.price;
        taken.set(order, (taken.get(order) ?? 0) + more);
        left -= more;
      }
      value -= left * view.surplusCost;
    });
    return value / blocks;
  };

  const loads: GroupLoad[] = [];
  const byDay = new Map<number, LoadSlot[]>();
  for (const slot of openSlots(view)) byDay.set(slot.day, [...(byDay.get(slot.day) ?? []), slot]);
  for (const day of [...byDay.keys()].sort((a, b) => a - b)) {
    for (;;) {
      let best: GroupLoad | undefined;
      let bestWorth = 0;
      for (const slot of byDay.get(day)!) {
        const blocks = Math.min(CHUNK, free.most(slot));
        if (blocks < 1) continue;
        const value = worth(slot, blocks);
        if (value > bestWorth + 1e-9) {
          bestWorth = value;
          best = { ...slot, blocks };
        }
      }
      if (!best) break;
      const { blocks } = best;
      free.add(best);
      eachPick(view, best, (_, mass, atom) => {
        if (atom >= 0) take(atom, blocks * mass * share);
      });
      loads.push(best);
    }
  }
  return addedUp(loads);
}
