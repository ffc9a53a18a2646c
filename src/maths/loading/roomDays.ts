import { labelKey } from '../shared/labels';
import { isShut, type Room } from './shelfUse';

/** Blocks in a room from the day they are loaded. */
interface RoomLoad {
  readonly room: string;
  readonly loaded: number;
  readonly blocks: number;
  /** Days on the shelf, the day of loading included. */
  readonly stay: number;
}

/** A room on each of some days. */
export interface RoomDays {
  readonly room: string;
  readonly places: number;
  readonly blocks: readonly number[];
  /** Places free, below 0 where there are more blocks than places; undefined while the room is shut. */
  readonly free: readonly (number | undefined)[];
}

/**
 * Blocks on the shelves of each room and places free, day by day. A load's places are taken from the day it is loaded to
 * the day of its last pick, and stay taken for the turn-round days after it. Loads in a room that is not among the rooms
 * are left out.
 *
 * @param from first day, a serial
 */
export function roomDays(
  rooms: readonly Room[],
  loads: readonly RoomLoad[],
  turnRound: number,
  from: number,
  days: number,
): RoomDays[] {
  return rooms.map((room) => {
    const blocks = new Array<number>(days).fill(0);
    const taken = new Array<number>(days).fill(0);
    for (const load of loads) {
      if (labelKey(load.room) !== labelKey(room.room)) continue;
      const first = Math.floor(load.loaded) - from;
      const fill = (counts: number[], stay: number): void => {
        for (let day = Math.max(0, first); day < Math.min(days, first + stay); day++)
          counts[day]! += load.blocks;
      };
      fill(blocks, load.stay);
      fill(taken, load.stay + turnRound);
    }
    const free = taken.map((count, day) => (isShut(room, from + day) ? undefined : room.places - count));
    return { room: room.room, places: room.places, blocks, free };
  });
}
