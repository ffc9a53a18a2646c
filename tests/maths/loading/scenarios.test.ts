import { beforeAll, describe, expect, test } from '@jest/globals';
import { checkLoads } from '../../../src/maths/loading/checkLoads';
import { fates, seasonWeight, type Spread } from '../../../src/maths/loading/fates';
import { loadPlan } from '../../../src/maths/loading/loadPlan';
import type { LoadingProblem, Lot } from '../../../src/maths/loading/loadingProblem';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { expectedCost } from '../../../src/maths/loading/planCost';
import { playSeason } from '../../../src/maths/loading/playSeason';
import { loadHighs } from '../../../src/maths/shared/highs';
import type { LinearSolver } from '../../../src/maths/shared/linearProgram';
import { DEFAULT_SETTINGS, instance, START } from './instances';
import { pattern } from './patterns';
import { randomFarm } from './randomFarms';
import { HORIZON, policies, seasonFarm, SMOOTH } from './seasons';

let highs: LinearSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

const spreading = (problem: LoadingProblem, spread: Spread): LoadingProblem => ({
  ...problem,
  lots: problem.lots.map((lot) => ({ ...lot, spread })),
  standing: problem.standing.map((load) => ({ ...load, spread })),
});
const SPREAD: Spread = { yieldShare: 0.25, pickDays: 1.3, readyDays: 2 };
const small = (seed: number): LoadingProblem =>
  instance(seed, { lots: 8, days: 14, rooms: 2, strains: 2, products: 2 });

