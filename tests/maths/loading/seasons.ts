import { curveOfFlushes, pickCurve } from '../../../src/maths/loading/pickCurve';
import { normalQuantile, type Fate, type Spread } from '../../../src/maths/loading/fates';
import { loadPlan } from '../../../src/maths/loading/loadPlan';
import type { LoadingProblem, Lot, Order, StandingLoad } from '../../../src/maths/loading/loadingProblem';
import type { Policy, World } from '../../../src/maths/loading/playSeason';
import type { LinearSolver } from '../../../src/maths/shared/linearProgram';
import { DEFAULT_SETTINGS, seeded, START } from './instances';

/** Days of a season that one plan looks at. */
export const HORIZON = 28;

/**
 * A farm over a season: three strains with one, two and three flushes, three rooms, a lot of each strain a week, and
 * weekly orders for nearly all that can be expected.
 */
export function seasonFarm(seed: number, weeks: number, spread: Spread): LoadingProblem {
  const random = seeded(seed);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const strains = [[1], [0.65, 0.35], [0.5, 0.3, 0.2]].map((shares, n) => ({
    strain: `Strain ${n + 1}`,
    curve: pickCurve({
      strain: `Strain ${n + 1}`,
      firstPick: 6 + n,
      pickDays: 3,
      flushGap: 11,
      flushes: shares.length,
      shares,
    }),
    yieldPerBlock: [0.7, 0.9, 1.1][n]!,
  }));
  const lots = strains.flatMap(({ strain, curve, yieldPerBlock }, s) =>
    Array.from({ length: weeks + 2 }, (_, week): Lot => {
      const best = START + 7 * week + 2 * s + Math.floor(between(-3, 3));
      return {
        lot: `S${s + 1}-${week + 1}`,
        strain,
        product: strain,
        blocks: Math.round(between(35, 65)),
        earliest: best - 6,
        best,
        latest: best + 12,
        notBefore: undefined,
        notAfter: undefined,
        yieldPerBlock,
        curve,
        spread,
        cost: 0,
      };
    }),
  );
  const weekly = strains.map(({ yieldPerBlock }) => 50 * yieldPerBlock);
  const orders = Array.from({ length: weeks + 1 }, (_, week) =>
    weekly.flatMap((mass, s): Order[] => {
      const due = START + 7 * week + 6;
      const of = (product: string, share: number, price: number): Order => ({
        product,
        mass: Math.round(10 * mass * share * between(0.75, 1.2)) / 10,
        from: due - 6,
        due,
        price,
      });
      return [of(strains[s]!.strain, 0.7, 12), of('any', 0.24, 9)];
    }),
  ).flat();
  const rooms = [0, 1, 2].map((n) => ({
    room: `Room ${n + 1}`,
    places: 156,
    blocksPerShelf: 12,
    closedFrom: undefined,
    closedTo: undefined,
    strains: undefined,
  }));
  const standing = strains.flatMap(({ strain, curve, yieldPerBlock }, s): StandingLoad[] =>
    [4, 11, 18].flatMap((ago) =>
      ago < curve.stay
        ? [
            {
              room: `Room ${s + 1}`,
              strain,
              product: strain,
              loaded: START - ago,
              blocks: 45,
              yieldPerBlock,
              curve,
              spread,
            },
          ]
        : [],
    ),
  );
  const perDay = weekly.reduce((sum, mass) => sum + mass, 0) / 7;
  return {
    lots,
    rooms,
    orders,
    standing,
    start: START,
    days: HORIZON,
    limitsOn: (day) => {
      const weekday = (((day - START) % 7) + 7) % 7;
      return { pick: weekday >= 5 ? 1.1 * perDay : 1.6 * perDay, load: weekday === 6 ? 0 : 60 };
    },
    settings: DEFAULT_SETTINGS,
  };
}

/**
 * A farm of another kind: four strains, two rooms of different sizes, of which one takes two strains only and is shut
 * for a week, and orders for markets on Tuesday, Friday and Saturday that only the two days before can fill. Two picks
 * of three have a buyer, and few pick on Sundays.
 */
