import { loadPlan, type LoadPlan } from '../maths/loading/loadPlan';
import type { LoadingProblem, PlannedLoad, StandingLoad } from '../maths/loading/loadingProblem';
import {
  RESOURCES,
  shortageCauses,
  subsets,
  type Resource,
  type ShortageCauses,
} from '../maths/loading/shortageCauses';
import { picksAfterLoading } from '../maths/loading/pickCurve';
import { shownPercent } from '../maths/shared/calcError';
import { labelKey } from '../maths/shared/labels';
import { linearSolver } from '../maths/shared/linearProgram';
import type { RowOf, Table } from './cells/table';
import { resultColumn, type Answer, type FreeTable, type ResultColumn } from './define';
import type { lotColumns, View } from './loadingTables';

type LotTable = Table<RowOf<typeof lotColumns>>;

/** What a call of LOADPLAN asks, read from its cells. */
export interface PlanCall {
  readonly problem: LoadingProblem;
  readonly previous: readonly PlannedLoad[] | undefined;
  readonly lots: LotTable;
  /** What decides the plan, as text: the same cells give the same text. */
  readonly cells: string;
  readonly ignored: readonly string[];
}

interface Solved {
  readonly plan: LoadPlan;
  causes?: ShortageCauses;
}

/** Plans of the last calls, so that the views of the same cells share one solution. */
const solvedCalls = new Map<string, Solved>();
const KEPT_CALLS = 8;

function solvedCall({ problem, previous, cells }: PlanCall): Solved {
  const known = solvedCalls.get(cells);
  if (known) return known;
  const solved = { plan: loadPlan(problem, linearSolver(), previous) };
  // Where the solver could not be loaded, the next call may have it.
  if (solved.plan.method === 'greedy') return solved;
  if (solvedCalls.size >= KEPT_CALLS) solvedCalls.delete(solvedCalls.keys().next().value!);
  solvedCalls.set(cells, solved);
  return solved;
}

/** One view of the plan for a call. */
export function planTable(call: PlanCall, view: View): FreeTable {
  const solved = solvedCall(call);
  switch (view) {
    case 'plan':
      return planRows(call, solved.plan);
    case 'picks':
      return pickRows(call, solved.plan);
    case 'orders':
      return orderRows(solved);
    case 'lots':
      return lotRows(call, solved.plan);
    case 'summary':
      return summaryRows(call, solved);
  }
}

const date = (header: string): ResultColumn => resultColumn(header, 'date');

/** Headed so that the rows can be put below those of the standing table, or given to PICKCALENDAR and SHELFUSE. */
function planRows({ problem, lots }: PlanCall, plan: LoadPlan): FreeTable {
  const headers = ['lot', 'strain', 'room', 'blocks', 'age'].map((header) => resultColumn(header));
  const makes = ['block mass', 'moisture', 'product'].map((header) =>
    resultColumn(header, header === 'moisture' ? 'percent' : 'plain'),
  );
  const byLot = new Map(problem.lots.map((lot) => [labelKey(lot.lot), lot]));
  return {
    columns: [date('loaded'), ...headers, date('first pick'), ...makes],
    rows: plan.loads.map(({ lot: name, room, day, blocks }) => {
      const row = lots.find(name, 'lots');
      const lot = byLot.get(labelKey(name))!;
      const age = row.inoculated === undefined ? '' : day - Math.floor(row.inoculated);
      const make = [row['block mass'], row.moisture, lot.product];
      return [day, lot.lot, lot.strain, room, blocks, age, day + lot.curve.firstPick, ...make];
    }),
  };
}

/** Full mass picked on each day from the start, in total and by strain. */
function picksFrom(
  { problem }: PlanCall,
  loads: readonly Pick<StandingLoad, 'strain' | 'loaded' | 'blocks' | 'yieldPerBlock' | 'curve'>[],
  days: number,
): { total: number[]; byStrain: Map<string, number[]> } {
  const total = new Array<number>(days).fill(0);
  const byStrain = new Map<string, number[]>();
  for (const { strain, loaded, blocks, yieldPerBlock, curve } of loads) {
    if (!byStrain.has(strain)) byStrain.set(strain, new Array<number>(days).fill(0));
    const own = byStrain.get(strain)!;
    for (const [k, mass] of picksAfterLoading(curve, blocks * yieldPerBlock)) {
      const day = Math.floor(loaded) - problem.start + k;
      if (day < 0 || day >= days) continue;
      total[day]! += mass;
      own[day]! += mass;
    }
  }
  return { total, byStrain };
}

