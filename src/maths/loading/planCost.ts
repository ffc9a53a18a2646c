import { fillOrders } from './fillOrders';
import type { PlanView } from './loadingProblem';
import type { GroupLoad } from './planRoom';

/** What a plan of whole blocks costs and gives, worked out from the plan alone. Money, not solver units. */
export interface PlanCost {
  /** Value of what orders fall short. */
  readonly shortage: number;
  /** Ages, lots, blocks left, surplus and peaks. */
  readonly rest: number;
  /** Of `rest`, what loaded blocks cost: the lots' own cost and opening them off their best day. */
  readonly blocks: number;
  /** Mass filled of each planned order, margin taken off. */
  readonly filled: readonly number[];
  /** Mass of each atom that its orders do not take. */
  readonly unsold: readonly number[];
  /** Mass of the counted days that no order takes, margin taken off. */
  readonly surplus: number;
  /** Full mass picked from the plan's loads on each day. */
  readonly picks: readonly number[];
}

/** Mass picked on each day from loads. */
export function picksOf(view: PlanView, loads: readonly GroupLoad[]): number[] {
  const picks = new Array<number>(view.pickDays).fill(0);
  for (const { lot, day, blocks } of loads) {
    for (const [k, mass] of view.lots[lot]!.picks) picks[day + k]! += blocks * mass;
  }
  return picks;
}

export function planCost(view: PlanView, loads: readonly GroupLoad[]): PlanCost {
  const share = 1 - view.problem.settings.margin;
  const supply = view.atoms.map(({ standing }) => standing);
  let counted = view.standingSupply;
  let blocks = 0;
  const loaded = view.lots.map(() => 0);
  for (const load of loads) {
    const lot = view.lots[load.lot]!;
    loaded[load.lot]! += load.blocks;
    blocks += load.blocks * lot.costOn(load.day);
    for (const [k, mass] of lot.picks) {
      const day = load.day + k;
      const atom = view.atomOf[lot.kind]![day]!;
      if (atom >= 0) supply[atom]! += load.blocks * mass * share;
      if (day < view.countedDays) counted += load.blocks * mass * share;
    }
  }
  const left = view.lots.reduce((sum, lot, at) => sum + (lot.lot.blocks - loaded[at]!) * lot.leftCost, 0);
  const { filled, left: unsold } = fillOrders(
    view.orders.map(({ order }) => order),
    view.atoms.map(({ orders }, at) => ({ mass: supply[at]!, orders })),
  );
  const surplus = Math.max(0, counted - filled.reduce((sum, mass) => sum + mass, 0));
  const picks = picksOf(view, loads);
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
    surplus,
    picks,
  };
}

/** What every plan costs alike, which the programme leaves out: lots left whole and surplus from standing loads. */
export function constantCost(view: PlanView): number {
  const left = view.lots.reduce((sum, { lot, leftCost }) => sum + lot.blocks * leftCost, 0);
  const inAtoms = view.atoms.reduce((sum, { standing }) => sum + standing, 0);
  return left + (view.standingSupply - inAtoms) * view.surplusCost;
}
