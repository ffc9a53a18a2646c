import { pickCurve } from '../../../src/maths/loading/pickCurve';
import type {
  LoadingProblem,
  Lot,
  Order,
  PlanRoom,
  StandingLoad,
} from '../../../src/maths/loading/loadingProblem';
import { DEFAULT_SETTINGS, seeded, START } from './instances';

/**
 * A farm in which everything a grower may write down happens at random: rooms that shut or take one strain, days off,
 * tight or loose limits, lots nearly over age, orders nobody can fill, whole shelves, smallest loads, a few odd units.
 *
 * @param most lots at most; the farm's days and rooms grow with it
 */
export function randomFarm(seed: number, most = 12): LoadingProblem {
  const random = seeded(7919 * seed + 13);
  const between = (low: number, high: number): number => low + random() * (high - low);
  const whole = (low: number, high: number): number => Math.floor(between(low, high + 1));
  const chance = (share: number): boolean => random() < share;
  const unit = chance(0.1) ? 1000 : chance(0.1) ? 0.001 : 1;
  const days = whole(1, chance(0.3) ? 42 : 21);

  const strains = Array.from({ length: whole(1, 4) }, (_, n) => {
    const flushes = whole(1, 3);
    const shares = [[1], [0.65, 0.35], [0.5, 0.3, 0.2]][flushes - 1]!;
    return {
      strain: `Strain ${n + 1}`,
      curve: pickCurve({
        strain: `Strain ${n + 1}`,
        firstPick: whole(0, 9),
        pickDays: whole(1, 5),
        flushGap: whole(5, 15),
        flushes,
        shares,
      }),
      yieldPerBlock: between(0.3, 1.5) * unit,
      product: chance(0.3) ? 'box' : `Strain ${n + 1}`,
    };
  });
  const anyStrain = (): (typeof strains)[number] => strains[whole(0, strains.length - 1)]!;
  const lots = Array.from({ length: whole(1, most) }, (_, n): Lot => {
    const { strain, curve, yieldPerBlock, product } = anyStrain();
    const best = START + whole(-12, days + 8);
    return {
      lot: `L${n + 1}`,
      strain,
      product,
      blocks: whole(1, chance(0.2) ? 8 : 120),
      earliest: best - whole(0, 12) - (chance(0.2) ? random() : 0),
      best,
      latest: best + whole(0, 14),
      notBefore: chance(0.1) ? best : undefined,
      notAfter: chance(0.1) ? best + 2 : undefined,
      yieldPerBlock: yieldPerBlock * (chance(0.3) ? between(0.8, 1.2) : 1),
      curve,
      cost: chance(0.2) ? between(0, 0.5) * unit : 0,
    };
  });
  const blocks = lots.reduce((sum, lot) => sum + lot.blocks, 0);
  const supply = lots.reduce((sum, lot) => sum + lot.blocks * lot.yieldPerBlock, 0);
  const rooms = Array.from({ length: whole(1, 5) }, (_, n): PlanRoom => {
    const closes = chance(0.4);
    const closedFrom = START + whole(-3, days + 10);
    return {
      room: `Room ${n + 1}`,
      places: whole(1, Math.max(2, Math.ceil(between(0.1, 0.8) * blocks))),
      blocksPerShelf: whole(1, 12),
      closedFrom: closes && chance(0.9) ? closedFrom : undefined,
      closedTo: closes ? closedFrom + whole(0, 14) : undefined,
      strains: chance(0.25) ? [anyStrain().strain] : undefined,
    };
  }).map((room) => ({ ...room, places: Math.ceil(room.places / room.blocksPerShelf) * room.blocksPerShelf }));
  const standing = Array.from({ length: whole(0, 6) }, (): StandingLoad => {
    const { strain, curve, yieldPerBlock, product } = anyStrain();
    const room = rooms[whole(0, rooms.length - 1)]!;
    return {
      room: room.room,
      strain,
      product,
      loaded: START - whole(1, 25),
      blocks: whole(1, Math.max(1, Math.floor(room.places / 2))),
      yieldPerBlock,
      curve,
    };
  });
  const orders = Array.from({ length: whole(0, 12) }, (): Order => {
    const due = START + whole(-3, days + 20);
    const kind = anyStrain();
    return {
      product: chance(0.3) ? 'any' : chance(0.5) ? kind.product : chance(0.9) ? kind.strain : 'Nobody',
      mass: Math.max(0.001 * unit, between(0.01, 0.4) * supply),
      given: 0,
      from: due - whole(0, 9),
      due,
      price: chance(0.5) ? 10 : between(1, 20),
    };
  });
  const off = chance(0.5) ? whole(0, 6) : -1;
  const noPicking = chance(0.3) ? off : -1;
  const pick = chance(0.2) ? Infinity : (supply / (days + 14)) * between(0.4, 2.5);
  const load = chance(0.3) ? Infinity : Math.max(1, (blocks / days) * between(0.5, 3));
  return {
    lots,
    rooms,
    orders,
    standing,
    start: START,
    days,
    limitsOn: (day) => {
      const weekday = (((day - START) % 7) + 7) % 7;
      return {
        pick: weekday === noPicking ? 0 : weekday >= 5 ? 0.5 * pick : pick,
        load: weekday === off ? 0 : load,
      };
    },
    settings: {
      ...DEFAULT_SETTINGS,
      turnRound: chance(0.3) ? whole(1, 3) : 0,
      margin: chance(0.2) ? 0.15 : 0,
      wholeShelves: chance(0.2),
      smallestLoad: chance(0.2) ? whole(2, 25) : 1,
    },
  };
}
