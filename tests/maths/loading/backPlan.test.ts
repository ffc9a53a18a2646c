import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import {
  backPlan as wholePlan,
  type BackProblem,
  type GrowingStep,
  type StrainToPlan,
  type Task,
} from '../../../src/maths/loading/backPlan';
import type { DayLimits } from '../../../src/maths/loading/loadingProblem';
import { pickCurve } from '../../../src/maths/loading/pickCurve';
import { chanceOfEnough } from '../../../src/maths/loading/startsNeeded';
import { pattern } from './patterns';

const NO_LIMIT = { pick: Infinity, load: Infinity };
/** Limits of a calendar that only says on which days work is done. */
const workOn =
  (isWorkDay: (day: number) => boolean): BackProblem['limitsOn'] =>
  (day) => ({ pick: Infinity, load: isWorkDay(day) ? Infinity : 0 });
const backPlan = (asked: BackProblem): Task[] => [...wholePlan(asked).tasks];

const step = (over: Partial<GrowingStep>): GrowingStep => ({
  step: 'block',
  makes: 1,
  days: 0,
  loss: 0,
  storeDays: undefined,
  cadence: 1,
  ...over,
});
const strain = (over: Partial<StrainToPlan> = {}): StrainToPlan => ({
  strain: 'Alder-3',
  yieldPerBlock: 0.5,
  curve: pickCurve(pattern({ firstPick: 7, pickDays: 4 })),
  best: 70,
  latest: 80,
  steps: [
    step({ step: 'mother culture', makes: 10 }),
    step({ step: 'first spawn', makes: 10, days: 16, loss: 0.1 }),
    step({ step: 'second spawn', makes: 10, days: 18, loss: 0.05 }),
    step({ step: 'third spawn', makes: 12, days: 21, loss: 0.03 }),
    step({ loss: 0.04 }),
  ],
  ...over,
});
const problem = (over: Partial<BackProblem> = {}): BackProblem => ({
  strains: [strain()],
  orders: [],
  stock: [],
  limitsOn: () => NO_LIMIT,
  confidence: undefined,
  chainConfidence: undefined,
  ...over,
});
const weekly = (masses: readonly number[]): BackProblem['orders'] =>
  masses.map((mass, week) => ({ strain: 0, mass, from: 1000 + 7 * week, due: 1006 + 7 * week }));
const units = (tasks: readonly Task[], at: number): number =>
  tasks.reduce((sum, task) => sum + (task.task === 'start' && task.step === at ? task.units : 0), 0);
const loadsOf = (tasks: readonly Task[]): Task[] => tasks.filter(({ task }) => task === 'load');

/** Whether loads fill every weekly order from the picking of its own week; weeks do not overlap. */
function ordersMet({ strains, orders }: BackProblem, loads: readonly Task[]): boolean {
  const { curve, yieldPerBlock } = strains[0]!;
  return orders.every(({ mass, from, due }) => {
    let picked = 0;
    for (let day = from; day <= due; day++) {
      for (const load of loads) picked += load.units * yieldPerBlock * (curve.shares[day - load.day] ?? 0);
    }
    return picked >= mass * (1 - 1e-9);
  });
}

/**
 * Whether the starts of a list, and what it takes from stock, give every step what it needs on its very day: whole good
 * units after the loss, as many children or loads as they make.
 */
function stepsMet({ strains }: BackProblem, tasks: readonly Task[]): boolean {
  const { steps } = strains[0]!;
  const total = (some: readonly Task[]): number => some.reduce((sum, task) => sum + task.units, 0);
  return steps.every(({ loss, makes }, at) => {
    const last = at === steps.length - 1;
    const next = tasks.filter((task) =>
      last ? task.task === 'load' : task.task === 'start' && task.step === at + 1,
    );
    const mine = tasks.filter((task) => task.task === 'start' && task.step === at);
    return next.every(({ day }) => {
      const begun = mine.filter(({ ready }) => ready === day);
      const good = Math.floor((total(begun) * (1e6 - Math.round(loss * 1e6))) / 1e6);
      const beside = begun.reduce((sum, { fromStock }) => sum + fromStock, 0);
      const used = total(tasks.filter((task) => task.task === 'use' && task.step === at && task.day === day));
      return (good + beside + used) * (last ? 1 : makes) >= total(next.filter((task) => task.day === day));
    });
  });
}