function pickRows(call: PlanCall, plan: LoadPlan): FreeTable {
  const { problem } = call;
  const byLot = new Map(problem.lots.map((lot) => [labelKey(lot.lot), lot]));
  const planned = plan.loads.map(({ lot, day, blocks }) => ({
    ...byLot.get(labelKey(lot))!,
    loaded: day,
    blocks,
  }));
  const days = [...problem.standing, ...planned].reduce(
    (last, { loaded, curve }) => Math.max(last, Math.floor(loaded) - problem.start + curve.stay),
    problem.days,
  );
  const standing = picksFrom(call, problem.standing, days);
  const fromPlan = picksFrom(call, planned, days);
  const strains = [...new Set([...standing.byStrain.keys(), ...fromPlan.byStrain.keys()])].sort();
  const headers = ['expected', 'from standing', 'from plan', 'limit', 'spare', ...strains];
  return {
    columns: [date('date'), ...headers.map((header) => resultColumn(header))],
    rows: Array.from({ length: days }, (_, day): Answer[] => {
      const expected = standing.total[day]! + fromPlan.total[day]!;
      const limit = problem.limitsOn(problem.start + day).pick;
      const limited = limit < Infinity;
      return [
        problem.start + day,
        expected,
        standing.total[day]!,
        fromPlan.total[day]!,
        limited ? limit : 'none',
        limited ? limit - expected : '',
        ...strains.map(
          (strain) =>
            (standing.byStrain.get(strain)?.[day] ?? 0) + (fromPlan.byStrain.get(strain)?.[day] ?? 0),
        ),
      ];
    }),
  };
}

/** A shortage this small, as a share of an order, is not worth a word. */
const WORTH_A_WORD = 0.001;

/** Why orders fall short, worked out once; undefined where nothing is short or no programme was solved. */
function causesOf(solved: Solved): ShortageCauses | undefined {
  const { plan } = solved;
  const short = plan.view.orders.some(
    ({ order }, o) => order.mass - plan.cost.filled[o]! > WORTH_A_WORD * order.mass,
  );
  const solver = linearSolver();
  if (!short || plan.method === 'greedy' || !solver) return undefined;
  solved.causes ??= shortageCauses(plan, solver);
  return solved.causes;
}

function orderRows(solved: Solved): FreeTable {
  const { plan } = solved;
  const { view, cost } = plan;
  const causes = causesOf(solved);
  const surplus = view.orders.map(() => 0);
  view.atoms.forEach(({ orders }, atom) => {
    const first = orders.reduce((a, b) => (view.orders[b]!.to < view.orders[a]!.to ? b : a));
    surplus[first]! += cost.unsold[atom]!;
  });
  const planned = view.orders.map(({ order }, o): Answer[] => {
    const short = order.mass - cost.filled[o]!;
    const lacking = short > WORTH_A_WORD * order.mass;
    const [cause, remedy] = lacking ? causeOf(plan, causes, o, short) : ['', ''];
    const dates = [Math.floor(order.from), Math.floor(order.due)];
    return [
      order.product,
      ...dates,
      order.mass,
      cost.filled[o]!,
      lacking ? short : 0,
      surplus[o]!,
      cause,
      remedy,
    ];
  });
  const unplanned = view.unplanned.map(({ order, why }): Answer[] => {
    const words =
      why === 'past'
        ? ['past', 'due before the start: take it off the list']
        : ['after this plan', 'loads after the last day of this plan can still fill it: plan more days'];
    return [order.product, Math.floor(order.from), Math.floor(order.due), order.mass, '', '', '', ...words];
  });
  const headers = ['mass', 'planned', 'short', 'surplus', 'cause', 'what would close it'];
  return {
    columns: [
      resultColumn('product'),
      date('from'),
      date('due'),
      ...headers.map((header) => resultColumn(header)),
    ],
    rows: [...planned, ...unplanned].sort(
      (a, b) => (a[2] as number) - (b[2] as number) || byLabel(a[0] as string, b[0] as string),
    ),
  };
}

const byLabel = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);

const REMEDIES: Record<Resource, string> = {
  shelves: 'more shelf places',
  labour: 'more picking and loading',
  'ripe blocks': 'more ripe blocks',
};

const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join('') : `${words.slice(0, -1).join(', ')} and ${words.at(-1)}`;

/** A mass as a sentence shows it: three digits are enough to act on. */
const about = (mass: number): string => String(Number(mass.toPrecision(3)));

