import { key, optional, required, type TableColumns } from '../cells/columns';
import { anything, anythingOf } from '../cells/kinds';
import { HEADERS } from '../alsoCalled';
import { harvestColumns } from '../tables';

/** The harvests as an audit reads them: whatever the cells hold, since the audit is to say what is wrong with it. */
export const auditedHarvestColumns = {
  lot: required(anything(), 'lot that was picked', ...HEADERS.lot),
  date: required(anything(), 'day of the pick', ...harvestColumns.date.alsoCalled),
  mass: required(
    anythingOf('mass'),
    'fresh mass; none for a crop that failed',
    ...harvestColumns.mass.alsoCalled,
  ),
  tare: optional(anythingOf('mass'), 'what was taken off the mass typed, where mass is what is left'),
  flush: optional(anything(), 'which flush, counted from 1', ...harvestColumns.flush.alsoCalled),
  blocks: optional(anything(), 'number of blocks picked from'),
  picker: optional(
    anything(),
    'who picked or weighed',
    'picked by',
    'weighed by',
    'harvested by',
    'worker',
    'staff',
    'who',
    'initials',
    'name',
  ),
  scale: optional(anything(), 'scale it was weighed on', 'scales'),
  grade: optional(anything(), 'grade of the mushrooms, where each has a row', 'quality', 'class'),
  crate: optional(anything(), 'kind of crate it was weighed in', 'tray', 'box', 'tub', 'tote'),
} satisfies TableColumns;

export const auditedLotColumns = {
  lot: key(anything(), 'name of the lot, once', ...HEADERS.lot),
  strain: required(anything(), 'strain of the lot', ...HEADERS.strain),
  blocks: optional(anything(), 'number of blocks in the lot', ...HEADERS.blocks),
  'block mass': optional(anythingOf('mass'), 'wet mass of one block', ...HEADERS.blockMass),
  moisture: optional(anythingOf('share'), 'water share of the wet block', ...HEADERS.moisture),
  inoculated: optional(anything(), 'day of inoculation', ...HEADERS.inoculated),
  loaded: optional(
    anything(),
    'day it was loaded, or number of blocks loaded so far',
    ...HEADERS.loadedSoFar,
  ),
  total: optional(
    anythingOf('mass'),
    'fresh mass of the lot as you summed it',
    'total yield',
    'total picked',
    'total harvest',
    'total mass',
    'lot total',
  ),
} satisfies TableColumns;
