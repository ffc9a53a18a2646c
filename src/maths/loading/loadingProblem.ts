import { labelKey } from '../shared/labels';
import { fates, fatesOfLate, isCertain, NO_SPREAD, picksUnder, type Fate, type Spread } from './fates';
import { picksAfterLoading, type PickCurve } from './pickCurve';
import { isShut, type Room } from './shelfUse';
import { asLoaded, standingFates, type WatchedLoad } from './standingFates';

/** Blocks of one strain and product that ripen together and are not opened yet. Days are serials. */
export interface Lot {
  readonly lot: string;
  readonly strain: string;
  /** What its mushrooms are sold as. */
  readonly product: string;
  readonly blocks: number;
  /** First, best and last day of opening, by ripeness. `notBefore` and `notAfter` are set by the grower. */
  readonly earliest: number;
  readonly best: number;
  readonly latest: number;
  readonly notBefore: number | undefined;
  readonly notAfter: number | undefined;
  /** Expected fresh mass of one block over all flushes. */
  readonly yieldPerBlock: number;
  readonly curve: PickCurve;
  /** How far it may differ from that; not at all where undefined. */
  readonly spread?: Spread | undefined;
  /** Days by which it is known to be late: its days have moved by so much, and it may be later still. */
  readonly lateBy?: number;
  /** Cost of loading one block. */
  readonly cost: number;
}

/** A room as the planner needs it. */
export interface PlanRoom extends Room {
  readonly blocksPerShelf: number;
  /** Strains it may hold; any if undefined. */
  readonly strains: readonly string[] | undefined;
}

export interface Order {
  /** A product, a strain, or `any`. */
  readonly product: string;
  /** Still to be picked for it: what is given already is taken off. */
  readonly mass: number;
  /** What it has been given already, from the cold store or by earlier deliveries. */
  readonly given?: number;
  /** First and last day on which picking can fill it. */
  readonly from: number;
  readonly due: number;
  /** Per unit of mass. */
  readonly price: number;
}

/** Blocks on the shelves when the plan starts. */
export interface StandingLoad extends WatchedLoad {
  readonly product: string;
  readonly blocks: number;
}

/** What can be done on one day: Infinity is no limit, 0 is a day off. */
export interface DayLimits {
  /** Fresh mass that can be picked. */
  readonly pick: number;
  /** Blocks that can be loaded. */
  readonly load: number;
}

/** Costs in money; undefined takes the default, a share of a block's value. */
export interface PlanSettings {
  /** Per block and day that it is opened before, or after, the comfort days around its best day. */
  readonly earlyCost: number | undefined;
  readonly lateCost: number | undefined;
  /** Per block that goes over its last day unopened. */
  readonly discardCost: number | undefined;
  /** Per block and day that a block still unopened at the end is past its best. */
  readonly waitCost: number | undefined;
  /** Per unit of mass picked that no order takes. */
  readonly surplusCost: number | undefined;
  /** Per unit of mass of each week's largest picking day. */
  readonly peakCost: number | undefined;
  /** Per separate load: the higher, the fewer and larger the loads. */
  readonly loadCost: number | undefined;
  /** Days either side of the best day that cost nothing. */
  readonly comfortDays: number;
  /** Days a place stays empty after the last pick. */
  readonly turnRound: number;
  /** Share taken off yields when orders are filled. Picking limits count the full yield. */
  readonly margin: number;
  /** Share of the order value that staying with the previous plan may cost. */
  readonly keepTolerance: number;
  /** Number of first days on which the previous plan does not change. */
  readonly freezeDays: number;
  /** Whether loads fill whole shelves; the rest of a lot need not. */
  readonly wholeShelves: boolean;
  /** Fewest blocks in a load; the rest of a lot may be fewer. */
  readonly smallestLoad: number;
  /** Share of the order value that may be given up where it saves more than it is worth. */
  readonly orderTolerance: number;
  /** Per block that leaves the place it has in the previous plan; undefined takes a share of a block's value. */
  readonly moveCost: number | undefined;
  /** Possible seasons that the plan looks at, where strains have a spread; undefined takes 48, fewer for large farms. */
  readonly scenarios: number | undefined;
  /** Per unit of mass picked over a day's limit, where strains have a spread; undefined takes twice the mean price. */
  readonly overtimeCost: number | undefined;
  /**
   * Share of the orders' value to be filled in the mean, where strains have a spread: what is short beyond that counts
   * several times. Undefined counts all the same.
   */
  readonly serviceLevel: number | undefined;
}

