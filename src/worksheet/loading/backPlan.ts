import { backPlan } from '../../maths/loading/backPlan';
import { optionalSetting, optionalTable, table } from '../cells/arguments';
import { serial } from '../cells/kinds';
import { amount, date, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { planTables } from './arguments';
import { backProblemOf } from './backProblem';
import { limitsOf } from './problem';
import { confidenceOf } from './settings';
import { backStrainColumns, orderColumns, settingColumns, stepColumns, stockColumns } from './tables';

export const BACKPLAN = defineFunction({
  name: 'BACKPLAN',
  family: 'loading',
  arguments: [
    table('orders', orderColumns, 'table with product (a strain), mass, due; from or keep days'),
    table(
      'strains',
      backStrainColumns,
      'strains table with block mass and moisture: what a block of it is made of',
    ),
    table(
      'steps',
      stepColumns,
      'from mother culture to block: step, makes, days, loss; store days, cadence, strain',
    ),
    optionalTable('stock', stockColumns, 'good units there are: strain, step, units, ready, good until'),
    planTables.calendar,
    optionalTable('settings', settingColumns, 'table with name and value: confidence'),
    optionalSetting(
      'today',
      serial(),
      undefined,
      'date after which tasks are not overdue; none is marked if left out',
    ),
  ],
  result: tableResult({
    date: date(),
    task: label('start, use stock or load'),
    step: label(),
    strain: label(),
    units: amount('to start, to take from stock, or to load'),
    good: amount('of them, to come out good'),
    'from stock': amount('taken from stock as well'),
    ready: date(),
    note: label(),
  }),
  needsDateSystem: true,
  whole: (orders, strains, steps, stock, calendar, settings, today, { dateSystem }) => {
    const confidence = confidenceOf(settings);
    const limits = limitsOf(calendar, dateSystem);
    const problem = backProblemOf(orders, strains, steps, stock);
    return backPlan({ ...problem, confidence, isWorkDay: (day) => limits(day).load > 0 }).map((task) => {
      const strain = problem.strains[task.strain]!;
      const late = today === undefined ? 0 : Math.floor(today) - task.day;
      return {
        date: task.day,
        task: task.task === 'use' ? 'use stock' : task.task,
        step: strain.steps[task.step]!.step,
        strain: strain.strain,
        units: task.units,
        good: task.good,
        'from stock': task.fromStock,
        ready: task.ready,
        note: late > 0 ? `overdue by ${late} ${late === 1 ? 'day' : 'days'}` : '',
      };
    });
  },
});