/** The cause of one order's shortage and what would close it: what it would be short with each limit set free. */
function causeOf(
  { view }: LoadPlan,
  causes: ShortageCauses | undefined,
  o: number,
  short: number,
): [string, string] {
  const { order, to, accepts } = view.orders[o]!;
  const lots = view.lots.filter(({ kind }) => accepts[kind]);
  if (lots.length === 0) return ['no lot for it', 'no lot in lots is of this product or strain'];
  if (!causes)
    return ['not worked out', 'the causes need a solver, which needs WebAssembly: it cannot run here'];
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

function lotRows({ problem }: PlanCall, plan: LoadPlan): FreeTable {
  const loaded = new Map<string, number>();
  for (const { lot, blocks } of plan.loads)
    loaded.set(labelKey(lot), (loaded.get(labelKey(lot)) ?? 0) + blocks);
  const headers = ['lot', 'strain', 'blocks', 'loaded', 'waiting', 'going over age'];
  return {
    columns: [...headers.map((header) => resultColumn(header)), date('expires')],
    rows: [...problem.lots]
      .sort((a, b) => a.best - b.best || byLabel(a.lot, b.lot))
      .map(({ lot, strain, blocks, latest, notAfter }) => {
        const expires = Math.min(Math.floor(latest), Math.floor(notAfter ?? Infinity));
        const left = blocks - (loaded.get(labelKey(lot)) ?? 0);
        const over = expires < problem.start + problem.days;
        return [lot, strain, blocks, blocks - left, over ? 0 : left, over ? left : 0, expires];
      }),
  };
}

const METHODS: Record<LoadPlan['method'], [string, string]> = {
  HiGHS: ['linear programme', 'solved with HiGHS'],
  greedy: [
    'rule of thumb',
    'WebAssembly cannot run here, so there is no solver: no limit is broken, but the plan does not look ahead',
  ],
};

function summaryRows(call: PlanCall, solved: Solved): FreeTable {
  const { plan } = solved;
  const { view, cost, bound } = plan;
  const { margin } = call.problem.settings;
  const value = view.orderValue;
  const short = view.orders.reduce((sum, { order }, o) => sum + Math.max(0, order.mass - cost.filled[o]!), 0);
  const rows: [string, Answer, string][] = [
    ['method', ...METHODS[plan.method]],
    [
      'blocks loaded',
      plan.loads.reduce((sum, { blocks }) => sum + blocks, 0),
      `in ${plan.loads.length} loads`,
    ],
    ['order value', value, 'of the orders this plan can be asked to fill'],
  ];
  if (margin > 0) {
    const words = 'yields are taken so much lower to fill orders: give CHECKLOADS the same settings';
    rows.push(['margin', shownPercent(margin), words]);
  }
  rows.push(
    ['mass short', short, ''],
    [
      'value short',
      cost.shortage,
      value > 0 ? `${about((100 * cost.shortage) / value)}% of the order value` : '',
    ],
  );
  const causes = causesOf(solved);
  for (const { cause, mass } of causes?.parts ?? []) {
    const resource = RESOURCES.find((one) => one === cause);
    const note =
      resource && causes
        ? `with ${REMEDIES[resource]} alone ${about(100 * causes.remaining[resource])}% of the value short would still be short`
        : cause === 'too soon'
          ? 'due before anything loaded now is picked, or for something no lot gives'
          : 'the price of whole blocks, and of staying with a previous plan';
    rows.push([`short for ${cause}`, mass, note]);
  }
  rows.push(
    ['cost of blocks loaded', cost.blocks, 'the lots’ own cost, and opening them off their best days'],
    ['mass no order takes', cost.surplus, 'picked while this plan lasts'],
  );
  if (bound) {
    const distance = Math.max(0, cost.shortage + cost.rest - bound.shortage - bound.rest);
    rows.push([
      'distance from the bound',
      distance,
      value > 0
        ? `${((100 * distance) / value).toFixed(2)}% of the order value, against the best plan in parts of blocks`
        : '',
    ]);
  }
  if (plan.moved !== undefined) rows.push(['blocks moved', plan.moved, 'against the previous plan']);
  const count = (why: 'past' | 'beyond'): number => view.unplanned.filter((one) => one.why === why).length;
  if (count('past') > 0) rows.push(['orders past', count('past'), 'due before the start']);
  if (count('beyond') > 0)
    rows.push(['orders after this plan', count('beyond'), 'loads after its last day can fill them']);
  if (call.ignored.length > 0) rows.push(['columns ignored', call.ignored.length, call.ignored.join(', ')]);
  return { columns: ['what', 'value', 'note'].map((header) => resultColumn(header)), rows };
}
