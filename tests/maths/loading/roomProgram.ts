import { labelKey } from '../../../src/maths/shared/labels';
import {
  LinearProgramBuilder,
  weighed,
  type LinearProgram,
  type LinearSolver,
} from '../../../src/maths/shared/linearProgram';
import type { PlanRoom } from '../../../src/maths/loading/loadingProblem';
import type { PlanView } from '../../../src/maths/loading/planView';

/**
 * The least cost of a plan by a third programme, which models every room by itself. Its columns are blocks of a lot on
 * a day in a room, the mass a kind gives to an order on a day, blocks left, and every other cost. Places of a room are
 * counted on every day of each stay. Costs that are the same for every plan are counted too. All is worked out from
 * the problem; only the lots' costs and the prices of surplus and peaks come from the view.
 *
 * @param weight weight of the shortage's value against the rest
 * @param over a shortage of more value than `most` counts so many times more
 * @returns the least cost in parts of blocks
 */
export function byRooms(view: PlanView, weight: number, solver: LinearSolver): number {
  const solution = solver.solve(roomProgram(view, weight).program);
  if (solution.status !== 'optimal') throw new Error(solution.status);
  return solution.cost;
}

/** The least cost in whole blocks, as far as a search of many thousand parts goes. */
export function byRoomsInBlocks(
  view: PlanView,
  over: { readonly most: number; readonly times: number },
  solver: LinearSolver,
): number {
  const { program, blocks } = roomProgram(view, 1, over);
  const start = new Float64Array(program.cost.length).fill(NaN);
  const found = solver.solveWhole!(program, { whole: blocks, start, mostNodes: 20_000, gap: 1e-7 });
  return weighed(program.cost, found!);
}

/** The programme, and which of its columns are blocks. */
function roomProgram(
  view: PlanView,
  weight: number,
  over?: { readonly most: number; readonly times: number },
): { program: LinearProgram; blocks: number[] } {
  const builder = new LinearProgramBuilder();
  const { problem, pickDays, countedDays } = view;
  const { rooms, standing, start, days, settings } = problem;
  const kept = 1 - settings.margin;
  const every = Array.from({ length: pickDays }, (_, day) => day);

  const standingIn = (room: string, day: number): number =>
    standing.reduce((sum, { room: here, loaded, curve, blocks }) => {
      const stands = day >= loaded - start && day < loaded - start + curve.stay + settings.turnRound;
      return sum + (stands && labelKey(here) === labelKey(room) ? blocks : 0);
    }, 0);
  const isShut = ({ closedFrom, closedTo }: PlanRoom, day: number): boolean =>
    (closedFrom !== undefined || closedTo !== undefined) &&
    day >= (closedFrom ?? -Infinity) &&
    day <= (closedTo ?? Infinity);
  const places = rooms.map((room) =>
    every.map((day) => {
      const free = isShut(room, start + day) ? 0 : Math.max(0, room.places - standingIn(room.room, day));
      return builder.addRow(-Infinity, free);
    }),
  );
  const picked = (kind: number | undefined, day: number): number =>
    standing.reduce((sum, { strain, product, loaded, blocks, yieldPerBlock, curve }) => {
      const mine =
        kind === undefined ||
        (labelKey(strain) === view.kinds[kind]!.strain && labelKey(product) === view.kinds[kind]!.product);
      return sum + (mine ? blocks * yieldPerBlock * (curve.shares[start + day - loaded] ?? 0) : 0);
    }, 0);
  const loading = every.map((day) => builder.addRow(-Infinity, problem.limitsOn(start + day).load));
  const picking = every.map((day) =>
    builder.addRow(-Infinity, Math.max(0, problem.limitsOn(start + day).pick - picked(undefined, day))),
  );
  const peaks = every.slice(0, countedDays).map((day) => builder.addRow(-Infinity, -picked(undefined, day)));
  const given = view.kinds.map((_, kind) =>
    every.map((day) => builder.addRow(-kept * picked(kind, day), -kept * picked(kind, day))),
  );
  const orders = view.orders.map(({ order }) => builder.addRow(order.mass, order.mass));
  const shortRow = builder.addRow(-Infinity, over?.most ?? Infinity);
  const columns: number[] = [];

  for (const { lot, kind, costOn, leftCost } of view.lots) {
    const stock = builder.addRow(lot.blocks, lot.blocks);
    builder.addColumn(leftCost, [[stock, 1]]);
    for (let day = 0; day < days; day++) {
      if (start + day < lot.earliest || start + day > lot.latest) continue;
      rooms.forEach((_, room) => {
        const entries: [number, number][] = [
          [stock, 1],
          [loading[day]!, 1],
        ];
        for (let k = 0; k < lot.curve.stay + settings.turnRound && day + k < pickDays; k++) {
          entries.push([places[room]![day + k]!, 1]);
        }
        lot.curve.shares.forEach((share, k) => {
          const mass = share * lot.yieldPerBlock;
          entries.push([picking[day + k]!, mass], [given[kind]![day + k]!, kept * mass]);
          if (day + k < countedDays) entries.push([peaks[day + k]!, mass]);
        });
        columns.push(builder.addColumn(costOn(day), entries));
      });
    }
  }
  for (let week = 0; week < countedDays; week += 7) {
    builder.addColumn(
      view.peakCost,
      peaks.slice(week, week + 7).map((row) => [row, -1] as const),
    );
  }
  view.kinds.forEach((_, kind) =>
    every.forEach((day) => {
      builder.addColumn(day < countedDays ? view.surplusCost : 0, [[given[kind]![day]!, -1]]);
      view.orders.forEach(({ from, to, accepts }, o) => {
        if (!accepts[kind] || day < from || day > to) return;
        builder.addColumn(0, [
          [given[kind]![day]!, -1],
          [orders[o]!, 1],
        ]);
      });
    }),
  );
  view.orders.forEach(({ order, to }, o) => {
    // Of two orders of one price the earlier is filled first.
    const sooner = over ? 1 : 1 + 1e-4 * (1 - to / countedDays);
    builder.addColumn(weight * order.price * sooner, [
      [orders[o]!, 1],
      [shortRow, order.price],
    ]);
  });
  if (over) builder.addColumn(over.times, [[shortRow, -1]]);
  return { program: builder.build(), blocks: columns };
}
