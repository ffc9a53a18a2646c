import type { LinearProgram, LinearSolver } from '../shared/linearProgram';
import { FreeCapacity } from './freeCapacity';
import { slotKey, type GroupLoad } from './groupLoad';
import { loadModel } from './loadModel';
import { openSlots } from './openSlots';
import type { PlanView } from './planView';
import { planCost } from './planCost';
import type { Wish } from './roundPlan';
import type { PlanBound } from './solvePlan';

/** Loads that may change together: the search takes much longer with more. */
const WINDOW = 40;
/** Slots of a farm so small that all of them may change at will. */
const ALL_SLOTS = 60;
/** Loads up to which a plan is polished: beyond that, rounding loses next to nothing. */
const MOST_SLOTS = 600;
/** Parts of the search of one window: measured to find nearly all there is to find. */
const MOST_NODES = 20;
const SMALL_NODES = 100;
/** Share of the cost within which the search stops. */
const GAP = 2e-5;
/** Blocks by which a load may change, beside what one more shelf or the smallest load needs. */
const REACH = 3;

/**
 * Better whole blocks close to a plan's: a small programme in whole numbers in which each load of the plan, and each
 * that the solution in parts of blocks had, changes by a few blocks at most. Whole shelves and the smallest load are
 * part of it. The plan itself is its start, so what comes back is never worse.
 */
export function polishPlan(
  view: PlanView,
  solver: LinearSolver,
  loads: GroupLoad[],
  wishes: readonly Wish[],
  bound: PlanBound,
  shortageCap: number,
  kept: readonly GroupLoad[] = [],
): GroupLoad[] {
  if (!solver.solveWhole) return loads;
  const known = new Map<string, GroupLoad>();
  const open = openSlots(view);
  const isSmall = open.length <= ALL_SLOTS;
  const near = isSmall ? open : wishes.filter((wish) => wish.blocks > 0.05);
  for (const slot of [...near, ...loads]) {
    const { lot, day, group } = slot;
    known.set(slotKey(slot), { lot, day, group, blocks: 0 });
  }
  const slots = [...known.values()].sort((a, b) => a.day - b.day || a.lot - b.lot || a.group - b.group);
  if (slots.length > MOST_SLOTS) return loads;
  const count = isSmall ? 1 : Math.max(1, Math.round(slots.length / WINDOW));
  const reach = isSmall ? Infinity : REACH;
  let best = loads;
  for (let n = 0; n < count; n++) {
    const [from, to] = [n, n + 1].map((at) => Math.round((at * slots.length) / count)) as [number, number];
    const blocks = new Map(best.map((load) => [slotKey(load), load.blocks]));
    const now = slots.map((slot) => ({ ...slot, blocks: blocks.get(slotKey(slot)) ?? 0 }));
    const { program, start, whole, read } = wholeProgram(view, now, { from, to, reach }, kept, shortageCap);
    const found = solver.solveWhole(program, {
      whole,
      start,
      mostNodes: isSmall ? SMALL_NODES : MOST_NODES,
      gap: GAP,
    });
    const better = found && read(found);
    if (better && fits(view, better) && worth(view, bound, better, kept) < worth(view, bound, best, kept)) {
      best = better;
    }
  }
  return best;
}

/** What decides between two plans of whole blocks: all costs, the number of loads, and blocks moved. */
function worth(
  view: PlanView,
  bound: PlanBound,
  loads: readonly GroupLoad[],
  kept: readonly GroupLoad[],
): number {
  const had = new Map(kept.map((load) => [slotKey(load), load.blocks]));
  const stays = loads.reduce((sum, load) => sum + Math.min(load.blocks, had.get(slotKey(load)) ?? 0), 0);
  return bound.totalOf(planCost(view, loads)) + view.loadCost * loads.length - view.moveCost * stays;
}

/** Whether loads keep every limit, each added to those before. */
function fits(view: PlanView, loads: readonly GroupLoad[]): boolean {
  const free = new FreeCapacity(view);
  return [...loads]
    .sort((a, b) => a.day - b.day)
    .every((load) => {
      if (free.most(load) < load.blocks) return false;
      free.add(load);
      return true;
    });
}

interface WholeProgram {
  readonly program: LinearProgram;
  readonly start: Float64Array;
  readonly whole: number[];
  readonly read: (columns: Float64Array) => GroupLoad[];
}

/**
 * The programme around a plan. A load is so many units of blocks: a shelf where shelves are whole, otherwise one. Where
 * a load has a smallest size, a column of its own says whether there is one. A load that is smaller, or no whole
 * shelf, is the rest of its lot: it stays as it is, and so does the total of the lot.
 */
