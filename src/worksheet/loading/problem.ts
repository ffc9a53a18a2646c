import { expectedYieldPerBlock } from '../../maths/harvest/expectedYield';
import type { DayLimits, Lot, Order, PlannedLoad, PlanRoom } from '../../maths/loading/loadingProblem';
import { isCertain, type Spread } from '../../maths/loading/fates';
import { pickCurve, type PickCurve } from '../../maths/loading/pickCurve';
import type { Room } from '../../maths/loading/shelfUse';
import { dateOf, invalid, missing, type Placed } from '../../maths/shared/fault';
import { labelKey } from '../../maths/shared/labels';
import { blocksLeft } from '../../maths/shared/loadedBlocks';
import { weekdayOf, type DateSystem } from '../calendar';
import type { RowOf } from '../cells/columns';
import type { Table } from '../cells/table';
import type { lotColumns, planColumns, roomColumns, standingColumns } from './farmTables';
import type { calendarColumns, orderColumns } from './orderTables';
import type { pickColumns, planStrainColumns, yieldColumns } from './strainTables';

// From the tables of a call to what the maths asks.

declare module '../../maths/shared/fault' {
  interface FaultDetails {
    /** A lot with neither a day of inoculation nor a ripe day of its own. */
    noInoculation: { readonly point: string };
    /** A load whose row says neither what it is nor which lot it is from. */
    noLotOfLoad: { readonly header: string };
    /** Loads of a lot that come to more than the lot has. */
    moreThanLot: { readonly lot: string; readonly blocks: number; readonly given: number };
    /** An order that may be filled long before it is due. */
    longWindow: { readonly most: number; readonly from: Quantity; readonly due: Quantity };
    /** A day or date that the calendar has twice. */
    calendarDayTwice: { readonly day: string | Quantity; readonly rows: readonly number[] };
  }
}

export type Strains = Table<RowOf<typeof planStrainColumns>>;
export type Rooms = Table<RowOf<typeof roomColumns>>;

/** The pick curve of a strain, looked up in the strains table. `argument` and `at` say where the label came from. */
export function curveOf(
  strain: string,
  strains: Table<RowOf<typeof pickColumns>>,
  argument: string,
  at?: number,
): PickCurve {
  const row = strains.find(strain, argument, at);
  return pickCurve({
    strain: row.strain,
    firstPick: row['first pick'],
    pickDays: row['pick days'],
    flushGap: row['flush gap'],
    flushes: row.flushes,
    shares: row.flush,
    at: row.at,
  });
}

/** How far a strain's loads differ from what is expected; undefined where the table says nothing of it. */
export function spreadOf(strain: RowOf<typeof planStrainColumns>): Spread | undefined {
  const spread = {
    yieldShare: strain['yield spread'] ?? 0,
    pickDays: strain['pick spread'] ?? 0,
    readyDays: strain['ready spread'] ?? 0,
  };
  return isCertain(spread) ? undefined : spread;
}

/** Fresh mass a block of this make is expected to give over all flushes. */
export function yieldOf(
  block: { readonly 'block mass': number; readonly moisture: number },
  { efficiency, loss }: RowOf<Pick<typeof yieldColumns, 'efficiency' | 'loss'>>,
): number {
  return expectedYieldPerBlock({
    blockMass: block['block mass'],
    moisture: block.moisture,
    efficiency,
    loss,
    share: 1,
  });
}

type PlacesColumns = Pick<
  typeof roomColumns,
  'room' | 'shelves' | 'blocks per shelf' | 'closed from' | 'closed to'
>;

/** The rows of the rooms table as places, each room once. */
export function roomsOf<R extends RowOf<PlacesColumns>>(rooms: Table<R>): (Room & { readonly row: R })[] {
  const seen = new Map<string, number>();
  return rooms.rows.map((row) => {
    requireOnce(row.room, 'rooms, room', row.at, seen);
    const [closedFrom, closedTo] = [row['closed from'], row['closed to']];
    if (closedFrom !== undefined && closedTo !== undefined && Math.floor(closedTo) < Math.floor(closedFrom)) {
      const details = { other: 'closed from', date: dateOf(closedFrom), given: dateOf(closedTo) };
      throw invalid('rooms, closed to', 'notBefore', details, row);
    }
    return { room: row.room, places: row.shelves * row['blocks per shelf'], closedFrom, closedTo, row };
  });
}

/** Refuses a label that has come before. `seen` holds the row of each. */
export function requireOnce(label: string, argument: string, at: number, seen: Map<string, number>): void {
  const before = seen.get(labelKey(label));
  if (before !== undefined) {
    const details = { label, table: argument.split(',')[0]!, rows: [before, at] };
    throw invalid(argument, 'labelTwice', details, { at });
  }
  seen.set(labelKey(label), at);
}

type LotRow = RowOf<typeof lotColumns>;
type Standing = Table<RowOf<typeof standingColumns>>;

/** What the loads on the shelves, or a log of loads, have taken of each lot, and the last row that did. */
function loadedFrom(
  standing: Standing | undefined,
): ReadonlyMap<string, Placed & { readonly blocks: number }> {
  const taken = new Map<string, Placed & { readonly blocks: number }>();
  for (const row of standing?.rows ?? []) {
    if (row.lot === undefined) continue;
    const key = labelKey(row.lot);
    taken.set(key, { blocks: row.blocks + (taken.get(key)?.blocks ?? 0), at: row.at });
  }
  return taken;
}

/**
 * The lots with blocks left to open, with their ripe days and yields. With a rule of its own for them, all lots.
 *
 * @param standing what is on the shelves: loads that name their lot are taken off it
 */
