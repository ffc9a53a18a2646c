import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { Reads } from '../xlsx/describe';
import type { Answer } from './answers';
import type { TableFit } from './fitted';
import type { TableName } from './jobs';
import { labelsIn, notAmong } from './joining';
import type { Reader, UnreadCell } from './readCells';
import type { Referred } from './referred';

// Lots that say when all of their blocks were loaded, and into which room: their shelves are taken, and they are still
// picked.

const isDay = (cell: Cell): cell is number => typeof cell === 'number' && cell > 0;

/**
 * Whether the lots say what is on the shelves. Their rooms are then in the spelling of the rooms' list; otherwise what a
 * column of rooms says of lots is not read.
 */
export function readShelves(
  tables: Map<TableName, TableFit>,
  typed: readonly Readonly<Record<string, Answer>>[] | undefined,
  reader: Reader,
  unread: UnreadCell[],
): boolean {
  const lots = tables.get('lots');
  const own = lots?.values.get('room');
  if (!lots || !own) return false;
  const { candidate, readings, values } = lots;
  const loaded = values.get('loaded') ?? [];
  const rooms = typed?.map(({ room }) => String(room ?? '')) ?? labelsIn(tables.get('rooms'), 'room');
  const isWhole =
    (candidate.left === undefined || candidate.isLeftApart === true) &&
    !candidate.takenOff &&
    !candidate.takenElsewhere;
  const areDays =
    loaded.some(isDay) && loaded.every((cell) => isBlank(cell) || isCellError(cell) || isDay(cell));
  const read = rooms.length > 0 ? reader.labels(own, rooms) : own;
  // A room that is not in the list keeps no other from being read, and is told.
  const known = read.map((cell) => (isCellError(cell) ? null : cell));
  const areRooms = known.some((cell) => !isBlank(cell));
  const isSaid = own.some((cell, i) => !isBlank(cell) && !isBlank(loaded[i]));
  const serves = isWhole && areDays && rooms.length > 0 && areRooms && isSaid && areDates(lots);
  if (serves) {
    tables.set('lots', { ...lots, values: new Map([...values, ['room', known]]) });
    const { column } = candidate.matches.find(({ wanted }) => wanted === 'room')!;
    for (const [i, cell] of read.entries()) {
      if (!isCellError(cell) || !isDay(loaded[i] ?? null)) continue;
      const place = candidate.origin(candidate.dataRows[i]!, column);
      unread.push({ ...place, about: 'lots, room', held: own[i]!, why: notAmong(cell, 'rooms') });
    }
  } else {
    const matches = candidate.matches.filter(({ wanted }) => wanted !== 'room');
    const others = readings.filter(({ name }) => name !== 'room');
    tables.set('lots', { ...lots, candidate: { ...candidate, matches }, readings: others });
  }
  return serves;
}

/** Whether the lots say the day that they were loaded, and not how many of their blocks were. */
const areDates = ({ readings }: TableFit): boolean =>
  readings.some(({ name, conversion, match, unless }) => {
    const isOfBlocks = /block|bag|so far|how many|number|#/i.test(match.header);
    return name === 'loaded' && unless === undefined && !isOfBlocks && conversion !== 'figures';
  });

/** The columns of what is on the shelves. */
const STANDING: readonly (readonly [header: string, reads: Reads])[] = [
  ['loaded', 'date'],
  ['room', 'text'],
  ['blocks', 'count'],
  ['lot', 'text'],
];

/** The lots that are on shelves as loads that stand there: formulas over the lots as they are read, and what they give. */
export function loadsOnShelves({ column, grid }: Referred) {
  const [all = [], ...records] = grid;
  const isNone = `(${column('loaded')}="")+(${column('room')}="")`;
  const headers = STANDING.map(([header]) => header);
  const cellOf = (record: readonly Cell[], header: string): Cell => record[all.indexOf(header)] ?? null;
  const isOn = (record: readonly Cell[]): boolean =>
    ['loaded', 'room'].every((header) => !isBlank(cellOf(record, header)));
  return {
    headers,
    columns: STANDING.map(([header, reads]) => ({
      header,
      reads,
      text: `=IF(${isNone},"",${column(header)})`,
    })),
    grid: [
      headers,
      ...records.map((record) => headers.map((header) => (isOn(record) ? cellOf(record, header) : null))),
    ],
  };
}
