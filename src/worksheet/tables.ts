import { MOST_FLUSHES } from '../maths/harvest/flushTimes';
import { key, numbered, optional, optionalOr, required, type TableColumns } from './cells/columns';
import {
  anything,
  anythingOf,
  count,
  dayOrBlocks,
  days,
  efficiency,
  fraction,
  fractionBelowOne,
  loss,
  mass,
  moisture,
  number,
  orNone,
  price,
  serial,
  temperature,
  text,
} from './cells/kinds';

// The columns of the tables that several functions read; each function asks for those it needs.

const LOT_HEADERS = [
  'lot no',
  'lot number',
  'lot id',
  'lot code',
  'batch',
  'batch no',
  'batch number',
  'batch id',
  'id',
];
const STRAIN_HEADERS = ['strain no', 'strain name', 'strain id', 'variety', 'culture', 'species'];
const BLOCKS_HEADERS = [
  'qty',
  'quantity',
  'count',
  'bags',
  'no of blocks',
  'no of bags',
  'number of blocks',
  'block count',
  'bag count',
  'block qty',
  'bag qty',
  'total blocks',
  'total bags',
  'blocks made',
  'bags made',
  'how many',
];
const BLOCK_MASS_HEADERS = [
  'block weight',
  'block wt',
  'bag weight',
  'bag wt',
  'bag mass',
  'wt per block',
  'weight per block',
  'block size',
  'bag size',
  'kg per block',
  'kg per bag',
  'lb per block',
  'lb per bag',
];
const MOISTURE_HEADERS = ['moist', 'moisture content', 'mc', 'water content', 'block moisture'];
const INOCULATED_HEADERS = [
  'date inoculated',
  'date inoc',
  'inoc date',
  'inoc',
  'inoculation date',
  'spawned',
  'spawn date',
  'date spawned',
];
const LOADED_HEADERS = ['date loaded', 'load date', 'opened', 'date opened', 'to fruiting', 'fruiting date'];

export const strainColumns = {
  strain: key(text(), 'name of the strain, as your lots call it', ...STRAIN_HEADERS),
  earliest: optional(
    days(),
    'days from inoculation until a block may be opened',
    'min days',
    'earliest days',
  ),
  best: optional(
    days(),
    'days from inoculation until a block is at its best',
    'best days',
    'best day',
    'days to ready',
    'incubation days',
  ),
  latest: optional(days(), 'days from inoculation after which a block is too old', 'max days', 'latest days'),
  'observed at': optional(temperature(), 'room temperature at which those days were seen', 'room temp'),
  'min temp': optional(temperature(), 'temperature at and below which the mycelium does not grow'),
  'best temp': optional(temperature(), 'temperature at which the mycelium grows fastest'),
  'max temp': optional(temperature(), 'temperature at and above which the mycelium does not grow'),
  'first pick': required(days(), 'days from loading to the first pick', 'days to first pick', 'days to pick'),
  'pick days': required(days(), 'days that the picking of one flush takes', 'picking days', 'flush length'),
  'flush gap': optional(
    days(),
    'days from the first pick of one flush to the first pick of the next',
    'days between flushes',
  ),
  flushes: optionalOr(
    count(),
    1,
    'number of flushes the blocks are kept for; 1 if left out',
    'no of flushes',
  ),
  flush: numbered(fraction(), 'share of the total yield that each flush gives'),
  efficiency: required(
    efficiency(),
    'biological efficiency to expect over all flushes',
    'biological efficiency',
    'bio efficiency',
    'be',
  ),
  loss: optionalOr(
    loss(),
    0,
    'share of the blocks lost before picking; 0 if left out',
    'losses',
    'loss rate',
  ),
} satisfies TableColumns;

export const recipeColumns = {
  ingredient: key(text(), 'name of the ingredient', 'material', 'item', 'component'),
  share: required(fraction(), 'share of the dry mass', 'dry share', 'proportion', 'ratio', 'percent'),
  moisture: required(orNone(fractionBelowOne()), 'water share as received', ...MOISTURE_HEADERS),
  cost: required(price(), 'price of a unit of mass as received', 'price', 'unit cost'),
  carbon: optional(orNone(fraction()), 'carbon in the dry mass', 'c'),
  nitrogen: optional(orNone(fraction()), 'nitrogen in the dry mass', 'n'),
  protein: optional(orNone(fraction()), 'crude protein in the dry mass', 'crude protein'),
  pack: optional(mass(), 'mass of a bag as bought', 'pack size', 'bag size'),
} satisfies TableColumns;

