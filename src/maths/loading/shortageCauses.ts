import { isSolvable, weighed, type LinearSolver } from '../shared/linearProgram';
import { loadModel } from './loadModel';
import type { LoadPlan } from './loadPlan';
import type { LoadingProblem, Lot } from './loadingProblem';
import { planView } from './planView';

/** What can be in too short supply. Labour is picking and loading together. */
export const RESOURCES = ['shelves', 'labour', 'ripe blocks'] as const;
export type Resource = (typeof RESOURCES)[number];
/** The same with the two kinds of labour told apart. */
export const SUPPLIES = ['shelves', 'picking', 'loading', 'ripe blocks'] as const;
export type Supply = (typeof SUPPLIES)[number];

export interface ShortageCauses {
  /** Mass that all planned orders fall short. */
  readonly short: number;
  /** Its parts, which add up to it. */
  readonly parts: readonly {
    readonly cause: Supply | 'too soon' | 'whole blocks';
    readonly mass: number;
  }[];
  /** Share of the shortage, by value, that would remain with more of one resource alone. */
  readonly remaining: Readonly<Record<Supply, number>>;
  /** For each planned order: the mass it would be short with these resources not limited. */
  readonly shortWith: (resources: readonly Resource[], order: number) => number;
}

/**
 * Why orders fall short. The least shortage is worked out again with shelves, labour (picking and loading) and ripe
 * blocks without limit, alone and together: eight programmes. Each resource's part is its Shapley value: the mean of
 * what it saves over all sequences in which the three can be set free. So the parts add up, and none is below 0. Two
 * more programmes divide labour's part by what picking alone and loading alone save.
 *
 * What is short even with all three comes too soon, or no lot gives it. What the plan is short beyond the programme's
 * own optimum is the price of whole blocks, and of staying with a previous plan. Parts are worked out by value, and
 * the mass short is divided in the same proportions.
 *
 * @returns undefined where the solver finds no solution of one of the programmes
 * @source Shapley, L. S. (1953) A value for n-person games. Annals of Mathematics Studies 28:307–317
 */
export function shortageCauses(plan: LoadPlan, solver: LinearSolver): ShortageCauses | undefined {
  const { view, cost } = plan;
  const sets: (readonly (Resource | Supply)[])[] = [...subsets(), ['picking'], ['loading']];
  const relaxed = sets.flatMap((resources) => {
    const relaxedView = resources.length === 0 ? view : planView(withoutLimits(view.problem, resources));
    const model = loadModel(relaxedView);
    const program = { ...model.program, cost: model.shortage };
    if (!isSolvable(program)) return [];
    const solution = solver.solve(program, 'interior');
    if (solution.status !== 'optimal') return [];
    const { columns } = solution;
    return [
      {
        value: weighed(model.shortage, columns) * relaxedView.blockValue,
        short: model.shortColumns.map((column) => columns[column]! * model.massUnit),
      },
    ];
  });
  if (relaxed.length < sets.length) return undefined;
  const at = (resources: readonly Resource[]): number =>
    resources.reduce((bits, resource) => bits + 2 ** RESOURCES.indexOf(resource), 0);
  const value = (bits: number): number => relaxed[bits]!.value;
  const shapley = RESOURCES.map((_, player) => {
    const mine = 2 ** player;
    return subsets().reduce((sum, others) => {
      const bits = at(others);
      if (bits & mine) return sum;
      const weight = others.length === 1 ? 1 / 6 : 1 / 3;
      return sum + weight * Math.max(0, value(bits) - value(bits + mine));
    }, 0);
  });
  const short = view.orders.reduce((sum, { order }, o) => sum + (order.mass - cost.filled[o]!), 0);
  const [withPicking, withLoading] = [value(8), value(9)];
  const [byPicking, byLoading] = [withPicking, withLoading].map((left) => Math.max(0, value(0) - left));
  const picking = byPicking! + byLoading! > 0 ? byPicking! / (byPicking! + byLoading!) : 0.5;
  const [shelves, labour, blocks] = shapley;
  const values = [
    shelves!,
    labour! * picking,
    labour! * (1 - picking),
    blocks!,
    value(7),
    Math.max(0, cost.shortage - value(0)),
  ];
  const total = values.reduce((sum, part) => sum + part, 0);
  const causes = [...SUPPLIES, 'too soon', 'whole blocks'] as const;
  const shareLeft = (left: number): number => (value(0) > 0 ? left / value(0) : 0);
  return {
    short,
    parts: causes.map((cause, n) => ({ cause, mass: total > 0 ? (short * values[n]!) / total : 0 })),
    remaining: {
      shelves: shareLeft(value(at(['shelves']))),
      picking: shareLeft(withPicking),
      loading: shareLeft(withLoading),
      'ripe blocks': shareLeft(value(at(['ripe blocks']))),
    },
    shortWith: (resources, order) => relaxed[at(resources)]!.short[order]!,
  };
}

/** All sets of resources, in the order of their bits. */
export function subsets(): Resource[][] {
  return Array.from({ length: 8 }, (_, bits) => RESOURCES.filter((_, n) => bits & (2 ** n)));
}

/** More places or blocks than any plan could use. */
const PLENTY = 1e6;

/** The problem with some resources without limit. */
export function withoutLimits(
  problem: LoadingProblem,
  resources: readonly (Resource | Supply)[],
): LoadingProblem {
  let relaxed = problem;
  if (resources.includes('shelves')) {
    const everywhere = { room: '', places: PLENTY, closedFrom: undefined, closedTo: undefined };
    relaxed = { ...relaxed, rooms: [{ ...everywhere, blocksPerShelf: 1, strains: undefined }] };
  }
  const [anyPicking, anyLoading] = [resources.includes('picking'), resources.includes('loading')];
  if (anyPicking || anyLoading || resources.includes('labour')) {
    const { limitsOn } = relaxed;
    const limitOf = (isFree: boolean, limit: number): number =>
      isFree || resources.includes('labour') ? Infinity : limit;
    relaxed = {
      ...relaxed,
      limitsOn: (day) => {
        const { pick, load } = limitsOn(day);
        return { pick: limitOf(anyPicking, pick), load: limitOf(anyLoading, load) };
      },
    };
  }
  if (resources.includes('ripe blocks')) {
    const kinds = new Map<string, Lot>();
    for (const lot of relaxed.lots) {
      const key = `${lot.strain}\n${lot.product}`;
      const known = kinds.get(key);
      if (!known || lot.yieldPerBlock > known.yieldPerBlock) kinds.set(key, lot);
    }
    const [first, last] = [problem.start, problem.start + problem.days];
    const ripe = [...kinds.values()].map((lot) => ({
      ...lot,
      lot: `\n${lot.lot}`,
      blocks: PLENTY,
      earliest: first,
      best: first,
      latest: last,
      notBefore: undefined,
      notAfter: undefined,
    }));
    relaxed = { ...relaxed, lots: [...relaxed.lots, ...ripe] };
  }
  return relaxed;
}
