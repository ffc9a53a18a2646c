import {
  isSolvable,
  opened,
  optimum,
  weighed,
  type LinearSolver,
  type OpenProgram,
  type Optimum,
} from '../shared/linearProgram';
import type { GroupLoad } from './groupLoad';
import { EARLIER_FIRST, loadModel, ORDERS_FIRST, type LoadModel } from './loadModel';
import type { PlanView } from './planView';
import { constantCost, expectedCost, type PlanCost } from './planCost';
import { polishPlan } from './polishPlan';
import { wholeBlocks } from './wholeBlocks';

/** The least that any plan in parts of blocks comes to. */
export interface PlanBound {
  /** Value of what orders fall short. */
  readonly shortage: number;
  /** Value short from which on it counts `ORDERS_FIRST` times. */
  readonly shortageMost: number;
  /** All costs in one measure: shortage, what of it is over the tolerance `ORDERS_FIRST` times, and the rest. */
  readonly total: number;
  /** A plan's costs in that measure. */
  readonly totalOf: (cost: PlanCost) => number;
}

export interface SolvedLoads {
  readonly loads: GroupLoad[];
  readonly bound: PlanBound;
  /** Most that the shortage may cost before it counts more, in solver units. */
  readonly shortageCap: number;
}

/** Passes that make loads fewer and larger. */
const WEIGHING_PASSES = 3;
/** Columns up to which the simplex method gets from the least shortage to the least cost sooner than another start. */
const WARM_COLUMNS = 2500;
/** How often a service level that rounding has taken is asked for again; and how much of it may be missing, as a share. */
const MOST_ROUNDS = 2;
export const LEVEL_TOLERANCE = 5e-4;
/** The plan by linear programmes, as if there were no previous one; undefined where the solver finds no solution. */
export function solvePlan(view: PlanView, solver: LinearSolver): SolvedLoads | undefined {
  const model = loadModel(view);
  const { program, shortage, total } = model;
  if (![program.cost, shortage, total].every((cost) => isSolvable({ ...program, cost }))) return undefined;
  if (view.futures.length > 0) return solveFutures(view, solver, model);
  return opened(solver, model.program, (open) => {
    open.setCosts(model.shortage);
    const leastShortage = optimum(open, 'interior');
    if (!leastShortage) return undefined;
    const { settings } = view.problem;
    const least = leastShortage.cost;
    const tolerance = (settings.orderTolerance * view.orderValue) / view.blockValue;
    const shortageCap = least + tolerance + 1e-6;
    open.setRowBounds(model.shortageRow, -Infinity, shortageCap);
    open.setCosts(model.total);
    const cheapest = optimum(open, model.program.cost.length > WARM_COLUMNS ? 'interior' : 'primal');
    if (!cheapest) return undefined;
    const bound = boundOf(view, leastShortage.cost, cheapest.cost, shortageCap);
    const { cost, solution } = weighedPasses(view, model, open, cheapest);
    const { loads, wishes } = wholeBlocks(view, model, open, cost, solution);
    return { loads: polishPlan(view, solver, loads, wishes, bound, shortageCap), bound, shortageCap };
  });
}

/**
 * The plan that is cheapest over all possible seasons: the orders' shortage is one of its costs, and counts several
 * times beyond what the service level allows. Rounding loses far
 * less than the seasons differ, so it is done in few stretches and not polished.
 */
function solveFutures(view: PlanView, solver: LinearSolver, model: LoadModel): SolvedLoads | undefined {
  const shortageCap = view.shortageAllowed / view.blockValue;
  return opened(solver, model.program, (open) => {
    open.setRowBounds(model.shortageRow, -Infinity, shortageCap);
    open.setCosts(model.total.map((total, j) => total + model.ties[j]!));
    const cheapest = optimum(open, 'bare');
    if (!cheapest) return undefined;
    const left = view.lots.reduce((sum, { lot, leftCost }) => sum + lot.blocks * leftCost, 0);
    const bound = {
      ...boundOf(view, 0, 0, Infinity),
      total: weighed(model.total, cheapest.columns) * view.blockValue + left,
    };
    const rounded = (from: Optimum): GroupLoad[] => {
      const { cost, solution } = weighedPasses(view, model, open, from);
      return wholeBlocks(view, model, open, cost, solution).loads;
    };
    let best = rounded(cheapest);
    const isWithinReach = weighed(model.shortage, cheapest.columns) <= shortageCap * (1 + 2 * EARLIER_FIRST);
    // Rounding may take the last of a service level: it is then asked for so much more.
    for (let cap = shortageCap, round = 0; isWithinReach && round < MOST_ROUNDS; round++) {
      const missed = expectedCost(view, best)!.shortage - view.shortageAllowed;
      if (!(missed > LEVEL_TOLERANCE * view.orderValue)) break;
      cap -= missed / view.blockValue;
      resetBounds(open, model);
      open.setRowBounds(model.shortageRow, -Infinity, cap);
      open.setCosts(model.total.map((total, j) => total + model.ties[j]!));
      const next = optimum(open, 'dual');
      const loads = next && rounded(next);
      if (!loads || expectedCost(view, loads)!.measure >= expectedCost(view, best)!.measure) break;
      best = loads;
    }
    return { loads: best, bound, shortageCap };
  });
}