export function marketFarm(seed: number, weeks: number, spread: Spread): LoadingProblem {
  const random = seeded(1000 + seed);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const strains = [[1], [0.7, 0.3], [0.6, 0.4], [0.45, 0.35, 0.2]].map((shares, n) => ({
    strain: `Strain ${n + 1}`,
    curve: pickCurve({
      strain: `Strain ${n + 1}`,
      firstPick: [5, 7, 9, 8][n]!,
      pickDays: [2, 4, 3, 5][n]!,
      flushGap: [10, 9, 14, 12][n]!,
      flushes: shares.length,
      shares,
    }),
    yieldPerBlock: [0.6, 0.8, 1, 1.3][n]!,
  }));
  const lots = strains.flatMap(({ strain, curve, yieldPerBlock }, s) =>
    Array.from({ length: Math.ceil((weeks + 2) / 2) * 2 }, (_, n): Lot => {
      const best = START + Math.round(4.5 + 7 * n + 1.5 * s + between(-2, 2));
      return {
        lot: `M${s + 1}-${n + 1}`,
        strain,
        product: strain,
        blocks: Math.round(between(20, 60)),
        earliest: best - 4,
        best,
        latest: best + 9,
        notBefore: undefined,
        notAfter: undefined,
        yieldPerBlock,
        curve,
        spread,
        cost: 0,
      };
    }),
  );
  const weekly = strains.map(({ yieldPerBlock }) => 40 * yieldPerBlock);
  const orders = Array.from({ length: weeks + 1 }, (_, week) =>
    [1, 4, 5].flatMap((weekday) =>
      weekly.map((mass, s): Order => {
        const due = START + 7 * week + weekday;
        return {
          product: strains[s]!.strain,
          mass: Math.round(10 * mass * 0.22 * between(0.6, 1.4)) / 10,
          from: due - 2,
          due,
          price: [9, 11, 14, 12][s]!,
        };
      }),
    ),
  ).flat();
  const room = { blocksPerShelf: 10, closedFrom: undefined, closedTo: undefined, strains: undefined };
  const standing = strains.flatMap(({ strain, curve, yieldPerBlock }, s): StandingLoad[] =>
    [5, 13].flatMap((ago) =>
      ago < curve.stay
        ? [
            {
              room: s < 2 ? 'Long room' : 'Old room',
              strain,
              product: strain,
              loaded: START - ago,
              blocks: 35,
              yieldPerBlock,
              curve,
              spread,
            },
          ]
        : [],
    ),
  );
  const perDay = weekly.reduce((sum, mass) => sum + mass, 0) / 6;
  return {
    lots,
    rooms: [
      { ...room, room: 'Long room', places: 330 },
      {
        ...room,
        room: 'Old room',
        places: 180,
        strains: ['Strain 3', 'Strain 4'],
        closedFrom: START + 45,
        closedTo: START + 51,
      },
    ],
    orders,
    standing,
    start: START,
    days: HORIZON,
    limitsOn: (day) => {
      const weekday = (((day - START) % 7) + 7) % 7;
      return { pick: (weekday === 6 ? 0.6 : 1.5) * perDay, load: weekday >= 5 ? 0 : 50 };
    },
    settings: DEFAULT_SETTINGS,
  };
}

/** A farm, a generator of worlds for it, and the spread that the farm's records would show. */
export interface WorldKind {
  readonly name: string;
  readonly spread: Spread;
  readonly farm: (seed: number, weeks: number, spread: Spread) => LoadingProblem;
  readonly world: (farm: LoadingProblem, seed: number) => World;
}

/** Lots differ smoothly: log-normal yields, normal days; now and then an order changes. */
export const SMOOTH: WorldKind = {
  name: 'smooth',
  farm: seasonFarm,
  spread: { yieldShare: 0.22, pickDays: 1.3, readyDays: 2.5 },
  world: (farm, seed) => {
    const normal = (name: string): number => normalQuantile(0.001 + 0.998 * chanceOf(`${seed} ${name}`));
    const fateOf = (name: string, flushes: number): Fate => {
      let late = 0;
      return {
        factor: Math.exp(0.22 * normal(`${name} yield`) - 0.022),
        shifts: Array.from({ length: flushes }, (_, n) => Math.round((late += 1.3 * normal(`${name} ${n}`)))),
        ripensLate: Math.round(2.5 * normal(`${name} ripe`)),
      };
    };
    return worldOf(farm, fateOf, (at) =>
      chanceOf(`${seed} order ${at}`) < 0.15 ? 0.6 + 0.8 * chanceOf(`${seed} size ${at}`) : 1,
    );
  },
};

/** Lots are sound or spoilt: one in eight loses much, flushes stall for days, a few orders are called off. */
export const ROUGH: WorldKind = {
  name: 'rough',
  farm: seasonFarm,
  spread: { yieldShare: 0.2, pickDays: 1.4, readyDays: 2 },
  world: (farm, seed) => {
    const chance = (name: string): number => chanceOf(`${seed} ${name}`);
    const fateOf = (name: string, flushes: number): Fate => {
      let late = 0;
      return {
        factor:
          chance(`${name} spoilt`) < 0.12
            ? 0.4 + 0.4 * chance(`${name} loss`)
            : 0.9 + 0.3 * chance(`${name} good`),
        shifts: Array.from({ length: flushes }, (_, n) => {
          const draw = chance(`${name} flush ${n}`);
          return (late += draw < 0.3 ? -1 : draw < 0.7 ? 0 : draw < 0.88 ? 1 : 3);
        }),
        ripensLate: Math.round(-2 - 2.4 * Math.log(1 - 0.98 * chance(`${name} ripe`))),
      };
    };
    return worldOf(farm, fateOf, (at) => (chance(`order ${at}`) < 0.06 ? 0 : 1));
  },
};

/**
 * Lots of one time fare alike: a strain's yields drift over the weeks, and two cold spells hold back all that ripens or
 * flushes in them. One order in four changes, a few are called off. Planning takes lots to be independent, so here it is wrong in kind.
 */