/** A load of a plan, with its room. */
export interface PlannedLoad {
  readonly lot: string;
  readonly room: string;
  /** Serial. */
  readonly day: number;
  readonly blocks: number;
}

/** What a grower gives: everything that decides a plan. */
export interface LoadingProblem {
  readonly lots: readonly Lot[];
  readonly rooms: readonly PlanRoom[];
  readonly orders: readonly Order[];
  readonly standing: readonly StandingLoad[];
  /** First day of loading and number of days. */
  readonly start: number;
  readonly days: number;
  readonly limitsOn: (day: number) => DayLimits;
  readonly settings: PlanSettings;
}

/** A lot as the planner sees it: days count from the start of the plan. */
export interface LotView {
  readonly lot: Lot;
  readonly key: string;
  readonly kind: number;
  /** First and last day it may be opened inside the plan; `to` is before `from` where there is no such day. */
  readonly from: number;
  readonly to: number;
  /** Last day it may be opened at all. */
  readonly expires: number;
  /** Day after loading and fresh mass picked from one block. */
  readonly picks: readonly (readonly [number, number])[];
  /** Days it takes up its places, turn-round included. */
  readonly stay: number;
  /** Cost of opening one block on a day: its own cost and that of its age. */
  readonly costOn: (day: number) => number;
  /** Cost of a block left unopened. */
  readonly leftCost: number;
}

/**
 * Rooms that are alike to the planner. All take the same strains, and places free on a day stay free, so blocks that
 * fit the group's places always find a room. A room that shuts is in two groups: before, with those that shut on the
 * same day, and from the day it opens again, with those that stay open. A room that fills later on is a group by itself.
 */
export interface RoomGroup {
  readonly key: string;
  readonly rooms: readonly number[];
  /** For each of its rooms, the first day on which it belongs to the group. */
  readonly since: readonly number[];
  /** Day by which all blocks must be out; Infinity where the rooms do not shut. */
  readonly until: number;
  readonly takes: (strain: string) => boolean;
  /** Places free on each day, beside standing loads. */
  readonly free: readonly number[];
  /** Days whose places are checked: to the last day of loading, or longer where places become fewer later on. */
  readonly watched: number;
  /** Blocks that share a shelf: 1 where shelves need not be whole. */
  readonly perShelf: number;
}

/** An order as the planner sees it: days count from the start of the plan. */
export interface OrderView {
  readonly order: Order;
  readonly from: number;
  readonly to: number;
  /** For each kind, whether it can fill the order. */
  readonly accepts: readonly boolean[];
}

/** The days on which a kind's picking may go to the same orders. */
export interface Atom {
  readonly kind: number;
  /** Positions in the planned orders. */
  readonly orders: readonly number[];
  /** First day of the first of them. */
  readonly from: number;
  /** Mass that standing loads give on those days, margin taken off. */
  readonly standing: number;
}

/** One possible season: what each load gives when. Days count from the start of the plan. */
export interface Future {
  /** Visits day and mass of every pick of one block of a lot opened on a day. */
  readonly eachPickOf: (lot: number, day: number, visit: (day: number, mass: number) => void) => void;
  /** Mass picked from standing loads on each day. */
  readonly standingPicks: readonly number[];
  /** Mass that standing loads give in each atom, margin taken off. */
  readonly standingIn: readonly number[];
}

