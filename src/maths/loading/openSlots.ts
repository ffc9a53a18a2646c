import type { LoadSlot } from './groupLoad';
import type { PlanView } from './planView';
import { outInTime } from './roomGroups';

/** The groups that can take a lot on a day. */
export function groupsFor(view: PlanView, lot: number, day: number): number[] {
  const { kind, stay } = view.lots[lot]!;
  const { strain } = view.kinds[kind]!;
  return view.groups.flatMap((group, at) => (group.takes(strain) && outInTime(group, day, stay) ? [at] : []));
}

/** The days on which each lot may be opened, somewhere. */
export function lotDays(view: PlanView): { readonly lot: number; readonly day: number }[] {
  const days: { lot: number; day: number }[] = [];
  view.lots.forEach(({ from, to, lot: { blocks } }, lot) => {
    if (blocks < 1) return;
    for (let day = from; day <= to; day++) {
      if (view.loadLimit[day]! > 0 && groupsFor(view, lot, day).length > 0) days.push({ lot, day });
    }
  });
  return days;
}

/** The slots that are open to the planner. */
export const openSlots = (view: PlanView): LoadSlot[] =>
  lotDays(view).flatMap(({ lot, day }) => groupsFor(view, lot, day).map((group) => ({ lot, day, group })));

/** Days of lots, counted as if every day were a loading day. */
export const openDayCount = (view: PlanView): number =>
  view.lots.reduce((sum, { from, to }) => sum + Math.max(0, to - from + 1), 0);
