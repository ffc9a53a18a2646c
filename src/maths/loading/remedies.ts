import { labelKey } from '../shared/labels';
import type { LinearSolver } from '../shared/linearProgram';
import { shutDays, withAdditions, type Addition } from './additions';
import { leastAdditions, type Missing } from './leastAdditions';
import { openDayCount } from './openSlots';
import { loadPlan, type LoadPlan } from './loadPlan';
import type { LoadingProblem, Order } from './loadingProblem';
import type { OrderView } from './orderView';
import type { PlanView } from './planView';
import { roomFree } from './roomGroups';

/** What would fill an order that a plan leaves short. */
export interface Remedy {
  readonly additions: readonly Addition[];
  /** Days on which places that are added are used; undefined where there are none. */
  readonly used: readonly [from: number, to: number] | undefined;
  /** Whether parts of blocks would have filled it with nothing added. */
  readonly isByWholeBlocks: boolean;
}

/** A shortage this small, as a share of an order, counts as filled. */
export const FILLED = 0.001;
/** Times that additions are worked out again where planning with them did not fill the order. */
const MOST_TRIES = 5;
/** A shortage that is left over by whole blocks and tolerances, as a share of an order. */
const CRUMB = 0.05;
/** Days that are listed one by one; more are one stretch with the same addition on each. */
const MOST_DAYS = 3;
/** Where more than this share of an order is due too soon, the rest is not worth growing for it. */
const HARDLY_GROWN = 0.9;

/**
 * What to add to a farm so that a planned order is filled: how much of what, where and when. The least additions are
 * worked out by a linear programme and rounded up to what can be had: whole shelves, whole blocks. Then the plan is
 * made again with just that. Where it does not fill the order, because dearer orders take part of it or by whole
 * blocks, what is missing then is added too. So every remedy has been confirmed.
 *
 * @param o position of the order in the plan's view
 * @returns undefined where none was found
 */
export function remedyOf(plan: LoadPlan, o: number, solver: LinearSolver): Remedy | undefined {
  const { view, cost } = plan;
  const { problem, orders } = view;
  const { order, accepts } = orders[o]!;
  if (!view.lots.some(({ kind }) => accepts[kind])) return undefined;
  const at = problem.orders.indexOf(order);
  const shorts = new Map(orders.map((one, n) => [one.order, Math.max(0, one.order.mass - cost.filled[n]!)]));
  shorts.set(order, 0);
  const block = view.lots.reduce(
    (least, { kind, lot }) => (accepts[kind] ? Math.min(least, lot.yieldPerBlock) : least),
    order.mass,
  );
  let beyond = 0;
  let isByWholeBlocks = false;
  for (let n = 0; n < MOST_TRIES; n++) {
    const missing = leastAdditions(problem, order, shorts, solver);
    if (!missing) return undefined;
    if (n === 0) isByWholeBlocks = isNothing(missing);
    const settings =
      n === 0 && isByWholeBlocks ? [...looserSettings(problem), ...dearCosts(view, orders[o]!)] : [];
    let left = 0;
    const ways = [...settings, ...asAdditions(plan, missing, order)].filter((one) => one.length > 0);
    for (let way = 0; way < ways.length; way++) {
      const additions = ways[way]!;
      const next = loadPlan(withAdditions(problem, additions), solver);
      const shortOf = (wanted: number): number => {
        const changed = next.view.problem.orders[wanted]!;
        const position = next.view.orders.findIndex((one) => one.order === changed);
        return position < 0 ? 0 : changed.mass - next.cost.filled[position]!;
      };
      left = shortOf(at);
      const all = order.mass + (order.given ?? 0);
      if (left <= 0.5 * FILLED * all) {
        return { additions, used: usedDays(next, additions, missing, problem.start), isByWholeBlocks };
      }
      // A crumb may be left because the tolerance gives it up, however much is added.
      const isGivenUp = n > 0 && left < CRUMB * all && !additions.some(({ of }) => of === 'setting');
      if (isGivenUp && problem.settings.orderTolerance > 0) {
        ways.splice(way + 1, 0, [...additions, { of: 'setting', setting: 'orderTolerance' }]);
      }
      problem.orders.forEach((other, wanted) => {
        const before = shorts.get(other);
        if (other !== order && before !== undefined) {
          shorts.set(other, Math.min(before, Math.max(0, shortOf(wanted))));
        }
      });
    }
    beyond += Math.max(left, (0.5 + 0.5 * n) * block);
    shorts.set(order, -beyond);
  }
  return undefined;
}

