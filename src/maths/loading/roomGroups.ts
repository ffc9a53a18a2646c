import { labelKey } from '../shared/labels';
import type { LoadingProblem, PlanRoom } from './loadingProblem';
import { byText, type LotView } from './lotView';
import { isShut } from './shelfUse';

/**
 * Rooms that are alike to the planner. All take the same strains, and places free on a day stay free, so blocks that
 * fit the group's places always find a room. A room that shuts is in two groups: before, with those that shut on the
 * same day, and from the day it opens again, with those that stay open. A room that fills later on is a group by itself.
 */
export interface RoomGroup {
  readonly key: string;
  readonly rooms: readonly number[];
  /** For each of its rooms, the first day on which it belongs to the group. */
  readonly since: readonly number[];
  /** Day by which all blocks must be out; Infinity where the rooms do not shut. */
  readonly until: number;
  readonly takes: (strain: string) => boolean;
  /** Places free on each day, beside standing loads. */
  readonly free: readonly number[];
  /** Days whose places are checked: to the last day of loading, or longer where places become fewer later on. */
  readonly watched: number;
  /** Blocks that share a shelf: 1 where shelves need not be whole. */
  readonly perShelf: number;
}

/** The rooms of a problem in as few groups as there can be: they do not multiply the columns of lots. */
export function roomGroups(
  problem: LoadingProblem,
  lots: readonly LotView[],
  pickDays: number,
  loadLimit: readonly number[],
): RoomGroup[] {
  const { rooms, days, settings } = problem;
  const lastStay = Math.min(pickDays, days + lots.reduce((most, { stay }) => Math.max(most, stay), 1) - 1);
  const firstLoading = Math.max(
    0,
    loadLimit.findIndex((limit) => limit > 0),
  );
  const groups = new Map<
    string,
    { rooms: number[]; since: number[]; until: number; free: number[]; watched: number }
  >();
  const join = (
    key: string,
    at: number,
    since: number,
    until: number,
    free: number[],
    watched: number,
  ): void => {
    const group = groups.get(key);
    if (!group) {
      groups.set(key, { rooms: [at], since: [since], until, free, watched });
      return;
    }
    group.rooms.push(at);
    group.since.push(since);
    free.forEach((places, day) => (group.free[day]! += places));
  };
  const order = rooms
    .map((_, at) => at)
    .sort((a, b) => byText(labelKey(rooms[a]!.room), labelKey(rooms[b]!.room)));
  for (const at of order) {
    const room = rooms[at]!;
    const free = roomFree(problem, room, pickDays);
    const strains = room.strains ? [...new Set(room.strains.map(labelKey))].sort().join(',') : '*';
    const alike = `${strains}/${settings.wholeShelves ? room.blocksPerShelf : 1}`;
    const fills = free.flatMap((places, day) =>
      day > firstLoading && day < lastStay && places < free[day - 1]! ? [day] : [],
    );
    const [shuts] = fills;
    if (shuts === undefined) join(alike, at, 0, Infinity, free, days);
    else if (fills.length === 1 && free[shuts] === 0) {
      const opens = free.findIndex((places, day) => day > shuts && places > 0);
      const before = free.map((places, day) => (day < shuts ? places : 0));
      join(`${alike} until ${problem.start + shuts}`, at, 0, shuts, before, shuts);
      if (opens > 0 && opens < days) {
        const after = free.map((places, day) => (day < opens ? 0 : places));
        join(alike, at, opens, Infinity, after, days);
      }
    } else join(`room ${labelKey(room.room)}`, at, 0, Infinity, free, lastStay);
  }
  return [...groups].map(([key, group]) => {
    const first = rooms[group.rooms[0]!]!;
    const allowed = first.strains && new Set(first.strains.map(labelKey));
    return {
      ...group,
      key,
      takes: (strain) => !allowed || allowed.has(strain),
      perShelf: settings.wholeShelves ? first.blocksPerShelf : 1,
    };
  });
}

/** Whether blocks loaded in a group on a day are out before its rooms shut. */
export const outInTime = ({ until }: RoomGroup, day: number, stay: number): boolean => day + stay <= until;

/** Places of a room free on each day from the start, beside standing loads; none while it is shut. */
export function roomFree(problem: LoadingProblem, room: PlanRoom, pickDays: number): number[] {
  const { start, settings } = problem;
  const perShelf = settings.wholeShelves ? room.blocksPerShelf : 1;
  const taken = new Array<number>(pickDays).fill(0);
  for (const load of problem.standing) {
    if (labelKey(load.room) !== labelKey(room.room)) continue;
    const at = Math.floor(load.loaded) - start;
    const until = Math.min(pickDays, at + load.curve.stay + settings.turnRound);
    for (let day = Math.max(0, at); day < until; day++)
      taken[day]! += Math.ceil(load.blocks / perShelf) * perShelf;
  }
  return taken.map((blocks, day) => (isShut(room, start + day) ? 0 : Math.max(0, room.places - blocks)));
}
