import { optionalSetting, optionalTable, table } from '../cells/arguments';
import { serial } from '../cells/kinds';
import { amount, date, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { planTables } from './arguments';
import { backStrainColumns, stepColumns, stockColumns } from './backTables';
import { orderColumns, settingColumns } from './orderTables';

export const backColumns = {
  date: date(),
  task: label(
    'start, use stock or load; order short, cannot start or order left out where the list cannot be kept',
  ),
  step: label(),
  strain: label(),
  units: amount('to start, to take from stock, or to load'),
  good: amount('of them, to come out good'),
  'from stock': amount('taken from stock as well'),
  ready: date(),
  note: label(),
};

export const BACKPLAN = defineFunction({
  name: 'BACKPLAN',
  family: 'loading',
  arguments: [
    table('orders', orderColumns, 'table with product or strain, mass, due; from or keep days'),
    table(
      'strains',
      backStrainColumns,
      'strains table with block mass and moisture of its blocks; product, where orders name that',
    ),
    table(
      'steps',
      stepColumns,
      'from mother culture to block: step, makes, days, loss; store days, cadence, strain',
    ),
    optionalTable('stock', stockColumns, 'good units there are: strain, step, units, ready, good until'),
    planTables.calendar,
    optionalTable('settings', settingColumns, 'table with name and value: confidence, chain confidence'),
    optionalSetting(
      'today',
      serial(),
      undefined,
      'date after which tasks are not overdue; none is marked if left out',
    ),
  ],
  result: tableResult(backColumns),
  needs: ['planning'],
  needsDateSystem: true,
  whole: (orders, strains, steps, stock, calendar, settings, today, { dateSystem, tools: { planning } }) => {
    const { leftOut, ...asked } = planning.backProblemOf(orders, strains, steps, stock);
    const problem = {
      ...asked,
      ...planning.confidencesOf(settings),
      limitsOn: planning.limitsOf(calendar, dateSystem),
    };
    return planning.backRows(problem, planning.backPlan(problem), leftOut, { today, dateSystem });
  },
});
