import { labelKey } from '../shared/labels';

/** Where a load may go: a lot opened on a day of the plan and set in a group of rooms, each as its position. */
export interface LoadSlot {
  readonly lot: number;
  readonly day: number;
  readonly group: number;
}

/** Blocks for a slot. */
export interface GroupLoad extends LoadSlot {
  readonly blocks: number;
}

/** The key of a slot: the only one the planner uses. */
export const slotKey = ({ lot, day, group }: LoadSlot): string => `${lot} ${day} ${group}`;

/** The key of a lot's loads on one day, in whatever room, where lots are known by label and days by serial. */
export const lotDayKey = ({ lot, day }: { readonly lot: string; readonly day: number }): string =>
  `${labelKey(lot)} ${Math.floor(day)}`;

/** Loads with the blocks of each slot added up, in the order in which the slots first come. */
export function addedUp<L extends GroupLoad>(loads: Iterable<L>): L[] {
  const slots = new Map<string, L>();
  for (const load of loads) {
    const key = slotKey(load);
    slots.set(key, { ...load, blocks: load.blocks + (slots.get(key)?.blocks ?? 0) });
  }
  return [...slots.values()];
}