/** A loading problem with everything that is worked out from it once, for the programme, the rounding and the costs. */
export interface PlanView {
  readonly problem: LoadingProblem;
  readonly days: number;
  /** Days of picking that the plan covers: until the last block loaded is done. */
  readonly pickDays: number;
  /** Days whose picking counts towards orders, surplus and peaks. */
  readonly countedDays: number;
  readonly lots: readonly LotView[];
  /** Strain and product, each pair once. */
  readonly kinds: readonly { readonly strain: string; readonly product: string }[];
  readonly groups: readonly RoomGroup[];
  /** Orders that loads of this plan can be asked to fill. */
  readonly orders: readonly OrderView[];
  /** Orders of the problem that are due before the start, or after loads beyond the plan can fill them. */
  readonly unplanned: readonly { readonly order: Order; readonly why: 'past' | 'beyond' }[];
  readonly atoms: readonly Atom[];
  /** Atom of a kind on a day; -1 where no order takes it. */
  readonly atomOf: readonly Int32Array[];
  /** Full mass picked from standing loads on each day. */
  readonly standingPicks: readonly number[];
  /** Mass that may still be picked on each day. */
  readonly pickFree: readonly number[];
  readonly loadLimit: readonly number[];
  /** Mass that standing loads give on the counted days, margin taken off. */
  readonly standingSupply: number;
  readonly orderValue: number;
  /** Value of an average block: the unit of costs in the linear programme. */
  readonly blockValue: number;
  readonly surplusCost: number;
  readonly peakCost: number;
  readonly loadCost: number;
  readonly moveCost: number;
  readonly overtimeCost: number;
  /** Value that orders may be short in the mean before it counts more; Infinity where no service level is asked. */
  readonly shortageAllowed: number;
  /** Possible seasons, all equally likely; empty where everything goes as expected. */
  readonly futures: readonly Future[];
  /** Mass that may be picked on each day in all. */
  readonly pickLimit: readonly number[];
}

/** Defaults of the costs, in shares of a block's or a mass's value: judgements, not measurements. */
const EARLY_SHARE = 0.01;
const LATE_SHARE = 0.02;
const DISCARD_SHARE = 1;
const SURPLUS_SHARE = 0.1;
const PEAK_SHARE = 0.02;
const LOAD_SHARE = 0.3;
const MOVE_SHARE = 0.02;
const OVERTIME_SHARE = 2;

/** A block that yields or is worth less counts as nothing: what is divided by it would be no number. */
export const LEAST_WORTH = 1e-100;

export const byText = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

/** A fixed order of lots, so that a plan does not depend on the order of rows. */
function inOrder(a: Lot, b: Lot): number {
  return (
    byText(labelKey(a.strain), labelKey(b.strain)) ||
    a.best - b.best ||
    byText(labelKey(a.lot), labelKey(b.lot))
  );
}

