import type { LoadPlan } from '../../maths/loading/loadPlan';
import { eachPick } from '../../maths/loading/planView';
import { labelKey } from '../../maths/shared/labels';
import { writtenDate, type DateSystem } from '../calendar';
import { about } from './solvedPlan';

/** Orders that a load's words name. */
const MOST_NAMED = 3;
/** A share of a load's mass that is worth a word. */
const WORTH_A_WORD = 0.02;

/**
 * What the blocks of a lot loaded on a day are for, in words: the orders with the mass each gets, most first, and what
 * no order takes. A day's picking of one kind is shared out over its orders; each load has its part of every share. What
 * an order is for is said where that is not the load's own product.
 *
 * @param at position of the lot in the view
 * @param day of the plan, from 0
 */
export function forOrders(
  { view, cost }: LoadPlan,
  at: number,
  day: number,
  blocks: number,
  dateSystem: DateSystem,
): string {
  const share = 1 - view.problem.settings.margin;
  const own = labelKey(view.lots[at]!.lot.product);
  const shares = new Map<number, number>();
  let [spare, total] = [0, 0];
  eachPick(view, { lot: at, day }, (on, one, atom) => {
    const mass = blocks * one * share;
    total += mass;
    const given = atom < 0 ? [] : [...cost.given[atom]!];
    const supply = given.reduce((sum, [, part]) => sum + part, atom < 0 ? 0 : cost.unsold[atom]!);
    if (!(supply > 0)) {
      // What is picked after the last order that this plan can be asked to fill is for orders still to come.
      if (on < view.countedDays) spare += mass;
      return;
    }
    for (const [order, part] of given) shares.set(order, (shares.get(order) ?? 0) + (mass * part) / supply);
    spare += (mass * cost.unsold[atom]!) / supply;
  });
  const isWorthAWord = (mass: number): boolean => mass > WORTH_A_WORD * total;
  const named = [...shares].filter(([, mass]) => isWorthAWord(mass)).sort((a, b) => b[1] - a[1]);
  const words = named.slice(0, MOST_NAMED).map(([order, mass]) => {
    const { product, due } = view.orders[order]!.order;
    const kind = labelKey(product) === own ? '' : ` for ${product}`;
    return `${about(mass)}${kind} due ${writtenDate(Math.floor(due), dateSystem)}`;
  });
  const others = named.slice(MOST_NAMED).reduce((sum, [, mass]) => sum + mass, 0);
  if (others > 0) words.push(`${about(others)} for ${named.length - MOST_NAMED} more`);
  if (isWorthAWord(spare)) words.push(`${about(spare)} spare`);
  return words.join(', ');
}
