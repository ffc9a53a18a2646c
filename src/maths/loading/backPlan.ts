import { dateOf, missing, type Placed } from '../shared/fault';
import { wholeUnitsFor } from '../shared/rounding';
import { picksAfterLoading, type PickCurve } from './pickCurve';
import { startsNeeded } from './startsNeeded';

declare module '../shared/fault' {
  interface FaultDetails {
    /** An order that nothing loaded on a work day is picked for in time. */
    notPickedInTime: { readonly from: Quantity; readonly due: Quantity };
    /** A step that no work day can start so that it is still good on the day it is needed. */
    noDayToStart: { readonly step: string; readonly strain: string; readonly needed: Quantity };
  }
}

/** What one strain needs: its blocks' yield and ripening, and the steps from the mother culture to the block. */
export interface StrainToPlan {
  readonly strain: string;
  readonly yieldPerBlock: number;
  readonly curve: PickCurve;
  /** Days from inoculation to the best day of loading, and to the last. */
  readonly best: number;
  readonly latest: number;
  /** Mother culture first, block last. */
  readonly steps: readonly GrowingStep[];
}

export interface GrowingStep {
  readonly step: string;
  /** Units of the next step that one unit makes; not used for the last step. */
  readonly makes: number;
  /** Days from start to ready; those of the last step are the strain's days to its best. */
  readonly days: number;
  readonly loss: number;
  /** Days a ready unit may wait; undefined for no limit. */
  readonly storeDays: number | undefined;
  /** Least days between starts. One batch covers all that is needed until the next. */
  readonly cadence: number;
}

export interface OrderToPlan extends Placed {
  /** Position in the strains. */
  readonly strain: number;
  readonly mass: number;
  readonly from: number;
  readonly due: number;
}

/** Good units in stock now or later. */
export interface Stock {
  readonly strain: number;
  readonly step: number;
  readonly units: number;
  /** The day they are ready. `until` is the last day they may be used. */
  readonly ready: number;
  readonly until: number;
}

export interface BackProblem {
  readonly strains: readonly StrainToPlan[];
  readonly orders: readonly OrderToPlan[];
  readonly stock: readonly Stock[];
  readonly isWorkDay: (day: number) => boolean;
  /** Chance of enough good units in every start; expected value if undefined. */
  readonly confidence: number | undefined;
}

export interface Task {
  readonly day: number;
  /** `use` means that stock alone covers a day's need. */
  readonly task: 'start' | 'use' | 'load';
  readonly strain: number;
  /** Position in the strain's steps. */
  readonly step: number;
  /** Units to start, or to take from stock, or blocks to load. */
  readonly units: number;
  /** Good units that a start must give, or that must be there to use or load. */
  readonly good: number;
  /** Good units taken from stock as well. */
  readonly fromStock: number;
  /** Day they are ready; the first pick of a load. */
  readonly ready: number;
}

/** Days to look back for a work day. */
const LOOK_BACK = 60;

/**
 * From orders back to spawn: what to load, inoculate and start, and when.
 *
 * Orders are taken by due date. Each first uses up what loads already planned give in its window. Blocks are added for
 * the rest, on the work day that puts most of their yield inside the window.
 *
 * Then come the steps, back from the block. Stock that is still good is taken, earliest end of life first. Where stock
 * covers all that is needed, its use is a task. Otherwise the needs of one strain, step and day are summed, then
 * rounded up once for the loss and once for the units a parent makes. Days are joined only where a cadence asks for it.
 *
 * @returns tasks in the order of their days, earlier steps first
 * @throws missing where no work day lies within a unit's store life, or no work day's load is picked in the window of
 * an order
 */
export function backPlan(problem: BackProblem): Task[] {
  const tasks: Task[] = problem.strains.flatMap((_, strain) => {
    const loads = loadsFor(problem, strain);
    const loadTasks = [...loads].map(([day, units]): Task => {
      const { curve, steps } = problem.strains[strain]!;
      const step = steps.length - 1;
      return {
        day,
        task: 'load',
        strain,
        step,
        units,
        good: units,
        fromStock: 0,
        ready: day + curve.firstPick,
      };
    });
    return [...loadTasks, ...startsFor(problem, strain, loads)];
  });
  return tasks.sort(
    (a, b) => a.day - b.day || a.step - b.step || TURN[a.task] - TURN[b.task] || a.strain - b.strain,
  );
}

/** The order of one step's tasks in a day. */
const TURN: Record<Task['task'], number> = { start: 0, use: 1, load: 2 };

