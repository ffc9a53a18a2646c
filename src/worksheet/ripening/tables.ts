import { key, only, optional, required, type RowOf } from '../cells/columns';
import { count, dayOrBlocks, orNone, serial, text } from '../cells/kinds';
import type { Table } from '../cells/table';
import { HEADERS } from '../alsoCalled';
import { strainColumns } from '../tables';

// The tables that the list and the calendar of ripe lots read.

export const ripeLotColumns = {
  lot: key(text(), 'name of the lot', ...HEADERS.lot),
  strain: required(text(), 'strain of the lot', ...HEADERS.strain),
  blocks: required(orNone(count()), 'number of blocks in the lot', ...HEADERS.blocks),
  inoculated: optional(serial(), 'day of inoculation', ...HEADERS.inoculated),
  earliest: optional(serial(), 'first day it may be opened, where it is not the strain’s'),
  best: optional(serial(), 'day it is at its best, where it is not the strain’s'),
  latest: optional(serial(), 'last day it may be opened, where it is not the strain’s'),
  loaded: optional(
    dayOrBlocks(),
    'day it was loaded, or number of blocks loaded so far',
    ...HEADERS.loadedSoFar,
  ),
};
export type RipeLot = RowOf<typeof ripeLotColumns>;
export type RipeLots = Table<RipeLot>;

export const daysColumns = only(strainColumns, 'strain', 'earliest', 'best', 'latest');
export type StrainDays = Table<RowOf<typeof daysColumns>>;

/** The calendar does not ask for the best day. */
export const calendarLotColumns = only(
  ripeLotColumns,
  'lot',
  'strain',
  'blocks',
  'inoculated',
  'earliest',
  'latest',
  'loaded',
);
export type CalendarLot = RowOf<typeof calendarLotColumns>;
export type CalendarLots = Table<CalendarLot>;

export const calendarDaysColumns = only(strainColumns, 'strain', 'earliest', 'latest');
export type CalendarDays = Table<RowOf<typeof calendarDaysColumns>>;

export const calendarLoadColumns = {
  loaded: key(serial(), 'day the blocks were set on the shelf', ...HEADERS.loaded),
  blocks: required(count(), 'number of blocks loaded', ...HEADERS.blocks),
  lot: optional(text(), 'lot they were taken from', ...HEADERS.lot),
  strain: optional(text(), 'strain they were taken from, where no lot is named', ...HEADERS.strain),
};
export type CalendarLoads = Table<RowOf<typeof calendarLoadColumns>>;
