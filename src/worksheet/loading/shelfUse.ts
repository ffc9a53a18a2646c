import { labelKey } from '../../maths/shared/labels';
import { optionalSetting, table } from '../cells/arguments';
import { only, required } from '../cells/columns';
import { serial, text } from '../cells/kinds';
import { amount, date, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { pickStrains } from './arguments';
import { loadColumns, roomColumns } from './farmTables';

export const SHELFUSE = defineFunction({
  name: 'SHELFUSE',
  family: 'loading',
  arguments: [
    table(
      'loads',
      {
        ...only(loadColumns, 'loaded', 'strain', 'blocks'),
        room: required(text(), 'room the load is in, as in rooms', ...loadColumns.room.alsoCalled),
      },
      'table with loaded, room, strain, blocks',
    ),
    table(
      'rooms',
      only(roomColumns, 'room', 'shelves', 'blocks per shelf', 'closed from', 'closed to'),
      'table with room, shelves, blocks per shelf; closed from and closed to if it is shut',
    ),
    pickStrains,
    optionalSetting('from', serial(), undefined, 'first day shown; the first load if left out'),
    optionalSetting('to', serial(), undefined, 'last day shown; the last pick if left out'),
    optionalSetting('room', text(), undefined, 'the room shown; every room if left out'),
  ],
  result: tableResult({
    date: date(),
    room: label(),
    blocks: amount('on the shelves that day'),
    places: amount('0 while the room is shut'),
    free: amount('below 0 where there are more blocks than places'),
    note: label(),
  }),
  needs: ['planning'],
  needsDateSystem: true,
  whole: (loads, rooms, strains, from, to, oneRoom, { tools: { planning } }) => {
    const shown = oneRoom && labelKey(rooms.find(oneRoom, 'room').room);
    const placed = loads.rows.map((load) => ({
      ...load,
      stay: planning.curveOf(load.strain, strains, 'loads, strain', load.at).stay,
    }));
    return planning
      .shelfUse(placed, planning.roomsOf(rooms), from, to)
      .filter(({ room }) => !shown || labelKey(room) === shown)
      .map(({ day, room, blocks, places, shut }) => ({
        date: day,
        room,
        blocks,
        places,
        free: places - blocks,
        note: shelfNote(blocks, places, shut),
      }));
  },
});

function shelfNote(blocks: number, places: number, shut: boolean): string {
  if (shut) return blocks > 0 ? `shut with ${blocks} blocks inside` : 'shut';
  return blocks > places ? `over-full by ${blocks - places} blocks` : '';
}
