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
 *
 * The steps, each in a file of its own:
 *
 *        problem, previous plan
 *                  │  planView (loadingProblem)
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
 *                  └── checkLoads: every rule again, from the problem alone
 *
 * The other files of the family answer smaller questions without the planner: pickDate, pickCurve, pickCalendar,
 * shelfUse, shelfBlocks, splitLoad, blocksFor, startsNeeded and backPlan.
 */
import { invalid, noConvergence, type CalcError } from '../shared/fault';
import { weighed, type LinearProgram, type LinearSolution, type LinearSolver } from '../shared/linearProgram';
import { labelKey } from '../shared/labels';
import { assignRooms, inPlanOrder } from './assignRooms';
import { FreeCapacity, SLACK } from './freeCapacity';
import { greedyPlan } from './greedyPlan';
import { addedUp, lotDayKey, slotKey, type GroupLoad } from './groupLoad';
import { EARLIER_FIRST, loadModel, openSlotCount, type LoadModel } from './loadModel';
import { planView, type LoadingProblem, type PlannedLoad, type PlanView } from './loadingProblem';
import { constantCost, planCost, type PlanCost } from './planCost';
import { Rounding, type Wish } from './roundPlan';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A plan with more lots and days than the solver can take. */
    planTooLarge: { readonly most: number; readonly found: number };
    /** A solver that stopped without an answer. */
    noPlan: { readonly status: string };
  }
}

export interface LoadPlan {
  readonly view: PlanView;
  /** In the order of day, lot and room; frozen loads of the previous plan included. */
  readonly loads: readonly PlannedLoad[];
  /** The loads that the planner chose itself. */
  readonly chosen: readonly GroupLoad[];
  readonly cost: PlanCost;
  readonly method: 'HiGHS' | 'greedy';
  /** Least shortage and least rest of any plan in parts of blocks; undefined for the rule of thumb. */
  readonly bound: { readonly shortage: number; readonly rest: number } | undefined;
  /** Blocks of the previous plan's days that are opened on another day or not at all; undefined without one. */
  readonly moved: number | undefined;
}

/** Largest programme measured to solve within half a minute and the memory of a browser. */
const MOST_COLUMNS = 65_000;
/** Stretches of days rounded one after another: more where a programme is solved in a few milliseconds. */
const stretchCount = (columns: number): number => (columns < 2000 ? 15 : 6);
/** Weight of shortage against other costs once days are fixed: a limit on the shortage might no longer be met. */
const SHORTAGE_WEIGHT = 100;
/** Passes that make loads fewer and larger. */
const WEIGHING_PASSES = 3;

/**
 * What to open when, and in which room. Up to three linear programmes are solved, and each keeps what the one before
 * reached. The first makes the value of what orders fall short least. The second makes all other costs least: blocks
 * gone over age, ages, surplus, peaks and the number of loads. With a previous plan, the third moves as few blocks as
 * the tolerance allows. The last solution is rounded to whole blocks and given rooms.
 *
 * @param solver a loaded linear solver; null where none can run, and the rule of thumb makes the plan
 * @param previous the plan before: loads from the start on are kept where that costs little
 * @throws invalid where the programme is larger than the solver can take
 */
export function loadPlan(
  given: LoadingProblem,
  solver: LinearSolver | null,
  previous: readonly PlannedLoad[] | undefined = undefined,
): LoadPlan {
  const before = previous?.filter(({ day }) => day >= given.start && day < given.start + given.days);
  const { problem, frozen } = withFrozen(given, before ?? []);
  const view = planView(problem);
  const inLine = before && keptLoads(view, before);
  if (openSlotCount(view) > MOST_COLUMNS) throw tooLarge(openSlotCount(view));
  const model = loadModel(view);
  const columns = model.program.cost.length;
  if (columns > MOST_COLUMNS) throw tooLarge(columns);
  const solved = solver ? solvedPlan(view, solver, model) : undefined;
  const first = solved ? solved.loads : greedyPlan(view);
  const firstCost = planCost(view, first);
  let chosen = { loads: first, cost: firstCost };
  if (before && inLine) {
    const allowed = firstCost.shortage + firstCost.rest + problem.settings.keepTolerance * view.orderValue;
    const good = ({ cost }: { cost: PlanCost }): boolean =>
      cost.shortage + cost.rest <= allowed * (1 + 1e-9) + 1e-9;
    const kept = wholePlan(view, before, inLine);
    if (kept && good({ cost: planCost(view, kept) })) {
      return finished(
        view,
        kept,
        [...frozen, ...before.filter((load) => !frozen.includes(load))],
        before,
        solved,
      );
    }
    if (solver && solved) {
      const loads = keepingPlan(view, solver, solved, inLine);
      const near = { loads, cost: planCost(view, loads) };
      if (good(near)) chosen = near;
    }
  }
  const placed = [...frozen, ...assignRooms(view, chosen.loads, before)];
  return finished(view, chosen.loads, placed, before, solved);
}

