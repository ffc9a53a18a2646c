/*
 * The loading family: which blocks to open when, and in which room. Its words, each with one meaning:
 *
 *   problem  what a grower gives: lots, rooms, orders, standing loads, daily limits, settings. Days are serials.
 *   view     the problem as the planner sees it, worked out once. Days count from the start of the plan.
 *   lot      blocks of one strain and product that ripen together and are not opened yet.
 *   kind     a strain and the product it is sold as. Lots of one kind fill the same orders.
 *   group    rooms that are alike to the planner: they take the same strains and stay free once they are free.
 *   atom     the days on which a kind's picking may go to the same orders.
 *   slot     where a load may go: a lot, a day and a group.
 *   load     blocks for a slot (GroupLoad); once it has a room, a planned load (PlannedLoad). A standing load
 *            (StandingLoad) was on the shelves before the plan starts.
 *   wish     a load as the linear programme wants it, in parts of blocks.
 *   kept     what the previous plan put in a slot and the new one may leave there.
 *   frozen   what the previous plan loads on its first days, which may not change.
 *   fate     what becomes of a load in one possible season: its yield, the days of its flushes, the day it is ripe.
 *   future   one possible season: what each load gives when. Without spreads there is only the expected one.
 *
 * The steps, each in a file of its own:
 *
 *        problem, previous plan
 *                  │  frozenLoads: what of its first days can still be kept
 *                  │  planView: lotView, orderView, roomGroups, futures (drawnFates)
 *                  ▼
 *                view ───────────────────────────────┐
 *                  │  loadModel                      │  without a solver:
 *                  ▼                                 │  greedyPlan, a rule of thumb
 *          linear programme                          │
 *                  │  solved for the shortage,       │
 *                  │  then for everything else       │
 *                  ▼                                 │
 *               wishes ◄─── solved again for ┐       │
 *                  │        the days left    │       │
 *                  │  Rounding (roundPlan),  │       │
 *                  │  within FreeCapacity ───┘       │
 *                  ▼                                 ▼
 *            loads in groups ◄───────────────────────┘
 *                  │  with a previous plan: keep it whole,
 *                  │  or solve once more for the fewest moves
 *                  │  assignRooms
 *                  ▼
 *            planned loads
 *                  │
 *                  ├── planCost: what the plan costs and fills (fillOrders)
 *                  ├── shortageCauses: why orders fall short
 *                  ├── remedies: what would fill each, by leastAdditions, planned again with these additions
 *                  └── checkLoads: every rule again, from the problem alone
 *
 * The other files of the family answer smaller questions without the planner: pickDate, pickCurve, pickCalendar,
 * shelfUse, shelfBlocks, splitLoad, blocksFor, startsNeeded and backPlan.
 */
import { invalid, type CalcError } from '../shared/fault';
import { labelKey } from '../shared/labels';
import type { LinearSolver } from '../shared/linearProgram';
import { assignRooms, inPlanOrder } from './assignRooms';
import { FreeCapacity } from './freeCapacity';
import { withFrozen, type NotKept } from './frozenLoads';
import { greedyPlan } from './greedyPlan';
import { addedUp, lotDayKey, slotKey, type GroupLoad } from './groupLoad';
import { openDayCount } from './openSlots';
import type { LoadingProblem, PlannedLoad } from './loadingProblem';
import { planView, type PlanView } from './planView';
import { outInTime } from './roomGroups';
import { expectedCost, planCost, type ExpectedCost, type PlanCost } from './planCost';
import { keepingPlans, solvePlan, type PlanBound } from './solvePlan';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A plan with more lots and days than the solver can take. */
    planTooLarge: { readonly most: number; readonly found: number };
  }
}

export interface LoadPlan {
  readonly view: PlanView;
  /** In the order of day, lot and room; frozen loads of the previous plan included. */
  readonly loads: readonly PlannedLoad[];
  /** The loads that the planner chose itself. */
  readonly chosen: readonly GroupLoad[];
  readonly cost: PlanCost;
  /** The same over all possible seasons; undefined where everything is taken to go as expected. */
  readonly expected: ExpectedCost | undefined;
  /** `stuck` is the rule of thumb where there is a solver, but it ended without a solution; `late` where it had no time. */
  readonly method: 'HiGHS' | 'greedy' | 'stuck' | 'late';
  /** Least cost of any plan in parts of blocks; undefined for the rule of thumb. */
  readonly bound: PlanBound | undefined;
  /** Blocks of the previous plan's days that are opened on another day or not at all; undefined without one. */
  readonly moved: number | undefined;
  /** Loads of frozen days, or parts of them, that would break a rule by now. */
  readonly notKept: readonly NotKept[];
}

/** Largest programme measured to solve within half a minute and the memory of a browser. */
const MOST_COLUMNS = 65_000;

/**
 * What to open when, and in which room. A first linear programme makes the value of what orders fall short least. A
 * second makes all costs least: shortage, blocks gone over age, ages, surplus, peaks and the number of loads. It may
 * give up so much of the orders as the order tolerance allows, where that saves more than it is worth. With a previous
 * plan, leaving it costs a little a block, and a third programme moves as few blocks as the tolerance allows. The last
 * solution is rounded to whole blocks, polished and given rooms.
 *
 * Where strains have a spread, the plan is the cheapest over many possible seasons. Places, loading, ages and stocks
 * stay hard; picking over a day's limit and what orders are short have their costs in each season.
 *
 * There is always a plan: where the solver ends without a solution, the rule of thumb makes it.
 *
 * @param solver a loaded linear solver; null where none can run: then, and where it is out of time, the rule of thumb makes
 *   the plan
 * @param previous the plan before: loads from the start on are kept where that costs little
 * @throws invalid where the programme is larger than the solver can take
 */
