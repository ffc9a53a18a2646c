import { pickCurve } from '../../../src/maths/loading/pickCurve';
import type {
  LoadingProblem,
  Lot,
  Order,
  PlanRoom,
  PlanSettings,
  StandingLoad,
} from '../../../src/maths/loading/loadingProblem';

/** Random numbers from 0 up to 1 that only the seed decides (mulberry32). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

export const DEFAULT_SETTINGS: PlanSettings = {
  earlyCost: undefined,
  lateCost: undefined,
  discardCost: undefined,
  waitCost: undefined,
  surplusCost: undefined,
  peakCost: undefined,
  loadCost: undefined,
  comfortDays: 2,
  turnRound: 0,
  margin: 0,
  keepTolerance: 0.003,
  freezeDays: 0,
  wholeShelves: false,
  smallestLoad: 1,
  orderTolerance: 0.001,
  moveCost: undefined,
  scenarios: undefined,
  overtimeCost: undefined,
  serviceLevel: undefined,
};

export interface InstanceSize {
  readonly lots: number;
  readonly days: number;
  readonly rooms: number;
  readonly strains: number;
  readonly products: number;
}

/** Monday, 2 March 2026. */
export const START = 46083;

/**
 * A farm in the middle of its season: rooms nearly full of earlier loads, lots that ripen over the plan and a little
 * beyond, no loading on Sundays and less picking at weekends, weekly orders for nearly all that can be expected.
 */
export function instance(seed: number, size: InstanceSize): LoadingProblem {
  const random = seeded(seed);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const { days } = size;

  const strains = Array.from({ length: size.strains }, (_, s) => {
    const flushes = whole(1, 3);
    const shares = [[1], [0.65, 0.35], [0.5, 0.3, 0.2]][flushes - 1]!;
    const curve = pickCurve({
      strain: `Strain ${s + 1}`,
      firstPick: whole(6, 8),
      pickDays: whole(2, 4),
      flushGap: whole(13, 15),
      flushes,
      shares,
    });
    const best = whole(62, 78);
    return {
      strain: `Strain ${s + 1}`,
      earliest: best - whole(7, 12),
      best,
      latest: best + whole(10, 16),
      curve,
      yieldPerBlock: between(0.55, 0.8) / shares[0]!,
    };
  });
  const lots = Array.from({ length: size.lots }, (_, n): Lot => {
    const strain = strains[n % strains.length]!;
    const best = START + whole(-6, days + 4);
    return {
      lot: `L${String(n + 1).padStart(4, '0')}`,
      strain: strain.strain,
      product: strain.strain,
      blocks: whole(20, 80),
      earliest: best - strain.best + strain.earliest,
      best,
      latest: best - strain.best + strain.latest,
      notBefore: undefined,
      notAfter: undefined,
      yieldPerBlock: strain.yieldPerBlock,
      curve: strain.curve,
      cost: 0,
    };
  });
  const blocks = lots.reduce((sum, lot) => sum + lot.blocks, 0);
  const perDay = blocks / (days + 10);
  const meanStay = lots.reduce((sum, lot) => sum + lot.blocks * lot.curve.stay, 0) / blocks;
  const meanYield = lots.reduce((sum, lot) => sum + lot.blocks * lot.yieldPerBlock, 0) / blocks;
  const supply = perDay * meanYield;

  const places = Math.ceil((perDay * meanStay * between(0.95, 1.1)) / size.rooms / 12) * 12;
  const rooms = Array.from({ length: size.rooms }, (_, n): PlanRoom => ({
    room: `Room ${n + 1}`,
    places,
    blocksPerShelf: 12,
    closedFrom: undefined,
    closedTo: undefined,
    strains: undefined,
  }));
  const standing: StandingLoad[] = [];
  const free = rooms.map(() => places);
  for (let day = 1; day < 45; day++) {
    if ((START - day) % 7 === 1) continue;
    const strain = strains[whole(0, strains.length - 1)]!;
    if (strain.curve.stay <= day) continue;
    const at = day % size.rooms;
    const size0 = Math.min(free[at]!, Math.round(perDay * between(0.8, 1.4)));
    if (size0 < 1) continue;
    free[at]! -= size0;
    standing.push({
      room: rooms[at]!.room,
      strain: strain.strain,
      product: strain.strain,
      loaded: START - day,
      blocks: size0,
      yieldPerBlock: strain.yieldPerBlock,
      curve: strain.curve,
    });
  }
  const orders: Order[] = [];
  const shares =
    size.products === 1
      ? [1]
      : Array.from({ length: size.products }, (_, p) => (p === 0 ? 0.6 : 0.4 / (size.products - 1)));
  for (let due = START + 6; due < START + days + 14; due += 7) {
    shares.forEach((share, p) =>
      orders.push({
        product: p === 0 ? 'any' : strains[p % strains.length]!.strain,
        mass: Math.round(share * 7 * supply * 0.92 * between(0.8, 1.2) * 10) / 10,
        from: due - 6,
        due,
        price: Math.round(between(8, 14)),
      }),
    );
  }
  const pickLimit = Math.ceil(supply * between(1.2, 1.6));
  const loadLimit = Math.ceil(perDay * between(1.5, 2.2));
  return {
    lots,
    rooms,
    orders,
    standing,
    start: START,
    days,
    limitsOn: (day) => {
      const weekday = (((day - START) % 7) + 7) % 7;
      return { pick: weekday >= 5 ? 0.6 * pickLimit : pickLimit, load: weekday === 6 ? 0 : loadLimit };
    },
    settings: DEFAULT_SETTINGS,
  };
}

/** Sixty realistic farms, 10 to 200 lots, 14 to 120 days, 1 to 8 rooms; the first are the smallest. */
export function sixtyInstances(): LoadingProblem[] {
  return Array.from({ length: 60 }, (_, n) => {
    const random = seeded(1000 + n);
    const grown = n / 59;
    return instance(n + 1, {
      lots: Math.round(10 + 190 * grown),
      days: Math.round(14 + 106 * Math.min(1, Math.max(0, grown + 0.2 * (random() - 0.5)))),
      rooms: 1 + Math.floor(random() * 8),
      strains: 2 + Math.floor(random() * 7),
      products: 1 + Math.floor(random() * 3),
    });
  });
}
