import { setting, table } from '../cells/arguments';
import { serial } from '../cells/kinds';
import { amount, date, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { daysColumns, ripeLotColumns } from './tables';

export const READYLOTS = defineFunction({
  name: 'READYLOTS',
  family: 'ripening',
  arguments: [
    table(
      'lots',
      ripeLotColumns,
      'table: lot, strain, blocks, inoculated (or earliest, latest dates); loaded if wanted',
    ),
    table('strains', daysColumns, 'table with strain and its days to ready: earliest, best, latest'),
    setting('from', serial(), 'first day looked at'),
    setting('to', serial(), 'last day looked at'),
  ],
  result: tableResult({
    lot: label('the lot, and in the last rows what was left out'),
    strain: label(),
    blocks: amount('blocks not loaded yet'),
    inoculated: date(),
    ready: date('first day it may be opened'),
    best: date('day it is at its best'),
    latest: date('last day it may be opened'),
    age: amount('days from inoculation to the first day looked at'),
    state: label('ready, or comes ready within the days looked at; goes over age where it does within them'),
  }),
  needs: ['ripening'],
  whole: (lots, strains, fromSerial, toSerial, { dateSystem, tools: { ripening } }) =>
    ripening.readyRows(lots, strains, fromSerial, toSerial, dateSystem),
});