/** Everything that is worked out from a problem once. */
export function planView(problem: LoadingProblem): PlanView {
  const { settings, start, days } = problem;
  const longest = [...problem.lots, ...problem.standing].reduce(
    (most, { curve }) => Math.max(most, curve.stay),
    1,
  );
  const spread = [...problem.lots, ...problem.standing].some((load) => !isCertain(load.spread ?? NO_SPREAD));
  const pickDays = days + longest + settings.turnRound;
  const price = meanPrice(problem.orders);
  const kinds: { strain: string; product: string }[] = [];
  const kindAt = new Map<string, number>();
  const kindOf = ({ strain, product }: { strain: string; product: string }): number => {
    const pair = { strain: labelKey(strain), product: labelKey(product) };
    const key = `${pair.strain}\n${pair.product}`;
    if (!kindAt.has(key)) kindAt.set(key, kinds.push(pair) - 1);
    return kindAt.get(key)!;
  };
  const sorted = [...problem.lots].sort(inOrder);
  const lots = sorted.map((lot) => lotView(lot, problem, kindOf(lot), price));
  const count = spread ? seasonsOf(settings, lots) : 0;
  const standing = problem.standing.map((load) => ({
    ...load,
    kind: kindOf(load),
    at: Math.floor(load.loaded) - start,
  }));

  const firstPicks = kinds.map((_, kind) => {
    const picks = lots.filter((lot) => lot.kind === kind).map((lot) => lot.picks[0]![0]);
    return picks.length > 0 ? Math.min(...picks) : Infinity;
  });
  const planned: OrderView[] = [];
  const unplanned: { order: Order; why: 'past' | 'beyond' }[] = [];
  for (const order of [...problem.orders].sort(ordersInOrder)) {
    const wanted = labelKey(order.product);
    const accepts = kinds.map(
      ({ strain, product }) => wanted === 'any' || wanted === product || wanted === strain,
    );
    const soonest = Math.min(...firstPicks.filter((_, kind) => accepts[kind]), Infinity);
    const to = Math.floor(order.due) - start;
    if (to < 0) unplanned.push({ order, why: 'past' });
    else if (to >= days + (soonest < Infinity ? soonest : 0)) unplanned.push({ order, why: 'beyond' });
    else planned.push({ order, from: Math.max(0, Math.floor(order.from) - start), to, accepts });
  }
  const soonestPick = Math.min(...firstPicks, Infinity);
  const countedDays = Math.min(
    pickDays,
    planned.reduce(
      (last, { to }) => Math.max(last, to + 1),
      days + (soonestPick < Infinity ? soonestPick : 0),
    ),
  );

  const standingPicks = new Array<number>(pickDays).fill(0);
  const standingByKind = kinds.map(() => new Array<number>(pickDays).fill(0));
  for (const { at, kind, blocks, yieldPerBlock, curve } of standing) {
    for (const [k, mass] of picksAfterLoading(curve, blocks * yieldPerBlock)) {
      if (at + k < 0 || at + k >= pickDays) continue;
      standingPicks[at + k]! += mass;
      standingByKind[kind]![at + k]! += mass * (1 - settings.margin);
    }
  }
  const limits = Array.from({ length: pickDays }, (_, day) => problem.limitsOn(start + day));
  const loadLimit = limits.slice(0, days).map(({ load }, day) => (day < settings.freezeDays ? 0 : load));
  const atoms: Atom[] = [];
  const atomOf = kinds.map((_, kind) => atomsOfKind(kind, planned, pickDays, standingByKind[kind]!, atoms));
  const orderValue = planned.reduce((sum, { order }) => sum + order.mass * order.price, 0);
  const blocks = lots.reduce((sum, { lot }) => sum + lot.blocks, 0);
  const worth = lots.reduce((sum, { lot }) => sum + lot.blocks * lot.yieldPerBlock * price, 0);
  const worthOfOne = blocks > 0 ? worth / blocks : 0;
  const blockValue = worthOfOne > LEAST_WORTH ? worthOfOne : 1;
  const drawn = drawnFates(problem, count);
  const futures = Array.from({ length: count }, (_, n) =>
    futureOf(problem, lots, pickDays, drawn, n, atomOf, atoms.length, kindOf),
  );
  return {
    problem,
    days,
    pickDays,
    countedDays,
    lots,
    kinds,
    groups: roomGroups(problem, lots, pickDays, loadLimit),
    orders: planned,
    unplanned,
    atoms,
    atomOf,
    standingPicks,
    // In one possible season or another any limit would be passed: with futures, passing it has a cost instead.
    pickFree: limits.map(({ pick }, day) => (count > 0 ? Infinity : Math.max(0, pick - standingPicks[day]!))),
    pickLimit: limits.map(({ pick }) => pick),
    futures,
    overtimeCost: settings.overtimeCost ?? OVERTIME_SHARE * price,
    shortageAllowed:
      settings.serviceLevel === undefined ? Infinity : (1 - settings.serviceLevel) * orderValue,
    loadLimit,
    standingSupply: standingByKind.reduce(
      (sum, picks) => picks.slice(0, countedDays).reduce((all, mass) => all + mass, sum),
      0,
    ),
    orderValue,
    blockValue,
    surplusCost: settings.surplusCost ?? SURPLUS_SHARE * price,
    peakCost: settings.peakCost ?? PEAK_SHARE * price,
    loadCost: settings.loadCost ?? LOAD_SHARE * blockValue,
    moveCost: settings.moveCost ?? MOVE_SHARE * blockValue,
  };
}

