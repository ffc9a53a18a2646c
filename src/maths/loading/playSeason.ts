import { labelKey } from '../shared/labels';
import { asKnown } from './asKnown';
import { fillOrders } from './fillOrders';
import { picksUnder, type Fate } from './fates';
import type { LoadingProblem, Lot, Order, PlannedLoad, StandingLoad } from './loadingProblem';
import { asLoaded } from './watchedLoad';

/** What truly becomes of a season's loads, lots and orders. The planner sees each only once it has happened. */
export interface World {
  readonly lot: (lot: string) => Fate;
  readonly standing: (at: number) => Fate;
  /** What an order comes to in the end, as a multiple: known a week before its first day of picking. */
  readonly order: (at: number) => number;
}

/** How a farm decides: the loads of the coming days, from what is known on the first of them. */
export type Policy = (
  known: LoadingProblem,
  previous: readonly PlannedLoad[] | undefined,
) => readonly PlannedLoad[];

/** What a season came to. */
export interface Season {
  /** Share of the orders' value that was delivered. */
  readonly fill: number;
  /** Share of all picked mass that no order took. */
  readonly surplus: number;
  /** Days on which more than a tenth over the limit was to be picked, and the worst of them as a share of its limit. */
  readonly daysOver: number;
  readonly worstOver: number;
  /** Share of the blocks that went over age. */
  readonly overAge: number;
  readonly blocksLoaded: number;
}

interface TrueLoad extends StandingLoad {
  readonly fate: Fate;
  /** Day and mass of each pick. */
  readonly picks: readonly (readonly [number, number])[];
}

/**
 * Plays a season day by day. Every `every` days the farm plans anew with what it then knows, over the next `horizon`
 * days, and does the first days of the plan. A lot that is not ripe when it is to be opened stays closed, and is
 * looked at again with the next plan. Loads give what their fates say. In the end the orders are filled, dearest first.
 *
 * @param farm everything the season holds: lots, orders, and what stands at its start
 * @param weeks number of weeks played; orders due in them count
 */
export function playSeason(
  farm: LoadingProblem,
  world: World,
  policy: Policy,
  weeks: number,
  horizon = 42,
  every = 7,
): Season {
  const end = farm.start + 7 * weeks;
  const left = new Map(farm.lots.map(({ lot, blocks }) => [labelKey(lot), blocks]));
  const lots = new Map(farm.lots.map((lot) => [labelKey(lot.lot), lot]));
  const fates = new Map(farm.lots.map(({ lot }) => [labelKey(lot), world.lot(lot)]));
  const trueLoad = (load: StandingLoad, fate: Fate): TrueLoad => ({
    ...load,
    fate,
    picks: picksUnder(load.curve, load.blocks * load.yieldPerBlock, fate).map(
      ([k, mass]) => [Math.floor(load.loaded) + k, mass] as const,
    ),
  });
  const standing = farm.standing.map((load, at) => trueLoad(asLoaded(load), world.standing(at)));
  let [loaded, previous]: [number, readonly PlannedLoad[] | undefined] = [0, undefined];
  for (let today = farm.start; today < end; today += every) {
    const known = knownProblem(farm, world, today, horizon, standing, left, fates);
    const plan = policy(known, previous);
    previous = plan;
    for (const load of plan) {
      if (load.day >= today + every) continue;
      const key = labelKey(load.lot);
      const lot = lots.get(key)!;
      const fate = fates.get(key)!;
      if (load.day < Math.floor(lot.earliest) + fate.ripensLate) continue;
      const blocks = Math.min(load.blocks, left.get(key)!);
      if (blocks < 1) continue;
      left.set(key, left.get(key)! - blocks);
      loaded += blocks;
      const { room, day } = load;
      standing.push(trueLoad({ ...asStanding(lot), room, loaded: day, blocks }, fate));
    }
  }
  const over = farm.lots.reduce(
    (sum, lot) => sum + (Math.floor(lot.latest) < end ? left.get(labelKey(lot.lot))! : 0),
    0,
  );
  return outcome(farm, world, end, standing, loaded, over);
}

