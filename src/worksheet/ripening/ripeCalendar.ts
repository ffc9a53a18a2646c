import { optionalSetting, optionalTable, setting, table } from '../cells/arguments';
import { choice, serial, text } from '../cells/kinds';
import { amount, date, label, sometimes, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { calendarLoadColumns, calendarLotColumns, calendarDaysColumns } from './tables';

export const RIPECALENDAR = defineFunction({
  name: 'RIPECALENDAR',
  family: 'ripening',
  arguments: [
    table(
      'lots',
      calendarLotColumns,
      'table with lot, strain, blocks, inoculated (or earliest, latest dates); loaded if wanted',
    ),
    table('strains', calendarDaysColumns, 'table with strain and its days to ready: earliest, latest'),
    setting('from', serial(), 'first day shown'),
    setting('to', serial(), 'last day shown'),
    optionalSetting(
      'step',
      choice({ day: 'a row for each day', week: 'a row for each seven days' }),
      'day',
      'day or week; day if left out',
    ),
    optionalTable('loads', calendarLoadColumns, 'table with loaded (date), blocks, and lot or strain'),
    optionalSetting('strain', text(), undefined, 'the strain shown; every strain if left out'),
  ],
  result: tableResult({
    date: date('first day of the step'),
    strain: label(),
    'coming ready': amount('blocks that reach their earliest date'),
    loaded: amount('blocks set on the shelf'),
    'going over age': amount('blocks not loaded by the end of their latest date'),
    'in hand': amount('blocks ready and not loaded at the end of the step'),
    'loaded over age': sometimes(amount('blocks loaded after their latest date, where there are any')),
  }),
  needs: ['ripening'],
  whole: (lots, strains, fromSerial, toSerial, step, loads, oneStrain, { tools: { ripening } }) =>
    ripening.calendarRows(
      lots,
      strains,
      { fromSerial, toSerial, stepDays: step === 'week' ? 7 : 1 },
      loads,
      oneStrain,
    ),
});
