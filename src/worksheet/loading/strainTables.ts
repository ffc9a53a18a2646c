import { MOST_FLUSHES } from '../../maths/harvest/flushTimes';
import { only, optional, type TableColumns } from '../cells/columns';
import { count, days, fraction, orZero, text } from '../cells/kinds';
import { HEADERS } from '../alsoCalled';
import { strainColumns } from '../tables';

// What the loading family reads of strains.

/** When a strain's blocks are picked. */
export const pickColumns = {
  ...only(strainColumns, 'strain', 'first pick', 'pick days', 'flush gap', 'flush'),
  flushes: optional(
    count(1, MOST_FLUSHES),
    'number of flushes the blocks are kept for; left out, up to the last with a share',
    ...strainColumns.flushes.alsoCalled,
  ),
} satisfies TableColumns;

/** The same with how much. */
export const yieldColumns = {
  ...pickColumns,
  ...only(strainColumns, 'efficiency', 'loss'),
} satisfies TableColumns;

/** The same with when blocks may be opened. */
export const planStrainColumns = {
  ...yieldColumns,
  ...only(strainColumns, 'earliest', 'best', 'latest'),
  product: optional(text(), 'what its mushrooms are sold as; the strain if blank', ...HEADERS.product),
  'yield spread': optional(
    orZero(fraction()),
    'standard deviation of a load’s yield, as a share of its mean; certain if blank',
  ),
  'pick spread': optional(
    orZero(days({ from: 0, to: 60 })),
    'standard deviation, in days, of the day of a flush; certain if blank',
  ),
  'ready spread': optional(
    orZero(days({ from: 0, to: 60 })),
    'standard deviation, in days, of the day a lot is ripe; certain if blank',
  ),
} satisfies TableColumns;