/** Blocks to load per day so that the orders of a strain are met. */
function loadsFor({ strains, orders, isWorkDay }: BackProblem, strain: number): Map<number, number> {
  const { curve, yieldPerBlock } = strains[strain]!;
  const loads = new Map<number, number>();
  const free = new Map<number, number>();
  const own = orders
    .filter((order) => order.strain === strain)
    .sort((a, b) => a.due - b.due || a.from - b.from);
  for (const order of own) {
    let short = order.mass - takeFrom(free, order.from, order.due, order.mass);
    if (short <= 1e-9 * order.mass) continue;
    const { day, share } = bestLoadDay(curve, order, isWorkDay);
    if (!(share > 0)) {
      const days = { from: dateOf(order.from), due: dateOf(order.due) };
      throw missing('orders, due', 'notPickedInTime', days, order);
    }
    const blocks = wholeUnitsFor(short / (share * yieldPerBlock));
    loads.set(day, (loads.get(day) ?? 0) + blocks);
    for (const [k, mass] of picksAfterLoading(curve, blocks * yieldPerBlock)) {
      free.set(day + k, (free.get(day + k) ?? 0) + mass);
    }
    short -= takeFrom(free, order.from, order.due, short);
  }
  return new Map([...loads].sort(([a], [b]) => a - b));
}

/** Takes up to `mass` from the days of a window, the earliest first. @returns what was taken */
function takeFrom(free: Map<number, number>, from: number, due: number, mass: number): number {
  let taken = 0;
  for (let day = from; day <= due && taken < mass; day++) {
    const here = Math.min(free.get(day) ?? 0, mass - taken);
    if (here > 0) free.set(day, free.get(day)! - here);
    taken += here;
  }
  return taken;
}

/** The work day whose loading puts the largest share of its yield inside an order's window, the latest of several. */
function bestLoadDay(
  { shares }: PickCurve,
  { from, due }: OrderToPlan,
  isWorkDay: (day: number) => boolean,
): { day: number; share: number } {
  let best = { day: due, share: 0 };
  for (let day = due; day > from - shares.length; day--) {
    if (!isWorkDay(day)) continue;
    const share = shares.reduce((sum, part, k) => (day + k >= from && day + k <= due ? sum + part : sum), 0);
    if (share > best.share + 1e-12) best = { day, share };
  }
  return best;
}

interface StepNeed {
  readonly day: number;
  readonly units: number;
}

/** The starts of every step of a strain, so that its loads can be made. */
function startsFor(problem: BackProblem, strain: number, loads: ReadonlyMap<number, number>): Task[] {
  const { steps } = problem.strains[strain]!;
  const tasks: Task[] = [];
  let needs: StepNeed[] = [...loads].map(([day, units]) => ({ day, units }));
  for (let step = steps.length - 1; step >= 0; step--) {
    const starts = startsOfStep(problem, strain, step, needs);
    tasks.push(...starts);
    const makes = steps[step - 1]?.makes ?? 1;
    const perDay = new Map<number, number>();
    for (const { day, units, task } of starts) {
      if (task === 'start') perDay.set(day, (perDay.get(day) ?? 0) + units);
    }
    needs = [...perDay]
      .map(([day, units]) => ({ day, units: wholeUnitsFor(units / makes) }))
      .sort((a, b) => a.day - b.day);
  }
  return tasks;
}

function startsOfStep(
  problem: BackProblem,
  strain: number,
  step: number,
  needs: readonly StepNeed[],
): Task[] {
  const { strain: name, steps, best, latest } = problem.strains[strain]!;
  const { step: label, days: own, loss, cadence, storeDays: stored } = steps[step]!;
  const isBlock = step === steps.length - 1;
  const days = isBlock ? best : own;
  const storeDays = isBlock ? latest - best : stored;
  const stock = problem.stock
    .filter((one) => one.strain === strain && one.step === step)
    .sort((a, b) => a.until - b.until || a.ready - b.ready)
    .map((one) => ({ ...one }));
  const used: Task[] = [];
  const batches: { day: number; ready: number; good: number; fromStock: number }[] = [];
  for (const { day, units } of needs) {
    let left = units;
    for (const one of stock) {
      if (one.ready > day || one.until < day) continue;
      const taken = Math.min(left, one.units);
      one.units -= taken;
      left -= taken;
    }
    if (left === 0) {
      used.push({ day, task: 'use', strain, step, units, good: units, fromStock: units, ready: day });
      continue;
    }
    const batch = batches.at(-1);
    if (batch && cadence > 1 && day - batch.ready <= Math.min(cadence - 1, storeDays ?? Infinity)) {
      batch.good += left;
      batch.fromStock += units - left;
      continue;
    }
    const latestStart = day - days;
    let start = latestStart;
    while (!problem.isWorkDay(start) && latestStart - start < LOOK_BACK) start--;
    if (!problem.isWorkDay(start) || latestStart - start > (storeDays ?? LOOK_BACK)) {
      throw missing('calendar', 'noDayToStart', { step: label, strain: name, needed: dateOf(day) });
    }
    batches.push({ day: start, ready: start + days, good: left, fromStock: units - left });
  }
  const perDay = new Map<number, { ready: number; good: number; fromStock: number }>();
  for (const { day, ready, good, fromStock } of batches) {
    const before = perDay.get(day);
    perDay.set(day, {
      ready,
      good: good + (before?.good ?? 0),
      fromStock: fromStock + (before?.fromStock ?? 0),
    });
  }
  const started = [...perDay].map(([day, { ready, good, fromStock }]): Task => {
    const units = startsNeeded(good, loss, problem.confidence);
    return { day, task: 'start', strain, step, units, good, fromStock, ready };
  });
  return [...started, ...used];
}
