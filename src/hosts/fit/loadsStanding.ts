import { isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { DateOrder } from '../../worksheet/writtenDates';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { notAmong } from './joining';
import { looksIn } from './looks';
import { unaccented } from './otherLanguages';
import { doRowsContradict } from './provenAnywhere';
import type { Reader } from './readCells';
import { isDash, isTextDate, provenOrder } from './values';
import { reasonOf, type UnreadCell } from './unreadCells';

// A sheet of loads that says when each was set out, where, and when it was cleared: what is not cleared stands there.

/** How a sheet of loads says since when and where its blocks stand. */
export interface StandingWay {
  readonly day: number;
  /** The order of its days that are texts. */
  readonly order: DateOrder;
  /** The column of its rooms, or the room that the sheet is named after. */
  readonly room: number | string;
  readonly cleared: number;
}

/** A load that stands. */
export interface StandingLoad {
  readonly loaded: number;
  readonly room: string;
}

/** What is known of the farm besides: its rooms, and the order that other dates of the book prove. */
export interface Known {
  readonly rooms: readonly string[];
  readonly order: DateOrder | undefined;
}

export const SET =
  /\b(?:set|loaded|placed|hung|moved|put|went|opened|shelved|racked|fruit\w*|started?|in|when|date|ausgestellt|aufgestellt|eingestellt|rein|sortis?|colocad[oa]s?|ingezet|opgezet|wystawione|posat[ei]|sat)\b/;
const CLEARED =
  /\b(?:clear(?:ed|ance)?|emptied|empty|removed|pulled|stripped|taken (?:out|down|off|away)|came (?:off|out|down)|finished|ended|end|done|out|composted|spent|gone|geraumt|geleert|raus|abgeraumt|vides?|retire[es]*|retirad[oa]s?|geruimd|leeg|weg|oprozni\w+|usunie\w+|ryddet|tomt|sgomberat[eoi]|tolt[ei])\b/;

const plain = (header: string): string => unaccented(header).toLowerCase().replaceAll('_', ' ');

const filled = (cells: readonly Cell[]): Cell[] => cells.filter((cell) => !isBlank(cell) && !isDash(cell));

/**
 * The column of the day on which each load of a sheet was set out: of two days of a load the one that every load has.
 *
 * @param says what its header says, where it is not the only one
 */
export function dayOfLoads(part: Candidate, used: readonly number[], says: RegExp): number | undefined {
  const { sheet, headers, dataRows, matches } = part;
  const filledIn = (column: number): Cell[] => filled(dataRows.map((row) => cellAt(sheet, row, column)));
  const ofDays = [...headers].filter(([column]) => {
    const looks = looksIn(sheet, dataRows, column);
    const days = (looks.get('date') ?? 0) + (looks.get('text date') ?? 0);
    return !used.includes(column) && days > 0 && days * 2 >= filledIn(column).length;
  });
  const named = matches.find(({ wanted, by }) => wanted === 'loaded' && by !== 'its data')?.column;
  const full = ofDays.filter(([column]) => filledIn(column).length * 10 >= dataRows.length * 9);
  return (
    ofDays.find(([column]) => column === named)?.[0] ??
    full.find(([, header]) => says.test(plain(header)))?.[0] ??
    (full.length === 1 && says === SET ? full[0]![0] : undefined)
  );
}

/** The order of the days of loads, by their own texts or by what other dates of the book prove. */
export function orderOfLoads(
  { sheet, dataRows }: Candidate,
  day: number,
  proven: DateOrder | undefined,
  reader: Reader,
): { readonly order: DateOrder | undefined; readonly texts: readonly string[] } {
  const cells = dataRows.map((row) => cellAt(sheet, row, day));
  const texts = cells.filter((cell): cell is string => typeof cell === 'string' && isTextDate(cell));
  const { order, isNeeded, isContradicted } = provenOrder(texts);
  const isOther = !isContradicted && proven !== undefined && !doRowsContradict(cells, proven, reader);
  return { order: order ?? (isNeeded ? (isOther ? proven : undefined) : 'day first'), texts };
}

/** How a sheet of loads says what stands, or in words why it does not. */
export function standingWay(
  part: Candidate,
  used: readonly number[],
  { rooms, order: proven }: Known,
  reader: Reader,
): StandingWay | string {
  const { sheet, headers, dataRows } = part;
  const cellsIn = (column: number): Cell[] => dataRows.map((row) => cellAt(sheet, row, column));
  const filledIn = (column: number): Cell[] => filled(cellsIn(column));
  const free = [...headers].filter(([column]) => !used.includes(column));
  const day = dayOfLoads(part, used, SET);
  if (day === undefined) return 'no column says when they were set out';
  const isCleared = ([column, header]: readonly [number, string]): boolean => {
    const looks = looksIn(sheet, dataRows, column);
    return column !== day && CLEARED.test(plain(header)) && !looks.has('number') && !looks.has('text number');
  };
  const [cleared, ...others] = free.filter(isCleared);
  if (!cleared || others.length > 0) return 'no column says which are cleared';
  const inColumn = free.filter(([column]) => {
    const labels = filledIn(column);
    const known = reader.labels(labels, rooms).filter((cell) => !isCellError(cell));
    return rooms.length > 0 && labels.length > 0 && known.length * 10 >= labels.length * 8;
  });
  const ofSheet = reader.labels([sheet.name], rooms)[0] ?? null;
  const room = inColumn.length === 1 ? inColumn[0]![0] : isCellError(ofSheet) ? undefined : textOf(ofSheet);
  if (room === undefined || room === '') return `no room is called ${sheet.name}`;
  const { order, texts } = orderOfLoads(part, day, proven, reader);
  if (order === undefined) return `nothing shows whether ${texts[0]!} is day or month first`;
  return { day, order, room, cleared: cleared[0] };
}

/** A load that stands, by the row that it is written in; or the cells that keep one that is not cleared from being read. */
export function standingAt(
  { sheet, origin }: Candidate,
  way: StandingWay,
  row: number,
  rooms: readonly string[],
  reader: Reader,
): StandingLoad | readonly UnreadCell[] {
  const cleared = cellAt(sheet, row, way.cleared);
  if (!isBlank(cleared) && !isDash(cleared)) return [];
  const told = (column: number, name: string, why: string): UnreadCell => ({
    ...origin(row, column),
    about: `loads, ${name}`,
    held: cellAt(sheet, row, column),
    why,
  });
  const day = cellAt(sheet, row, way.day);
  const [loaded = null] = isBlank(day) ? [] : reader.dates([day], way.order, undefined);
  const unread: UnreadCell[] = [];
  if (typeof loaded !== 'number')
    unread.push(told(way.day, 'loaded', isCellError(loaded) ? reasonOf(loaded) : 'is blank'));
  if (typeof way.room === 'string') {
    return typeof loaded === 'number' ? { loaded, room: way.room } : unread;
  }
  const written = cellAt(sheet, row, way.room);
  const [room = null] = isBlank(written) ? [] : reader.labels([written], rooms);
  if (isBlank(room) || isCellError(room))
    unread.push(told(way.room, 'room', isCellError(room) ? notAmong(room, 'rooms') : 'is blank'));
  return unread.length === 0 ? { loaded: loaded as number, room: textOf(room) } : unread;
}
