import { LinearProgramBuilder, type LinearSolver } from '../../../src/maths/shared/linearProgram';
import type { PlanView } from '../../../src/maths/loading/planView';

/**
 * The least cost of a plan by another programme: not blocks of a lot on a day, but blocks of a strain loaded up to a
 * day. Ages follow from first in, first out: a block is early or late on each day on which more, or fewer, blocks
 * have been loaded than have reached their best (the Wasserstein distance of two distributions on a line). Places
 * are counted over the window of each stay, orders are filled day by day. Exact where blocks of a strain are alike
 * and none goes over age.
 *
 * @param weight weight of the shortage's value against the rest
 */
export function byStrainCumulated(view: PlanView, weight: number, solver: LinearSolver): number {
  const builder = new LinearProgramBuilder();
  const { days, pickDays, problem } = view;
  const margin = 1 - problem.settings.margin;
  let constant = 0;
  const columns: { cost: number; entries: [number, number][]; low: number; high: number }[] = [];
  const column = (cost: number, entries: [number, number][], low = 0, high = Infinity): void => {
    columns.push({ cost, entries, low, high });
  };
  const places = Array.from({ length: days }, (_, day) =>
    builder.addRow(
      -Infinity,
      view.groups.reduce((sum, { free }) => sum + free[day]!, 0),
    ),
  );
  const labour = view.loadLimit.map((limit) => builder.addRow(-Infinity, limit));
  const picking = view.pickFree.map((free) => builder.addRow(-Infinity, free));
  const orderRows = view.orders.map(({ order }) => builder.addRow(order.mass, order.mass));

  view.kinds.forEach((_, kind) => {
    const lots = view.lots.filter((lot) => lot.kind === kind);
    const supply = Array.from({ length: pickDays }, (_, day) => {
      const standing = standingOn(view, kind, day) * margin;
      return builder.addRow(-standing, -standing);
    });
    if (lots.length > 0) {
      const { picks, stay, costOn, lot } = lots[0]!;
      const best = Math.floor(lot.best) - problem.start;
      const early = costOn(best - 3) - costOn(best - 2);
      const late = costOn(best + 3) - costOn(best + 2);
      const last = Math.max(days, ...lots.map((one) => Math.floor(one.lot.best) - problem.start + 3));
      const byDay = (day: number, offset: number): number =>
        lots.reduce(
          (sum, one) => sum + (Math.floor(one.lot.best) - problem.start + offset <= day ? one.lot.blocks : 0),
          0,
        );
      const released = (day: number): number =>
        lots.reduce(
          (sum, one) => sum + (Math.floor(one.lot.earliest) - problem.start <= day ? one.lot.blocks : 0),
          0,
        );
      const cumulated = Array.from({ length: last }, () => builder.addRow(0, 0));
      for (let day = 0; day < days; day++) {
        const entries: [number, number][] = [
          [cumulated[day]!, 1],
          [labour[day]!, 1],
        ];
        for (let k = day; k < Math.min(days, day + stay); k++) entries.push([places[k]!, 1]);
        for (const [k, mass] of picks) {
          entries.push([picking[day + k]!, mass], [supply[day + k]!, mass * margin]);
        }
        column(0, entries, 0, view.loadLimit[day]! > 0 ? Infinity : 0);
      }
      for (let day = 0; day < last; day++) {
        const earlyRow = builder.addRow(-Infinity, byDay(day, -2));
        const lateRow = builder.addRow(-Infinity, -byDay(day, 2));
        const entries: [number, number][] = [
          [cumulated[day]!, -1],
          [earlyRow, 1],
          [lateRow, -1],
        ];
        if (day + 1 < last) entries.push([cumulated[day + 1]!, 1]);
        column(0, entries, 0, released(Math.min(day, days - 1)));
        column(early, [[earlyRow, -1]]);
        column(day < days ? late : 0, [[lateRow, -1]]);
      }
      // A block past its best when the plan starts has been late for some days whatever is done.
      constant += lots.reduce((sum, one) => {
        return sum + one.lot.blocks * late * Math.max(0, -(Math.floor(one.lot.best) - problem.start + 2));
      }, 0);
    }
    for (let day = 0; day < pickDays; day++) {
      view.orders.forEach(({ from, to, accepts }, o) => {
        if (accepts[kind] && day >= from && day <= to)
          column(0, [
            [supply[day]!, -1],
            [orderRows[o]!, 1],
          ]);
      });
      column(day < view.countedDays ? view.surplusCost : 0, [[supply[day]!, -1]]);
    }
  });
  view.orders.forEach(({ order, to }, o) => {
    const sooner = 1 + 1e-4 * (1 - to / Math.max(1, view.countedDays));
    column(weight * order.price * sooner, [[orderRows[o]!, 1]]);
  });
  for (const { cost, entries, low, high } of columns) builder.addColumn(cost, entries, low, high);
  const solution = solver.solve(builder.build());
  if (solution.status !== 'optimal') throw new Error(solution.status);
  return solution.cost + constant;
}

function standingOn(view: PlanView, kind: number, day: number): number {
  const { strain, product } = view.kinds[kind]!;
  return view.problem.standing.reduce((sum, load) => {
    if (load.strain.toLowerCase() !== strain || load.product.toLowerCase() !== product) return sum;
    return (
      sum +
      load.blocks * load.yieldPerBlock * (load.curve.shares[view.problem.start + day - load.loaded] ?? 0)
    );
  }, 0);
}