/**
 * Visits every pick of a block of a lot opened on a day: the day of the plan, the mass, and the atom it belongs to,
 * -1 where no order takes it.
 */
export function eachPick(
  { lots, atomOf }: PlanView,
  { lot, day }: { readonly lot: number; readonly day: number },
  visit: (day: number, mass: number, atom: number) => void,
): void {
  const { picks, kind } = lots[lot]!;
  const atoms = atomOf[kind]!;
  for (const [k, mass] of picks) visit(day + k, mass, atoms[day + k]!);
}

/** Possible seasons looked at where nothing is said of their number, for farms of up to so many days of lots. */
const SEASONS: readonly (readonly [seasons: number, lotDays: number])[] = [
  [48, 500],
  [16, 2500],
  [8, 5000],
  [4, Infinity],
];

function seasonsOf({ scenarios }: PlanSettings, lots: readonly LotView[]): number {
  if (scenarios !== undefined) return scenarios;
  const lotDays = lots.reduce((sum, { from, to }) => sum + Math.max(0, to - from + 1), 0);
  return SEASONS.find(([, most]) => lotDays <= most)![0];
}

function lotFates({ lot, spread = NO_SPREAD, curve, lateBy = 0 }: Lot, count: number): Fate[] {
  const name = `lot ${labelKey(lot)}`;
  return lateBy > 0
    ? fatesOfLate(name, spread, curve.flushes.length, lateBy, count)
    : fates(name, spread, curve.flushes.length, count);
}

/** What is drawn for each lot and standing load. The draws go by its own name, so that nothing besides changes them. */
function drawnFates({ lots, standing }: LoadingProblem, count: number): (load: Lot | StandingLoad) => Fate[] {
  const known = new Map<Lot | StandingLoad, Fate[]>();
  if (count > 0) {
    for (const lot of lots) {
      known.set(lot, lotFates(lot, count));
    }
    for (const load of standing) known.set(load, standingFates(load, count));
  }
  return (load) => known.get(load)!;
}

/** Days after which a plan is made again: a lot that is not ripe on its day is looked at again then. */
const REVIEW_DAYS = 7;

/** Days by which a lot is opened late that is ripe on the day `ripe` and was to be opened on `day`. */
function openedLate(ripe: number, day: number): number {
  if (ripe <= day) return 0;
  return Math.max(ripe, REVIEW_DAYS * (Math.floor(day / REVIEW_DAYS) + 1)) - day;
}

