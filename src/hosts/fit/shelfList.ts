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

/** A shelf's own column, where a table has a row for each: no two of a room are called the same. */
function shelfColumn({ headers, sheet, dataRows }: Candidate, rooms: readonly string[]): number | undefined {
  const areRooms = new Set(rooms).size < rooms.length;
  const found = [...headers].find(([column, header]) => {
    const names = dataRows.map((row, i) => `${rooms[i]!}\n${textOf(cellAt(sheet, row, column)).trim()}`);
    const areNamed = dataRows.every((row) => !isBlank(cellAt(sheet, row, column)));
    return OF_SHELF.test(header.trim()) && areNamed && new Set(names).size === names.length;
  });
  return areRooms ? found?.[0] : undefined;
}

/** The rooms of a table that lists their shelves; undefined where it does not, or does not say what each holds. */
export function roomsOfShelves(candidate: Candidate): SaidRooms | undefined {
  const { sheet, dataRows, headers, matches, area } = candidate;
  const own = roomOf(candidate);
  const shelf = own && shelfColumn(candidate, own);
  if (own === undefined || shelf === undefined) return undefined;
  const others = [shelf, ...matches.filter(({ wanted }) => wanted === 'room').map(({ column }) => column)];
  const held = [...headers.keys()].find(
    (column) =>
      !others.includes(column) && dataRows.every((row) => typeof cellAt(sheet, row, column) === 'number'),
  );
  const rooms = new Map<string, number[]>();
  for (const [i, row] of dataRows.entries()) {
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