export function loadPlan(
  given: LoadingProblem,
  solver: LinearSolver | null,
  previous: readonly PlannedLoad[] | undefined = undefined,
): LoadPlan {
  const before = previous?.filter(({ day }) => day >= given.start && day < given.start + given.days);
  const { problem, frozen, notKept } = withFrozen(given, before ?? []);
  const view = planView(problem);
  const size = openDayCount(view);
  if (size > MOST_COLUMNS) throw tooLarge(size);
  const finish = (
    chosen: readonly GroupLoad[],
    bound: PlanBound | undefined,
    rooms = assignRooms(view, chosen, before),
  ): LoadPlan => {
    const loads = [...frozen, ...rooms].sort(inPlanOrder);
    return {
      view,
      loads,
      chosen,
      cost: planCost(view, chosen),
      expected: expectedCost(view, chosen),
      method: bound ? 'HiGHS' : !solver ? 'greedy' : solver.isOutOfTime ? 'late' : 'stuck',
      bound,
      moved: before && movedBlocks(before, loads),
      notKept,
    };
  };
  const solved = solver && !solver.isOutOfTime ? solvePlan(view, solver) : undefined;
  if (!solver || !solved) return finish(greedyPlan(view), undefined);
  const { bound } = solved;
  if (!before) return finish(solved.loads, bound);
  const kept = keptLoads(view, before);
  const cost = (loads: readonly GroupLoad[]): number =>
    expectedCost(view, loads)?.measure ?? bound.totalOf(planCost(view, loads));
  const allowed = cost(solved.loads) + problem.settings.keepTolerance * view.orderValue;
  const good = (loads: readonly GroupLoad[]): boolean => cost(loads) <= allowed * (1 + 1e-9) + 1e-9;
  const whole = wholePlan(view, before, kept);
  if (whole && good(whole)) {
    const open = before.filter(({ day }) => day >= problem.start + problem.settings.freezeDays);
    return finish(whole, bound, open);
  }
  const stays = (loads: readonly GroupLoad[]): number => {
    const had = new Map(kept.map((load) => [slotKey(load), load.blocks]));
    return loads.reduce((sum, load) => sum + Math.min(load.blocks, had.get(slotKey(load)) ?? 0), 0);
  };
  const near = [solved.loads, ...keepingPlans(view, solver, solved, kept)].filter(good);
  return finish(
    near.reduce((best, next) => (stays(next) > stays(best) ? next : best)),
    bound,
  );
}

const tooLarge = (columns: number): CalcError =>
  invalid('days', 'planTooLarge', { most: MOST_COLUMNS, found: columns });

/** Blocks that the plan before opens of a lot on a day and the plan after does not. */
function movedBlocks(before: readonly PlannedLoad[], after: readonly PlannedLoad[]): number {
  const blocks = new Map<string, number>();
  const count = (loads: readonly PlannedLoad[], sign: number): void => {
    for (const load of loads) {
      const key = lotDayKey(load);
      blocks.set(key, (blocks.get(key) ?? 0) + sign * load.blocks);
    }
  };
  count(before, 1);
  count(after, -1);
  return [...blocks.values()].reduce((sum, difference) => sum + Math.max(0, difference), 0);
}

/** The previous plan's loads that are not frozen, added up by slot. Unknown lots and rooms are left out. */
function keptLoads(view: PlanView, before: readonly PlannedLoad[]): GroupLoad[] {
  const { start, settings, rooms } = view.problem;
  const lotAt = new Map(view.lots.map(({ key }, at) => [key, at]));
  const groupOf = (label: string, day: number, stay: number): number =>
    view.groups.findIndex(
      (group) =>
        outInTime(group, day, stay) &&
        group.rooms.some((room, n) => labelKey(rooms[room]!.room) === label && group.since[n]! <= day),
    );
  const kept: GroupLoad[] = [];
  for (const { lot, day, room, blocks } of before) {
    const index = lotAt.get(labelKey(lot));
    const offset = Math.floor(day) - start;
    if (index === undefined || offset < settings.freezeDays) continue;
    const group = groupOf(labelKey(room), offset, view.lots[index]!.stay);
    if (group < 0) continue;
    kept.push({ lot: index, day: offset, group, blocks });
  }
  return addedUp(kept);
}

/** The previous plan as loads of this one, or undefined where a load of it no longer fits. */
function wholePlan(
  view: PlanView,
  before: readonly PlannedLoad[],
  kept: readonly GroupLoad[],
): GroupLoad[] | undefined {
  const { settings, start, rooms } = view.problem;
  const open = before.filter(({ day }) => day >= start + settings.freezeDays);
  const total = (loads: readonly { blocks: number }[]): number =>
    loads.reduce((sum, { blocks }) => sum + blocks, 0);
  if (total(open) !== total(kept)) return undefined;
  const free = new FreeCapacity(view);
  for (const load of [...kept].sort((a, b) => a.day - b.day)) {
    if (load.blocks > free.most(load)) return undefined;
    free.add(load);
  }
  const placed = assignRooms(view, kept, open);
  const key = (load: PlannedLoad): string => `${lotDayKey(load)} ${labelKey(load.room)} ${load.blocks}`;
  const same = new Set(placed.map(key));
  return rooms.length > 0 && open.every((load) => same.has(key(load))) ? [...kept] : undefined;
}