const isNothing = ({ places, picking, loading, blocks, tooSoon }: Missing): boolean =>
  places === 0 && picking.length === 0 && loading.length === 0 && blocks.length === 0 && tooSoon === 0;

/** Settings that may keep an order from being filled although nothing is missing. */
function looserSettings({ settings }: LoadingProblem): Addition[][] {
  const { orderTolerance, wholeShelves, smallestLoad } = settings;
  const setting = (one: (Addition & { of: 'setting' })['setting']): Addition[] => [
    { of: 'setting', setting: one },
  ];
  return [
    ...(orderTolerance > 0 ? [setting('orderTolerance')] : []),
    ...(wholeShelves ? [setting('wholeShelves')] : []),
    ...(smallestLoad > 1 ? [setting('smallestLoad')] : []),
  ];
}

/**
 * Costs that a grower has set above what the order brings: for a load more than the order is worth, for a block more
 * than a block is, for a mass more than its price.
 */
function dearCosts({ problem, lots }: PlanView, { order, accepts }: OrderView): Addition[][] {
  const { settings, days } = problem;
  const open = lots.filter(({ kind }) => accepts[kind]);
  const block = order.price * Math.min(...open.map(({ lot }) => lot.yieldPerBlock));
  const brings = {
    loadCost: order.price * order.mass,
    earlyCost: block / days,
    lateCost: block / days,
    surplusCost: order.price,
    peakCost: order.price,
  };
  const settingsTooDear = (Object.keys(brings) as (keyof typeof brings)[])
    .filter((cost) => (settings[cost] ?? 0) > brings[cost])
    .map((setting): Addition[] => [{ of: 'setting', setting }]);
  const areBlocksDear = open.some(({ lot }) => lot.cost > order.price * lot.yieldPerBlock);
  return [...settingsTooDear, ...(areBlocksDear ? [[{ of: 'free blocks' } as const]] : [])];
}

/** A mass that is not less, in two digits. */
function upTo(mass: number): number {
  const unit = 10 ** (Math.floor(Math.log10(mass)) - 1);
  return Number((Math.ceil(mass / unit - 1e-9) * unit).toPrecision(2));
}

/** What is missing in things that can be had, in the ways in which it can be had, the nearest at hand first. */
function asAdditions({ view }: LoadPlan, missing: Missing, order: Order): Addition[][] {
  const { problem, lots } = view;
  const { start } = problem;
  const heaviest = lots.reduce((most, { picks }) => Math.max(most, ...picks.map(([, mass]) => mass)), 0);
  const picking = stretched(missing.picking).map(([day, mass]): Addition => ({
    of: 'picking',
    day: start + day,
    mass: upTo(mass + heaviest),
  }));
  const loading = stretched(missing.loading).map(([day, blocks]): Addition => ({
    of: 'loading',
    day: start + day,
    blocks: Math.ceil(blocks - 1e-6),
  }));
  const blocks = missing.blocks.map(([like, day, some]): Addition => ({
    of: 'ripe blocks',
    like,
    day: start + day,
    blocks: Math.ceil(some - 1e-6),
  }));
  if (missing.tooSoon > HARDLY_GROWN * order.mass) return [[{ of: 'given', order, mass: order.mass }]];
  const given: Addition[] =
    missing.tooSoon > 0 ? [{ of: 'given', order, mass: Math.min(order.mass, upTo(missing.tooSoon)) }] : [];
  const others = [...picking, ...loading, ...blocks, ...given];
  if (missing.places === 0) return [others];
  return placesFor(problem, missing, view.pickDays).map((places) => [...places, ...others]);
}

/** Few days one by one; of many, every day from the first to the last with the most. */
function stretched(days: Missing['picking']): Missing['picking'] {
  if (days.length <= MOST_DAYS) return days;
  const most = Math.max(...days.map(([, amount]) => amount));
  const [first, last] = [days[0]![0], days.at(-1)![0]];
  return Array.from({ length: last - first + 1 }, (_, k) => [first + k, most] as const);
}