/** One row a weighing. */
export const harvestColumns = {
  lot: key(text(), 'lot that was picked', ...LOT_HEADERS),
  date: required(serial(), 'day of the pick', 'pick date', 'picked', 'date picked', 'harvest date', 'day'),
  mass: required(
    orNone(mass()),
    'fresh mass, in the unit of the block mass; none for a crop that failed',
    'weight',
    'net weight',
    'net',
    'kg',
    'lb',
    'lbs',
    'picked weight',
    'yield',
  ),
  flush: optional(
    number({ from: 1, to: MOST_FLUSHES, whole: true }),
    'which flush, counted from 1',
    'flush no',
    'flush number',
    'break',
  ),
} satisfies TableColumns;

/** The lots as yields ask for them. */
export const croppedLotColumns = {
  lot: key(text(), 'name of the lot, once', ...LOT_HEADERS),
  strain: required(text(), 'strain of the lot', ...STRAIN_HEADERS),
  blocks: required(count(), 'number of blocks in the lot', ...BLOCKS_HEADERS),
  'block mass': required(mass(), 'wet mass of one block', ...BLOCK_MASS_HEADERS),
  moisture: required(moisture(), 'water share of the wet block', ...MOISTURE_HEADERS),
  loaded: optional(
    dayOrBlocks(),
    'day it was loaded, or number of blocks loaded so far: the picks are then of these',
    ...LOADED_HEADERS,
  ),
} satisfies TableColumns;

/** The harvests as an audit reads them: whatever the cells hold, since the audit is to say what is wrong with it. */
export const auditedHarvestColumns = {
  lot: required(anything(), 'lot that was picked', ...LOT_HEADERS),
  date: required(anything(), 'day of the pick', ...harvestColumns.date.alsoCalled),
  mass: required(
    anythingOf('mass'),
    'fresh mass; none for a crop that failed',
    ...harvestColumns.mass.alsoCalled,
  ),
  flush: optional(anything(), 'which flush, counted from 1', ...harvestColumns.flush.alsoCalled),
  blocks: optional(anything(), 'number of blocks picked from'),
  picker: optional(anything(), 'who picked or weighed', 'picked by', 'weighed by', 'worker', 'name'),
  scale: optional(anything(), 'scale it was weighed on', 'scales'),
  grade: optional(anything(), 'grade of the mushrooms, where each has a row', 'quality', 'class'),
  crate: optional(anything(), 'kind of crate it was weighed in', 'tray', 'box'),
} satisfies TableColumns;

export const auditedLotColumns = {
  lot: key(anything(), 'name of the lot, once', ...LOT_HEADERS),
  strain: required(anything(), 'strain of the lot', ...STRAIN_HEADERS),
  blocks: optional(anything(), 'number of blocks in the lot', ...BLOCKS_HEADERS),
  'block mass': optional(anythingOf('mass'), 'wet mass of one block', ...BLOCK_MASS_HEADERS),
  moisture: optional(anythingOf('share'), 'water share of the wet block', ...MOISTURE_HEADERS),
  inoculated: optional(anything(), 'day of inoculation', ...INOCULATED_HEADERS),
  loaded: optional(anything(), 'day it was loaded, or number of blocks loaded so far', ...LOADED_HEADERS),
  total: optional(anythingOf('mass'), 'fresh mass of the lot as you summed it'),
} satisfies TableColumns;

/** Other headers that several tables use for the same thing. */
export const HEADERS = {
  lot: LOT_HEADERS,
  strain: STRAIN_HEADERS,
  blocks: BLOCKS_HEADERS,
  blockMass: BLOCK_MASS_HEADERS,
  moisture: MOISTURE_HEADERS,
  loaded: LOADED_HEADERS,
  inoculated: INOCULATED_HEADERS,
} as const;
