import { isBlank, isCellError, type Cell, type Grid } from '../../worksheet/cells/cell';
import type { Reads } from '../xlsx/describe';
import type { Answer } from './answers';
import type { TableFit } from './fitted';
import { OUT_SINCE, type TableName } from './jobs';
import { labelsIn, notAmong } from './joining';
import { commonest, looseKey } from './labels';
import type { Reader } from './readCells';
import type { UnreadCell } from './unreadCells';
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
  // Where the blocks that were set out are counted, their day stands beside.
  const since = values.get(OUT_SINCE);
  const loaded = since ?? values.get('loaded') ?? [];
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
  const serves =
    isWhole && areDays && rooms.length > 0 && areRooms && isSaid && (since !== undefined || areDates(lots));
  if (serves) {
    const { column, by } = candidate.matches.find(({ wanted }) => wanted === 'room')!;
    // What several lots say, `done` or `sold`, is no misspelt room; a column that is known by its rooms has other words too.
    const noRooms = commonest(own.filter((_, i) => isCellError(read[i]!))).filter(
      (word) =>
        by === 'its data' ||
        own.filter((cell, i) => isSame(word, cell) && !isNear(read[i]!)).length >= FEWEST,
    );
    const ofRooms = readings.map((one) => (one.name === 'room' ? { ...one, noRooms } : one));
    tables.set('lots', { ...lots, readings: ofRooms, values: new Map([...values, ['room', known]]) });
    for (const [i, cell] of read.entries()) {
      if (!isCellError(cell) || !isDay(loaded[i] ?? null)) continue;
      if (noRooms.some((word) => isSame(word, own[i]!))) continue;
      const place = candidate.origin(candidate.dataRows[i]!, column);
      unread.push({ ...place, about: 'lots, room', held: own[i]!, why: notAmong(cell, 'rooms') });
    }
  } else {
    const isOf = (name: string): boolean => name === 'room' || name === OUT_SINCE;
    const matches = candidate.matches.filter(({ wanted }) => !isOf(wanted));
    const others = readings.filter(({ name }) => !isOf(name));
    tables.set('lots', { ...lots, candidate: { ...candidate, matches }, readings: others });
  }
  return serves;
}

const isSame = (word: string, cell: Cell): boolean => looseKey(word) === looseKey(cell);
/** So many lots have a word that is no room. */
const FEWEST = 2;

/** Whether a label may be one of the list, misspelt. */
const isNear = (cell: Cell): boolean => isCellError(cell) && cell.reason.includes('did you mean');

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

/** Loads that stand on shelves, on the sheet of readings. */
export interface OnShelves {
  readonly title: string;
  readonly rows: number;
  readonly columns: readonly { readonly header: string; readonly reads: Reads; readonly text: string }[];
  readonly grid: Grid;
}

/** The lots that are on shelves as loads that stand there: formulas over the lots as they are read, and what they give. */
export function loadsOnShelves({ column, grid, lastRows }: Referred): OnShelves {
  const [all = [], ...records] = grid;
  const areCounted = all.includes(OUT_SINCE);
  const day = areCounted ? OUT_SINCE : 'loaded';
  const isNone = `(${column(day)}="")+(${column('room')}="")`;
  // A day is more than any number of blocks: a lot that says its day alone is set out whole.
  const blocks = areCounted
    ? `IF(${column('loaded')}<${column('blocks')},${column('loaded')},${column('blocks')})`
    : column('blocks');
  const textOf: Readonly<Record<string, string>> = { loaded: column(day), blocks };
  const headers = STANDING.map(([header]) => header);
  const heldAt = (record: readonly Cell[], header: string): Cell => record[all.indexOf(header)] ?? null;
  const isOn = (record: readonly Cell[]): boolean =>
    [day, 'room'].every((header) => !isBlank(heldAt(record, header)));
  const cellOf = (record: readonly Cell[], header: string): Cell => {
    const [own, made] = [heldAt(record, 'loaded'), heldAt(record, 'blocks')];
    if (header === 'loaded') return heldAt(record, day);
    if (header !== 'blocks' || !areCounted) return heldAt(record, header);
    return typeof own === 'number' && typeof made === 'number' && own < made ? own : made;
  };
  return {
    title: 'blocks on the shelves, from the lots',
    rows: lastRows!.at(-1)! - 1,
    columns: STANDING.map(([header, reads]) => ({
      header,
      reads,
      text: `=IF(${isNone},"",${textOf[header] ?? column(header)})`,
    })),
    grid: [
      headers,
      ...records.map((record) => headers.map((header) => (isOn(record) ? cellOf(record, header) : null))),
    ],
  };
}
