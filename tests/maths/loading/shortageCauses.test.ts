import { beforeAll, describe, expect, test } from '@jest/globals';
import { loadModel } from '../../../src/maths/loading/loadModel';
import { loadPlan } from '../../../src/maths/loading/loadPlan';
import type { LoadingProblem } from '../../../src/maths/loading/loadingProblem';
import { planView } from '../../../src/maths/loading/planView';
import {
  RESOURCES,
  shortageCauses,
  SUPPLIES,
  subsets,
  type Resource,
  type ShortageCauses,
} from '../../../src/maths/loading/shortageCauses';
import { loadHighs } from '../../../src/maths/shared/highs';
import type { LinearSolver } from '../../../src/maths/shared/linearProgram';
import { instance } from './instances';

let highs: LinearSolver;
beforeAll(async () => {
  highs = await loadHighs();
});

/** The causes of the shortage of a farm's plan. */
const causesOf = (problem: LoadingProblem, plan = loadPlan(problem, highs)): ShortageCauses =>
  shortageCauses(plan, highs)!;

const farm = (seed: number): LoadingProblem =>
  instance(seed, { lots: 12, days: 21, rooms: 2, strains: 2, products: 2 });
const scaled = {
  shelves: (p: LoadingProblem): LoadingProblem => ({
    ...p,
    rooms: p.rooms.map((room) => ({ ...room, places: Math.round(0.6 * room.places) })),
    standing: p.standing.map((load) => ({ ...load, blocks: Math.max(1, Math.round(0.5 * load.blocks)) })),
  }),
  labour: (p: LoadingProblem): LoadingProblem => ({
    ...p,
    limitsOn: (day) => ({ ...p.limitsOn(day), pick: 0.5 * p.limitsOn(day).pick }),
  }),
  'ripe blocks': (p: LoadingProblem): LoadingProblem => ({
    ...p,
    lots: p.lots.map((lot) => ({ ...lot, blocks: Math.round(0.4 * lot.blocks) })),
  }),
};

describe('shortageCauses(plan, solver) says what orders fall short of', () => {
  test.each(RESOURCES)('few %s: that is the largest part, parts add up, none is below 0', (resource) => {
    for (const seed of [1, 2, 3]) {
      const problem = scaled[resource](farm(seed));
      const plan = loadPlan(problem, highs);
      const causes = causesOf(problem, plan);
      const part = (cause: string): number => causes.parts.find((one) => one.cause === cause)!.mass;
      const { view, cost } = plan;
      const short = view.orders.map(({ order }, o) => order.mass - cost.filled[o]!);
      expect(causes.short).toBeCloseTo(
        short.reduce((sum, mass) => sum + mass),
        6,
      );
      expect(causes.parts.reduce((sum, { mass }) => sum + mass, 0)).toBeCloseTo(causes.short, 6);
      for (const { mass } of causes.parts) expect(mass).toBeGreaterThanOrEqual(0);
      // The labour that is scaled down is picking.
      const scarce = resource === 'labour' ? 'picking' : resource;
      for (const other of SUPPLIES) expect(part(scarce)).toBeGreaterThanOrEqual(part(other));
      expect(part(scarce)).toBeGreaterThan(0);
    }
  });

  test('what an order would be short with more of something is what planning with more of it gives', () => {
    const problem = scaled.shelves(farm(4));
    const causes = causesOf(problem);
    // More than could be used, given to the farm itself rather than taken out of the programme.
    const more: Record<Resource, (p: LoadingProblem) => LoadingProblem> = {
      shelves: (p) => ({ ...p, rooms: p.rooms.map((room) => ({ ...room, places: room.places + 100_000 })) }),
      labour: (p) => ({ ...p, limitsOn: () => ({ pick: 1e6, load: 1e6 }) }),
      'ripe blocks': (p) => ({
        ...p,
        lots: p.lots.flatMap((lot) => [
          lot,
          {
            ...lot,
            lot: `more ${lot.lot}`,
            blocks: 100_000,
            earliest: p.start,
            best: p.start,
            latest: p.start + 500,
          },
        ]),
      }),
    };
    for (const resources of subsets()) {
      const view = planView(resources.reduce((changed, resource) => more[resource](changed), problem));
      const model = loadModel(view);
      const solution = highs.solve({ ...model.program, cost: model.shortage }, 'interior');
      if (solution.status !== 'optimal') throw new Error(solution.status);
      const { columns } = solution;
      view.orders.forEach((_, o) =>
        expect(causes.shortWith(resources, o)).toBeCloseTo(
          columns[model.shortColumns[o]!]! * model.massUnit,
          3,
        ),
      );
    }
  });

  test('what would remain is a share, whatever the currency', () => {
    const problem = scaled.shelves(farm(2));
    const inMillions = problem.orders.map((order) => ({ ...order, price: 1e-6 * order.price }));
    const [whole, small] = [causesOf(problem), causesOf({ ...problem, orders: inMillions })];
    for (const supply of SUPPLIES) expect(small.remaining[supply]).toBeCloseTo(whole.remaining[supply], 3);
    expect(whole.remaining.picking).toBeGreaterThan(0.1);
  });

  test('an order due before anything can be picked comes too soon', () => {
    const problem = farm(5);
    const soon = problem.orders.map((order) => ({ ...order, due: problem.start + 2, from: problem.start }));
    const causes = causesOf({ ...problem, standing: [], orders: soon });
    expect(causes.parts.find(({ cause }) => cause === 'too soon')!.mass).toBeCloseTo(causes.short, 6);
    expect(causes.short).toBeGreaterThan(0);
  });
});
