import type { BackProblem, GrowingStep } from '../maths/loading/backPlan';
import { invalid, missing } from '../maths/shared/calcError';
import { labelKey } from '../maths/shared/labels';
import type { DateSystem } from '../maths/shared/serial';
import { count, fractionBelowOne, mass, number, serial, text } from './cells/kinds';
import { key, optional, type RowOf, type Table, type TableColumns } from './cells/table';
import {
  curveOf,
  ordersOf,
  yieldColumns,
  yieldOf,
  type orderColumns,
  type settingColumns,
} from './loadingTables';
import { only, strainColumns } from './tables';

/** The strains with what a block of each is made of. */
export const backStrainColumns = {
  ...yieldColumns,
  ...only(strainColumns, 'best', 'latest'),
  'block mass': mass(),
  moisture: fractionBelowOne(),
} satisfies TableColumns;

/** From the mother culture down to the block, as SPAWNCHAIN reads it, with what a calendar needs besides. */
export const stepColumns = {
  step: key(text('step')),
  makes: optional(number({ word: 'units', above: 0 })),
  days: number({ word: 'days', unit: 'days', from: 0, to: 1000 }),
  loss: optional(fractionBelowOne(), 0),
  /** Days a ready unit may wait; not looked at if blank. */
  'store days': optional(number({ word: 'days', unit: 'days', above: 0 })),
  /** Days from one start to the next, one batch serving all until then. */
  cadence: optional(count(), 1),
  /** The strain the row holds for; all that have no rows of their own if blank. */
  strain: optional(text('strain')),
} satisfies TableColumns;

export const stockColumns = {
  units: key(count()),
  strain: text('strain'),
  step: text('step'),
  ready: serial(),
  /** Last day they may be used; no end if blank. */
  'good until': optional(serial()),
} satisfies TableColumns;

type BackStrains = Table<RowOf<typeof backStrainColumns>>;
type Steps = Table<RowOf<typeof stepColumns>>;

/** What the tables of a call ask; the calendar and the confidence come apart. */
export function backProblemOf(
  orders: Table<RowOf<typeof orderColumns>>,
  strains: BackStrains,
  steps: Steps,
  stock: Table<RowOf<typeof stockColumns>> | undefined,
  system: DateSystem,
): Omit<BackProblem, 'isWorkDay' | 'confidence'> {
  const wanted = ordersOf(orders, system);
  const names = new Map<string, number>();
  wanted.forEach(({ product }, index) => {
    if (!strains.has(product)) throw missing('orders, product', `"${product}" is not in strains`, index);
    const label = labelKey(product);
    if (!names.has(label)) names.set(label, names.size);
  });
  const planned = [...names.keys()].map((label) => {
    const strain = strains.find(label, 'orders, product');
    if (strain.best === undefined) throw missing('strains', `${strain.strain} has no days under best`);
    const best = Math.round(strain.best);
    return {
      strain: strain.strain,
      yieldPerBlock: yieldOf(strain, strain),
      curve: curveOf(label, strains, 'orders, product'),
      best,
      latest: Math.max(best, Math.floor(strain.latest ?? best)),
      steps: stepsOf(steps, strain.strain),
    };
  });
  return {
    strains: planned,
    orders: wanted.map(({ product, mass: amount, from, due }) => ({
      strain: names.get(labelKey(product))!,
      mass: amount,
      from: Math.floor(from),
      due: Math.floor(due),
    })),
    stock: (stock?.rows ?? []).flatMap(({ strain: name, step, units, ready, 'good until': until }, index) => {
      if (!strains.has(name)) throw missing('stock, strain', `"${name}" is not in strains`, index);
      const strain = names.get(labelKey(name));
      if (strain === undefined) return [];
      const at = planned[strain]!.steps.findIndex((one) => labelKey(one.step) === labelKey(step));
      if (at < 0) throw missing('stock, step', `"${step}" is not in steps`, index);
      return [{ strain, step: at, units, ready: Math.floor(ready), until: Math.floor(until ?? Infinity) }];
    }),
  };
}

/** The steps that hold for a strain: its own rows where it has some, else the rows without a strain. */
function stepsOf(steps: Steps, strain: string): GrowingStep[] {
  const own = steps.rows.some((row) => row.strain !== undefined && labelKey(row.strain) === labelKey(strain));
  const rows = steps.rows
    .map((row, index) => ({ row, index }))
    .filter(({ row }) =>
      own ? row.strain !== undefined && labelKey(row.strain) === labelKey(strain) : row.strain === undefined,
    );
  if (rows.length === 0) throw missing('steps', `no rows for ${strain}, and none for all strains`);
  return rows.map(({ row, index }, at) => {
    const last = at === rows.length - 1;
    if (!last && row.makes === undefined) {
      throw missing(
        'steps, makes',
        `the units of the next step that one unit of ${row.step} makes are needed`,
        index,
      );
    }
    return {
      step: row.step,
      makes: row.makes ?? 1,
      days: Math.round(row.days),
      loss: row.loss,
      storeDays: row['store days'],
      cadence: row.cadence,
    };
  });
}

/** The chance of enough good units that the settings ask for, if they do. */
export function confidenceOf(settings: Table<RowOf<typeof settingColumns>> | undefined): number | undefined {
  let confidence: number | undefined;
  (settings?.rows ?? []).forEach(({ name, value }, index) => {
    if (labelKey(name) !== 'confidence') throw invalid('settings, name', 'confidence', name, index);
    if (value === undefined || value === 'none') return;
    if (typeof value !== 'number' || value >= 1) {
      throw invalid('settings, value', 'a share below 100%', value, index);
    }
    confidence = value;
  });
  return confidence;
}