const tooLarge = (columns: number): CalcError =>
  invalid('days', 'planTooLarge', { most: MOST_COLUMNS, found: columns });

function finished(
  view: PlanView,
  chosen: readonly GroupLoad[],
  loads: readonly PlannedLoad[],
  before: readonly PlannedLoad[] | undefined,
  solved: SolvedPlan | undefined,
): LoadPlan {
  return {
    view,
    loads: [...loads].sort(inPlanOrder),
    chosen,
    cost: planCost(view, chosen),
    method: solved ? 'HiGHS' : 'greedy',
    bound: solved?.bound,
    moved: before && movedBlocks(before, loads),
  };
}

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

/** Turns the frozen loads into standing loads and takes their blocks off the lots. Drops unknown lots and rooms. */
function withFrozen(
  problem: LoadingProblem,
  before: readonly PlannedLoad[],
): { problem: LoadingProblem; frozen: PlannedLoad[] } {
  const { start, settings } = problem;
  const lots = new Map(problem.lots.map((lot) => [labelKey(lot.lot), lot]));
  const rooms = new Set(problem.rooms.map(({ room }) => labelKey(room)));
  const frozen = before.filter(
    ({ lot, room, day }) =>
      day < start + settings.freezeDays && lots.has(labelKey(lot)) && rooms.has(labelKey(room)),
  );
  if (frozen.length === 0) return { problem, frozen };
  const taken = new Map<string, number>();
  for (const { lot, blocks } of frozen) taken.set(labelKey(lot), (taken.get(labelKey(lot)) ?? 0) + blocks);
  const standing = frozen.map(({ lot, room, day, blocks }) => {
    const { strain, product, yieldPerBlock, curve } = lots.get(labelKey(lot))!;
    return { room, strain, product, loaded: day, blocks, yieldPerBlock, curve };
  });
  return {
    problem: {
      ...problem,
      lots: problem.lots.map((lot) => ({
        ...lot,
        blocks: Math.max(0, lot.blocks - (taken.get(labelKey(lot.lot)) ?? 0)),
      })),
      standing: [...problem.standing, ...standing],
    },
    frozen,
  };
}

