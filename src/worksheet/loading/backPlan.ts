import { backPlan } from '../../maths/loading/backPlan';
import { optionalSetting, optionalTable, table } from '../cells/arguments';
import { serial } from '../cells/kinds';
import { tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { planTables } from './arguments';
import { backProblemOf } from './backProblem';
import { backColumns, backRows } from './backRows';
import { limitsOf } from './problem';
import { confidencesOf } from './settings';
import { backStrainColumns, orderColumns, settingColumns, stepColumns, stockColumns } from './tables';

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
  needsDateSystem: true,
  whole: (orders, strains, steps, stock, calendar, settings, today, { dateSystem }) => {
    const { leftOut, ...asked } = backProblemOf(orders, strains, steps, stock);
    const problem = {
      ...asked,
      ...confidencesOf(settings),
      limitsOn: limitsOf(calendar, dateSystem),
    };
    return backRows(problem, backPlan(problem), leftOut, { today, dateSystem });
  },
});