describe('loadPlan over possible seasons', () => {
  test('with spreads of 0 it is the plan for figures taken as certain', () => {
    const none = { yieldShare: 0, pickDays: 0, readyDays: 0 };
    const plan = loadPlan(spreading(small(1), none), highs);
    expect(plan.expected).toBeUndefined();
    expect(plan.loads).toEqual(loadPlan(small(1), highs).loads);
  });

  test('places, loading, ages, shut rooms and frozen days hold on random farms, and there is always a plan', () => {
    for (let seed = 1; seed <= 30; seed++) {
      const problem = spreading(randomFarm(seed, 6), SPREAD);
      const plan = loadPlan({ ...problem, settings: { ...problem.settings, scenarios: 6 } }, highs);
      expect([seed, plan.method]).toEqual([seed, 'HiGHS']);
      const broken = checkLoads({ ...problem, loads: plan.loads }).map(({ rule }) => rule);
      expect([seed, broken.filter((rule) => rule !== 'order short' && rule !== 'too much to pick')]).toEqual([
        seed,
        [],
      ]);
    }
  });

  test('it costs less in the mean than the plan for certain figures, and no less than its bound', () => {
    for (const seed of [1, 2]) {
      const problem = spreading(small(seed), SPREAD);
      const plan = loadPlan(problem, highs);
      const certain = loadPlan(small(seed), highs);
      const measure = expectedCost(plan.view, certain.chosen)!.measure;
      expect(plan.expected!.measure).toBeLessThan(measure);
      expect(plan.expected!.measure).toBeGreaterThanOrEqual(plan.bound!.total * (1 - 1e-9) - 1e-6);
    }
  });

  // One lot, one order, one day of picking: the classic question of how much to make for a demand that is not met or
  // overshot. Every number of blocks is tried, with shortage, which counts three times, and surplus added up over the
  // fates themselves.
  test('for one lot and one order it opens as many blocks as trying every number gives', () => {
    const curve = pickCurve(
      pattern({ firstPick: 5, pickDays: 1, flushGap: undefined, flushes: 1, shares: [1] }),
    );
    for (const [surplusCost, name] of [
      [1, 'A-1'],
      [4, 'A-2'],
      [12, 'B-1'],
    ] as const) {
      const spread = { yieldShare: 0.4, pickDays: 0, readyDays: 0 };
      const lot: Lot = {
        lot: name,
        strain: 'Alder-3',
        product: 'Alder-3',
        blocks: 200,
        earliest: START,
        best: START,
        latest: START + 30,
        notBefore: undefined,
        notAfter: undefined,
        yieldPerBlock: 1,
        curve,
        spread,
        cost: 0,
      };
      const problem: LoadingProblem = {
        lots: [lot],
        rooms: [
          {
            room: 'North',
            places: 300,
            blocksPerShelf: 10,
            closedFrom: undefined,
            closedTo: undefined,
            strains: undefined,
          },
        ],
        orders: [{ product: 'any', mass: 100, from: START + 5, due: START + 5, price: 10 }],
        standing: [],
        start: START,
        days: 1,
        limitsOn: () => ({ pick: Infinity, load: Infinity }),
        settings: { ...DEFAULT_SETTINGS, surplusCost, loadCost: 0, scenarios: 16 },
      };
      const factors = fates(`lot ${name.toLowerCase()}`, spread, 1, 16).map(({ factor }) => factor);
      const cost = (blocks: number, price: number): number =>
        factors.reduce((sum, factor) => {
          const picked = blocks * factor;
          return sum + (price * Math.max(0, 100 - picked) + surplusCost * Math.max(0, picked - 100)) / 16;
        }, 0);
      const costs = Array.from({ length: 201 }, (_, blocks) => cost(blocks, 30));
      const { loads, expected } = loadPlan(problem, highs);
      const { blocks } = loads[0]!;
      expect(expected!.total).toBeCloseTo(cost(blocks, 10), 6);
      expect(expected!.measure).toBeCloseTo(costs[blocks]!, 6);
      expect(expected!.measure).toBeLessThan(Math.min(...costs) * 1.002);
    }
  });

  // Of many seasons few show what is due late: all of them add up to one, and the plan is still no better than its bound.
  test('with many seasons the later days are shown by one in two or four, and the cost stays within reach of the bound', () => {
    const problem = spreading(instance(4, { lots: 12, days: 28, rooms: 2, strains: 2, products: 2 }), SPREAD);
    const plan = loadPlan({ ...problem, settings: { ...problem.settings, scenarios: 32 } }, highs);
    for (const [count, near, later] of [
      [32, 21, 8],
      [16, 42, 8],
      [8, Infinity, 8],
    ] as const) {
      for (const day of [0, 20, 21, 41, 42, 60]) {
        const weights = Array.from({ length: count }, (_, n) => seasonWeight(n, count, day));
        expect(weights.reduce((sum, weight) => sum + weight, 0)).toBe(1);
        expect(weights.filter((weight) => weight > 0)).toHaveLength(day < near ? count : later);
      }
    }
    expect(plan.view.orders.some(({ from }) => from >= 21)).toBe(true);
    expect(plan.expected!.measure).toBeGreaterThanOrEqual(plan.bound!.total * (1 - 1e-9));
    expect(plan.expected!.measure - plan.bound!.total).toBeLessThan(0.02 * plan.view.orderValue);
  });

  test('a new lot does not change what the others are drawn to do', () => {
    const [a, b] = [spreading(small(3), SPREAD), spreading(small(3), SPREAD)];
    const more = { ...b, lots: [{ ...b.lots[0]!, lot: 'new' }, ...b.lots] };
    const picks = (problem: LoadingProblem): unknown => {
      const { view } = loadPlan({ ...problem, settings: { ...problem.settings, scenarios: 4 } }, highs);
      const at = view.lots.findIndex(({ key }) => key === 'l0002');
      return view.futures.map(({ eachPickOf }) => {
        const theirs: [number, number][] = [];
        eachPickOf(at, 3, (day, mass) => theirs.push([day, mass]));
        return theirs;
      });
    };
    expect(picks(more)).toEqual(picks(a));
  });
});

