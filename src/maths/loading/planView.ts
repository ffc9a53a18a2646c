import { labelKey } from '../shared/labels';
import { isCertain, NO_SPREAD } from './fates';
import { drawnFates } from './drawnFates';
import { futureOf, seasonsOf, type Future } from './futures';
import type { LoadingProblem, Order } from './loadingProblem';
import { inOrder, lotView, type LotView } from './lotView';
import { atomsOfKind, meanPrice, ordersInOrder, type Atom, type OrderView } from './orderView';
import { picksAfterLoading } from './pickCurve';
import { roomGroups, type RoomGroup } from './roomGroups';

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
const SURPLUS_SHARE = 0.1;
const PEAK_SHARE = 0.02;
const LOAD_SHARE = 0.3;
const MOVE_SHARE = 0.02;
const OVERTIME_SHARE = 4;

/** A block that yields or is worth less counts as nothing: what is divided by it would be no number. */
export const LEAST_WORTH = 1e-100;

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
