import type {
  BackProblem,
  GrowingStep,
  OrderToPlan,
  Stock,
  StrainToPlan,
} from '../../maths/loading/backPlan';
import { CalcError, invalid, missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import { isCellError } from '../cells/cell';
import type { RowOf } from '../cells/columns';
import { orFault, SheetFault } from '../cells/fault';
import type { Faulty } from '../cells/results';
import type { Table } from '../cells/table';
import { curveOf, orderOf, requireOnce, yieldOf } from './problem';
import type { backStrainColumns, stepColumns, stockColumns } from './backTables';
import type { orderColumns } from './orderTables';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A strain that no row of the steps is for. */
    noSteps: { readonly strain: string };
    /** A product that several strains are sold as. */
    severalStrains: { readonly product: string; readonly strains: readonly string[] };
    /** A step that does not say how many units of the next it makes. */
    noMakes: { readonly step: string };
  }
}

type BackStrains = Table<RowOf<typeof backStrainColumns>>;
type Steps = Table<RowOf<typeof stepColumns>>;

/** An order that cannot be planned, and why. */
export interface LeftOutOrder {
  readonly product: string;
  /** Undefined where the order's own row cannot be read. */
  readonly due: number | undefined;
  readonly fault: Faulty;
}

/**
 * What the tables of a call ask; the calendar and the confidences come apart. An order that cannot be planned keeps no
 * other from the list. Where none can be, the fault of the first is that of the call.
 */
export function backProblemOf(
  orders: Table<RowOf<typeof orderColumns>>,
  strains: BackStrains,
  steps: Steps,
  stock: Table<RowOf<typeof stockColumns>> | undefined,
): Pick<BackProblem, 'strains' | 'orders' | 'stock'> & { readonly leftOut: readonly LeftOutOrder[] } {
  const planned: StrainToPlan[] = [];
  /** Of each strain that an order has asked for, its position among those planned, or why it cannot be. */
  const asked = new Map<string, number | Faulty>();
  const soldAs = strainsByProduct(strains);
  const positionOf = ({ product, at }: OrderedProduct): number | Faulty => {
    const [own = product, ...others] = strains.has(product) ? [] : (soldAs.get(labelKey(product)) ?? []);
    if (others.length > 0) {
      return invalid('orders, product', 'severalStrains', { product, strains: [own, ...others] }, { at });
    }
    if (!strains.has(own)) return strains.lacks(product, 'orders, product', at);
    const label = labelKey(own);
    let position = asked.get(label);
    if (position === undefined) {
      const strain = orFault(() => strainToPlan(own, at, strains, steps));
      position = isFault(strain) ? strain : planned.push(strain) - 1;
      asked.set(label, position);
    }
    return position;
  };
  const wanted: OrderToPlan[] = [];
  const leftOut: LeftOutOrder[] = [];
  orders.entries.forEach((entry, i) => {
    const order = isCellError(entry) ? entry : orFault(() => orderOf(entry));
    if (isFault(order)) {
      leftOut.push({ product: orders.labels[i]!, due: undefined, fault: order });
      return;
    }
    const { product, mass, from, due, at } = order;
    const strain = positionOf(order);
    if (typeof strain === 'number')
      wanted.push({ strain, mass, from: Math.floor(from), due: Math.floor(due), at });
    else leftOut.push({ product, due: Math.floor(due), fault: strain });
  });
  const [first] = leftOut;
  if (first && wanted.length === 0)
    throw isCellError(first.fault) ? new SheetFault(first.fault) : first.fault;
  return { strains: planned, orders: wanted, stock: stockOf(stock, strains, planned), leftOut };
}

/** The strains that are sold as each product. */
function strainsByProduct(strains: BackStrains): ReadonlyMap<string, readonly string[]> {
  const soldAs = new Map<string, string[]>();
  for (const entry of strains.entries) {
    if (isCellError(entry) || entry.product === undefined) continue;
    const key = labelKey(entry.product);
    soldAs.set(key, [...(soldAs.get(key) ?? []), entry.strain]);
  }
  return soldAs;
}

type OrderedProduct = Pick<ReturnType<typeof orderOf>, 'product' | 'at'>;

const isFault = (value: unknown): value is Faulty => value instanceof CalcError || isCellError(value);

function strainToPlan(
  product: string,
  at: number | undefined,
  strains: BackStrains,
  steps: Steps,
): StrainToPlan {
  const strain = strains.find(product, 'orders, product', at);
  if (strain.best === undefined) {
    const details = { header: 'best', table: 'strains', of: strain.strain };
    throw missing('orders, product', 'blank', details, { at });
  }
  const best = Math.round(strain.best);
  return {
    strain: strain.strain,
    yieldPerBlock: yieldOf(strain, strain),
    curve: curveOf(product, strains, 'orders, product', at),
    best,
    latest: Math.max(best, Math.floor(strain.latest ?? best)),
    steps: stepsOf(steps, strain.strain),
  };
}

function stockOf(
  stock: Table<RowOf<typeof stockColumns>> | undefined,
  strains: BackStrains,
  planned: readonly StrainToPlan[],
): Stock[] {
  const positions = new Map(planned.map(({ strain }, position) => [labelKey(strain), position]));
  return (stock?.rows ?? []).flatMap((row): Stock[] => {
    if (!strains.has(row.strain)) throw strains.lacks(row.strain, 'stock, strain', row.at);
    const strain = positions.get(labelKey(row.strain));
    if (strain === undefined) return [];
    const step = planned[strain]!.steps.findIndex((one) => labelKey(one.step) === labelKey(row.step));
    if (step < 0) throw missing('stock, step', 'notIn', { label: row.step, table: 'steps' }, row);
    const until = Math.floor(row['good until'] ?? Infinity);
    return [{ strain, step, units: row.units, ready: Math.floor(row.ready), until }];
  });
}

/** The steps that hold for a strain: its own rows where it has some, otherwise the rows without a strain. */
function stepsOf(steps: Steps, strain: string): GrowingStep[] {
  const isOwn = (row: Steps['rows'][number]): boolean =>
    row.strain !== undefined && labelKey(row.strain) === labelKey(strain);
  const own = steps.rows.filter(isOwn);
  const rows = own.length > 0 ? own : steps.rows.filter((row) => row.strain === undefined);
  if (rows.length === 0) throw missing('steps', 'noSteps', { strain });
  const seen = new Map<string, number>();
  for (const { step, at } of rows) requireOnce(step, 'steps, step', at, seen);
  return rows.map((row, position) => {
    if (position < rows.length - 1 && row.makes === undefined) {
      throw missing('steps, makes', 'noMakes', { step: row.step }, row);
    }
    return {
      step: row.step,
      makes: row.makes ?? 1,
      days: Math.round(row.days),
      loss: row.loss,
      storeDays: row['store days'],
      cadence: row.cadence ?? 1,
    };
  });
}