/**
 * Plans that keep to the previous one: the one within the tolerance that moves the fewest blocks, and the one for
 * which each block kept is worth the cost of moving it. They are in parts of blocks first, then rounded.
 */
export function keepingPlans(
  view: PlanView,
  solver: LinearSolver,
  { bound, shortageCap }: SolvedLoads,
  kept: readonly GroupLoad[],
): GroupLoad[][] {
  const model = loadModel(view, kept);
  const home = homesOf(kept);
  const moves = model.total.map((_, j) => {
    const load = model.loads[j];
    return load ? (load.kept ? -1 : 1) : 0;
  });
  const worth = view.moveCost / view.blockValue;
  return opened(solver, model.program, (open) => {
    open.setRowBounds(model.shortageRow, -Infinity, shortageCap);
    const priced = model.total.map((total, j) => total + model.ties[j]! + worth * moves[j]!);
    // A block that moves counts so much that only the tolerance could pay for it: its price is searched by halving.
    const plans: GroupLoad[][] = [];
    open.setCosts(priced);
    const first = optimum(open, 'interior');
    if (!first) return plans;
    const tolerance = (0.8 * view.problem.settings.keepTolerance * view.orderValue) / view.blockValue;
    const most = (bound.total - constantCost(view)) / view.blockValue + tolerance;
    let best: { cost: Float64Array; solution: Optimum } = { cost: priced, solution: first };
    for (const price of [64, 16, 4]) {
      const cost = model.total.map((total, j) => total + model.ties[j]! + price * worth * moves[j]!);
      open.setCosts(cost);
      const solution = optimum(open, 'primal');
      if (!solution || weighed(model.total, solution.columns) > most) continue;
      best = { cost, solution };
      break;
    }
    for (const { cost, solution } of [best, { cost: priced, solution: first }]) {
      if (plans.length > 0 && solution === first) break;
      const { loads, wishes } = wholeBlocks(view, model, open, cost, solution, home);
      plans.push(
        view.futures.length > 0 ? loads : polishPlan(view, solver, loads, wishes, bound, shortageCap, kept),
      );
      resetBounds(open, model);
    }
    return plans;
  });
}

function boundOf(view: PlanView, shortage: number, total: number, cap: number): PlanBound {
  const most = cap * view.blockValue;
  return {
    shortage: (shortage * view.blockValue) / (1 + EARLIER_FIRST),
    shortageMost: most,
    total: total * view.blockValue + constantCost(view),
    totalOf: (cost) => cost.shortage + cost.rest + (ORDERS_FIRST - 1) * Math.max(0, cost.shortage - most),
  };
}

/**
 * Solves for all costs with ties broken, then a few times more with small loads made dearer. Over possible seasons the
 * cheapest plan was found with ties broken already.
 */
function weighedPasses(
  view: PlanView,
  model: LoadModel,
  open: OpenProgram,
  cheapest: Optimum,
): { cost: Float64Array; solution: Optimum } {
  const base = model.total.map((total, j) => total + model.ties[j]!);
  let best = { cost: base, solution: cheapest };
  const hasFutures = view.futures.length > 0;
  const last = view.loadCost === 0 ? 0 : hasFutures ? 2 : WEIGHING_PASSES;
  for (let pass = hasFutures ? 1 : 0; pass <= last; pass++) {
    const cost = base.slice();
    if (pass > 0) {
      model.loads.forEach((_, j) => {
        const blocks = Math.round(best.solution.columns[j]! * 1e4) / 1e4;
        cost[j]! += view.loadCost / view.blockValue / (blocks + 2);
      });
    }
    open.setCosts(cost);
    const solution = optimum(open, 'primal');
    if (!solution) break;
    best = { cost, solution };
  }
  return best;
}

const homesOf = (
  kept: readonly GroupLoad[],
): ((load: { lot: number; day: number }) => number | undefined) => {
  const homes = new Map(kept.map(({ lot, day, group }) => [`${lot} ${day}`, group]));
  return ({ lot, day }) => homes.get(`${lot} ${day}`);
};

const resetBounds = (open: OpenProgram, { program }: LoadModel): void =>
  open.setBounds(program.lower, program.upper);
