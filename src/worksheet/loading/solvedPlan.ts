import { loadPlan, type LoadPlan } from '../../maths/loading/loadPlan';
import type { LoadingProblem, Lot, PlannedLoad } from '../../maths/loading/loadingProblem';
import { explainedOrders, FILLED, remedyOf, type Remedy } from '../../maths/loading/remedies';
import { shortageCauses, type ShortageCauses } from '../../maths/loading/shortageCauses';
import { labelKey } from '../../maths/shared/labels';
import type { LinearSolver } from '../../maths/shared/linearProgram';
import type { DateSystem } from '../calendar';
import type { RowOf } from '../cells/columns';
import type { LookAlike } from '../cells/headers';
import type { Table } from '../cells/table';
import type { lotColumns } from './farmTables';

/** What a call of LOADPLAN asks, read from its cells. */
export interface PlanCall {
  readonly problem: LoadingProblem;
  readonly previous: readonly PlannedLoad[] | undefined;
  readonly lots: Table<RowOf<typeof lotColumns>>;
  /** What decides the plan, as text: the same cells give the same text. */
  readonly cells: string;
  readonly dateSystem: DateSystem;
  /** Headers that nothing reads, each with its table. */
  readonly ignored: readonly string[];
  /** Unread headers that look like one that is missing, each with its table. */
  readonly lookAlikes: readonly (LookAlike & { readonly table: string })[];
  /** Blocks of lots that are loaded already, by the lots' own column. */
  readonly loadedBefore: number;
}

export interface SolvedPlan {
  readonly plan: LoadPlan;
  /** Why orders fall short, worked out once; undefined where nothing is short or they could not be worked out. */
  readonly causes: () => ShortageCauses | undefined;
  /** What would fill the orders that fall short most, by their positions, worked out once. */
  readonly remedies: () => ReadonlyMap<number, Remedy>;
  /** What to say of causes that could not be. */
  readonly noCauses: string;
}

interface KeptPlan {
  readonly plan: LoadPlan;
  causes?: ShortageCauses | undefined;
  /** Undefined for an order that nothing was found for. */
  readonly remedies: Map<number, Remedy | undefined>;
}

/** The plans of the last calls, by the text of their cells, so that the views of the same cells share one solution. */
const keptPlans = new Map<string, KeptPlan>();
const MOST_KEPT = 8;

/** The plan of a call. One made without a solver, or without time for it, is not kept: the next call may have both. */
export function solvedPlan({ problem, previous, cells }: PlanCall, solver: LinearSolver | null): SolvedPlan {
  const solves = solver !== null && !solver.isOutOfTime;
  let kept = keptPlans.get(cells);
  if (!kept) {
    kept = { plan: loadPlan(problem, solver, previous), remedies: new Map() };
    if (solves) {
      if (keptPlans.size >= MOST_KEPT) keptPlans.delete(keptPlans.keys().next().value!);
      keptPlans.set(cells, kept);
    }
  }
  const known = kept;
  const { plan, remedies } = known;
  return {
    plan,
    causes: () => (solves && isShort(plan) ? (known.causes ??= shortageCauses(plan, solver)) : known.causes),
    remedies: () => {
      // One by one: where time is up, those before are known.
      for (const o of solves ? explainedOrders(plan) : []) {
        if (!remedies.has(o)) remedies.set(o, remedyOf(plan, o, solver!));
      }
      return new Map([...remedies].flatMap(([o, remedy]) => (remedy ? [[o, remedy] as const] : [])));
    },
    noCauses: !solver ? NO_CAUSES.missing : solver.isOutOfTime ? NO_CAUSES.late : NO_CAUSES.stuck,
  };
}

const NO_CAUSES = {
  missing: 'the causes need a solver, which needs WebAssembly: it cannot run here',
  late: 'working out the causes took longer than can be waited for here',
  stuck: 'the solver ended without a solution of them',
};

/** A shortage this small, as a share of an order, is not worth a word. */
export const WORTH_A_WORD = FILLED;

const isShort = ({ view, cost }: LoadPlan): boolean =>
  view.orders.some(({ order }, o) => order.mass - cost.filled[o]! > WORTH_A_WORD * order.mass);

/** The lots of a problem by their labels. */
export const lotsByLabel = ({ lots }: LoadingProblem): ReadonlyMap<string, Lot> =>
  new Map(lots.map((lot) => [labelKey(lot.lot), lot]));

/** A mass as a sentence shows it: three digits are enough to act on. */
export const about = (mass: number): string => String(Number(mass.toPrecision(3)));

export const byLabel = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0);
