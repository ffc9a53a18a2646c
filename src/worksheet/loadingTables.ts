import { expectedYieldPerBlock } from '../maths/harvest/expectedYield';
import { pickCurve, type PickCurve } from '../maths/loading/pickCurve';
import type { Room } from '../maths/loading/shelfUse';
import { count, fractionBelowOne, mass, serial, text } from './cells/kinds';
import { key, optional, type RowOf, type TableColumns, type Table } from './cells/table';
import { only, strainColumns } from './tables';

/** What the strains table must tell to know when and how much a strain's blocks are picked. */
export const pickColumns = {
  ...only(strainColumns, 'strain', 'first pick', 'pick days', 'flush gap', 'flush'),
  /** Left out, the flush shares that are filled in say how many. */
  flushes: optional(count()),
} satisfies TableColumns;

/** The same with how much. */
export const yieldColumns = {
  ...pickColumns,
  ...only(strainColumns, 'efficiency', 'loss'),
} satisfies TableColumns;

/** Blocks on the shelves, or to be set there: one row per load. */
export const loadColumns = {
  loaded: key(serial()),
  strain: text('strain'),
  blocks: count(),
  'block mass': mass(),
  moisture: fractionBelowOne(),
  product: optional(text('product')),
  room: optional(text('room')),
} satisfies TableColumns;

export const roomColumns = {
  room: key(text('room')),
  shelves: count(),
  'blocks per shelf': count(),
  /** First and last day the room is shut. */
  'closed from': optional(serial()),
  'closed to': optional(serial()),
  /** The strains it may hold, commas between them; any if blank. */
  strains: optional(text('strains')),
} satisfies TableColumns;

/** The pick curve of a strain, looked up in the strains table. */
export function curveOf(
  strain: string,
  strains: Table<RowOf<typeof pickColumns>>,
  argument: string,
): PickCurve {
  const row = strains.find(strain, argument);
  return pickCurve({
    strain: row.strain,
    firstPick: row['first pick'],
    pickDays: row['pick days'],
    flushGap: row['flush gap'],
    flushes: row.flushes,
    shares: row.flush,
  });
}

/** Fresh mass a block of this make is expected to give over all flushes. */
export function yieldOf(
  block: { readonly 'block mass': number; readonly moisture: number },
  strain: RowOf<typeof yieldColumns>,
): number {
  return expectedYieldPerBlock({
    blockMass: block['block mass'],
    moisture: block.moisture,
    efficiency: strain.efficiency,
    loss: strain.loss,
    share: 1,
  });
}

/** A row of the rooms table as places. */
export function roomOf(
  row: RowOf<Pick<typeof roomColumns, 'room' | 'shelves' | 'blocks per shelf' | 'closed from' | 'closed to'>>,
): Room {
  return {
    room: row.room,
    places: row.shelves * row['blocks per shelf'],
    closedFrom: row['closed from'],
    closedTo: row['closed to'],
  };
}
