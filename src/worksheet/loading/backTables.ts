import { key, only, optional, optionalOr, required, type TableColumns } from '../cells/columns';
import { count, days, loss as lossShare, number, orNone, serial, text } from '../cells/kinds';
import { HEADERS } from '../alsoCalled';
import { croppedLotColumns, strainColumns } from '../tables';
import { yieldColumns, planStrainColumns } from './strainTables';

// What BACKPLAN reads besides: what blocks are made of, the steps up to them, and what is in stock.

/** The strains with what a block of each is made of. */
export const backStrainColumns = {
  ...yieldColumns,
  ...only(strainColumns, 'best', 'latest'),
  product: planStrainColumns.product,
  'block mass': croppedLotColumns['block mass'],
  moisture: croppedLotColumns.moisture,
} satisfies TableColumns;

/** From the mother culture down to the block, as SPAWNCHAIN reads it, with what a calendar needs besides. */
export const stepColumns = {
  step: key(text(), 'name of the step, from the mother culture down to the block', 'stage', 'generation'),
  makes: optional(
    number({ above: 0 }),
    'units of the next step that one unit makes; not used for the last step',
    'expansion',
    'multiplies by',
  ),
  days: required(
    orNone(days({ above: 0, to: 1000 })),
    'days from start to ready, none for a step of no time; the block has its strain’s best',
    'days to ready',
    'run days',
    'incubation days',
  ),
  loss: optionalOr(
    lossShare(),
    0,
    'share of the units lost; 0 if left out',
    ...strainColumns.loss.alsoCalled,
  ),
  'store days': optional(
    days(),
    'days a ready unit may wait; without limit if blank',
    'keeps',
    'storage days',
    'shelf life',
  ),
  cadence: optional(
    count(),
    'days from one start to the next, one batch serving all until then; if blank, each day’s need is started by itself',
  ),
  strain: optional(
    text(),
    'strain the row is for; all without rows of their own if blank',
    ...HEADERS.strain,
  ),
} satisfies TableColumns;

export const stockColumns = {
  units: key(
    count(),
    'number of good units',
    'qty',
    'quantity',
    'on hand',
    'in stock',
    'good units',
    'blocks',
  ),
  strain: required(text(), 'strain of the units, as in strains', ...HEADERS.strain),
  step: required(text(), 'step of the units, as in steps', 'stage', 'generation'),
  ready: required(serial(), 'day the units are ready', 'ready date'),
  'good until': optional(
    serial(),
    'last day they may be used; no end if blank',
    'use by',
    'expires',
    'expiry',
    'expiry date',
    'best before',
  ),
} satisfies TableColumns;
