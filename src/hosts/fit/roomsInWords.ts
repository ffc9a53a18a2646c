import type { Answer } from './answers';
import { cellAt, placeText, textOf, type BookSheet, type GrowersBook } from './book';
import { JOB } from './jobs';
import { isOurs } from './ours';

// Rooms that a book describes in sentences: `Room 1 – 6 shelves of 40, oysters only`. They are proposed, and the grower
// says whether they are right.

/** Rooms as they are to be filled in, and the texts that say so. */
export interface SaidRooms {
  readonly rows: readonly Readonly<Record<string, Answer>>[];
  readonly told: readonly string[];
}

const SHELF =
  '(?:shel(?:f|ves)|racks?|tiers?|levels?|boards?|regale?n?|b[öo]den|ebenen?|[ée]tag[èe]re?s?|[ée]tages?|tablettes?|estantes?|baldas?|planken|stellingen|rekken|scaffali|ripiani|p[óo][łl]\\p{L}*|rega[łl]\\p{L}*|hylder|prateleiras?)(?!\\p{L})';
/** A figure that is no length, no share and no part of another. */
const COUNT = '(\\d{1,4})(?!\\d|[.,]\\d|\\s*(?:%|(?:m|cm|ft)(?!\\p{L})))';
/** A figure more, where the second counts levels or is multiplied itself. */
const MORE = `(?:\\s*(${SHELF})\\D{0,24}?${COUNT}|\\s*(${SHELF})|\\s*(?:\\p{L}+\\s*)?[x×*]\\s*${COUNT})?`;
const SHELVES = new RegExp(`(\\d{1,3})\\s*${SHELF}\\D{0,24}?${COUNT}${MORE}`, 'giu');
const TIMES = new RegExp(`(\\d{1,3})\\s*[x×*]\\s*${COUNT}${MORE}`, 'giu');
/** What stands between the name of a room and its figures; the capital of `Tent A` is its name. */
const BETWEEN =
  /(?:\s|[-–—:,;=(]|\b(?:has|have|with|holds?|takes?|a|mit|hat|avec|con|tiene|met|heeft|med|har|com|tem|z)\b)+$/u;
const LONGEST = 120;

export function roomsInWords(book: GrowersBook): SaidRooms | undefined {
  const found = book.sheets.filter((sheet) => !isOurs(sheet)).flatMap(roomsOn);
  const names = new Set(found.map(({ row }) => String(row['room']).toLowerCase()));
  // A room that is told twice may be told otherwise: then nothing is proposed.
  if (found.length === 0 || names.size < found.length) return undefined;
  return { rows: found.map(({ row }) => row), told: [...new Set(found.map(({ told }) => told))] };
}

const ROOMS = JOB.plan.tables.find(({ name }) => name === 'rooms')!;

interface SaidRoom {
  readonly row: Readonly<Record<string, Answer>>;
  readonly told: string;
}

/** The room that a sheet is named after: `Room 1`, `North tent`; a sheet of several has their plural. */
const roomOf = ({ name }: BookSheet): string =>
  ROOMS.sheetWords.test(name) &&
  /\p{L}[\s_-]*(?:\d+|\p{Lu})$|\s/u.test(name.trim()) &&
  !/s$/i.test(name.trim())
    ? name.trim()
    : '';

function roomsOn(sheet: BookSheet): SaidRoom[] {
  const ownRoom = roomOf(sheet);
  return sheet.rows.flatMap((cells, row) =>
    cells.flatMap((cell, column): SaidRoom[] => {
      if (typeof cell !== 'string' || cell.length > LONGEST) return [];
      const before = textOf(column === 0 ? null : cellAt(sheet, row, column - 1)).trim();
      const isOfRooms = [sheet.name, cell, before].some((text) => ROOMS.sheetWords.test(text));
      const ofShelves = [...cell.matchAll(SHELVES)];
      const found = ofShelves.length > 0 ? ofShelves : isOfRooms ? [...cell.matchAll(TIMES)] : [];
      let from = 0;
      return found.flatMap((match): SaidRoom[] => {
        const { 0: whole, index } = match;
        const named = nameIn(cell.slice(from, index));
        const room = named === '' && from === 0 ? before || ownRoom : named;
        from = index + whole.length;
        if (!/\p{L}/u.test(room)) return [];
        return [
          {
            row: { room, ...shelvesIn(match) },
            told: `${placeText(sheet.name, row, column)} says “${cell.trim()}”`,
          },
        ];
      });
    }),
  );
}

/** The shelves of a room and what each holds: of three figures the first two are multiplied. */
function shelvesIn([, racks, second, ofLevel, perLevel, levels, times]: RegExpExecArray): Readonly<
  Record<string, Answer>
> {
  const third = perLevel ?? times;
  const isOfLevels = third !== undefined || ofLevel !== undefined || levels !== undefined;
  if (!isOfLevels) return { shelves: Number(racks), 'blocks per shelf': Number(second) };
  const each = third === undefined ? null : Number(third);
  return { shelves: Number(racks) * Number(second), 'blocks per shelf': each };
}

/** The name of a room in the words before its figures: of several rooms in one sentence, without those of the one before. */
const nameIn = (words: string): string =>
  words
    .replace(BETWEEN, '')
    .split(/[,;:.\n]|\b(?:and|und|et|y|en|e|i|og)\b/u)
    .at(-1)!
    .trim();
