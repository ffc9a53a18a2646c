import { seasonWeight } from './fates';
import { fillOrders } from './fillOrders';
import type { GroupLoad } from './groupLoad';
import { ORDERS_FIRST, SHORT_TIMES } from './loadModel';
import { eachPick, type PlanView } from './planView';

/** What a plan of whole blocks costs and gives, worked out from its loads alone. Costs are money. */
export interface PlanCost {
  /** Value of what orders fall short. */
  readonly shortage: number;
  /** Ages, lots, blocks left, surplus and peaks. */
  readonly rest: number;
  /** Of `rest`, what loaded blocks cost: the lots' own cost and opening them off their best day. */
  readonly blocks: number;
  /** Mass filled of each planned order, margin taken off. */
  readonly filled: readonly number[];
  /** Mass of each atom that its orders do not take, and the mass that each of them takes. */
  readonly unsold: readonly number[];
  readonly given: readonly ReadonlyMap<number, number>[];
  /** Mass of the counted days that no order takes, margin taken off. */
  readonly surplus: number;
  /** Full mass picked from the plan's loads on each day. */
  readonly picks: readonly number[];
}

/** What a plan costs and gives. */
export function planCost(view: PlanView, loads: readonly GroupLoad[]): PlanCost {
  const share = 1 - view.problem.settings.margin;
  const supply = view.atoms.map(({ standing }) => standing);
  let counted = view.standingSupply;
  let blocks = 0;
  const loaded = view.lots.map(() => 0);
  const picks = new Array<number>(view.pickDays).fill(0);
  for (const load of loads) {
    loaded[load.lot]! += load.blocks;
    blocks += load.blocks * view.lots[load.lot]!.costOn(load.day);
    eachPick(view, load, (day, mass, atom) => {
      picks[day]! += load.blocks * mass;
      if (atom >= 0) supply[atom]! += load.blocks * mass * share;
      if (day < view.countedDays) counted += load.blocks * mass * share;
    });
  }
  const left = view.lots.reduce((sum, lot, at) => sum + (lot.lot.blocks - loaded[at]!) * lot.leftCost, 0);
  const {
    filled,
    left: unsold,
    given,
  } = fillOrders(
    view.orders.map(({ order }) => order),
    view.atoms.map(({ orders }, at) => ({ mass: supply[at]!, orders })),
  );
  const surplus = Math.max(0, counted - filled.reduce((sum, mass) => sum + mass, 0));
  let peaks = 0;
  for (let day = 0; day < view.countedDays; day += 7) {
    let largest = 0;
    for (let k = day; k < Math.min(day + 7, view.countedDays); k++) {
      largest = Math.max(largest, picks[k]! + view.standingPicks[k]!);
    }
    peaks += largest;
  }
  return {
    shortage: view.orders.reduce((sum, { order }, at) => sum + order.price * (order.mass - filled[at]!), 0),
    rest: blocks + left + surplus * view.surplusCost + peaks * view.peakCost,
    blocks,
    filled,
    unsold,
    given,
    surplus,
    picks,
  };
}

/** The costs that no plan can avoid, which the programme leaves out: unopened lots, and surplus of standing loads. */
export function constantCost(view: PlanView): number {
  const left = view.lots.reduce((sum, { lot, leftCost }) => sum + lot.blocks * leftCost, 0);
  const inAtoms = view.atoms.reduce((sum, { standing }) => sum + standing, 0);
  return left + (view.standingSupply - inAtoms) * view.surplusCost;
}

/** What a plan comes to over all possible seasons. */
export interface ExpectedCost {
  /** Shortage, surplus, mass over picking limits, and what loads cost: their mean over the seasons, in money. */
  readonly total: number;
  /** The same where shortage counts `SHORT_TIMES`, and beyond the service level more: what plans are judged by. */
  readonly measure: number;
  /** Share of the seasons in which each planned order is filled, and the mass it is short in the mean. */
  readonly filledIn: readonly number[];
  readonly short: readonly number[];
  /** Mass picked on each day in each season. */
  readonly picks: readonly (readonly number[])[];
  /** Of the total, in money: what orders are short. */
  readonly shortage: number;
  /** Mass picked over limits. */
  readonly overtime: number;
}

/** An order counts as filled where no more than this share of it is short. */
const FILLED = 0.005;

/** What a plan comes to over the possible seasons of its view; undefined where there is only the expected one. */
export function expectedCost(view: PlanView, loads: readonly GroupLoad[]): ExpectedCost | undefined {
  const count = view.futures.length;
  if (count === 0) return undefined;
  const margin = 1 - view.problem.settings.margin;
  const loaded = view.lots.map(() => 0);
  let blocks = 0;
  for (const load of loads) {
    loaded[load.lot]! += load.blocks;
    blocks += load.blocks * view.lots[load.lot]!.costOn(load.day);
  }
  const left = view.lots.reduce((sum, lot, at) => sum + (lot.lot.blocks - loaded[at]!) * lot.leftCost, 0);
  let [shortage, surplus, overtime] = [0, 0, 0];
  const filledIn = view.orders.map(() => 0);
  const short = view.orders.map(() => 0);
  const picks = view.futures.map(({ eachPickOf, standingPicks, standingIn }, season) => {
    const weightOf = (day: number): number => seasonWeight(season, count, day);
    const supply = [...standingIn];
    const picked = [...standingPicks];
    for (const load of loads) {
      const atoms = view.atomOf[view.lots[load.lot]!.kind]!;
      eachPickOf(load.lot, load.day, (day, mass) => {
        picked[day]! += load.blocks * mass;
        if (atoms[day]! >= 0) supply[atoms[day]!]! += load.blocks * mass * margin;
        else if (day < view.countedDays) surplus += weightOf(day) * load.blocks * mass * margin;
      });
    }
    const { filled, left: unsold } = fillOrders(
      view.orders.map(({ order, from }) => ({ ...order, mass: weightOf(from) > 0 ? order.mass : 0 })),
      view.atoms.map(({ orders }, at) => ({ mass: supply[at]!, orders })),
    );
    view.orders.forEach(({ order, from }, o) => {
      const missing = order.mass - filled[o]!;
      const weight = weightOf(from);
      shortage += weight * missing * order.price;
      short[o]! += weight * missing;
      if (missing <= FILLED * order.mass) filledIn[o]! += weight;
    });
    unsold.forEach((mass, at) => (surplus += weightOf(view.atoms[at]!.from) * mass));
    picked.forEach((mass, day) => {
      const limit = view.pickLimit[day]!;
      if (limit < Infinity)
        overtime += weightOf(day) * Math.max(0, mass - Math.max(limit, standingPicks[day]!));
    });
    return picked;
  });
  const total = shortage + overtime * view.overtimeCost + surplus * view.surplusCost + blocks + left;
  return {
    total,
    measure:
      total +
      (SHORT_TIMES - 1) * shortage +
      (ORDERS_FIRST - 1) * Math.max(0, shortage - view.shortageAllowed),
    filledIn,
    short,
    picks,
    shortage,
    overtime,
  };
}
