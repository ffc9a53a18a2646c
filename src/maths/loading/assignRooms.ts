import { labelKey } from '../shared/labels';
import { lotDayKey, type GroupLoad } from './groupLoad';
import type { PlannedLoad } from './loadingProblem';
import { byText } from './lotView';
import type { PlanView } from './planView';
import { roomFree } from './roomGroups';

/** The order of a plan's loads: day, lot, room. */
export const inPlanOrder = (a: PlannedLoad, b: PlannedLoad): number =>
  a.day - b.day || byText(a.lot, b.lot) || byText(a.room, b.room);

/**
 * A room for every load of a plan that keeps to the places of its groups. Loads are taken day by day, larger ones
 * first. Each goes where the previous plan had it. Otherwise it goes whole into the room with the fewest places that
 * holds it, or failing that into as few rooms as possible.
 *
 * A load always fits: places of a group that are free on a day stay free, so their number does not depend on the
 * rooms chosen before.
 *
 * @param previous the plan before, whose rooms are kept where they can be
 * @returns loads in the order of day, lot and room
 * @source Kleinberg, J. & Tardos, É. (2006) Algorithm Design, §4.1: interval partitioning needs as many rooms as its depth
 */
export function assignRooms(
  view: PlanView,
  loads: readonly GroupLoad[],
  previous: readonly PlannedLoad[] = [],
): PlannedLoad[] {
  const { problem } = view;
  const free = problem.rooms.map((room) => roomFree(problem, room, view.pickDays));
  const before = new Map<string, Map<string, number>>();
  for (const load of previous) {
    const { room, blocks } = load;
    const key = lotDayKey(load);
    if (!before.has(key)) before.set(key, new Map());
    const rooms = before.get(key)!;
    rooms.set(labelKey(room), (rooms.get(labelKey(room)) ?? 0) + blocks);
  }
  const placed: PlannedLoad[] = [];
  const inTurn = [...loads].sort(
    (a, b) => a.day - b.day || b.blocks - a.blocks || a.lot - b.lot || a.group - b.group,
  );
  for (const { lot, day, group, blocks } of inTurn) {
    const { lot: given, stay } = view.lots[lot]!;
    const { rooms: all, since, perShelf, watched } = view.groups[group]!;
    const rooms = all.filter((_, n) => since[n]! <= day);
    const serial = problem.start + day;
    const fits = (room: number): number => {
      let least = free[room]![day]!;
      for (let k = day; k < Math.min(day + stay, watched); k++) least = Math.min(least, free[room]![k]!);
      return least;
    };
    let left = blocks;
    const into = new Map<number, number>();
    const put = (room: number, most: number): void => {
      const size = Math.min(left, most);
      if (size <= 0) return;
      const taken = Math.ceil(size / perShelf) * perShelf;
      for (let k = day; k < Math.min(day + stay, view.pickDays); k++) free[room]![k]! -= taken;
      into.set(room, (into.get(room) ?? 0) + size);
      left -= size;
    };
    const keep = before.get(lotDayKey({ lot: given.lot, day: serial }));
    if (keep) {
      for (const room of rooms) {
        const label = labelKey(problem.rooms[room]!.room);
        const most = Math.min(fits(room), keep.get(label) ?? 0);
        const size = Math.min(
          left,
          perShelf > 1 && most < left ? Math.floor(most / perShelf) * perShelf : most,
        );
        put(room, size);
        keep.set(label, (keep.get(label) ?? 0) - size);
      }
    }
    while (left > 0) {
      const open = rooms.map((room) => ({ room, places: fits(room) })).filter(({ places }) => places > 0);
      if (open.length === 0) throw new Error('a load that fits its group fits no room');
      const whole = open.filter(({ places }) => places >= left);
      const choice =
        whole.length > 0
          ? whole.reduce((best, next) => (next.places < best.places ? next : best))
          : open.reduce((best, next) => (next.places > best.places ? next : best));
      put(choice.room, choice.places);
    }
    for (const [room, size] of into) {
      placed.push({ lot: given.lot, room: problem.rooms[room]!.room, day: serial, blocks: size });
    }
  }
  return placed.sort(inPlanOrder);
}
