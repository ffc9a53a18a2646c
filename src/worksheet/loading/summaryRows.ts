import type { LoadPlan } from '../../maths/loading/loadPlan';
import type { LoadingProblem } from '../../maths/loading/loadingProblem';
import { SUPPLIES, type ShortageCauses, type Supply } from '../../maths/loading/shortageCauses';
import { LEVEL_TOLERANCE } from '../../maths/loading/solvePlan';
import type { ResultRow } from '../cells/results';
import { shownPercent } from '../wording/phrases';
import { fullRooms } from './headline';
import { lotRows } from './planRows';
import { about, type PlanCall, type SolvedPlan } from './solvedPlan';
import type { planViews } from './views';

type SummaryRow = ResultRow<typeof planViews.summary>;

const METHODS: Record<LoadPlan['method'], readonly [string, string]> = {
  HiGHS: ['linear programme', 'solved with HiGHS'],
  greedy: [
    'rule of thumb',
    'WebAssembly cannot run here, so there is no solver: no limit is broken, but the plan does not look ahead',
  ],
  late: [
    'rule of thumb',
    'solving took longer than can be waited for here: no limit is broken, but the plan does not look ahead',
  ],
  stuck: [
    'rule of thumb',
    'the solver found no solution for this farm: no limit is broken, but the plan does not look ahead',
  ],
};

const MORE: Record<Supply, string> = {
  shelves: 'more shelf places',
  picking: 'more picking',
  loading: 'more loading',
  'ripe blocks': 'more ripe blocks',
};

const line = (what: string, value: number | string, note = ''): SummaryRow => ({ what, value, note });

/** The plan in a few figures. */
export function summaryRows(
  { problem, ignored, loadedBefore }: PlanCall,
  { plan, causes }: SolvedPlan,
): SummaryRow[] {
  const { view, cost, loads } = plan;
  const { margin } = problem.settings;
  const value = view.orderValue;
  const blocks = loads.reduce((sum, load) => sum + load.blocks, 0);
  const short = view.orders.reduce((sum, { order }, o) => sum + Math.max(0, order.mass - cost.filled[o]!), 0);
  const marginNote =
    'yields are taken this much lower when orders are filled: give CHECKLOADS the same settings';
  const valueNote = value > 0 ? `${about((100 * cost.shortage) / value)}% of the order value` : '';
  return [
    line('method', ...METHODS[plan.method]),
    line('blocks loaded', blocks, `in ${loads.length} loads`),
    line('order value', value, 'of the orders that this plan can fill'),
    ...(margin > 0 ? [line('margin', shownPercent(margin), marginNote)] : []),
    line('mass short', short),
    line('value short', cost.shortage, valueNote),
    ...causeLines(causes()),
    line('cost of blocks loaded', cost.blocks, 'the lots’ own cost, and opening them off their best days'),
    line('mass no order takes', cost.surplus, 'picked while this plan lasts'),
    ...overAgeLines(problem, plan),
    ...fullRooms(problem).map((words) => line('room over-full', '', words)),
    ...seasonLines(plan),
    ...boundLines(plan),
    ...notKeptLines(plan),
    ...(plan.moved === undefined ? [] : [line('blocks moved', plan.moved, 'against the previous plan')]),
    ...unplannedLines(plan),
    ...(loadedBefore > 0
      ? [line('blocks loaded before', loadedBefore, 'listed in lots or standing: they are not opened again')]
      : []),
    ...(ignored.length > 0 ? [line('columns ignored', ignored.length, ignored.join(', '))] : []),
  ];
}

function causeLines(causes: ShortageCauses | undefined): SummaryRow[] {
  if (!causes) return [];
  return causes.parts.map(({ cause, mass }) => {
    const supply = SUPPLIES.find((one) => one === cause);
    const note = supply
      ? `with ${MORE[supply]} alone ${about(100 * causes.remaining[supply])}% of the value short would still be short`
      : cause === 'too soon'
        ? 'due before anything loaded now is picked, or for something no lot gives'
        : 'because blocks are opened whole, or to stay with the previous plan';
    return line(`short for ${cause}`, mass, note);
  });
}

