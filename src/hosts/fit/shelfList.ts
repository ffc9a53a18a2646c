import { isBlank } from '../../worksheet/cells/cell';
import type { Answer } from './answers';
import { cellAt, sheetText, textOf } from './book';
import type { Candidate } from './candidate';
import type { SaidRooms } from './roomsInWords';
import { rangeOf } from '../xlsx/address';

// Rooms listed shelf by shelf: a row for each, numbered within its room. What a room has is counted, and proposed.

const OF_SHELF = /^(?:shel(?:f|ves)|racks?|tiers?|levels?|boards?|bays?)(?:\s*(?:no|nr|number|#))?\.?$/i;

/** The room of each row: where a room is named once, that of the row above. */
function roomOf({ sheet, dataRows, matches }: Candidate): string[] | undefined {
  const column = matches.find(({ wanted }) => wanted === 'room')?.column;
  if (column === undefined) return undefined;
  let room = '';
  return dataRows.map((row) => (room = textOf(cellAt(sheet, row, column)).trim() || room));
}

/** The shelf of each row, where a table lists them: one of several lots has further rows below its first. */
function shelvesOf({ headers, sheet, dataRows }: Candidate, rooms: readonly string[]): Shelves | undefined {
  const areRooms = new Set(rooms).size < rooms.length;
  const found = [...headers].find(
    ([column, header]) =>
      OF_SHELF.test(header.trim()) && dataRows.every((row) => !isBlank(cellAt(sheet, row, column))),
  );
  if (!areRooms || !found) return undefined;
  const names = dataRows.map((row, i) => `${rooms[i]!}\n${textOf(cellAt(sheet, row, found[0])).trim()}`);
  const isFirst = names.map((name, i) => names.indexOf(name) === i);
  const isOneRun = names.every((name, i) => isFirst[i] || names[i - 1] === name);
  return isOneRun ? { column: found[0], isFirst } : undefined;
}

interface Shelves {
  readonly column: number;
  /** Whether a row is the first of its shelf. */
  readonly isFirst: readonly boolean[];
}

/** The rooms of a table that lists their shelves; undefined where it does not, or does not say what each holds. */
export function roomsOfShelves(candidate: Candidate): SaidRooms | undefined {
  const { sheet, dataRows, headers, matches, area } = candidate;
  const own = roomOf(candidate);
  const shelves = own && shelvesOf(candidate, own);
  if (own === undefined || shelves === undefined) return undefined;
  const others = [
    shelves.column,
    ...matches.filter(({ wanted }) => wanted === 'room').map(({ column }) => column),
  ];
  const isNumber = (row: number, column: number): boolean => typeof cellAt(sheet, row, column) === 'number';
  // Of a shelf with several lots what it holds is said once.
  const isHeld = (column: number): boolean =>
    dataRows.every((row, i) =>
      shelves.isFirst[i] ? isNumber(row, column) : isBlank(cellAt(sheet, row, column)),
    );
  const held = [...headers.keys()].find((column) => !others.includes(column) && isHeld(column));
  if (held === undefined && shelves.isFirst.includes(false)) return undefined;
  const rooms = new Map<string, number[]>();
  for (const [i, row] of dataRows.entries()) {
    if (!shelves.isFirst[i]) continue;
    const holds = held === undefined ? Number.NaN : Number(cellAt(sheet, row, held));
    rooms.set(own[i]!, [...(rooms.get(own[i]!) ?? []), holds]);
  }
  const rows = [...rooms].map(([name, holds]): Readonly<Record<string, Answer>> => {
    // Shelves that differ hold together what they hold.
    const each = holds.reduce((sum, one) => sum + one, 0) / holds.length;
    return {
      room: name,
      shelves: holds.length,
      'blocks per shelf': Number.isNaN(each) ? null : Math.floor(each),
    };
  });
  const told = `${sheetText(sheet.name)}!${rangeOf(area)} lists their shelves one by one`;
  return { rows, told: [told] };
}
