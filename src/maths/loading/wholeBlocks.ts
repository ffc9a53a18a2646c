import { optimum, type OpenProgram, type Optimum } from '../shared/linearProgram';
import { addedUp, type GroupLoad } from './groupLoad';
import type { LoadModel } from './loadModel';
import { loadsIn } from './loadsIn';
import type { PlanView } from './planView';
import { Rounding, type Wish } from './roundPlan';

/** Stretches of days rounded one after another: more where a programme is solved in a few milliseconds. */
const stretchCount = (columns: number, futures: number): number =>
  futures > 0 ? 3 : columns < 2000 ? 15 : 6;

/** How far a picking limit is widened while days are fixed, in block yields: a hundred times the solver's tolerance. */
const WIDENED = 1e-5;

/**
 * A solution in whole blocks. Days are rounded stretch by stretch. After each stretch the programme is solved again
 * with those days fixed, so that later days make up for what rounding took. Fixed days keep every limit but for
 * floating point; limits are a little wider meanwhile, or the solver could take those last digits for a breach.
 */
export function wholeBlocks(
  view: PlanView,
  model: LoadModel,
  open: OpenProgram,
  cost: Float64Array,
  solution: Optimum,
  home?: (load: { lot: number; day: number }) => number | undefined,
): { loads: GroupLoad[]; wishes: Wish[] } {
  const rounding = new Rounding(view);
  const ends = stretches(model, solution.columns, view.futures.length);
  const wishesOf = ({ columns }: Optimum): Wish[] =>
    addedUp(loadsIn(model, columns, home).map((load) => ({ ...load, cost: cost[load.column]! })));
  const first = wishesOf(solution);
  let wishes = first;
  const { lower, upper } = { lower: model.program.lower.slice(), upper: model.program.upper.slice() };
  for (const column of model.pickColumns) upper[column]! += WIDENED;
  ends.forEach((end, stretch) => {
    rounding.roundDays(wishes, ends[stretch - 1] ?? 0, end);
    if (stretch === ends.length - 1) return;
    fixDays(model, rounding, end, lower, upper);
    open.setBounds(lower, upper);
    const next = optimum(open, 'dual');
    if (next) wishes = wishesOf(next);
  });
  rounding.placeOwed(wishes);
  return { loads: rounding.loads, wishes: first };
}

/** Fixes the columns of all days before `end` to what the rounding has placed. */
function fixDays(
  model: LoadModel,
  rounding: Rounding,
  end: number,
  lower: Float64Array,
  upper: Float64Array,
): void {
  const fix = (column: number, blocks: number): void => {
    lower[column] = blocks;
    upper[column] = blocks;
  };
  const left = new Map<string, number>();
  for (const { lot, day, blocks } of rounding.loads) {
    const key = `${lot} ${day}`;
    left.set(key, (left.get(key) ?? 0) + blocks);
  }
  model.loads.forEach(({ lot, day }, j) => {
    if (day >= end) return;
    const key = `${lot} ${day}`;
    const blocks = Math.min(left.get(key) ?? 0, model.program.upper[j]!);
    left.set(key, (left.get(key) ?? 0) - blocks);
    fix(j, blocks);
  });
  for (const { day, groups, columns, loads } of model.shared) {
    if (day >= end) continue;
    const lots = [...new Set(loads.map((column) => model.loads[column]!.lot))];
    groups.forEach((group, at) =>
      fix(
        columns[at]!,
        lots.reduce((sum, lot) => sum + rounding.blocksOf({ lot, day, group }), 0),
      ),
    );
  }
}

/** Ends of the stretches in which days are rounded: the stretches have about equal numbers of blocks. */
function stretches({ loads }: LoadModel, columns: Float64Array, futures: number): number[] {
  const perDay = new Array<number>(loads.reduce((last, { day }) => Math.max(last, day + 1), 0)).fill(0);
  loads.forEach(({ day }, j) => (perDay[day]! += columns[j]!));
  const total = perDay.reduce((sum, blocks) => sum + blocks, 0);
  const count = stretchCount(columns.length, futures);
  const ends: number[] = [];
  let sum = 0;
  for (let day = 0; day < perDay.length; day++) {
    sum += perDay[day]!;
    if (sum >= (total * (ends.length + 1)) / count && ends.length < count - 1) ends.push(day + 1);
  }
  return [...ends, Infinity];
}
