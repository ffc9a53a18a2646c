import { optionalTable, table } from '../cells/arguments';
import { lotColumns, roomColumns, standingColumns } from './farmTables';
import { calendarColumns, orderColumns, settingColumns } from './orderTables';
import { pickColumns, planStrainColumns } from './strainTables';

// Tables that several functions of the family ask for.

export const pickStrains = table(
  'strains',
  pickColumns,
  'table with first pick, pick days, flush gap, flush 1…',
);

export const planTables = {
  lots: table(
    'lots',
    lotColumns,
    'table: lot, strain, blocks, block mass, moisture, inoculated; loaded for what is opened',
  ),
  strains: table(
    'strains',
    planStrainColumns,
    'table with earliest, best, latest, first pick, pick days, efficiency',
  ),
  rooms: table(
    'rooms',
    roomColumns,
    'table with room, shelves, blocks per shelf; closed from, closed to, strains',
  ),
  orders: table('orders', orderColumns, 'table with product, mass, due; from or keep days, price'),
  calendar: optionalTable(
    'calendar',
    calendarColumns,
    'table with day, pick limit, load limit; off is no work',
  ),
  standing: optionalTable(
    'standing',
    standingColumns,
    'what is on the shelves now: room, strain, loaded, blocks …',
  ),
  settings: optionalTable(
    'settings',
    settingColumns,
    'table with name and value: margin, comfort days, freeze days …',
  ),
};