describe('backPlan(problem) goes from orders back to spawn', () => {
  // By hand: 320 / 0.96 → 334; 334 / 12 → 28 / 0.97 → 29; 29 / 10 → 3 / 0.95 → 4; 4 / 10 → 1 / 0.9 → 2; 1 mother.
  test('320 blocks take 334, 29, 4, 2 and 1', () => {
    const tasks = backPlan(problem({ orders: weekly([160]) }));
    expect(loadsOf(tasks).map((task) => task.units)).toEqual([320]);
    expect([4, 3, 2, 1, 0].map((at) => units(tasks, at))).toEqual([334, 29, 4, 2, 1]);
    const load = loadsOf(tasks)[0]!.day;
    expect(tasks.map(({ day }) => load - day)).toEqual([125, 125, 109, 91, 70, 0]);
  });

  // By hand: every week 37 blocks / 0.96 → 39, 4 third, 4 / 0.97 → 5; 1, 2; 1, 2; 1: twelve weeks are twelve times that.
  test('twelve weeks are not summed before rounding, unless a cadence asks for it', () => {
    const orders = weekly(new Array<number>(12).fill(18.5));
    const tasks = backPlan(problem({ orders }));
    expect([4, 3, 2, 1, 0].map((at) => units(tasks, at))).toEqual([468, 60, 24, 24, 12]);
    const steps = strain().steps.map((one) => (one.step === 'first spawn' ? { ...one, cadence: 42 } : one));
    const joined = backPlan(problem({ strains: [strain({ steps })], orders }));
    // Two batches of six weeks each: six good ones wanted, 6 / 0.9 → 7.
    expect([4, 3, 2, 1, 0].map((at) => units(joined, at))).toEqual([468, 60, 24, 14, 2]);
    const batches = joined.filter(({ task, step: at }) => task === 'start' && at === 1);
    expect(batches.map(({ units: many, good }) => [many, good])).toEqual([
      [7, 6],
      [7, 6],
    ]);
  });

  const cases = fc.record({
    masses: fc.array(fc.integer({ min: 0, max: 400 }), { minLength: 1, maxLength: 6 }),
    firstPick: fc.integer({ min: 4, max: 9 }),
    flushes: fc.integer({ min: 1, max: 3 }),
    yieldPerBlock: fc.double({ min: 0.3, max: 1.2, noNaN: true }),
    losses: fc.array(fc.integer({ min: 0, max: 30 }), { minLength: 5, maxLength: 5 }),
    makes: fc.array(fc.integer({ min: 1, max: 12 }), { minLength: 5, maxLength: 5 }),
  });
  const built = ({
    masses,
    firstPick,
    flushes,
    yieldPerBlock,
    losses,
    makes,
  }: typeof cases extends fc.Arbitrary<infer T> ? T : never): BackProblem => {
    const shares = [[1], [0.65, 0.35], [0.5, 0.3, 0.2]][flushes - 1]!;
    const curve = pickCurve(pattern({ firstPick, pickDays: 4, flushGap: 14, flushes, shares }));
    const steps = strain().steps.map((one, n) => ({ ...one, loss: losses[n]! / 100, makes: makes[n]! }));
    return problem({ strains: [strain({ curve, yieldPerBlock, steps })], orders: weekly(masses) });
  };

  test('grown forward, its list meets every order; one unit fewer anywhere breaks one', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const asked = built(given);
        const tasks = backPlan(asked);
        expect(ordersMet(asked, loadsOf(tasks))).toBe(true);
        expect(stepsMet(asked, tasks)).toBe(true);
        tasks.forEach((task, n) => {
          const fewer = tasks.map((one, at) => (at === n ? { ...one, units: one.units - 1 } : one));
          expect(task.task === 'load' ? ordersMet(asked, loadsOf(fewer)) : stepsMet(asked, fewer)).toBe(
            false,
          );
        });
      }),
    );
  });

  const stocks = fc.array(
    fc.record({
      strain: fc.constant(0),
      step: fc.integer({ min: 0, max: 4 }),
      units: fc.integer({ min: 1, max: 300 }),
      ready: fc.integer({ min: 800, max: 1040 }),
      life: fc.integer({ min: 0, max: 150 }),
    }),
    { minLength: 1, maxLength: 8 },
  );

  test('with stock on hand the same holds, and no more is taken than there is on a day', () => {
    let used = 0;
    fc.assert(
      fc.property(cases, stocks, (given, onHand) => {
        const stock = onHand.map(({ life, ...one }) => ({ ...one, until: one.ready + life }));
        const asked = { ...built(given), stock };
        const tasks = backPlan(asked);
        expect(ordersMet(asked, loadsOf(tasks))).toBe(true);
        expect(stepsMet(asked, tasks)).toBe(true);
        tasks.forEach((task, n) => {
          const fewer = tasks.map((one, at) => (at === n ? { ...one, units: one.units - 1 } : one));
          expect(task.task === 'load' ? ordersMet(asked, loadsOf(fewer)) : stepsMet(asked, fewer)).toBe(
            false,
          );
        });
        for (let at = 0; at < 5; at++) {
          const left = stock.filter((one) => one.step === at).sort((a, b) => a.until - b.until);
          const takings = tasks.filter((task) => task.step === at && task.fromStock > 0);
          used += takings.length;
          for (const { task, day, ready, fromStock } of takings.sort((a, b) => a.ready - b.ready)) {
            let missing = fromStock;
            const on = task === 'use' ? day : ready;
            left.forEach((one, n) => {
              if (one.ready > on || one.until < on) return;
              const taken = Math.min(missing, one.units);
              left[n] = { ...one, units: one.units - taken };
              missing -= taken;
            });
            expect(missing).toBe(0);
          }
        }
      }),
    );
    expect(used).toBeGreaterThan(100);
  });

  test('without losses and with one child each every step is the loads themselves', () => {
    fc.assert(
      fc.property(cases, (given) => {
        const tasks = backPlan(built({ ...given, losses: [0, 0, 0, 0, 0], makes: [1, 1, 1, 1, 1] }));
        const loaded = loadsOf(tasks).reduce((sum, task) => sum + task.units, 0);
        for (let at = 0; at < 5; at++) expect(units(tasks, at)).toBe(loaded);
      }),
    );
  });

  test('twice the orders start at most twice as many, and never fewer than twice the need before rounding', () => {
    fc.assert(
      fc.property(cases, fc.integer({ min: 1, max: 400 }), (given, mass) => {
        const once = built({ ...given, masses: [mass] });
        const twice = built({ ...given, masses: [2 * mass] });
        const [one, two] = [backPlan(once), backPlan(twice)];
        const { steps, curve, yieldPerBlock } = once.strains[0]!;
        const load = loadsOf(one)[0]!.day;
        const share = curve.shares.reduce(
          (all, part, k) => all + (load + k >= 1000 && load + k <= 1006 ? part : 0),
          0,
        );
        let need = mass / (yieldPerBlock * share);
        expect(loadsOf(two)[0]!.units).toBeGreaterThanOrEqual(2 * need - 1e-6);
        for (let at = 4; at >= 0; at--) {
          need /= (1 - steps[at]!.loss) * (at === 4 ? 1 : steps[at]!.makes);
          expect(units(two, at)).toBeLessThanOrEqual(2 * units(one, at));
          expect(units(two, at)).toBeGreaterThanOrEqual(2 * need - 1e-6);
        }
      }),
    );
  });

  test('work is put on work days, and nothing waits longer than it may', () => {
    fc.assert(
      fc.property(cases, fc.integer({ min: 0, max: 6 }), fc.constantFrom(1, 14), (given, off, cadence) => {
        const plain = built(given);
        const steps = plain.strains[0]!.steps.map((one, at) => ({
          ...one,
          storeDays: 5,
          cadence: at === 2 ? cadence : 1,
        }));
        const asked = {
          ...plain,
          strains: [{ ...plain.strains[0]!, steps, latest: plain.strains[0]!.best + 5 }],
          limitsOn: workOn((day) => day % 7 !== off),
        };
        const tasks = backPlan(asked);
        const waitsLong = tasks.filter(({ day, task, step: at }) => {
          const made = task === 'load' ? 4 : at - 1;
          const ready = tasks
            .filter((one) => one.task === 'start' && one.step === made)
            .map((one) => day - one.ready);
          return made >= 0 && !ready.some((wait) => wait >= 0 && wait <= 5);
        });
        expect(waitsLong).toEqual([]);
        for (const { day, task, step: at, ready } of tasks) {
          expect(day % 7).not.toBe(off);
          const days = at === 4 ? 70 : asked.strains[0]!.steps[at]!.days;
          expect(task === 'load' || ready === day + days).toBe(true);
        }
        expect(ordersMet(asked, loadsOf(tasks))).toBe(true);
      }),
    );
  });

  test('stock that is good on the day is taken, earliest end first', () => {
    const stock = [
      { strain: 0, step: 4, units: 100, ready: 900, until: 992 },
      { strain: 0, step: 4, units: 50, ready: 900, until: 1010 },
      { strain: 0, step: 4, units: 70, ready: 900, until: 1005 },
      { strain: 0, step: 4, units: 999, ready: 999, until: 1020 },
    ];
    // 320 blocks are loaded on day 996: the first lot is past, the last not ready.
    const tasks = backPlan(problem({ orders: weekly([160]), stock }));
    const block = tasks.find(({ task, step: at }) => task === 'start' && at === 4)!;
    expect([block.fromStock, block.good, block.units]).toEqual([120, 200, 209]);
  });

  test('stock that ends first is taken first, so that the rest is still there a week later', () => {
    const stock = [
      { strain: 0, step: 4, units: 40, ready: 900, until: 1010 },
      { strain: 0, step: 4, units: 40, ready: 900, until: 1000 },
    ];
    // 40 blocks on day 996 and 40 on day 1003, when only the later end is still good.
    const tasks = backPlan(problem({ orders: weekly([20, 20]), stock }));
    expect(tasks.map(({ day, task, units: many }) => [day, task, many])).toEqual([
      [996, 'use', 40],
      [996, 'load', 40],
      [1003, 'use', 40],
      [1003, 'load', 40],
    ]);
  });

  test('a batch for several days says all that it takes from stock', () => {
    const steps = [step({ cadence: 14 })];
    const stock = [
      { strain: 0, step: 0, units: 10, ready: 900, until: 1000 },
      { strain: 0, step: 0, units: 15, ready: 1000, until: 1010 },
    ];
    // 40 on day 996, 10 of them from stock; 40 on day 1003, 15 of them: 30 + 25 good ones, without losses.
    const [start] = backPlan(
      problem({ strains: [strain({ steps })], orders: weekly([20, 20]), stock }),
    ).filter(({ task }) => task === 'start');
    expect([start!.day, start!.units, start!.good, start!.fromStock]).toEqual([926, 55, 55, 25]);
  });

  // A block gives 1 kg on each of four days.
  const large = strain({ yieldPerBlock: 4 });
  const order = (mass: number, from: number, due: number) => ({ strain: 0, mass, from, due });

  test('an order takes no more of a day than it lacks, and of two that end together the one that starts first is first', () => {
    // Day 993 is picked from 1000 to 1003. Of its third day half is left, and all of its fourth: 1.5 kg.
    const tasks = backPlan(
      problem({ strains: [large], orders: [order(1.5, 1002, 1003), order(2.5, 1000, 1003)] }),
    );
    expect(loadsOf(tasks).map(({ day, units: many }) => [day, many])).toEqual([[993, 1]]);
  });

  test('the load limit of a day holds for all orders together', () => {
    const limitsOn = (): DayLimits => ({ pick: Infinity, load: 10 });
    const tasks = backPlan(
      problem({ strains: [large], orders: [order(32, 1000, 1006), order(32, 1000, 1006)], limitsOn }),
    );
    // Eight blocks each, of which any day from 993 to 996 gives all in time; the latest first.
    expect(loadsOf(tasks).map(({ day, units: many }) => [day, many])).toEqual([
      [995, 6],
      [996, 10],
    ]);
  });

  test('where a day takes a single block, one is loaded on each day that is in time', () => {
    const limitsOn = (): DayLimits => ({ pick: Infinity, load: 1 });
    const tasks = backPlan(problem({ strains: [large], orders: [order(12, 1000, 1006)], limitsOn }));
    expect(loadsOf(tasks).map(({ day, units: many }) => [day, many])).toEqual([
      [994, 1],
      [995, 1],
      [996, 1],
    ]);
  });

  test('where stock is all that is needed the list says to use it on that day, and nothing is started for it', () => {
    const stock = [
      { strain: 0, step: 3, units: 40, ready: 900, until: 1010 },
      { strain: 0, step: 4, units: 40, ready: 900, until: 1010 },
    ];
    // 40 blocks on day 996 are in stock; a week later 40 more take 42 inoculated on 933, and 4 third spawn of the 40.
    const tasks = backPlan(problem({ orders: weekly([20, 20]), stock }));
    expect(
      tasks.map(({ day, task, step: at, units: many, fromStock }) => [day, task, at, many, fromStock]),
    ).toEqual([
      [933, 'use', 3, 4, 4],
      [933, 'start', 4, 42, 0],
      [996, 'use', 4, 40, 40],
      [996, 'load', 4, 40, 0],
      [1003, 'load', 4, 40, 0],
    ]);
    expect(tasks.every(({ units: many }) => many > 0)).toBe(true);
  });

  test('more confidence never starts fewer', () => {
    const at = (confidence: number | undefined): number =>
      units(backPlan(problem({ orders: weekly([160]), confidence })), 4);
    expect(at(0.8)).toBeGreaterThan(at(undefined));
    expect(at(0.95)).toBeGreaterThan(at(0.8));
  });

  test('with a chain confidence every start behind a load gives enough with that chance, with a confidence only each', () => {
    const orders = weekly([160]);
    const { steps } = strain();
    const chanceOf = (asked: Partial<BackProblem>): number =>
      backPlan(problem({ orders, ...asked }))
        .filter(({ task, step: at }) => task === 'start' && steps[at]!.loss > 0)
        .reduce(
          (all, { step: at, units: many, good }) => all * chanceOfEnough(many, good, steps[at]!.loss),
          1,
        );
    expect(chanceOf({ chainConfidence: 0.9 })).toBeGreaterThanOrEqual(0.9);
    expect(chanceOf({ confidence: 0.9 })).toBeLessThan(0.9);
    expect(chanceOf({ confidence: 0.9, chainConfidence: 0.5 })).toBe(chanceOf({ confidence: 0.9 }));
  });

  // By hand: a block gives 0.125 kg on each of four days, so 160 kg take 320 blocks, 40 kg a day.
  test('loads keep the pick limit of every day, and what one day cannot take goes on the next best days', () => {
    const limitsOn = (): DayLimits => ({ pick: 30, load: Infinity });
    const { tasks, unmet } = wholePlan(problem({ orders: weekly([160]), limitsOn }));
    const perDay = new Map<number, number>();
    for (const { day, units: many } of loadsOf(tasks)) {
      for (let k = 7; k < 11; k++) perDay.set(day + k, (perDay.get(day + k) ?? 0) + many * 0.125);
    }
    expect(Math.max(...perDay.values())).toBeLessThanOrEqual(30);
    expect(unmet).toEqual([]);
    expect(ordersMet(problem({ orders: weekly([160]) }), loadsOf(tasks))).toBe(true);
  });

  test('no load is picked on a day off, even where that is the only day with enough in time', () => {
    // Day 1003 is off: loads that are picked on 999 to 1002 or from 1004 on are left.
    const limitsOn = (day: number): DayLimits => ({ pick: day === 1003 ? 0 : Infinity, load: Infinity });
    const { tasks, unmet } = wholePlan(problem({ orders: weekly([160]), limitsOn }));
    expect(unmet).toEqual([]);
    for (const { day } of loadsOf(tasks)) expect(day + 7 > 1003 || day + 10 < 1003).toBe(true);
    // Three of the four days at most fall in the order's days, which takes a third more blocks: the task says so.
    expect(loadsOf(tasks)[0]).toMatchObject({ units: 427, inTime: 0.75 });
  });

  test('a load says what share of its picking falls in the days of its order', () => {
    const orders = [{ strain: 0, mass: 10, from: 1000, due: 1001 }];
    // Two of four picking days are in time, so 10 kg take the blocks of 20: 40 of them.
    expect(loadsOf(backPlan(problem({ orders })))).toMatchObject([{ units: 40, inTime: 0.5 }]);
  });

  test('an order that cannot be filled is told, and the others are planned', () => {
    const orders = weekly([160, 80]);
    const noDay = wholePlan(problem({ orders, limitsOn: workOn((day) => day >= 1000) }));
    expect(noDay.unmet).toEqual([{ order: orders[0], short: 160, why: 'no day' }]);
    expect(loadsOf(noDay.tasks).length).toBeGreaterThan(0);
    const off = wholePlan(
      problem({ orders, limitsOn: (day) => ({ pick: day < 1007 ? 0 : Infinity, load: Infinity }) }),
    );
    expect(off.unmet).toEqual([{ order: orders[0], short: 160, why: 'limits' }]);
    expect(loadsOf(off.tasks)).toMatchObject([{ units: 160 }]);
  });

  test('a step that no work day in its store life can start is told with the day it is needed', () => {
    const steps = strain().steps.map((one) => (one.step === 'third spawn' ? { ...one, storeDays: 1 } : one));
    const limitsOn = workOn((day) => day % 7 === 2);
    // Blocks are loaded on day 996. 68 days before is no work day, and the last one is two days earlier, too early by one.
    const asked = problem({
      strains: [strain({ steps, best: 68, latest: 69 })],
      orders: weekly([160]),
      limitsOn,
    });
    const { tasks, unstarted } = wholePlan(asked);
    expect(unstarted).toEqual([{ strain: 0, step: 4, day: 996, good: 320, fromStock: 0 }]);
    expect(tasks.map(({ task }) => task)).toEqual(['load']);
  });
});
