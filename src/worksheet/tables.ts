import { MOST_FLUSHES } from '../maths/harvest/flushNumbers';
import {
  anything,
  count,
  days,
  efficiency,
  fraction,
  fractionAbove0,
  fractionBelowOne,
  mass,
  number,
  serial,
  temperature,
  text,
} from './cells/kinds';
import { key, numbered, optional, type TableColumns } from './cells/table';

/** The columns of the strains table; each function asks for those it needs. */
export const strainColumns = {
  strain: key(text('strain')),
  /** Days from inoculation until a block may be opened at the earliest, at its best, at the latest. */
  earliest: optional(days()),
  best: optional(days()),
  latest: optional(days()),
  /** Room temperature at which those days were seen. */
  'observed at': optional(temperature()),
  /** Cardinal temperatures of mycelial growth. */
  'min temp': optional(temperature()),
  'best temp': optional(temperature()),
  'max temp': optional(temperature()),
  /** Days from load to the first pick, length of a flush, and days from one flush's first pick to the next's. */
  'first pick': days(),
  'pick days': days(),
  'flush gap': optional(days()),
  flushes: optional(count(), 1),
  /** Share of the total yield in each flush. */
  flush: numbered(fraction()),
  /** Expected biological efficiency over all flushes. */
  efficiency: efficiency(),
  /** Share of blocks lost before picking. */
  loss: optional(fractionBelowOne(), 0),
} satisfies TableColumns;

/** The columns of a recipe. */
export const recipeColumns = {
  ingredient: key(text('ingredient')),
  /** Share of the dry mass. */
  share: fractionAbove0(),
  /** Water share as received. */
  moisture: fractionBelowOne(),
  /** Per unit mass as received. */
  cost: optional(number({ word: 'cost', from: 0 }), 0),
  carbon: optional(fraction()),
  nitrogen: optional(fraction()),
  protein: optional(fraction()),
  ash: optional(fraction()),
  /** Mass of a bag as bought. */
  pack: optional(mass()),
} satisfies TableColumns;

/** The columns of the harvests table: one row a weighing. */
export const harvestColumns = {
  lot: key(text('lot')),
  date: serial(),
  /** Fresh mass, in the unit of the block mass. */
  mass: mass(),
  flush: optional(number({ word: 'count', from: 1, to: MOST_FLUSHES, whole: true })),
} satisfies TableColumns;

/** The columns of the lots table as yields ask for them. */
export const croppedLotColumns = {
  lot: key(text('lot')),
  strain: text('strain'),
  blocks: count(),
  'block mass': mass(),
  moisture: fractionBelowOne(),
  /** Day the blocks were set on the shelf. */
  loaded: optional(serial()),
} satisfies TableColumns;

/** The harvests as an audit reads them: whatever the cells hold, since the audit is to say what is wrong with it. */
export const auditedHarvestColumns = {
  lot: anything(),
  date: anything(),
  mass: anything(),
  flush: optional(anything()),
  /** Blocks picked from. */
  blocks: optional(anything()),
} satisfies TableColumns;

export const auditedLotColumns = {
  lot: key(anything()),
  strain: anything(),
  blocks: optional(anything()),
  'block mass': optional(anything()),
  moisture: optional(anything()),
  inoculated: optional(anything()),
  loaded: optional(anything()),
  /** Mass of the lot as the grower summed it. */
  total: optional(anything()),
} satisfies TableColumns;

/** Some of a table's columns. */
export function only<C extends TableColumns, H extends keyof C>(columns: C, ...headers: H[]): Pick<C, H> {
  return Object.fromEntries(headers.map((header) => [header, columns[header]])) as Pick<C, H>;
}
