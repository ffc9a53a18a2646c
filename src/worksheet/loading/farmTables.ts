import { key, optional, optionalOr, required, type TableColumns } from '../cells/columns';
import {
  count,
  dayOrBlocks,
  moisture as blockMoisture,
  mass,
  orNone,
  price,
  serial,
  text,
} from '../cells/kinds';
import { HEADERS } from '../alsoCalled';
import { blockCount, MOST, planMass } from './kinds';

// Rooms, lots, and the loads that are in the rooms or are to be.

export const roomColumns = {
  room: key(text(), 'name of the room', 'room name', ...HEADERS.room),
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
    ...HEADERS.loadedSoFar,
  ),
  product: optional(
    text(),
    'what its mushrooms are sold as; its strain’s product if blank',
    ...HEADERS.product,
  ),
  'not before': optional(serial(), 'day before which you do not want it opened'),
  'not after': optional(serial(), 'day after which you do not want it opened'),
  cost: optionalOr(price(MOST), 0, 'cost of loading one block; 0 if left out'),
} satisfies TableColumns;

/** Blocks on the shelves, or to be set there: one row per load. */
export const loadColumns = {
  loaded: key(serial(), 'day the blocks were, or are to be, set on the shelf', ...HEADERS.loaded),
  strain: required(text(), 'strain of the blocks, as in strains', ...HEADERS.strain),
  blocks: required(count(), 'number of blocks in the load', ...HEADERS.blocks),
  'block mass': required(mass(), 'wet mass of one block', ...HEADERS.blockMass),
  moisture: required(blockMoisture(), 'water share of the wet block', ...HEADERS.moisture),
  product: optional(text(), 'what the mushrooms are sold as; the strain if blank', ...HEADERS.product),
  room: optional(text(), 'room the load is in', ...HEADERS.room),
} satisfies TableColumns;

export const standingColumns = {
  loaded: key(serial(), 'day the blocks were set on the shelf', ...HEADERS.loaded),
  room: required(text(), 'room they are in, as in rooms', ...HEADERS.room),
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
  product: optional(text(), 'what the mushrooms are sold as; the strain if blank', ...HEADERS.product),
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
  room: required(text(), 'room they go into', ...HEADERS.room),
  blocks: required(blockCount(), 'number of blocks in the load', ...HEADERS.blocks),
} satisfies TableColumns;
