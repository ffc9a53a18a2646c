import { labelKey } from '../shared/labels';
import { fillOrders } from './fillOrders';
import type {
  DayLimits,
  Lot,
  Order,
  PlannedLoad,
  PlanRoom,
  PlanSettings,
  StandingLoad,
} from './loadingProblem';
import { isShut } from './shelfUse';

export interface LoadsToCheck {
  readonly loads: readonly PlannedLoad[];
  readonly lots: readonly Lot[];
  readonly rooms: readonly PlanRoom[];
  readonly orders: readonly Order[];
  readonly standing: readonly StandingLoad[];
  readonly limitsOn: (day: number) => DayLimits;
  /** The days a place stays empty and the margin that the plan was made with. */
  readonly settings: Pick<PlanSettings, 'turnRound' | 'margin'>;
}

/** A rule that a plan breaks. */
export interface BrokenRule {
  readonly rule:
    | 'lot not known'
    | 'room not known'
    | 'more blocks than the lot has'
    | 'opened too early'
    | 'opened too late'
    | 'strain not allowed in the room'
    | 'room shut'
    | 'room over-full'
    | 'too many blocks to load'
    | 'too much to pick'
    | 'order short';
  /** Serial of the day it is about, the first where it is about several; undefined where it is about no day. */
  readonly day: number | undefined;
  /** Lot, room or product. */
  readonly subject: string;
  readonly found: number;
  readonly allowed: number;
  /** The strain that a room does not take. */
  readonly strain?: string;
  /** Days for which a room is shut or over-full. */
  readonly days?: number;
}

/** A share of a mass this small is no breach, only the last digits of a sum. */
const SLACK = 1e-6;

/**
 * Every rule that a list of loads breaks, one entry per rule and lot, room, day or order. Checked are:
 *
 * - the blocks of each lot, and its first and last day of opening;
 * - rooms: known, open, large enough and fit for the strain;
 * - the blocks loaded and the mass picked on each day;
 * - how far each order is filled.
 *
 * Standing loads take places and picking too. A day on which they alone pass the picking limit counts as broken only
 * if the loads add to it. Orders are judged by yields with the margin taken off, picking by the full yield.
 *
 * The checker shares nothing with the planner but the filling of orders and the days a room is shut. On purpose it
 * has its own spreading of yields over days, its own places and its own keys: a mistake in the planner's shows here.
 *
 * @returns rules in the order lots, rooms, days, orders; empty where none is broken
 */
export function checkLoads(check: LoadsToCheck): BrokenRule[] {
  const lots = new Map(check.lots.map((lot) => [labelKey(lot.lot), lot]));
  return [
    ...lotRules(check, lots),
    ...roomRules(check, lots),
    ...loadingRules(check),
    ...pickingRules(check, lots),
    ...orderRules(check, lots),
  ];
}

type Lots = ReadonlyMap<string, Lot>;

function lotRules({ loads, lots: given }: LoadsToCheck, lots: Lots): BrokenRule[] {
  const broken: BrokenRule[] = [];
  for (const { lot: name, day, blocks } of loads) {
    const lot = lots.get(labelKey(name));
    if (!lot) {
      broken.push({ rule: 'lot not known', day, subject: name, found: blocks, allowed: 0 });
      continue;
    }
    const first = Math.max(Math.floor(lot.earliest), Math.floor(lot.notBefore ?? 0));
    const last = Math.min(Math.floor(lot.latest), Math.floor(lot.notAfter ?? Infinity));
    if (day < first) {
      broken.push({ rule: 'opened too early', day, subject: lot.lot, found: day, allowed: first });
    }
    if (day > last) {
      broken.push({ rule: 'opened too late', day, subject: lot.lot, found: day, allowed: last });
    }
  }
  for (const { lot, blocks } of given) {
    const found = loads.reduce(
      (sum, load) => sum + (labelKey(load.lot) === labelKey(lot) ? load.blocks : 0),
      0,
    );
    if (found <= blocks) continue;
    const rule = 'more blocks than the lot has';
    broken.push({ rule, day: undefined, subject: lot, found, allowed: blocks });
  }
  return broken;
}

function roomRules({ loads, rooms, standing, settings }: LoadsToCheck, lots: Lots): BrokenRule[] {
  const broken: BrokenRule[] = [];
  const known = new Set(rooms.map(({ room }) => labelKey(room)));
  for (const { room, day, blocks } of loads) {
    if (known.has(labelKey(room))) continue;
    broken.push({ rule: 'room not known', day, subject: room, found: blocks, allowed: 0 });
  }
  for (const room of rooms) {
    const here = loads.filter((load) => labelKey(load.room) === labelKey(room.room));
    const allowed = room.strains && new Set(room.strains.map(labelKey));
    const stays: { from: number; to: number; blocks: number; planned: boolean }[] = standing
      .filter((load) => labelKey(load.room) === labelKey(room.room))
      .map(({ loaded, curve, blocks }) => {
        const from = Math.floor(loaded);
        return { from, to: from + curve.stay + settings.turnRound - 1, blocks, planned: false };
      });
    for (const { lot: name, day, blocks } of here) {
      const lot = lots.get(labelKey(name));
      if (!lot) continue;
      const to = day + lot.curve.stay + settings.turnRound - 1;
      stays.push({ from: day, to, blocks, planned: true });
      if (!allowed || allowed.has(labelKey(lot.strain))) continue;
      const rule = 'strain not allowed in the room';
      broken.push({ rule, day, subject: room.room, found: blocks, allowed: 0, strain: lot.strain });
    }
    broken.push(...crowdedDays(room, stays));
  }
  return broken;
}

