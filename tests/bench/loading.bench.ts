import { checkLoads } from '../../src/maths/loading/checkLoads';
import { greedyPlan } from '../../src/maths/loading/greedyPlan';
import { loadModel } from '../../src/maths/loading/loadModel';
import { loadPlan } from '../../src/maths/loading/loadPlan';
import { planView } from '../../src/maths/loading/planView';
import { planCost } from '../../src/maths/loading/planCost';
import { loadHighs } from '../../src/maths/shared/highs';
import type { LinearSolver } from '../../src/maths/shared/linearProgram';
import { instance, sixtyInstances, type InstanceSize } from '../maths/loading/instances';
import { compare, median, type Measurement } from './measure';

// A loading plan is several linear programmes, rounding to whole blocks and giving rooms: its time against one solution
// of its linear programme alone, and what sixty farms of every size lose to rounding. Plans over possible seasons come
// first, so that the first of them is the first of its process.

const SIZES: [string, InstanceSize, number][] = [
  ['60 lots over 42 days', { lots: 60, days: 42, rooms: 3, strains: 4, products: 2 }, 5],
  ['200 lots over 120 days', { lots: 200, days: 120, rooms: 6, strains: 8, products: 3 }, 3],
  ['1,000 lots over 365 days', { lots: 1000, days: 365, rooms: 8, strains: 12, products: 4 }, 1],
];

const SPREAD = { yieldShare: 0.22, pickDays: 1.3, readyDays: 2.5 };

/** Plans over 16 possible seasons: the first in a process, whose solver is still being compiled, and the next one. */
function overSeasons([what, size]: (typeof SIZES)[number], highs: LinearSolver): string {
  const farm = instance(7, size);
  const problem = {
    ...farm,
    lots: farm.lots.map((lot) => ({ ...lot, spread: SPREAD })),
    standing: farm.standing.map((load) => ({ ...load, spread: SPREAD })),
    settings: { ...farm.settings, scenarios: 16 },
  };
  const seconds = [1, 2].map(() => {
    const start = performance.now();
    loadPlan(problem, highs);
    return `${((performance.now() - start) / 1000).toFixed(2)} s`;
  });
  return `${what} and 16 possible seasons: ${seconds.join(', then ')}`;
}

export async function figures(): Promise<string[]> {
  const highs = await loadHighs();
  const first = SIZES.slice(0, 2).map((size) => overSeasons(size, highs));
  const losses: number[] = [];
  let [broken, better] = [0, 0];
  for (const problem of sixtyInstances()) {
    const { cost, bound, view, loads } = loadPlan(problem, highs);
    losses.push((bound!.totalOf(cost) - bound!.total) / view.orderValue);
    broken += checkLoads({ ...problem, loads }).filter(({ rule }) => rule !== 'order short').length;
    const greedy = planCost(view, greedyPlan(view));
    if (cost.shortage + cost.rest < greedy.shortage + greedy.rest) better++;
  }
  const percent = (share: number): string => `${(100 * share).toFixed(3)}%`;
  return [
    ...first,
    `${losses.length} seeded farms: whole blocks cost ${percent(median(losses))} of the orders’ value in the median, ` +
      `${percent(Math.max(...losses))} at most; ${broken} rules broken; better than the greedy rule on ${better}`,
  ];
}

export async function measurements(): Promise<Measurement[]> {
  const highs = await loadHighs();
  return SIZES.map(([what, size, runs]) => {
    const problem = instance(7, size);
    const model = loadModel(planView(problem));
    return compare(
      `loading plan of ${what}`,
      () => loadPlan(problem, highs),
      'one linear programme in parts of blocks',
      () => highs.solve({ ...model.program, cost: model.total }, 'interior'),
      undefined,
      runs,
    );
  });
}
