import type { LoadPlan } from '../../maths/loading/loadPlan';
import { RESOURCES, subsets, type Resource } from '../../maths/loading/shortageCauses';
import { labelKey } from '../../maths/shared/labels';
import type { ResultRow } from '../cells/results';
import { listed } from '../wording/phrases';
import { remedyWords } from './remedyWords';
import { about, byLabel, WORTH_A_WORD, type PlanCall, type SolvedPlan } from './solvedPlan';
import type { planViews } from './views';

type OrderRow = ResultRow<typeof planViews.orders>;

/** How far each order is filled, and what would close the gap of one that is not. */
export function orderRows({ dateSystem }: PlanCall, solved: SolvedPlan): OrderRow[] {
  const { plan } = solved;
  const { view, cost } = plan;
  const surplus = view.orders.map(() => 0);
  view.atoms.forEach(({ orders }, atom) => {
    const first = orders.reduce((a, b) => (view.orders[b]!.to < view.orders[a]!.to ? b : a));
    surplus[first]! += cost.unsold[atom]!;
  });
  const whyShort = (o: number, short: number): Words => {
    const remedy = solved.remedies().get(o);
    return remedy ? remedyWords(remedy, plan, o, dateSystem) : causeOf(solved, o, short);
  };
  const planned = view.orders.map(({ order }, o) => {
    const short = order.mass - cost.filled[o]!;
    const isShort = short > WORTH_A_WORD * (order.mass + (order.given ?? 0));
    const [cause, remedy] = isShort ? whyShort(o, short) : ['', ''];
    return {
      ...inDays(order),
      planned: cost.filled[o]!,
      short: isShort ? short : 0,
      surplus: surplus[o]!,
      chance: plan.expected?.filledIn[o],
      cause,
      'what would close it': remedy,
    };
  });
  const grown = new Set(view.kinds.flatMap(({ strain, product }) => [strain, product]));
  const isGrown = (product: string): boolean =>
    grown.has(labelKey(product)) || (labelKey(product) === 'any' && grown.size > 0);
  const unplanned = view.unplanned.map(({ order, why }) => {
    const [cause, remedy] = why === 'beyond' && !isGrown(order.product) ? NO_LOT : UNPLANNED[why];
    return {
      ...inDays(order),
      planned: '' as const,
      short: '' as const,
      surplus: '' as const,
      chance: plan.expected && ('' as const),
      cause,
      'what would close it': remedy,
    };
  });
  return [...planned, ...unplanned].sort((a, b) => a.due - b.due || byLabel(a.product, b.product));
}

const inDays = ({ product, from, due, mass, given = 0 }: LoadPlan['view']['orders'][number]['order']) => ({
  product,
  from: Math.floor(from),
  due: Math.floor(due),
  mass: mass + given,
  given: given > 0 ? given : undefined,
});

/** Why an order is short, and what would close the gap. */
export type Words = readonly [cause: string, remedy: string];

const UNPLANNED: Record<LoadPlan['view']['unplanned'][number]['why'], Words> = {
  past: ['past', 'due before the start: take it off the list'],
  beyond: ['after this plan', 'loads after the last day of this plan can still fill it: plan more days'],
};

const NO_LOT: Words = ['no lot for it', 'no lot in lots is of this product or strain'];

const REMEDIES: Record<Resource, string> = {
  shelves: 'more shelf places',
  labour: 'more picking and loading',
  'ripe blocks': 'more ripe blocks',
};

/** The cause of an order's shortage where no remedy was worked out: what it would be short with each limit set free. */
function causeOf(
  { plan: { view }, causes: causesOf, noCauses }: SolvedPlan,
  o: number,
  short: number,
): Words {
  const { order, to, accepts } = view.orders[o]!;
  const lots = view.lots.filter(({ kind }) => accepts[kind]);
  if (lots.length === 0) return NO_LOT;
  const causes = causesOf();
  if (!causes) return ['not worked out', noCauses];
  const soonest = Math.min(...lots.map(({ picks }) => picks[0]![0]));
  if (soonest > to) {
    return [
      'too soon',
      `what is loaded on the first day is picked ${soonest} days later, after this order is due`,
    ];
  }
  const remaining = (resources: readonly Resource[]): number => causes.shortWith(resources, o);
  if (remaining([]) < 0.5 * short) {
    return [
      'whole blocks',
      `with parts of blocks it would be ${about(remaining([]))} short: order or load in whole blocks`,
    ];
  }
  for (const size of [1, 2, 3]) {
    const best = subsets()
      .filter((resources) => resources.length === size)
      .reduce((a, b) => (remaining(b) < remaining(a) - 1e-6 ? b : a));
    const left = remaining(best);
    if (left > 0.5 * remaining([])) continue;
    const still =
      left > WORTH_A_WORD * order.mass ? `it would still be ${about(left)} short` : 'it would be filled';
    return [listed(best), `with ${listed(best.map((resource) => REMEDIES[resource]))} ${still}`];
  }
  const all = remaining(RESOURCES);
  return [
    'too soon',
    `even with more of everything it would be ${about(all)} short: blocks loaded now are picked too late`,
  ];
}