const asStanding = ({ lot, strain, product, yieldPerBlock, curve, spread }: Lot) => ({
  lot,
  strain,
  product,
  yieldPerBlock,
  curve,
  spread,
});

/** What the farm knows on a day. */
function knownProblem(
  farm: LoadingProblem,
  world: World,
  today: number,
  horizon: number,
  standing: readonly TrueLoad[],
  left: ReadonlyMap<string, number>,
  fates: ReadonlyMap<string, Fate>,
): LoadingProblem {
  return {
    ...farm,
    start: today,
    days: horizon,
    lots: farm.lots.flatMap((lot) => {
      const blocks = left.get(labelKey(lot.lot))!;
      if (blocks < 1 || Math.floor(lot.latest) < today || lot.earliest > today + horizon) return [];
      // A grower who looks sees whether a lot is ripe, and of one that is not yet that it will take some days.
      const ripe = Math.floor(lot.earliest) + fates.get(labelKey(lot.lot))!.ripensLate;
      const spread = lot.spread && { ...lot.spread, readyDays: 0 };
      if (ripe <= today) return [{ ...lot, blocks, earliest: Math.min(lot.earliest, today), spread }];
      return [{ ...lot, blocks, earliest: lot.earliest <= today ? today + 3 : lot.earliest }];
    }),
    standing: standing.flatMap(({ picks, fate: _, ...load }) => {
      if (Math.floor(load.loaded) + load.curve.stay + farm.settings.turnRound + 7 <= today) return [];
      const before = picks.filter(([day]) => day < today);
      if (before.length === 0) return [asKnown(load, today, undefined, 0)];
      return [
        asKnown(
          load,
          today,
          before[0]![0],
          before.reduce((sum, [, mass]) => sum + mass, 0),
        ),
      ];
    }),
    orders: farm.orders.flatMap((order, at): Order[] => {
      if (order.due < today || order.from > today + horizon + 14) return [];
      const mass = order.mass * (order.from - today < 7 ? world.order(at) : 1);
      if (!(mass > 0)) return [];
      return [{ ...order, mass }];
    }),
  };
}

function outcome(
  farm: LoadingProblem,
  world: World,
  end: number,
  standing: readonly TrueLoad[],
  blocksLoaded: number,
  over: number,
): Season {
  const orders = farm.orders
    .map((order, at) => ({ ...order, mass: order.mass * world.order(at) }))
    .filter(({ due, mass }) => due >= farm.start && due < end && mass > 0);
  const supplies = new Map<string, { mass: number; orders: number[] }>();
  const days = new Map<number, number>();
  for (const { picks, strain, product } of standing) {
    const names = [labelKey(strain), labelKey(product), 'any'];
    for (const [day, mass] of picks) {
      if (day < farm.start || day >= end) continue;
      days.set(day, (days.get(day) ?? 0) + mass);
      const fits = orders.flatMap(({ product: wanted, from, due }, at) =>
        names.includes(labelKey(wanted)) && day >= Math.floor(from) && day <= Math.floor(due) ? [at] : [],
      );
      const key = fits.join();
      supplies.set(key, { mass: mass + (supplies.get(key)?.mass ?? 0), orders: fits });
    }
  }
  const { filled, left } = fillOrders(orders, [...supplies.values()]);
  const value = orders.reduce((sum, { mass, price }) => sum + mass * price, 0);
  const picked = [...days.values()].reduce((sum, mass) => sum + mass, 0);
  const overs = [...days].flatMap(([day, mass]) => {
    const { pick } = farm.limitsOn(day);
    return pick < Infinity && mass > 1.1 * pick ? [mass / Math.max(pick, 1e-9) - 1] : [];
  });
  const blocks = farm.lots.reduce((sum, lot) => sum + lot.blocks, 0);
  return {
    fill: value > 0 ? filled.reduce((sum, mass, o) => sum + mass * orders[o]!.price, 0) / value : 1,
    surplus: picked > 0 ? left.reduce((sum, mass) => sum + mass, 0) / picked : 0,
    daysOver: overs.length,
    worstOver: Math.max(0, ...overs),
    overAge: blocks > 0 ? over / blocks : 0,
    blocksLoaded,
  };
}
