import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { Answer } from './answers';
import { cellAt, textOf } from './book';
import { unreadHeaders } from './columnChoices';
import type { TableFit } from './fitted';
import { unaccented } from './otherLanguages';
import type { SaidRooms } from './roomsInWords';

// Rooms may count the blocks that stand in them, or the places that are free, where nothing says of which lots these are.
// The shelves that are free are proposed: the grower says whether they are right.

const OCCUPIED =
  /\b(?:occupied|in it|inside|in use|in now|standing|taken|belegt|besetzt|occupees?|ocupad[oa]s?|bezet|occupati|zajete|optaget)\b/;
const FREE = /\b(?:free|empty|available|spare|open places|frei|libres?|vrij|liber[ie]|wolne|ledige?)\b/;
const OTHER = /[%°$€£]|\b(?:date|since|until|from|day|temp\w*|co2|rh)\b/;

const wordsOf = (header: string): string =>
  unaccented(header)
    .toLowerCase()
    .replace(/\([^)]*\)/g, ' ');

const asCount = (cell: Cell): number => (isBlank(cell) ? 0 : typeof cell === 'number' ? cell : Number.NaN);

/** The shelves of rooms that are free, by a column that counts what stands there; undefined where none does, or all are. */
export function freeShelves({ candidate, values }: TableFit): SaidRooms | undefined {
  const { sheet, dataRows } = candidate;
  const [names, shelves, each] = ['room', 'shelves', 'blocks per shelf'].map(
    (name) => values.get(name) ?? [],
  );
  const counts = unreadHeaders(candidate).flatMap(([column, header]) => {
    const words = wordsOf(header);
    const isFree = FREE.test(words);
    if (OTHER.test(words) || (!isFree && !OCCUPIED.test(words))) return [];
    const held = dataRows.map((row) => asCount(cellAt(sheet, row, column)));
    const isCount = held.every((one, i) => {
      const places = Number(shelves![i]) * Number(each![i]);
      return Number.isInteger(one) && one >= 0 && !(one > places);
    });
    return isCount ? [{ header, isFree, held }] : [];
  });
  const [first] = counts;
  if (!first) return undefined;
  const rows = dataRows.flatMap((_, i): Readonly<Record<string, Answer>>[] => {
    const [all, one] = [Number(shelves![i]), Number(each![i])];
    if (isBlank(names![i] ?? null) || !(all > 0) || !(one > 0)) return [];
    const places = first.isFree ? first.held[i]! : all * one - first.held[i]!;
    const free = Math.floor(places / one);
    return free > 0 ? [{ room: textOf(names![i]!), shelves: free, 'blocks per shelf': one }] : [];
  });
  const isAnyTaken = first.held.some((one, i) =>
    first.isFree ? one < Number(shelves![i]) * Number(each![i]) : one > 0,
  );
  if (!isAnyTaken || rows.length === 0) return undefined;
  const what = first.isFree ? 'the places that are free' : 'the blocks that stand there';
  const told = `“${first.header}” counts ${what}, and your lots do not say which stand where: so many shelves are free`;
  return { rows, told: [told] };
}