/** Days on which a room is over-full, or shut with planned blocks inside: one entry for each run of such days. */
function crowdedDays(
  room: PlanRoom,
  stays: readonly { from: number; to: number; blocks: number; planned: boolean }[],
): BrokenRule[] {
  const planned = stays.filter((stay) => stay.planned);
  if (planned.length === 0) return [];
  const first = Math.min(...planned.map(({ from }) => from));
  const last = Math.max(...planned.map(({ to }) => to));
  const broken: BrokenRule[] = [];
  let run: { rule: 'room shut' | 'room over-full'; from: number; most: number } | undefined;
  for (let day = first; day <= last + 1; day++) {
    const on = stays.filter(({ from, to }) => day >= from && day <= to);
    const blocks = on.reduce((sum, stay) => sum + stay.blocks, 0);
    const ours = day <= last && on.some((stay) => stay.planned);
    const rule = !ours
      ? undefined
      : isShut(room, day)
        ? ('room shut' as const)
        : blocks > room.places
          ? ('room over-full' as const)
          : undefined;
    if (run && run.rule !== rule) {
      const allowed = run.rule === 'room shut' ? 0 : room.places;
      const days = day - run.from;
      broken.push({ rule: run.rule, day: run.from, subject: room.room, found: run.most, allowed, days });
      run = undefined;
    }
    if (rule) run = { rule, from: run?.from ?? day, most: Math.max(run?.most ?? 0, blocks) };
  }
  return broken;
}

function loadingRules({ loads, limitsOn }: LoadsToCheck): BrokenRule[] {
  const perDay = new Map<number, number>();
  for (const { day, blocks } of loads) perDay.set(day, (perDay.get(day) ?? 0) + blocks);
  return [...perDay]
    .sort(([a], [b]) => a - b)
    .flatMap(([day, found]): BrokenRule[] => {
      const allowed = limitsOn(day).load;
      if (found <= allowed) return [];
      return [{ rule: 'too many blocks to load', day, subject: 'loading', found, allowed }];
    });
}

/** Mass picked on each day, from standing loads and from planned ones. It repeats the planner's sums on purpose. */
function picking({ loads, standing }: LoadsToCheck, lots: Lots): { standing: DayMass[]; planned: DayMass[] } {
  const spread = (
    from: number,
    blocks: number,
    make: Pick<Lot, 'yieldPerBlock' | 'curve' | 'strain' | 'product'>,
  ): DayMass[] =>
    make.curve.shares.flatMap((share, k) =>
      share > 0
        ? [
            {
              day: from + k,
              mass: blocks * make.yieldPerBlock * share,
              strain: make.strain,
              product: make.product,
            },
          ]
        : [],
    );
  return {
    standing: standing.flatMap((load) => spread(Math.floor(load.loaded), load.blocks, load)),
    planned: loads.flatMap(({ lot: name, day, blocks }) => {
      const lot = lots.get(labelKey(name));
      return lot ? spread(day, blocks, lot) : [];
    }),
  };
}

interface DayMass {
  readonly day: number;
  readonly mass: number;
  readonly strain: string;
  readonly product: string;
}

function pickingRules(check: LoadsToCheck, lots: Lots): BrokenRule[] {
  const { standing, planned } = picking(check, lots);
  const sum = (masses: readonly DayMass[]): Map<number, number> => {
    const days = new Map<number, number>();
    for (const { day, mass } of masses) days.set(day, (days.get(day) ?? 0) + mass);
    return days;
  };
  const before = sum(standing);
  return [...sum(planned)]
    .sort(([a], [b]) => a - b)
    .flatMap(([day, mass]): BrokenRule[] => {
      const allowed = check.limitsOn(day).pick;
      const found = mass + (before.get(day) ?? 0);
      if (found <= allowed * (1 + SLACK) + SLACK || mass <= SLACK) return [];
      return [{ rule: 'too much to pick', day, subject: 'picking', found, allowed }];
    });
}

function orderRules(check: LoadsToCheck, lots: Lots): BrokenRule[] {
  const { standing, planned } = picking(check, lots);
  const { margin } = check.settings;
  const supplies = [...standing, ...planned].map(({ day, mass, strain, product }) => ({
    mass: mass * (1 - margin),
    orders: check.orders.flatMap(({ product: wanted, from, due }, at) => {
      const key = labelKey(wanted);
      const takes = key === 'any' || key === labelKey(product) || key === labelKey(strain);
      return takes && day >= Math.floor(from) && day <= Math.floor(due) ? [at] : [];
    }),
  }));
  const merged = new Map<string, { mass: number; orders: readonly number[] }>();
  for (const { mass, orders } of supplies) {
    const key = orders.join();
    if (orders.length > 0) merged.set(key, { mass: mass + (merged.get(key)?.mass ?? 0), orders });
  }
  const { filled } = fillOrders(check.orders, [...merged.values()]);
  return check.orders.flatMap(({ product, mass, due }, at): BrokenRule[] => {
    const short = mass - filled[at]!;
    if (short <= SLACK * mass) return [];
    return [{ rule: 'order short', day: due, subject: product, found: filled[at]!, allowed: mass }];
  });
}
