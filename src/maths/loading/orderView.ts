import { labelKey } from '../shared/labels';
import type { Order } from './loadingProblem';
import { byText } from './lotView';

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

/** A fixed order of orders, so that a plan does not depend on the order of rows. */
export const ordersInOrder = (a: Order, b: Order): number =>
  a.due - b.due ||
  byText(labelKey(a.product), labelKey(b.product)) ||
  a.from - b.from ||
  b.price - a.price ||
  a.mass - b.mass;

export function meanPrice(orders: readonly Order[]): number {
  const mass = orders.reduce((sum, order) => sum + order.mass, 0);
  const value = orders.reduce((sum, order) => sum + order.mass * order.price, 0);
  return mass > 0 && value > 0 ? value / mass : 1;
}

/** Adds a kind's atoms and gives the atom of each day. */
export function atomsOfKind(
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