/** Blocks that no plan of these days opens before they are over age, with the lots that lose most. */
function overAgeLines(problem: LoadingProblem, plan: LoadPlan): SummaryRow[] {
  const over = lotRows({ problem }, plan)
    .map((row) => ({ lot: row.lot as string, blocks: row['going over age'] as number }))
    .filter(({ blocks }) => blocks > 0)
    .sort((a, b) => b.blocks - a.blocks);
  if (over.length === 0) return [];
  const shown = over.slice(0, MOST_REASONS).map(({ lot, blocks }) => `${blocks} of ${lot}`);
  const more = over.length > shown.length ? `, and ${over.length - shown.length} more lots` : '';
  const blocks = over.reduce((sum, one) => sum + one.blocks, 0);
  return [line('blocks going over age', blocks, `never opened: ${shown.join(', ')}${more}`)];
}

/** What the plan comes to over the possible seasons. */
function seasonLines({ view, expected }: LoadPlan): SummaryRow[] {
  const { serviceLevel } = view.problem.settings;
  if (!expected) return serviceLevel === undefined ? [] : [line('orders filled in the mean', '', NO_LEVEL)];
  const overDays = view.pickLimit.map(
    (limit, day) =>
      expected.picks.filter((picks) => picks[day]! > 1.1 * limit).length / expected.picks.length,
  );
  const days = overDays.reduce((sum, share) => sum + share, 0);
  return [
    line(
      'possible seasons',
      view.futures.length,
      'drawn from the spreads in strains, the same for the same cells',
    ),
    line('value short in the mean', expected.shortage, 'over those seasons'),
    ...(serviceLevel === undefined
      ? []
      : [levelLine(serviceLevel, view.orderValue > 0 ? 1 - expected.shortage / view.orderValue : 1)]),
    line('picked over limits in the mean', expected.overtime, 'mass, over those seasons'),
    line(
      'days over by a tenth in the mean',
      days,
      'days on which more than a tenth over the limit must be picked',
    ),
  ];
}

const NO_LEVEL = 'a service level counts only where strains have a yield spread, pick spread or ready spread';

/** Whether the plan keeps the service level that the settings ask for. */
function levelLine(level: number, filled: number): SummaryRow {
  const note =
    filled >= level - LEVEL_TOLERANCE
      ? `of their value: the service level of ${shownPercent(level)} is kept`
      : `of their value: the service level of ${shownPercent(level)} is missed; the view worth says what would help`;
  return line('orders filled in the mean', shownPercent(Math.round(1000 * filled) / 1000), note);
}

function boundLines({ view, cost, expected, bound }: LoadPlan): SummaryRow[] {
  if (!bound) return [];
  const distance = Math.max(0, (expected?.measure ?? bound.totalOf(cost)) - bound.total);
  const share = ((100 * distance) / view.orderValue).toFixed(2);
  const note =
    view.orderValue > 0 ? `${share}% of the order value more than the best plan that may split blocks` : '';
  return [line('distance from the bound', distance, note)];
}

function unplannedLines({ view }: LoadPlan): SummaryRow[] {
  const count = (why: 'past' | 'beyond'): number => view.unplanned.filter((one) => one.why === why).length;
  return [
    line('orders past', count('past'), 'due before the start'),
    line('orders after this plan', count('beyond'), 'loads after its last day can fill them'),
  ].filter((row) => row.value !== 0);
}

/** What of the frozen days could not be kept, with the rule that each load would break. */
function notKeptLines({ notKept }: LoadPlan): SummaryRow[] {
  if (notKept.length === 0) return [];
  const blocks = notKept.reduce((sum, load) => sum + load.blocks, 0);
  const reasons = notKept.map((load) => `${load.blocks} of ${load.lot} in ${load.room}: ${load.why}`);
  const shown = reasons.slice(0, MOST_REASONS);
  const more = reasons.length - shown.length;
  return [
    line('frozen blocks not kept', blocks, shown.join('; ') + (more > 0 ? `; and ${more} more loads` : '')),
  ];
}

/** Reasons that a note lists. */
const MOST_REASONS = 5;