function wholeProgram(
  view: PlanView,
  slots: readonly GroupLoad[],
  window: { readonly from: number; readonly to: number; readonly reach: number },
  kept: readonly GroupLoad[],
  shortageCap: number,
): WholeProgram {
  const { wholeShelves, smallestLoad } = view.problem.settings;
  const model = loadModel(view, kept, slots);
  const cost = model.total.map((total, j) => total + model.ties[j]!);
  const lower = model.program.lower.slice();
  const upper = model.program.upper.slice();
  const rowLower = [...model.program.rowLower];
  const rowUpper = [...model.program.rowUpper];
  rowUpper[model.shortageRow] = shortageCap;
  for (const column of model.pickColumns) {
    if (upper[column]! < Infinity) upper[column] = Math.max(0, upper[column]! - 1e-6);
  }
  // Columns and rows beside those of the model: entries by row.
  const extra: { cost: number; upper: number; entries: [number, number][] }[] = [];
  const rowEntries: { row: number; column: number; value: number }[] = [];
  const whole: number[] = [];
  const startAt: [number, number][] = [];
  const columnsOf = new Map<string, number[]>();
  model.loads.forEach(({ lot, day, group }, j) => {
    const key = slotKey({ lot, day, group: group! });
    columnsOf.set(key, [...(columnsOf.get(key) ?? []), j]);
  });
  const width = model.program.cost.length;
  for (const [n, slot] of slots.entries()) {
    const { lot, group, blocks } = slot;
    const isFixed = n < window.from || n >= window.to;
    const unit = wholeShelves ? view.groups[group]!.perShelf : 1;
    const least = unit * Math.ceil(smallestLoad / unit);
    const stock = view.lots[lot]!.lot.blocks;
    const columns = columnsOf.get(slotKey(slot))!;
    const isRest = blocks > 0 && (blocks % unit !== 0 || blocks < least);
    let left = blocks;
    for (const column of columns) {
      const here = Math.min(left, upper[column]!);
      startAt.push([column, here]);
      left -= here;
      if (!isFixed) whole.push(column);
    }
    if (isRest || isFixed) {
      let rest = blocks;
      for (const column of columns) {
        const here = Math.min(rest, upper[column]!);
        [lower[column], upper[column]] = [here, here];
        rest -= here;
      }
      if (isRest) rowLower[lot] = stock;
      continue;
    }
    const reach = unit > 1 ? unit * REACH : Math.max(window.reach, Math.ceil(least / 2));
    const most = Math.min(stock, Math.max(blocks + reach, least));
    const fewest = Math.max(0, blocks - (blocks <= least ? blocks : reach));
    // The slot's blocks are between its ends; with a unit, so many units; with a smallest size, that or none.
    const row = rowLower.push(fewest) - 1;
    rowUpper.push(most);
    for (const column of columns) rowEntries.push({ row, column, value: 1 });
    if (unit > 1) {
      const units = rowLower.push(0) - 1;
      rowUpper.push(0);
      const count = width + extra.length;
      for (const column of columns) rowEntries.push({ row: units, column, value: 1 });
      extra.push({ cost: 0, upper: Math.floor(most / unit), entries: [[units, -unit]] });
      whole.push(count);
      startAt.push([count, blocks / unit]);
    }
    const opens = width + extra.length;
    const [atMost, atLeast] = [rowLower.push(-Infinity) - 1, rowLower.push(0) - 1];
    rowUpper.push(0, Infinity);
    for (const column of columns) {
      rowEntries.push({ row: atMost, column, value: 1 }, { row: atLeast, column, value: 1 });
    }
    extra.push({
      cost: view.loadCost / view.blockValue,
      upper: 1,
      entries: [
        [atMost, -most],
        [atLeast, -Math.min(least, most)],
      ],
    });
    if (fewest > 0) rowLower[row] = fewest;
    whole.push(opens);
    startAt.push([opens, blocks > 0 ? 1 : 0]);
  }
  if (kept.length > 0) {
    model.loads.forEach((load, j) => {
      if (load.kept) cost[j]! -= view.moveCost / view.blockValue;
    });
  }
  const program = extended(model.program, cost, lower, upper, rowLower, rowUpper, extra, rowEntries);
  const start = new Float64Array(program.cost.length).fill(NaN);
  for (const [column, value] of startAt) start[column] = value;
  return {
    program,
    start,
    whole,
    read: (columns) =>
      slots.flatMap((slot) => {
        const blocks = columnsOf.get(slotKey(slot))!.reduce((sum, j) => sum + Math.round(columns[j]!), 0);
        return blocks > 0 ? [{ ...slot, blocks }] : [];
      }),
  };
}

/** A programme with more columns, rows and entries. */
function extended(
  program: LinearProgram,
  cost: Float64Array,
  lower: Float64Array,
  upper: Float64Array,
  rowLower: readonly number[],
  rowUpper: readonly number[],
  extra: readonly { cost: number; upper: number; entries: readonly [number, number][] }[],
  rowEntries: readonly { row: number; column: number; value: number }[],
): LinearProgram {
  const added = Array.from({ length: cost.length }, (): [number, number][] => []);
  for (const { row, column, value } of rowEntries) added[column]!.push([row, value]);
  const starts = [0];
  const rows: number[] = [];
  const values: number[] = [];
  const put = (entries: readonly (readonly [number, number])[]): void => {
    for (const [row, value] of entries) {
      rows.push(row);
      values.push(value);
    }
  };
  for (let j = 0; j < cost.length; j++) {
    for (let k = program.starts[j]!; k < program.starts[j + 1]!; k++) {
      rows.push(program.rows[k]!);
      values.push(program.values[k]!);
    }
    put(added[j]!);
    starts.push(rows.length);
  }
  for (const { entries } of extra) {
    put(entries);
    starts.push(rows.length);
  }
  return {
    cost: Float64Array.of(...cost, ...extra.map((column) => column.cost)),
    lower: Float64Array.of(...lower, ...extra.map(() => 0)),
    upper: Float64Array.of(...upper, ...extra.map((column) => column.upper)),
    rowLower: Float64Array.from(rowLower),
    rowUpper: Float64Array.from(rowUpper),
    starts: Int32Array.from(starts),
    rows: Int32Array.from(rows),
    values: Float64Array.from(values),
  };
}