/** The previous plan's loads that are not frozen, added up by slot. Unknown lots and rooms are left out. */
function keptLoads(view: PlanView, before: readonly PlannedLoad[]): GroupLoad[] {
  const { start, settings, rooms } = view.problem;
  const lotAt = new Map(view.lots.map(({ key }, at) => [key, at]));
  const groupAt = new Map(
    view.groups.flatMap((group, at) => group.rooms.map((room) => [labelKey(rooms[room]!.room), at] as const)),
  );
  const kept: GroupLoad[] = [];
  for (const { lot, day, room, blocks } of before) {
    const [index, group] = [lotAt.get(labelKey(lot)), groupAt.get(labelKey(room))];
    const offset = Math.floor(day) - start;
    if (index === undefined || group === undefined || offset < settings.freezeDays) continue;
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

interface SolvedPlan {
  readonly loads: readonly GroupLoad[];
  readonly bound: { readonly shortage: number; readonly rest: number };
  /** Most that the shortage may cost, in solver units. */
  readonly shortageCap: number;
}

/** The plan by linear programmes, as if there were no previous one. */
function solvedPlan(view: PlanView, solver: LinearSolver, model: LoadModel): SolvedPlan {
  const leastShortage = leastCost(solver, { ...model.program, cost: model.shortage });
  const shortageCap = capOf(leastShortage.cost);
  const within = withRow(model.program, model.shortage, shortageCap);
  const ages = leastCost(solver, { ...within, cost: model.rest });
  let last = ages;
  let cost = model.rest;
  for (let pass = 0; pass < WEIGHING_PASSES && view.loadCost > 0; pass++) {
    cost = model.rest.slice();
    model.loads.forEach((_, j) => {
      const blocks = Math.round(last.columns[j]! * 1e4) / 1e4;
      cost[j]! += view.loadCost / view.blockValue / (blocks + 2);
    });
    last = leastCost(solver, { ...within, cost });
  }
  return {
    loads: wholeBlocks(view, solver, model, cost, last),
    bound: {
      shortage: (leastShortage.cost * view.blockValue) / (1 + EARLIER_FIRST),
      rest: weighed(model.trueRest, ages.columns) * view.blockValue + constantCost(view),
    },
    shortageCap,
  };
}

/** Of the plans within the tolerance, the one that moves the fewest blocks of the previous plan. */
function keepingPlan(
  view: PlanView,
  solver: LinearSolver,
  { bound, shortageCap }: SolvedPlan,
  kept: readonly GroupLoad[],
): GroupLoad[] {
  const model = loadModel(view, kept);
  const rest = (bound.rest - constantCost(view)) / view.blockValue;
  const tolerance = (view.problem.settings.keepTolerance * view.orderValue) / view.blockValue;
  const within = withRow(
    withRow(model.program, model.shortage, shortageCap),
    model.trueRest,
    capOf(rest) + tolerance,
  );
  const moves = model.rest.map((cost, j) => {
    const load = model.loads[j];
    return load ? (load.kept ? -1 : 1) + 1e-3 * cost : 1e-3 * cost;
  });
  return wholeBlocks(view, solver, model, moves, leastCost(solver, { ...within, cost: moves }));
}

/**
 * A solution in whole blocks. Days are rounded stretch by stretch. After each stretch the programme is solved again
 * with those days fixed, so that later days make up for what rounding took.
 */
function wholeBlocks(
  view: PlanView,
  solver: LinearSolver,
  model: LoadModel,
  rest: Float64Array,
  solution: Optimum,
): GroupLoad[] {
  const rounding = new Rounding(view);
  const cost = rest.map((value, j) => value + SHORTAGE_WEIGHT * model.shortage[j]!);
  const ends = stretches(model, solution.columns);
  // Blocks that are fixed may pass a picking limit by as much as floating point made the rounding pass it.
  const passed = SLACK * view.lots.reduce((most, { lot }) => Math.max(most, lot.yieldPerBlock), 1);
  let wishes = wishesOf(model, solution);
  ends.forEach((end, stretch) => {
    rounding.roundDays(wishes, ends[stretch - 1] ?? 0, end);
    if (stretch === ends.length - 1) return;
    const lower = model.program.lower.slice();
    const upper = model.program.upper.map((most, j) => (j < model.loads.length ? most : most + passed));
    const kept = new Map<string, number>();
    model.loads.forEach((load, j) => {
      if (load.day >= end) return;
      const key = slotKey(load);
      const blocks = rounding.blocksOf(load) - (kept.get(key) ?? 0);
      const here = Math.min(blocks, upper[j]!);
      kept.set(key, (kept.get(key) ?? 0) + here);
      lower[j] = here;
      upper[j] = here;
    });
    wishes = wishesOf(model, leastCost(solver, { ...model.program, lower, upper, cost }));
  });
  rounding.placeOwed(wishes);
  return rounding.loads;
}

/** Ends of the stretches in which days are rounded: the stretches have about equal numbers of blocks. */
function stretches({ loads }: LoadModel, columns: Float64Array): number[] {
  const perDay = new Array<number>(loads.reduce((last, { day }) => Math.max(last, day + 1), 0)).fill(0);
  loads.forEach(({ day }, j) => (perDay[day]! += columns[j]!));
  const total = perDay.reduce((sum, blocks) => sum + blocks, 0);
  const count = stretchCount(columns.length);
  const ends: number[] = [];
  let sum = 0;
  for (let day = 0; day < perDay.length; day++) {
    sum += perDay[day]!;
    if (sum >= (total * (ends.length + 1)) / count && ends.length < count - 1) ends.push(day + 1);
  }
  return [...ends, Infinity];
}

/** What a cost that was reached may come to in the next programme: slightly more, for the solver's tolerance. */
const capOf = (cost: number): number => cost + 1e-3 + 1e-6 * Math.abs(cost);

/** The wishes of a solution: a slot's kept and new blocks count as one. */
function wishesOf(model: LoadModel, { columns }: Optimum): Wish[] {
  return addedUp(
    model.loads.map(({ lot, day, group }, j) => ({
      lot,
      day,
      group,
      blocks: columns[j]!,
      cost: model.rest[j]!,
    })),
  );
}

type Optimum = Extract<LinearSolution, { status: 'optimal' }>;

/** A programme's optimum. @throws noConvergence where the solver stops without one */
export function leastCost(solver: LinearSolver, program: LinearProgram): Optimum {
  const solution = solver.solve(program, 'interior');
  if (solution.status !== 'optimal') throw noConvergence('days', 'noPlan', { status: solution.status });
  return solution;
}

/** The programme with one more row: weights × columns at most `most`. */
function withRow(program: LinearProgram, weights: Float64Array, most: number): LinearProgram {
  const { starts, rows, values, rowLower, rowUpper } = program;
  const row = rowLower.length;
  const added = weights.reduce((sum, weight) => sum + (weight === 0 ? 0 : 1), 0);
  const next = {
    starts: new Int32Array(starts.length),
    rows: new Int32Array(rows.length + added),
    values: new Float64Array(values.length + added),
  };
  let at = 0;
  for (let j = 0; j < weights.length; j++) {
    for (let k = starts[j]!; k < starts[j + 1]!; k++, at++) {
      next.rows[at] = rows[k]!;
      next.values[at] = values[k]!;
    }
    if (weights[j] !== 0) {
      next.rows[at] = row;
      next.values[at++] = weights[j]!;
    }
    next.starts[j + 1] = at;
  }
  return {
    ...program,
    ...next,
    rowLower: Float64Array.of(...rowLower, -Infinity),
    rowUpper: Float64Array.of(...rowUpper, most),
  };
}
