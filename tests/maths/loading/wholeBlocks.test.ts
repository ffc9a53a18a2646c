import { describe, expect, test } from '@jest/globals';
import { FreeCapacity } from '../../../src/maths/loading/freeCapacity';
import type { DayLimits, LoadingProblem } from '../../../src/maths/loading/loadingProblem';
import { planView, type PlanView } from '../../../src/maths/loading/planView';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { constantCost, planCost } from '../../../src/maths/loading/planCost';
import { Rounding, type Wish } from '../../../src/maths/loading/roundPlan';
import { DEFAULT_SETTINGS, START } from './instances';
import { pattern } from './patterns';

// One lot of 100 blocks in a large room. A block gives 1 kg, half on the second day after loading and half on the
// third. Only picking peaks cost anything, 3 a kg. All figures by hand.

const curve = pickCurve(pattern({ strain: 'Elm-2', firstPick: 2, pickDays: 2 }));

function viewOf(
  limitsOn: (day: number) => DayLimits = () => ({ pick: Infinity, load: Infinity }),
  change: (problem: LoadingProblem) => LoadingProblem = (problem) => problem,
): PlanView {
  const standing = {
    room: 'North',
    strain: 'Elm-2',
    product: 'elm-2',
    loaded: START,
    blocks: 2,
    yieldPerBlock: 1,
    curve,
  };
  return planView(
    change({
      lots: [
        {
          lot: 'E-1',
          strain: 'Elm-2',
          product: 'elm-2',
          blocks: 100,
          earliest: START,
          best: START,
          latest: START + 60,
          notBefore: undefined,
          notAfter: undefined,
          yieldPerBlock: 1,
          curve,
          cost: 0,
        },
      ],
      rooms: [
        {
          room: 'North',
          places: 1000,
          blocksPerShelf: 10,
          closedFrom: undefined,
          closedTo: undefined,
          strains: undefined,
        },
      ],
      orders: [{ product: 'elm-2', mass: 12, from: START, due: START + 13, price: 5 }],
      standing: [standing],
      start: START,
      days: 14,
      limitsOn: (day) => limitsOn(day - START),
      settings: {
        ...DEFAULT_SETTINGS,
        earlyCost: 0,
        lateCost: 0,
        discardCost: 0,
        waitCost: 0,
        surplusCost: 0,
        peakCost: 3,
        scenarios: 0,
      },
    }),
  );
}

test('planCost(view, loads) counts what orders are short and the largest day of each week, standing loads included', () => {
  const cost = planCost(viewOf(), [
    { lot: 0, day: 0, group: 0, blocks: 4 },
    { lot: 0, day: 1, group: 0, blocks: 4 },
  ]);
  // Standing 1 and 1 on days 2 and 3, the first load 2 and 2, the second 2 and 2 a day later: 3, 5 and 2 kg of 10.
  expect(cost.picks.slice(0, 6)).toEqual([0, 0, 2, 4, 2, 0]);
  expect(cost.filled).toEqual([10]);
  expect(cost.shortage).toBeCloseTo(5 * 2, 9);
  expect(cost.rest).toBeCloseTo(3 * 5, 9);
});

describe('Rounding gives whole blocks for parts of blocks', () => {
  const wish = (day: number, blocks: number, cost = 0): Wish => ({ lot: 0, day, group: 0, blocks, cost });
  const perDay = (rounding: Rounding): number[] => {
    const blocks = new Array<number>(6).fill(0);
    for (const load of rounding.loads) blocks[load.day]! += load.blocks;
    return blocks;
  };

  test('what a day is rounded up by, the next day is owed less', () => {
    const rounding = new Rounding(viewOf());
    rounding.roundDays(
      [0, 1, 2, 3, 4, 5].map((day) => wish(day, 1.4)),
      0,
      14,
    );
    // 1.4 → 1; 1.8 → 2; 1.2 → 1; 1.6 → 2; 1 → 1; 1.4 → 1: eight of 8.4.
    expect(perDay(rounding)).toEqual([1, 2, 1, 2, 1, 1]);
  });

  test('what a full day cuts goes to the kind’s next day', () => {
    const rounding = new Rounding(viewOf((day) => ({ pick: Infinity, load: day === 0 ? 3 : 9 })));
    rounding.roundDays([wish(0, 5), wish(1, 1)], 0, 14);
    expect(perDay(rounding)).toEqual([3, 3, 0, 0, 0, 0]);
  });

  test('what is owed at the end goes where loading costs least, and no more than that', () => {
    const rounding = new Rounding(viewOf((day) => ({ pick: Infinity, load: [3, 1, 9][day] ?? 9 })));
    const wishes = [wish(0, 5, 1), wish(1, 0, 2), wish(2, 0, 3), wish(3, 0, 4)];
    rounding.roundDays(wishes, 0, 14);
    expect(perDay(rounding)).toEqual([3, 0, 0, 0, 0, 0]);
    rounding.placeOwed(wishes);
    expect(perDay(rounding)).toEqual([3, 1, 1, 0, 0, 0]);
  });
});

describe('FreeCapacity(view) keeps what loads take', () => {
  test('places from the day of loading to the last pick, on no day before or after', () => {
    const view = viewOf(undefined, (problem) => ({
      ...problem,
      standing: [],
      rooms: problem.rooms.map((room) => ({ ...room, places: 30 })),
    }));
    const free = new FreeCapacity(view);
    const most = (day: number): number => free.most({ lot: 0, day, group: 0 });
    expect([0, 2, 4].map(most)).toEqual([30, 30, 30]);
    // Loaded on day 4, picked on the second and third day after it: its places are taken on days 4 to 7.
    free.add({ lot: 0, day: 4, group: 0, blocks: 20 });
    expect([0, 1, 4, 7, 8].map(most)).toEqual([30, 10, 10, 10, 30]);
    expect(free.left).toEqual([80]);
  });
});

describe('costs that no plan changes', () => {
  test('a lot left unopened costs its discard and the days from its comfort to its last; surplus of what stands counts', () => {
    const view = viewOf(undefined, (problem) => ({
      ...problem,
      lots: problem.lots.map((lot) => ({ ...lot, latest: START + 5 })),
      orders: [],
      settings: { ...problem.settings, discardCost: 7, lateCost: 2, surplusCost: 3, comfortDays: 2 },
    }));
    // Over age on day 6, four days past the comfort days: 7 + 4 × 2 a block.
    expect(view.lots[0]!.leftCost).toBe(15);
    // No order takes the two kg of what stands.
    expect(constantCost(view)).toBeCloseTo(100 * 15 + 2 * 3, 9);
  });
});
