import type { LoadPlan } from '../../maths/loading/loadPlan';
import type { LoadingProblem, PlannedLoad } from '../../maths/loading/loadingProblem';
import { roomDays, type RoomDays } from '../../maths/loading/roomDays';
import { labelKey } from '../../maths/shared/labels';
import { LAST_SERIAL } from '../../maths/shared/serial';
import type { ResultRow } from '../cells/results';
import { lotsByLabel, type PlanCall } from './solvedPlan';
import type { planViews } from './views';

/** The rooms on each day, with what is on the shelves already and what is to be loaded. */
export function roomsWith(
  problem: LoadingProblem,
  loads: readonly PlannedLoad[],
  from: number,
  days: number,
): RoomDays[] {
  const byLot = lotsByLabel(problem);
  const all = [
    ...problem.standing.map((load) => ({ ...load, stay: load.curve.stay })),
    ...loads.map(({ lot, room, day, blocks }) => ({
      room,
      loaded: day,
      blocks,
      stay: byLot.get(labelKey(lot))!.curve.stay,
    })),
  ];
  return roomDays(problem.rooms, all, problem.settings.turnRound, from, days);
}

/**
 * Rooms down, days across: what is on the shelves of every room, and below it what is free, so that each is one block of
 * cells to colour. A room that is shut reads `closed`, unless blocks are inside.
 */
export function boardRows({ problem }: PlanCall, plan: LoadPlan): ResultRow<typeof planViews.board>[] {
  const { start } = problem;
  const days = Math.min(problem.days, Math.ceil(LAST_SERIAL + 1 - start));
  const rooms = roomsWith(problem, plan.loads, start, days);
  const rowsOf = (
    what: string,
    cellOf: (room: RoomDays, day: number) => number | string,
  ): ResultRow<typeof planViews.board>[] =>
    rooms.map((one) => ({
      what,
      room: one.room,
      places: one.places,
      day: new Map(one.free.map((_, day) => [start + day, cellOf(one, day)])),
    }));
  return [
    ...rowsOf('on shelves', ({ blocks, free }, day) =>
      free[day] === undefined && blocks[day] === 0 ? 'closed' : blocks[day]!,
    ),
    ...rowsOf('free', ({ free }, day) => free[day] ?? 'closed'),
  ];
}