describe('playSeason(farm, world, policy, weeks)', () => {
  const weeks = 4;
  const farm = (): LoadingProblem => seasonFarm(1, weeks, SMOOTH.spread);

  test('a farm that opens nothing loses its lots, and sells no more than what stands gives', () => {
    const season = playSeason(farm(), SMOOTH.world(farm(), 1), () => [], weeks, HORIZON);
    const over = farm().lots.filter(({ latest }) => latest < START + 7 * weeks);
    const blocks = (lots: readonly Lot[]): number => lots.reduce((sum, lot) => sum + lot.blocks, 0);
    expect(season.overAge).toBeCloseTo(blocks(over) / blocks(farm().lots), 12);
    expect(season.blocksLoaded).toBe(0);
    expect(season.fill).toBeLessThan(0.6);
  });

  test('what was opened stands under the name of its lot a week later', () => {
    const thumb = policies(highs)['rule of thumb']!;
    const opened: string[] = [];
    const standing: (string | undefined)[] = [];
    playSeason(
      farm(),
      SMOOTH.world(farm(), 1),
      (known, previous) => {
        if (opened.length > 0 && standing.length === 0)
          standing.push(...known.standing.map(({ lot }) => lot));
        const loads = thumb(known, previous);
        if (opened.length === 0)
          opened.push(...loads.filter(({ day }) => day < START + 7).map(({ lot }) => lot));
        return loads;
      },
      2,
      HORIZON,
    );
    const named = standing.flatMap((lot) => lot ?? []);
    expect(named.length).toBeGreaterThan(0);
    for (const lot of named) expect(opened).toContain(lot);
  });

  test('the same seed gives the same season, and planning fills more than opening nothing', () => {
    const plan = policies(highs)['margin 0']!;
    const play = (): ReturnType<typeof playSeason> =>
      playSeason(farm(), SMOOTH.world(farm(), 1), plan, weeks, HORIZON);
    const season = play();
    expect(play()).toEqual(season);
    expect(season.fill).toBeGreaterThan(0.6);
    expect(season.blocksLoaded).toBeGreaterThan(100);
  });
});

describe('a service level', () => {
  // Ten blocks of 1 kg for an order of 10 kg, on one day, of which 6 kg may be picked: the usual costs open 6 blocks,
  // since a kilogram over the limit costs four times its price, and one short three times. At a level of 80% two blocks
  // more are worth it.
  const problem = (serviceLevel: number | undefined): LoadingProblem => {
    const one = small(1);
    const curve = pickCurve(
      pattern({ firstPick: 5, pickDays: 1, flushGap: undefined, flushes: 1, shares: [1] }),
    );
    const lot = {
      ...one.lots[0]!,
      blocks: 10,
      earliest: START,
      best: START,
      latest: START + 30,
      yieldPerBlock: 1,
    };
    const { strain } = lot;
    const spread = { yieldShare: 1e-9, pickDays: 0, readyDays: 0 };
    return {
      ...one,
      lots: [{ ...lot, notBefore: undefined, notAfter: undefined, curve, spread, cost: 0 }],
      rooms: [
        { ...one.rooms[0]!, places: 100, closedFrom: undefined, closedTo: undefined, strains: undefined },
      ],
      orders: [{ product: strain, mass: 10, from: START + 5, due: START + 5, price: 10 }],
      standing: [],
      start: START,
      days: 1,
      limitsOn: () => ({ pick: 6, load: Infinity }),
      settings: { ...DEFAULT_SETTINGS, loadCost: 0, waitCost: 0, serviceLevel },
    };
  };

  test.each([
    [undefined, 6],
    [0.5, 6],
    [0.8, 8],
    [0.95, 10],
  ])('of %s opens %s blocks, picking over the limit where that is what it takes', (level, blocks) => {
    const { loads, expected, bound } = loadPlan(problem(level), highs);
    expect(loads.reduce((sum, load) => sum + load.blocks, 0)).toBe(blocks);
    expect(expected!.shortage).toBeCloseTo(10 * (10 - blocks), 5);
    expect(expected!.overtime).toBeCloseTo(blocks - 6, 5);
    expect(expected!.measure).toBeGreaterThanOrEqual(bound!.total - 1e-6);
  });

  test('is kept on random farms where it is within reach, and a higher one never fills less', () => {
    const farms = [1, 2, 3, 4, 5, 6].map((seed) => {
      const one = spreading(small(seed), SPREAD);
      return [undefined, 0.7, 0.9, 0.99].map((serviceLevel) => {
        const settings = { ...one.settings, scenarios: 8, serviceLevel };
        const { expected, view } = loadPlan({ ...one, settings }, highs);
        return 1 - expected!.shortage / view.orderValue;
      });
    });
    for (const filled of farms) {
      filled.forEach((share, n) => expect(share).toBeGreaterThanOrEqual((filled[n - 1] ?? 0) - 0.01));
    }
    const within = farms.filter((filled) => filled[3]! >= 0.9);
    expect(within.length).toBeGreaterThan(0);
    for (const filled of within) expect(filled[2]!).toBeGreaterThanOrEqual(0.9 - 0.005);
  });
});