export function lotsOf(
  lots: Table<LotRow>,
  strains: Strains,
  standing: Standing | undefined,
  leftOf?: (row: LotRow) => number,
): Lot[] {
  const seen = new Map<string, number>();
  const taken = loadedFrom(standing);
  return lots.rows.flatMap((row) => {
    requireOnce(row.lot, 'lots, lot', row.at, seen);
    const log = taken.get(labelKey(row.lot));
    if (log && log.blocks > row.blocks) {
      const details = { lot: row.lot, blocks: row.blocks, given: log.blocks };
      throw invalid('standing, blocks', 'moreThanLot', details, log);
    }
    const blocks = Math.min(leftOf ? leftOf(row) : blocksLeft(row), row.blocks - (log?.blocks ?? 0));
    // What is loaded needs no dates, nor a strain that is still grown.
    if (blocks === 0 && !leftOf) return [];
    const strain = strains.find(row.strain, 'lots, strain', row.at);
    const ripe = (point: 'earliest' | 'best' | 'latest'): number => {
      const date = row[point];
      if (date !== undefined) return date;
      if (row.inoculated === undefined) throw missing('lots, inoculated', 'noInoculation', { point }, row);
      const days = strain[point];
      if (days === undefined) {
        throw missing('lots, strain', 'blank', { header: point, table: 'strains', of: strain.strain }, row);
      }
      return row.inoculated + days;
    };
    const [earliest, best, latest] = [ripe('earliest'), ripe('best'), ripe('latest')];
    requireInOrder('best', best, 'earliest', earliest, row);
    requireInOrder('latest', latest, 'best', best, row);
    const [notBefore, notAfter] = [row['not before'], row['not after']];
    if (notBefore !== undefined && notAfter !== undefined) {
      requireInOrder('not after', Math.floor(notAfter), 'not before', Math.floor(notBefore), row);
    }
    // A lot that was looked at and not ripe is late by so much at least: all its days move.
    const notRipe = row['not ripe on'];
    const late = notRipe === undefined ? 0 : Math.max(0, Math.floor(notRipe) + 1 - Math.floor(earliest));
    return {
      lot: row.lot,
      strain: strain.strain,
      product: row.product ?? strain.product ?? strain.strain,
      blocks,
      earliest: earliest + late,
      best: best + late,
      latest: latest + late,
      lateBy: late,
      notBefore,
      notAfter,
      yieldPerBlock: yieldOf(row, strain),
      curve: curveOf(row.strain, strains, 'lots, strain', row.at),
      spread: spreadOf(strain),
      cost: row.cost,
    };
  });
}

function requireInOrder(point: string, later: number, other: string, earlier: number, row: Placed): void {
  if (earlier <= later) return;
  throw invalid(`lots, ${point}`, 'notBefore', { other, date: dateOf(earlier), given: dateOf(later) }, row);
}

export function planRoomsOf(rooms: Rooms, strains: Strains): PlanRoom[] {
  return roomsOf(rooms).map(({ row, ...room }) => {
    const names = row.strains?.split(/[,;]/).flatMap((name) => name.trim() || []);
    for (const name of names ?? []) strains.find(name, 'rooms, strains', row.at);
    return { ...room, blocksPerShelf: row['blocks per shelf'], strains: names };
  });
}

/** Mushrooms do not keep: a window of more than a year is a slip of a date. */
const LONGEST_WINDOW = 366;

type OrderRow = RowOf<typeof orderColumns>;

export function orderOf(row: OrderRow): Order & Placed {
  const { product, due, price, at } = row;
  const given = Math.min(row.given, row.mass);
  const mass = row.mass - given;
  const keeps = row['keep days'];
  const from = row.from ?? due - (keeps === undefined ? 6 : Math.floor(keeps));
  const dates = { from: dateOf(from), due: dateOf(due) };
  if (!(Math.floor(from) <= Math.floor(due))) {
    throw invalid('orders, due', 'notBefore', { other: 'from', date: dates.from, given: dates.due }, row);
  }
  if (due - from > LONGEST_WINDOW) {
    throw invalid('orders, from', 'longWindow', { most: LONGEST_WINDOW, ...dates }, row);
  }
  return { product, mass, given, from, due, price, at };
}

/** The orders, each with its row. */
export const ordersOf = (orders: Table<OrderRow>): (Order & Placed)[] => orders.rows.map(orderOf);

/** The limits of each day: a date's row before its weekday's, that before several days' in a word; no limit without any. */
export function limitsOf(
  calendar: Table<RowOf<typeof calendarColumns>> | undefined,
  system: DateSystem,
): (day: number) => DayLimits {
  const limits = new Map<number | string, DayLimits & { readonly at: number }>();
  for (const row of calendar?.rows ?? []) {
    const day = typeof row.day === 'number' ? Math.floor(row.day) : row.day;
    const before = limits.get(day);
    if (before) {
      const details = { day: typeof day === 'number' ? dateOf(day) : day, rows: [before.at, row.at] };
      throw invalid('calendar, day', 'calendarDayTwice', details, row);
    }
    limits.set(day, { pick: row['pick limit'], load: row['load limit'], at: row.at });
  }
  return (day) => {
    const weekday = weekdayOf(day, system);
    const together = weekday === 'Saturday' || weekday === 'Sunday' ? 'weekend' : 'work days';
    const [known] = [day, weekday, together, 'every day'].flatMap((one) => limits.get(one) ?? []);
    return known ?? { pick: Infinity, load: Infinity };
  };
}

export function plannedOf(loads: Table<RowOf<typeof planColumns>>): PlannedLoad[] {
  return loads.rows.map(({ lot, room, loaded, blocks }) => ({ lot, room, day: Math.floor(loaded), blocks }));
}
