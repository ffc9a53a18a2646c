import { missing, type Placed } from '../shared/fault';
import { labelKey } from '../shared/labels';
import { daysBetween } from './pickCalendar';

/** A room as shelves: its places are shelves × blocks per shelf. */
export interface Room {
  readonly room: string;
  readonly places: number;
  /** Serials of the first and last day the room is shut; undefined is open-ended, both undefined never shut. */
  readonly closedFrom: number | undefined;
  readonly closedTo: number | undefined;
}

/** Blocks in a room from the day they are loaded. */
export interface ShelfLoad extends Placed {
  readonly loaded: number;
  readonly room: string;
  readonly blocks: number;
  /** Days on the shelf, the day of loading included. */
  readonly stay: number;
}

export interface ShelfDay {
  readonly day: number;
  readonly room: string;
  readonly blocks: number;
  /** Places in use that day: none while the room is shut. */
  readonly places: number;
  readonly shut: boolean;
}

/** Whether a room is shut on a day. */
export function isShut({ closedFrom, closedTo }: Room, day: number): boolean {
  if (closedFrom === undefined && closedTo === undefined) return false;
  return day >= Math.floor(closedFrom ?? -Infinity) && day <= Math.floor(closedTo ?? Infinity);
}

/**
 * Blocks on the shelves of each room on each day: a load takes its places from the day it is loaded to the day of
 * its last pick.
 *
 * @param from first day shown; the day of the first load if undefined
 * @param to last day shown; the last day any block is on a shelf if undefined
 * @returns one entry per day and room, days in order, rooms in the order given
 * @throws missing where there is no load, or a load's room is not among the rooms
 * @throws invalid where `to` is before `from`, or the days are more than ten years
 */
export function shelfUse(
  loads: readonly ShelfLoad[],
  rooms: readonly Room[],
  from?: number,
  to?: number,
): ShelfDay[] {
  if (loads.length === 0) throw missing('loads', 'noLoads');
  const first = Math.floor(from ?? loads.reduce((day, { loaded }) => Math.min(day, loaded), Infinity));
  const last = Math.floor(
    to ?? loads.reduce((day, { loaded, stay }) => Math.max(day, Math.floor(loaded) + stay - 1), 0),
  );
  const days = daysBetween(first, last);
  const roomAt = new Map(rooms.map(({ room }, index) => [labelKey(room), index]));
  const blocks = rooms.map(() => new Float64Array(days));
  for (const load of loads) {
    const { loaded, room, blocks: count, stay } = load;
    const at = roomAt.get(labelKey(room));
    if (at === undefined) throw missing('loads, room', 'notIn', { label: room, table: 'rooms' }, load);
    const start = Math.floor(loaded) - first;
    for (let day = Math.max(0, start); day < Math.min(days, start + stay); day++) blocks[at]![day]! += count;
  }
  return Array.from({ length: days }, (_, day) =>
    rooms.map((room, at) => {
      const shut = isShut(room, first + day);
      return {
        day: first + day,
        room: room.room,
        blocks: blocks[at]![day]!,
        places: shut ? 0 : room.places,
        shut,
      };
    }),
  ).flat();
}