export const DRIFTING: WorldKind = {
  name: 'drifting',
  farm: marketFarm,
  spread: { yieldShare: 0.22, pickDays: 1.2, readyDays: 1.8 },
  world: (farm, seed) => {
    const normal = (name: string): number =>
      normalQuantile(0.001 + 0.998 * chanceOf(`${seed} drift ${name}`));
    const spells = [0, 1].map((n) => START + Math.floor(42 * (n + chanceOf(`${seed} spell ${n}`))));
    const isCold = (day: number): boolean => spells.some((from) => day >= from && day < from + 10);
    const drift = new Map<string, number[]>();
    for (const strain of new Set(farm.lots.map((lot) => lot.strain))) {
      let now = 0.14 * normal(`${strain} start`);
      drift.set(
        strain,
        Array.from(
          { length: 60 },
          (_, week) => (now = 0.85 * now + 0.074 * normal(`${strain} week ${week}`)),
        ),
      );
    }
    const fateOf = (name: string, strain: string, day: number, flushes: number): Fate => {
      const week = Math.max(0, Math.floor((day - START) / 7) + 4);
      let late = isCold(day + 6) ? 1 : 0;
      return {
        factor: Math.exp(drift.get(strain)![week]! + 0.15 * normal(`${name} yield`) - 0.02),
        shifts: Array.from({ length: flushes }, (_, n) =>
          Math.round(
            (late += 0.9 * normal(`${name} flush ${n}`) + (n > 0 && isCold(day + 8 + 11 * n) ? 1.5 : 0)),
          ),
        ),
        ripensLate: Math.round(1.3 * normal(`${name} ripe`) + (isCold(day - 4) ? 2.5 : 0)),
      };
    };
    const lots = new Map(
      farm.lots.map(({ lot, strain, best, curve }) => [lot, fateOf(lot, strain, best, curve.flushes.length)]),
    );
    return {
      lot: (lot) => lots.get(lot)!,
      standing: (at) => {
        const { strain, loaded, curve } = farm.standing[at]!;
        return fateOf(`standing ${at}`, strain, loaded, curve.flushes.length);
      },
      order: (at) => {
        const draw = chanceOf(`${seed} change ${at}`);
        return draw < 0.03 ? 0 : draw < 0.28 ? 0.7 + 0.6 * chanceOf(`${seed} to ${at}`) : 1;
      },
    };
  },
};

function worldOf(
  farm: LoadingProblem,
  fateOf: (name: string, flushes: number) => Fate,
  order: (at: number) => number,
): World {
  const lots = new Map(farm.lots.map((lot) => [lot.lot, fateOf(lot.lot, lot.curve.flushes.length)]));
  return {
    lot: (lot) => lots.get(lot)!,
    standing: (at) => fateOf(`standing ${at}`, farm.standing[at]!.curve.flushes.length),
    order,
  };
}

/** A number from 0 up to 1 for each label, by the generator that tests seed farms with. */
function chanceOf(label: string): number {
  let seed = 17;
  for (const letter of label) seed = (Math.imul(seed, 31) + letter.charCodeAt(0)) >>> 0;
  const random = seeded(seed);
  random();
  return random();
}

const without = (problem: LoadingProblem, margin: number): LoadingProblem => ({
  ...problem,
  lots: problem.lots.map((lot) => ({ ...lot, spread: undefined })),
  standing: problem.standing.map((load) => ({ ...load, spread: undefined })),
  settings: { ...problem.settings, margin },
});

/** How a farm may plan: by thumb, for figures taken as certain with a margin, or over possible seasons. */
export const policies = (highs: LinearSolver): Record<string, Policy> => ({
  'rule of thumb': (known) => loadPlan(without(known, 0), null).loads,
  'margin 0': (known) => loadPlan(without(known, 0), highs).loads,
  'margin 10%': (known) => loadPlan(without(known, 0.1), highs).loads,
  'possible seasons': (known) => loadPlan(known, highs).loads,
});

/** The plan of one who knows the whole season beforehand. */
export function foresight(farm: LoadingProblem, world: World, weeks: number, highs: LinearSolver): Policy {
  const truly = <L extends StandingLoad | Lot>(load: L, { factor, shifts }: Fate): L => ({
    ...load,
    spread: undefined,
    yieldPerBlock: factor * load.yieldPerBlock,
    curve: curveOfFlushes(
      load.curve.flushes.map((flush, n) => ({ ...flush, start: Math.max(0, flush.start + shifts[n]!) })),
    ),
  });
  const known: LoadingProblem = {
    ...farm,
    days: 7 * weeks,
    lots: farm.lots.map((lot) => {
      const fate = world.lot(lot.lot);
      return { ...truly(lot, fate), earliest: lot.earliest + fate.ripensLate };
    }),
    standing: farm.standing.map((load, at) => truly(load, world.standing(at))),
    orders: farm.orders.flatMap((order, at) => {
      const mass = order.mass * world.order(at);
      return mass > 0 ? [{ ...order, mass }] : [];
    }),
  };
  const { loads } = loadPlan(known, highs);
  return ({ start }) => loads.filter(({ day }) => day >= start);
}
