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
import type { lotColumns } from './tables';

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
  /** Why orders fall short, worked out once; undefined where nothing is short or no programme was solved. */
  readonly causes: () => ShortageCauses | undefined;
  /** What would fill the orders that fall short most, by their positions, worked out once. */
  readonly remedies: () => ReadonlyMap<number, Remedy>;
}

/** The plans of the last calls, by the text of their cells, so that the views of the same cells share one solution. */
const solvedPlans = new Map<string, SolvedPlan>();
const MOST_KEPT = 8;

/** The plan of a call. One made without a solver is not kept: the next call may have one. */
export function solvedPlan({ problem, previous, cells }: PlanCall, solver: LinearSolver | null): SolvedPlan {
  const known = solvedPlans.get(cells);
  if (known) return known;
  const plan = loadPlan(problem, solver, previous);
  if (solver === null) return { plan, causes: () => undefined, remedies: () => new Map() };
  let causes: ShortageCauses | undefined;
  let remedies: ReadonlyMap<number, Remedy> | undefined;
  const solved = {
    plan,
    causes: () => (isShort(plan) ? (causes ??= shortageCauses(plan, solver)) : undefined),
    remedies: () =>
      (remedies ??= new Map(
        explainedOrders(plan).flatMap((o) => {
          const remedy = remedyOf(plan, o, solver);
          return remedy ? [[o, remedy] as const] : [];
        }),
      )),
  };
  if (solvedPlans.size >= MOST_KEPT) solvedPlans.delete(solvedPlans.keys().next().value!);
  solvedPlans.set(cells, solved);
  return solved;
}

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
