import type { Placed } from '../shared/fault';
import { wholeUnitsFor } from '../shared/rounding';
import { loadsForOrders, type UnmetOrder } from './backLoads';
import type { DayLimits } from './loadingProblem';
import type { PickCurve } from './pickCurve';
import { startsNeeded } from './startsNeeded';

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
  /** Mass that can be picked and blocks that can be loaded on a day. Nothing is started where nothing is loaded. */
  readonly limitsOn: (day: number) => DayLimits;
  /** Chance of enough good units in each start; expected value if undefined. */
  readonly confidence: number | undefined;
  /** Chance that every start behind a load gives enough; not asked for if undefined. */
  readonly chainConfidence: number | undefined;
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
  /** Share of a load's picking that falls in the days of the orders it was added for; 1 for other tasks. */
  readonly inTime: number;
}

/** Units of a step that no work day can start so that they are still good on the day they are needed. */
export interface UnstartedNeed {
  readonly strain: number;
  readonly step: number;
  /** The day they are needed. */
  readonly day: number;
  readonly good: number;
  readonly fromStock: number;
}

export interface BackPlan {
  /** In the order of their days, earlier steps first. */
  readonly tasks: readonly Task[];
  readonly unmet: readonly UnmetOrder[];
  readonly unstarted: readonly UnstartedNeed[];
}

/** Days to look back for a work day. */
const LOOK_BACK = 60;

/**
 * From orders back to spawn: what to load, inoculate and start, and when.
 *
 * The loads come first, then the steps, back from the block. Stock that is still good is taken, earliest end of life
 * first. Where stock covers all that is needed, its use is a task. Otherwise the needs of one strain, step and day are
 * summed, then rounded up once for the loss and once for the units a parent makes. Days are joined only where a cadence
 * asks for it.
 *
 * With a chain confidence each start of a strain is held to its n-th root, n being the strain's steps with a loss. One
 * start of each step is behind a load, so if units are lost independently the chance that all of them give enough is
 * the one asked for, or more. With both confidences the stricter holds.
 *
 * What cannot be met is told beside the tasks: an order that is short, and a step that no work day can start. Nothing
 * is planned for the steps before such a one.
 */
export function backPlan(problem: BackProblem): BackPlan {
  const { loads, unmet } = loadsForOrders(problem);
  const unstarted: UnstartedNeed[] = [];
  const tasks = problem.strains.flatMap(({ curve, steps }, strain): Task[] => {
    const perDay = loads[strain]!;
    const loadTasks = perDay.map(({ day, blocks, inTime }): Task => ({
      day,
      task: 'load',
      strain,
      step: steps.length - 1,
      units: blocks,
      good: blocks,
      fromStock: 0,
      ready: day + curve.firstPick,
      inTime,
    }));
    const needs = perDay.map(({ day, blocks }) => ({ day, units: blocks }));
    return [...loadTasks, ...startsFor(problem, strain, needs, unstarted)];
  });
  tasks.sort(
    (a, b) => a.day - b.day || a.step - b.step || TURN[a.task] - TURN[b.task] || a.strain - b.strain,
  );
  return { tasks, unmet, unstarted };
}

/** The chance of enough good units that each start of a strain is held to; undefined for the expected value. */
function chanceOfEachStart(
  { confidence, chainConfidence }: BackProblem,
  { steps }: StrainToPlan,
): number | undefined {
  if (chainConfidence === undefined) return confidence;
  const lossy = steps.filter(({ loss }) => loss > 0).length;
  return Math.max(confidence ?? 0, chainConfidence ** (1 / Math.max(1, lossy)));
}

/** The order of one step's tasks in a day. */
const TURN: Record<Task['task'], number> = { start: 0, use: 1, load: 2 };

interface StepNeed {
  readonly day: number;
  readonly units: number;
}

/** The starts of every step of a strain, so that its loads can be made. */
function startsFor(
  problem: BackProblem,
  strain: number,
  loads: readonly StepNeed[],
  unstarted: UnstartedNeed[],
): Task[] {
  const { steps } = problem.strains[strain]!;
  const tasks: Task[] = [];
  let needs = loads;
  for (let step = steps.length - 1; step >= 0; step--) {
    const starts = startsOfStep(problem, strain, step, needs, unstarted);
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
  unstarted: UnstartedNeed[],
): Task[] {
  const planned = problem.strains[strain]!;
  const { steps, best, latest } = planned;
  const confidence = chanceOfEachStart(problem, planned);
  const isWorkDay = (day: number): boolean => problem.limitsOn(day).load > 0;
  const { days: own, loss, cadence, storeDays: stored } = steps[step]!;
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
      used.push({
        day,
        task: 'use',
        strain,
        step,
        units,
        good: units,
        fromStock: units,
        ready: day,
        inTime: 1,
      });
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
    while (!isWorkDay(start) && latestStart - start < LOOK_BACK) start--;
    if (!isWorkDay(start) || latestStart - start > (storeDays ?? LOOK_BACK)) {
      unstarted.push({ strain, step, day, good: left, fromStock: units - left });
      continue;
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
    const units = startsNeeded(good, loss, confidence);
    return { day, task: 'start', strain, step, units, good, fromStock, ready, inTime: 1 };
  });
  return [...started, ...used];
}