/** Ways to have the places that are missing: a room that is shut, one for other strains, more shelves, a room more. */
function placesFor(problem: LoadingProblem, missing: Missing, pickDays: number): Addition[][] {
  const { rooms, start } = problem;
  const places = Math.ceil(missing.places - 1e-6);
  const [from, to] = [missing.placeDays[0] ?? 0, missing.placeDays.at(-1) ?? 0];
  const isShut = (room: (typeof rooms)[number]): boolean =>
    shutDays(room, start + from, to - from + 1) !== undefined;
  const takes = (room: (typeof rooms)[number]): boolean =>
    missing.strains.every(
      (strain) => !room.strains || room.strains.some((one) => labelKey(one) === labelKey(strain)),
    );
  const freeIn = (room: (typeof rooms)[number]): number =>
    Math.min(
      ...roomFree(problem, { ...room, closedFrom: undefined, closedTo: undefined }, pickDays).slice(
        from,
        to + 1,
      ),
    );
  const shut = rooms
    .filter((room) => isShut(room) && takes(room) && freeIn(room) >= places)
    .map(({ room }): Addition[] => [{ of: 'open room', room }]);
  const other = rooms
    .filter((room) => !isShut(room) && !takes(room) && freeIn(room) >= places)
    .map((room): Addition[] =>
      missing.strains
        .filter((strain) => !room.strains!.some((one) => labelKey(one) === labelKey(strain)))
        .map((strain) => ({ of: 'strain in room', room: room.room, strain })),
    );
  const larger = rooms
    .filter((room) => !isShut(room) && (missing.isAnyRoom ? !room.strains : takes(room)))
    .map(({ room, blocksPerShelf }): Addition[] => [
      { of: 'places', room, shelves: Math.ceil(places / blocksPerShelf) },
    ]);
  return [...shut.slice(0, 1), ...other.slice(0, 1), ...larger.slice(0, 1), [{ of: 'room', places }]];
}

/** The days on which more stands in a room than it had places for; otherwise those of the programme. */
function usedDays(
  plan: LoadPlan,
  additions: readonly Addition[],
  { placeDays }: Missing,
  start: number,
): Remedy['used'] {
  const one = additions.find(({ of }) => of === 'places');
  if (one?.of !== 'places')
    return placeDays.length === 0 ? undefined : [start + placeDays[0]!, start + placeDays.at(-1)!];
  const { problem, pickDays } = plan.view;
  const room = problem.rooms.find((each) => labelKey(each.room) === labelKey(one.room))!;
  const free = roomFree(problem, room, pickDays);
  const stays = new Map(plan.view.lots.map(({ key, stay }) => [key, stay]));
  for (const load of plan.loads) {
    if (labelKey(load.room) !== labelKey(room.room)) continue;
    const day = load.day - start;
    for (let k = day; k < Math.min(pickDays, day + stays.get(labelKey(load.lot))!); k++)
      free[k]! -= load.blocks;
  }
  const added = one.shelves * room.blocksPerShelf;
  const days = free.flatMap((left, day) => (left < added ? [day] : []));
  const shown = days.length > 0 ? days : placeDays;
  return shown.length === 0 ? undefined : [start + shown[0]!, start + shown.at(-1)!];
}

/** Most orders that are explained, and what a farm's size and their number may come to: lot-days, times the orders. */
const MOST_EXPLAINED = 20;
const BUDGET = 6_000;
/** How much longer a plan over possible seasons takes. */
const SEASONS_LONGER = 6;

/** Orders whose remedies are worked out, those with the most value short: fewer where a plan takes longer. */
export function explainedOrders({ view, cost }: LoadPlan): number[] {
  const lotDays = openDayCount(view) * (view.futures.length > 0 ? SEASONS_LONGER : 1);
  const most = Math.min(MOST_EXPLAINED, Math.floor(BUDGET / Math.max(1, lotDays)));
  const short = view.orders.map(({ order }, o) => ({ o, mass: order.mass - cost.filled[o]!, order }));
  return short
    .filter(({ mass, order }) => mass > FILLED * (order.mass + (order.given ?? 0)))
    .sort((a, b) => b.mass * b.order.price - a.mass * a.order.price || a.o - b.o)
    .slice(0, most)
    .map(({ o }) => o);
}
