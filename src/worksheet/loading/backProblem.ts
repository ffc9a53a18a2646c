import type { BackProblem, GrowingStep, Stock, StrainToPlan } from '../../maths/loading/backPlan';
import { missing } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import { curveOf, ordersOf, yieldOf } from './problem';
import type { backStrainColumns, orderColumns, stepColumns, stockColumns } from './tables';

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A strain that no row of the steps is for. */
    noSteps: { readonly strain: string };
    /** A step that does not say how many units of the next it makes. */
    noMakes: { readonly step: string };
  }
}

type BackStrains = Table<RowOf<typeof backStrainColumns>>;
type Steps = Table<RowOf<typeof stepColumns>>;

/** What the tables of a call ask; the calendar and the confidences come apart. */
export function backProblemOf(
  orders: Table<RowOf<typeof orderColumns>>,
  strains: BackStrains,
  steps: Steps,
  stock: Table<RowOf<typeof stockColumns>> | undefined,
): Pick<BackProblem, 'strains' | 'orders' | 'stock'> {
  const wanted = ordersOf(orders);
  /** The first order of each strain, in the order in which the strains come. */
  const firstOrders = new Map<string, { readonly product: string; readonly at?: number | undefined }>();
  for (const order of wanted) {
    if (!strains.has(order.product)) throw strains.lacks(order.product, 'orders, product', order.at);
    const label = labelKey(order.product);
    if (!firstOrders.has(label)) firstOrders.set(label, order);
  }
  const positions = new Map([...firstOrders.keys()].map((label, position) => [label, position]));
  const planned = [...firstOrders.values()].map(({ product, at }): StrainToPlan => {
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
  });
  return {
    strains: planned,
    orders: wanted.map(({ product, mass, from, due, at }) => ({
      strain: positions.get(labelKey(product))!,
      mass,
      from: Math.floor(from),
      due: Math.floor(due),
      at,
    })),
    stock: (stock?.rows ?? []).flatMap((row): Stock[] => {
      if (!strains.has(row.strain)) throw strains.lacks(row.strain, 'stock, strain', row.at);
      const strain = positions.get(labelKey(row.strain));
      if (strain === undefined) return [];
      const step = planned[strain]!.steps.findIndex((one) => labelKey(one.step) === labelKey(row.step));
      if (step < 0) throw missing('stock, step', 'notIn', { label: row.step, table: 'steps' }, row);
      const until = Math.floor(row['good until'] ?? Infinity);
      return [{ strain, step, units: row.units, ready: Math.floor(row.ready), until }];
    }),
  };
}

/** The steps that hold for a strain: its own rows where it has some, otherwise the rows without a strain. */
function stepsOf(steps: Steps, strain: string): GrowingStep[] {
  const isOwn = (row: Steps['rows'][number]): boolean =>
    row.strain !== undefined && labelKey(row.strain) === labelKey(strain);
  const own = steps.rows.filter(isOwn);
  const rows = own.length > 0 ? own : steps.rows.filter((row) => row.strain === undefined);
  if (rows.length === 0) throw missing('steps', 'noSteps', { strain });
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