/** The n-th possible season. A lot that is not ripe on its day stays shut until the next plan, and is picked later. */
function futureOf(
  { settings, standing, start }: LoadingProblem,
  lots: readonly LotView[],
  pickDays: number,
  drawn: (load: Lot | StandingLoad) => Fate[],
  n: number,
  atomOf: readonly Int32Array[],
  atomCount: number,
  kindOf: (load: StandingLoad) => number,
): Future {
  const inPlan = ([day]: readonly [number, number]): boolean => day >= 0 && day < pickDays;
  const lotFates = lots.map(({ lot }) => drawn(lot)[n]!);
  const ripe = lots.map(({ lot }, at) => Math.floor(lot.earliest) + lotFates[at]!.ripensLate - start);
  // For each lot its picks by the days it is opened late: days of opening share them.
  const known = lots.map((): (readonly (readonly [number, number])[])[] => []);
  const standingPicks = new Array<number>(pickDays).fill(0);
  const standingIn = new Array<number>(atomCount).fill(0);
  for (const load of standing) {
    const at = Math.floor(load.loaded) - start;
    const atoms = atomOf[kindOf(load)]!;
    const { curve, yieldPerBlock } = asLoaded(load);
    const picks = picksUnder(curve, load.blocks * yieldPerBlock, drawn(load)[n]!);
    for (const [day, mass] of picks.map(([k, one]) => [at + k, one] as const).filter(inPlan)) {
      standingPicks[day]! += mass;
      if (atoms[day]! >= 0) standingIn[atoms[day]!]! += mass * (1 - settings.margin);
    }
  }
  return {
    eachPickOf: (index, day, visit) => {
      const { lot } = lots[index]!;
      const late = openedLate(ripe[index]!, day);
      const picks = (known[index]![late] ??= picksUnder(
        lot.curve,
        lot.yieldPerBlock,
        lotFates[index]!,
        late,
      ));
      for (const [k, mass] of picks) if (day + k < pickDays) visit(day + k, mass);
    },
    standingPicks,
    standingIn,
  };
}

const ordersInOrder = (a: Order, b: Order): number =>
  a.due - b.due ||
  byText(labelKey(a.product), labelKey(b.product)) ||
  a.from - b.from ||
  b.price - a.price ||
  a.mass - b.mass;

function meanPrice(orders: readonly Order[]): number {
  const mass = orders.reduce((sum, order) => sum + order.mass, 0);
  const value = orders.reduce((sum, order) => sum + order.mass * order.price, 0);
  return mass > 0 && value > 0 ? value / mass : 1;
}

function lotView(lot: Lot, { start, days, settings }: LoadingProblem, kind: number, price: number): LotView {
  const value = lot.yieldPerBlock * price;
  const early = settings.earlyCost ?? EARLY_SHARE * value;
  const late = settings.lateCost ?? LATE_SHARE * value;
  const discard = settings.discardCost ?? DISCARD_SHARE * value;
  const wait = settings.waitCost ?? late;
  const best = Math.floor(lot.best) - start;
  const [bestFrom, bestTo] = [best - settings.comfortDays, best + settings.comfortDays];
  const expires = Math.min(Math.floor(lot.latest), Math.floor(lot.notAfter ?? Infinity)) - start;
  return {
    lot,
    key: labelKey(lot.lot),
    kind,
    from: Math.max(0, Math.floor(lot.earliest) - start, Math.floor(lot.notBefore ?? 0) - start),
    to: Math.min(expires, days - 1),
    expires,
    picks: picksAfterLoading(lot.curve, lot.yieldPerBlock),
    stay: lot.curve.stay + settings.turnRound,
    costOn: (day) => lot.cost + early * Math.max(0, bestFrom - day) + late * Math.max(0, day - bestTo),
    leftCost:
      expires >= days
        ? wait * Math.max(0, days - bestTo)
        : discard > 0
          ? discard + late * Math.max(0, expires + 1 - bestTo)
          : 0,
  };
}

/** Adds a kind's atoms and gives the atom of each day. */
function atomsOfKind(
  kind: number,
  orders: readonly OrderView[],
  pickDays: number,
  standing: readonly number[],
  atoms: Atom[],
): Int32Array {
  const of = new Int32Array(pickDays).fill(-1);
  const known = new Map<string, number>();
  for (let day = 0; day < pickDays; day++) {
    const open = orders.flatMap(({ from, to, accepts }, o) =>
      accepts[kind] && day >= from && day <= to ? [o] : [],
    );
    if (open.length === 0) continue;
    const key = open.join();
    if (!known.has(key)) {
      const from = Math.min(...open.map((o) => orders[o]!.from));
      known.set(key, atoms.push({ kind, orders: open, from, standing: 0 }) - 1);
    }
    const at = known.get(key)!;
    of[day] = at;
    atoms[at] = { ...atoms[at]!, standing: atoms[at]!.standing + standing[day]! };
  }
  return of;
}

