import { checkLoads } from '../../src/maths/loading/checkLoads';
import { ORDERS_FIRST } from '../../src/maths/loading/loadModel';
import { loadPlan } from '../../src/maths/loading/loadPlan';
import type { LoadingProblem } from '../../src/maths/loading/loadingProblem';
import { loadHighs } from '../../src/maths/shared/highs';
import type { LinearSolver } from '../../src/maths/shared/linearProgram';
import { instance, START } from '../maths/loading/instances';
import { randomFarm } from '../maths/loading/randomFarms';
import { byRoomsInBlocks } from '../maths/loading/roomProgram';

// How far plans are from the best of all plans in whole blocks, by a search of a programme of another form; and whether
// farms on which anything may happen always get a plan that breaks no rule, over possible seasons too. The number of
// random farms is `FARMS` in the environment, 5,000 if left out, the first of them `FIRST`. With `SMALL=0` nothing is
// searched.

const SMALL_FARMS = Number(process.env['SMALL'] ?? 200);

/** A farm of four to six lots, one in two of them with a second room that shuts for some days. */
export function smallFarm(seed: number): LoadingProblem {
  const size = { lots: 4 + (seed % 3), days: 8 + (seed % 4), rooms: 1 + (seed % 2), strains: 2, products: 2 };
  const farm = instance(3000 + seed, size);
  return {
    ...farm,
    rooms: farm.rooms.map((room, n) =>
      n === 1 ? { ...room, closedFrom: START + 12, closedTo: START + 15 } : room,
    ),
    settings: { ...farm.settings, loadCost: 0 },
  };
}

function gapsOfSmallFarms(highs: LinearSolver): string[] {
  if (SMALL_FARMS < 2) return [];
  const gaps = Array.from({ length: SMALL_FARMS }, (_, n) => {
    const { view, cost, bound } = loadPlan(smallFarm(n + 1), highs);
    const best = byRoomsInBlocks(view, { most: bound!.shortageMost, times: ORDERS_FIRST - 1 }, highs);
    return { seed: n + 1, gap: (bound!.totalOf(cost) - best) / view.orderValue };
  }).sort((a, b) => b.gap - a.gap);
  const mean = gaps.reduce((sum, { gap }) => sum + gap, 0) / gaps.length;
  const percent = (share: number): string => `${(100 * share).toFixed(3)}%`;
  return [
    `${gaps.length} small farms: the best plan in whole blocks is better by ${percent(mean)} of the orders’ value in ` +
      `the mean, ${percent(gaps[0]!.gap)} at most (seed ${gaps[0]!.seed}), ${percent(gaps[1]!.gap)} next`,
  ];
}

const SEASONS = 6;
const SPREAD = { yieldShare: 0.3, pickDays: 1.5, readyDays: 3 };

const withSpreads = (problem: LoadingProblem): LoadingProblem => ({
  ...problem,
  lots: problem.lots.map((lot) => ({ ...lot, spread: SPREAD })),
  standing: problem.standing.map((load) => ({ ...load, spread: SPREAD })),
  settings: { ...problem.settings, scenarios: SEASONS },
});

/** Seeds of farms without the solver's plan, and of those whose plan breaks a rule other than those that may be broken. */
class Refused {
  private readonly without: number[] = [];
  private readonly broken: number[] = [];
  private readonly mayBeBroken: readonly string[];

  constructor(...mayBeBroken: readonly string[]) {
    this.mayBeBroken = mayBeBroken;
  }

  try(seed: number, problem: LoadingProblem, solver: LinearSolver): void {
    const { loads, method } = loadPlan(problem, solver);
    if (method !== 'HiGHS') this.without.push(seed);
    const found = checkLoads({ ...problem, loads });
    if (found.some(({ rule }) => !this.mayBeBroken.includes(rule))) this.broken.push(seed);
  }

  told(): string {
    const listed = (seeds: readonly number[]): string =>
      seeds.length > 0 ? `${seeds.length} (${seeds.join(' ')})` : '0';
    return `${listed(this.without)} without the solver’s plan, ${listed(this.broken)} with a rule broken`;
  }
}

export async function figures(): Promise<string[]> {
  const highs = await loadHighs();
  const first = Number(process.env['FIRST'] ?? 1);
  const count = Number(process.env['FARMS'] ?? 5000);
  const certain = new Refused('order short');
  const spreading = new Refused('order short', 'too much to pick');
  for (let seed = first; seed < first + count; seed++) {
    const problem = randomFarm(seed);
    certain.try(seed, problem, highs);
    spreading.try(seed, withSpreads(problem), highs);
  }
  return [
    ...gapsOfSmallFarms(highs),
    `${count} random farms from ${first} on: ${certain.told()}`,
    `the same over ${SEASONS} possible seasons: ${spreading.told()}`,
  ];
}
