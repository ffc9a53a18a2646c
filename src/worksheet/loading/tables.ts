import { key, only, optional, optionalOr, required, type TableColumns } from '../cells/columns';
import {
  count,
  dayOrBlocks,
  days,
  fraction,
  moisture as blockMoisture,
  loss as lossShare,
  mass,
  number,
  orNone,
  orZero,
  price,
  serial,
  text,
} from '../cells/kinds';
import { croppedLotColumns, HEADERS, strainColumns } from '../tables';
import { blockCount, dayLimit, MOST, planMass, settingValue, weekdayOrDate } from './kinds';

// The columns of the tables that loading reads.

/** When a strain's blocks are picked. */
export const pickColumns = {
  ...only(strainColumns, 'strain', 'first pick', 'pick days', 'flush gap', 'flush'),
  flushes: optional(
    count(),
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
  product: optional(
    text(),
    'what its mushrooms are sold as; the strain if blank',
    'sold as',
    'product name',
    'sold under',
  ),
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

/** The strains with what a block of each is made of. */
export const backStrainColumns = {
  ...yieldColumns,
  ...only(strainColumns, 'best', 'latest'),
  product: planStrainColumns.product,
  'block mass': croppedLotColumns['block mass'],
  moisture: croppedLotColumns.moisture,
} satisfies TableColumns;

/** Blocks on the shelves, or to be set there: one row per load. */
export const loadColumns = {
  loaded: key(serial(), 'day the blocks were, or are to be, set on the shelf', ...HEADERS.loaded),
  strain: required(text(), 'strain of the blocks, as in strains', ...HEADERS.strain),
  blocks: required(count(), 'number of blocks in the load', ...HEADERS.blocks),
  'block mass': required(mass(), 'wet mass of one block', ...HEADERS.blockMass),
  moisture: required(blockMoisture(), 'water share of the wet block', ...HEADERS.moisture),
  product: optional(
    text(),
    'what the mushrooms are sold as; the strain if blank',
    'sold as',
    'product name',
    'sold under',
  ),
  room: optional(text(), 'room the load is in', 'location', 'grow room', 'fruiting room', 'tent', 'chamber'),
} satisfies TableColumns;

export const roomColumns = {
  room: key(
    text(),
    'name of the room',
    'room name',
    'location',
    'grow room',
    'fruiting room',
    'tent',
    'chamber',
  ),
  shelves: required(count(), 'number of shelves', 'no of shelves', 'shelf count', 'racks', 'levels'),
  'blocks per shelf': required(
    count(),
    'blocks that one shelf holds',
    'per shelf',
    'blocks per rack',
    'bags per shelf',
    'pieces per shelf',
    'shelf capacity',
    'capacity per shelf',
    'places per shelf',
  ),
  'closed from': optional(
    serial(),
    'first day the room is shut; if blank, it is shut up to closed to',
    'shut from',
    'closed since',
    'closed start',
  ),
  'closed to': optional(
    serial(),
    'last day the room is shut; if blank, it is shut from closed from on',
    'shut to',
    'closed until',
    'closed till',
    'closed end',
  ),
  strains: optional(
    text(),
    'strains it may hold, with commas between; any if blank',
    'strains allowed',
    'only strains',
  ),
} satisfies TableColumns;

/** Lots, and what was opened of them. Ripe days come from the strain and the inoculation, or from dates of the lot's own. */
export const lotColumns = {
  lot: key(text(), 'name of the lot, once', ...HEADERS.lot),
  strain: required(text(), 'strain of the lot, as in strains', ...HEADERS.strain),
  blocks: required(blockCount(), 'number of blocks in the lot', ...HEADERS.blocks),
  'block mass': required(planMass(), 'wet mass of one block', ...HEADERS.blockMass),
  moisture: required(blockMoisture(), 'water share of the wet block', ...HEADERS.moisture),
  inoculated: optional(
    serial(),
    'day of inoculation; needed unless the lot has earliest, best and latest',
    ...HEADERS.inoculated,
  ),
  earliest: optional(serial(), 'first day the lot may be opened; from its strain’s days if blank'),
  best: optional(serial(), 'best day to open the lot; from its strain’s days if blank'),
  latest: optional(serial(), 'last day the lot may be opened; from its strain’s days if blank'),
  'not ripe on': optional(
    serial(),
    'last day it was looked at and was not ripe: its days move on to the day after',
    'not ready on',
    'looked at',
    'checked not ripe',
  ),
  loaded: optional(
    dayOrBlocks(),
    'day it was loaded, or number of blocks loaded so far: they are not opened again',
    ...HEADERS.loaded,
  ),
  product: optional(
    text(),
    'what its mushrooms are sold as; its strain’s product if blank',
    'sold as',
    'product name',
    'sold under',
  ),
  'not before': optional(serial(), 'day before which you do not want it opened'),
  'not after': optional(serial(), 'day after which you do not want it opened'),
  cost: optionalOr(price(MOST), 0, 'cost of loading one block; 0 if left out'),
} satisfies TableColumns;

export const orderColumns = {
  product: key(
    text(),
    'a product, a strain, or any for whatever is picked',
    'item',
    'ordered',
    'product name',
    'mushroom',
    'strain',
    'variety',
    'species',
  ),
  mass: required(
    planMass(),
    'fresh mass ordered',
    'weight',
    'quantity',
    'kg',
    'kgs',
    'kilos',
    'lb',
    'lbs',
    'pounds',
    'qty ordered',
    'order qty',
    'weight ordered',
    'order weight',
  ),
  due: required(
    serial(),
    'last day whose picking can fill the order',
    'due date',
    'due by',
    'delivery',
    'delivery date',
    'deliver by',
    'deliver on',
    'ship date',
    'needed by',
    'wanted by',
    'required by',
  ),
  from: optional(
    serial(),
    'first day whose picking can fill it; the seven days up to due if blank',
    'from date',
    'pick from',
    'earliest',
    'not before',
  ),
  'keep days': optional(
    days({ above: 0, to: 366 }),
    'days that a picking keeps, where from is blank',
    'keeps',
    'keeps days',
    'shelf life',
  ),
  given: optionalOr(
    orZero(planMass()),
    0,
    'fresh mass it has already, from the cold store or delivered; 0 if left out',
    'in store',
    'in stock',
    'on hand',
    'delivered',
  ),
  price: optionalOr(
    number({ above: 0, to: MOST }),
    1,
    'price of a unit of mass; 1 if left out',
    'unit price',
    'price per kg',
    'price per lb',
  ),
} satisfies TableColumns;

export const calendarColumns = {
  day: key(
    weekdayOrDate(),
    'a date, a day of the week, weekend, work days or every day: the first of these that fits counts',
    'date',
    'weekday',
    'day of week',
  ),
  'pick limit': required(
    dayLimit('mass'),
    'fresh mass that can be picked on that day',
    'max pick',
    'pick capacity',
    'harvest limit',
    'max harvest',
    'harvest capacity',
  ),
  'load limit': required(
    dayLimit('count'),
    'blocks that can be loaded on that day',
    'max load',
    'load capacity',
    'max blocks',
    'blocks per day',
  ),
} satisfies TableColumns;

export const standingColumns = {
  loaded: key(serial(), 'day the blocks were set on the shelf', ...HEADERS.loaded),
  room: required(
    text(),
    'room they are in, as in rooms',
    'location',
    'grow room',
    'fruiting room',
    'tent',
    'chamber',
  ),
  blocks: required(blockCount(), 'number of blocks in the load', ...HEADERS.blocks),
  lot: optional(
    text(),
    'lot they are from: its strain, block mass and moisture count, and the blocks are taken off it',
    ...HEADERS.lot,
  ),
  strain: optional(text(), 'strain of the blocks, as in strains; its lot’s if blank', ...HEADERS.strain),
  'block mass': optional(planMass(), 'wet mass of one block; its lot’s if blank', ...HEADERS.blockMass),
  moisture: optional(
    blockMoisture(),
    'water share of the wet block; its lot’s if blank',
    ...HEADERS.moisture,
  ),
  product: optional(
    text(),
    'what the mushrooms are sold as; the strain if blank',
    'sold as',
    'product name',
    'sold under',
  ),
  'first picked': optional(
    serial(),
    'day of its first pick, once it is known: later flushes move with it',
    'first pick',
    'first harvest',
  ),
  picked: optional(
    orNone(planMass()),
    'mass picked of it before the start, none for nothing yet: what is to come is corrected by it',
    'picked so far',
    'harvested so far',
    'harvested',
    'picked weight',
  ),
} satisfies TableColumns;

/** Loads of a plan, as LOADPLAN lists them. */
export const planColumns = {
  loaded: key(serial(), 'day the blocks are to be loaded', ...HEADERS.loaded),
  lot: required(text(), 'lot they are taken from', ...HEADERS.lot),
  room: required(text(), 'room they go into', 'location', 'grow room', 'fruiting room', 'tent', 'chamber'),
  blocks: required(blockCount(), 'number of blocks in the load', ...HEADERS.blocks),
} satisfies TableColumns;

export const settingColumns = {
  name: key(text(), 'name of the setting', 'setting', 'option'),
  value: required(settingValue(), 'its value; none for 0. Leave the row out for the usual one'),
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