function roomGroups(
  problem: LoadingProblem,
  lots: readonly LotView[],
  pickDays: number,
  loadLimit: readonly number[],
): RoomGroup[] {
  const { rooms, days, settings } = problem;
  const lastStay = Math.min(pickDays, days + lots.reduce((most, { stay }) => Math.max(most, stay), 1) - 1);
  const firstLoading = Math.max(
    0,
    loadLimit.findIndex((limit) => limit > 0),
  );
  const groups = new Map<
    string,
    { rooms: number[]; since: number[]; until: number; free: number[]; watched: number }
  >();
  const join = (
    key: string,
    at: number,
    since: number,
    until: number,
    free: number[],
    watched: number,
  ): void => {
    const group = groups.get(key);
    if (!group) {
      groups.set(key, { rooms: [at], since: [since], until, free, watched });
      return;
    }
    group.rooms.push(at);
    group.since.push(since);
    free.forEach((places, day) => (group.free[day]! += places));
  };
  const order = rooms
    .map((_, at) => at)
    .sort((a, b) => byText(labelKey(rooms[a]!.room), labelKey(rooms[b]!.room)));
  for (const at of order) {
    const room = rooms[at]!;
    const free = roomFree(problem, room, pickDays);
    const strains = room.strains ? [...new Set(room.strains.map(labelKey))].sort().join(',') : '*';
    const alike = `${strains}/${settings.wholeShelves ? room.blocksPerShelf : 1}`;
    const fills = free.flatMap((places, day) =>
      day > firstLoading && day < lastStay && places < free[day - 1]! ? [day] : [],
    );
    const [shuts] = fills;
    if (shuts === undefined) join(alike, at, 0, Infinity, free, days);
    else if (fills.length === 1 && free[shuts] === 0) {
      const opens = free.findIndex((places, day) => day > shuts && places > 0);
      const before = free.map((places, day) => (day < shuts ? places : 0));
      join(`${alike} until ${problem.start + shuts}`, at, 0, shuts, before, shuts);
      if (opens > 0 && opens < days) {
        const after = free.map((places, day) => (day < opens ? 0 : places));
        join(alike, at, opens, Infinity, after, days);
      }
    } else join(`room ${labelKey(room.room)}`, at, 0, Infinity, free, lastStay);
  }
  return [...groups].map(([key, group]) => {
    const first = rooms[group.rooms[0]!]!;
    const allowed = first.strains && new Set(first.strains.map(labelKey));
    return {
      ...group,
      key,
      takes: (strain) => !allowed || allowed.has(strain),
      perShelf: settings.wholeShelves ? first.blocksPerShelf : 1,
    };
  });
}

/** Whether blocks loaded in a group on a day are out before its rooms shut. */
export const outInTime = ({ until }: RoomGroup, day: number, stay: number): boolean => day + stay <= until;

/** Places of a room free on each day from the start, beside standing loads; none while it is shut. */
export function roomFree(problem: LoadingProblem, room: PlanRoom, pickDays: number): number[] {
  const { start, settings } = problem;
  const perShelf = settings.wholeShelves ? room.blocksPerShelf : 1;
  const taken = new Array<number>(pickDays).fill(0);
  for (const load of problem.standing) {
    if (labelKey(load.room) !== labelKey(room.room)) continue;
    const at = Math.floor(load.loaded) - start;
    const until = Math.min(pickDays, at + load.curve.stay + settings.turnRound);
    for (let day = Math.max(0, at); day < until; day++)
      taken[day]! += Math.ceil(load.blocks / perShelf) * perShelf;
  }
  return taken.map((blocks, day) => (isShut(room, start + day) ? 0 : Math.max(0, room.places - blocks)));
}
