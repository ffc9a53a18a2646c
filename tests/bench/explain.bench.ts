import { withAdditions, type Addition } from '../../src/maths/loading/additions';
import { loadPlan } from '../../src/maths/loading/loadPlan';
import type { LoadingProblem } from '../../src/maths/loading/loadingProblem';
import { FILLED, remedyOf } from '../../src/maths/loading/remedies';
import { loadHighs } from '../../src/maths/shared/highs';
import { randomFarm } from '../maths/loading/randomFarms';

// What LOADPLAN says would fill an order that is short, acted on over random farms: exactly as it says, and loosely, as
// things turn out on a farm: half as much again of each, ripe blocks that may be opened two days sooner or later. The
// number of farms is `FARMS` in the environment, 200 if left out; `npm run bench -- explain`.

const share = (part: number, all: number): string =>
  `${((100 * part) / all).toFixed(1)}% (${part} of ${all})`;

/** The problem with what is added, and more: blocks of a wider window, and half as much again of everything. */
function loosely(problem: LoadingProblem, additions: readonly Addition[]): LoadingProblem {
  const more = additions.map((addition): Addition => {
    switch (addition.of) {
      case 'places':
        return { ...addition, shelves: Math.ceil(1.5 * addition.shelves) };
      case 'room':
        return { ...addition, places: Math.ceil(1.5 * addition.places) };
      case 'picking':
        return { ...addition, mass: 1.5 * addition.mass };
      case 'loading':
        return { ...addition, blocks: Math.ceil(1.5 * addition.blocks) };
      case 'ripe blocks':
        return { ...addition, blocks: Math.ceil(1.5 * addition.blocks) };
      case 'open room':
      case 'strain in room':
      case 'given':
      case 'free blocks':
      case 'setting':
        return addition;
    }
  });
  const changed = withAdditions(problem, more);
  const known = new Set(problem.lots.map(({ lot }) => lot));
  const lots = changed.lots.map((lot) =>
    known.has(lot.lot) ? lot : { ...lot, earliest: lot.earliest - 2, latest: lot.latest + 2 },
  );
  return { ...changed, lots };
}

export async function figures(): Promise<string[]> {
  const highs = await loadHighs();
  const farms = Number(process.env['FARMS'] ?? 200);
  let [short, told, exact, loose] = [0, 0, 0, 0];
  const kinds = new Map<string, number>();
  for (let seed = 1; seed <= farms; seed++) {
    const plan = loadPlan(randomFarm(seed), highs);
    const { view, cost } = plan;
    const { problem } = view;
    view.orders.forEach(({ order, accepts }, o) => {
      const isOffered = view.lots.some(({ kind }) => accepts[kind]);
      if (!isOffered || order.mass - cost.filled[o]! <= FILLED * order.mass) return;
      short++;
      const remedy = remedyOf(plan, o, highs);
      if (!remedy) return;
      told++;
      for (const { of } of remedy.additions) kinds.set(of, (kinds.get(of) ?? 0) + 1);
      const at = problem.orders.indexOf(order);
      const fills = (changed: LoadingProblem): boolean => {
        const next = loadPlan(changed, highs);
        const wanted = next.view.problem.orders[at]!;
        const position = next.view.orders.findIndex((one) => one.order === wanted);
        return position < 0 || wanted.mass - next.cost.filled[position]! <= FILLED * order.mass;
      };
      if (fills(withAdditions(problem, remedy.additions))) exact++;
      if (fills(loosely(problem, remedy.additions))) loose++;
    });
  }
  return [
    `${farms} random farms: of the orders that are short, ${share(told, short)} are told what would fill them`,
    `planned again with just that: ${share(exact, short)} are filled; with half as much again: ${share(loose, short)}`,
    [...kinds].map(([kind, count]) => `${kind} ${count}`).join(', '),
  ];
}
