import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { Looks } from './looks';
import { lookOf, type Look } from './values';
import type { WantedTable } from './jobs';
import type { Piece } from './pieces';

// Rooms that say their shelves and what each holds in one cell: `8 shelves x 24 blocks`, `10 x 24`, `6 shelves of 14`. Of
// three figures, `4 racks x 5 tiers x 9 bags`, the first two are multiplied: that many shelves hold the third.

const WORDS = '((?:\\s*\\p{L}[\\p{L} ]*?)?)';
const SIGNS = ['x', '×', '*', '@', 'of', 'à', 'a', 'zu', 'je', 'with', 'mit', 'met', 'de', 'avec', 'con'];
/** Signs that part three figures, where words say what they count. */
const BREAKS = [',', ';', '/'];
const isWord = (sign: string): boolean => /^\p{L}+$/u.test(sign);
const BETWEEN = `(?:[x×*@]|(?<!\\p{L})(?:${SIGNS.filter(isWord).join('|')})(?!\\p{L}))`;
const BOTH = new RegExp(`^\\d+${WORDS}\\s*${BETWEEN}\\s*\\d+${WORDS}\\.?$`, 'iu');
const OR_BREAK = `\\s*(${BETWEEN}|[${BREAKS.join('')}])\\s*`;
const THREE = new RegExp(
  `^\\d+${WORDS}${OR_BREAK}\\d+${WORDS}${OR_BREAK}\\d+${WORDS}\\.?(?:\\s+[=(].*)?$`,
  'iu',
);

const BLOCKS =
  /^(?:bags?|blocks?|pieces|pcs|places|spaces|beutel|blöcke?|plätze|sacs?|blocs?|bolsas?|bloques?)(?!\p{L})/iu;
const OF_EACH = /(?:^|\s)(?:per|each|a|an|je|pro|par|por|op|na)(?!\p{L})/iu;
/** The length, width and height of a room are no counts. */
const LENGTH = /^(?:m|cm|mm|ft|feet|foot|inch(?:es)?|met(?:er|re)s?)(?!\p{L})/iu;
/** Headers over how many of what there are: of bare figures they say that these are counts. */
const OF_PLACES =
  /rack|shel[fv]|tier|level|layout|set-?up|capacity|places|bags|blocks|regal|ebene|stellage|plätze|étag|niveau|capacit|estant|nivel/iu;

/** Whether a cell says the racks of a room, the levels on each and what one of these holds. */
function saysThree(header: string, text: string): boolean {
  const [, first = '', one, second = '', other, third = ''] = THREE.exec(text.trim()) ?? [];
  if (one === undefined || other === undefined) return false;
  const words = [first, second, third].map((word) => word.trim());
  if (words.some((word) => LENGTH.test(word)) || BLOCKS.test(words[0]!)) return false;
  if ([one, other].some((sign) => BREAKS.includes(sign)))
    return words[0] !== '' && words[1] !== '' && (OF_EACH.test(words[2]!) || BLOCKS.test(words[2]!));
  return words.some((word) => word !== '') || OF_PLACES.test(header);
}

/** Where most cells say both, the others are told as unreadable. */
const MOST = 0.5;

/** Levels are no blocks: `4 racks x 5 tiers` does not say what they hold. */
const LEVELS = /^(?:shel[fv]|tier|level|deck|board|ebene|böden|etage|étage|niveau|nivel|estant)/iu;

const saysBoth = (text: string): boolean => {
  const found = BOTH.exec(text.trim());
  return found !== null && !LEVELS.test(found[2]!.trim());
};

const saysAny = (header: string, text: string): boolean => saysBoth(text) || saysThree(header, text);

const sayBoth = (header: string, cells: readonly Cell[]): boolean => {
  // Rooms without headers begin with such a cell themselves.
  if (saysAny('', header)) return false;
  const filled = cells.filter((cell) => !isBlank(cell));
  const both = filled.filter((cell) => typeof cell === 'string' && saysAny(header, cell));
  return both.length > 0 && both.length > filled.length * MOST;
};

/** Whether a column of rooms says both. */
export const hasPackedShelves = (
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): boolean =>
  table.name === 'rooms' && [...headers].some(([column, header]) => sayBoth(header, cellsIn(column)));

/** Rooms with both in one column. */
export function withPackedShelves(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): ColumnMatch[] {
  if (table.name !== 'rooms') return matches;
  const found = [...headers].filter(([column, header]) => sayBoth(header, cellsIn(column)));
  const [only, ...more] = found;
  if (!only || more.length > 0) return matches;
  const [column, header] = only;
  const both = { column, header, by: 'its data' as const };
  const isOther = ({ wanted, column: at }: ColumnMatch): boolean =>
    at !== column && wanted !== 'shelves' && wanted !== 'blocks per shelf';
  const [first] = [...headers].filter(([at]) => at !== column && !matches.some((one) => one.column === at));
  const isNamed = matches.some(({ wanted }) => wanted === 'room');
  const room =
    !isNamed && first && first[0] < column
      ? [{ wanted: 'room', column: first[0], header: first[1], by: 'its data' as const }]
      : [];
  return inOrder(table, [
    ...matches.filter(isOther),
    ...room,
    { wanted: 'shelves', ...both },
    { wanted: 'blocks per shelf', ...both },
  ]);
}

/** Which of the figures in its cells a match is. */
export const shelvesPiece = (
  { wanted, column, header }: ColumnMatch,
  matches: readonly ColumnMatch[],
  cells: readonly Cell[],
): Piece | undefined => {
  const at = ['shelves', 'blocks per shelf'].indexOf(wanted);
  const isShared = matches.some((other) => other.column === column && other.wanted !== wanted);
  if (at < 0 || !isShared || !sayBoth(header, cells)) return undefined;
  const texts = cells.filter((cell) => typeof cell === 'string').map((text) => text.toLowerCase());
  // A letter may be part of a word, but where it stands between figures.
  const isBare = texts.some((text) => /\dx|x\d/.test(text));
  const isOfThree = texts.some((text) => saysThree(header, text));
  const signs = [...SIGNS, ...(isOfThree ? BREAKS : [])]
    .map((sign) => (isWord(sign) && !(sign === 'x' && isBare) ? ` ${sign} ` : sign))
    .filter((sign) => texts.some((text) => text.includes(sign)));
  return { at, signs, isFigure: true, ...(isOfThree && { isOfThree }) };
};

/** `10 Regale`, `12 shelves`, `24 bags`: how many there are of what the word names. */
const COUNT = /^\d+\s+(\p{L}+)\.?$/u;

const isCount = (cell: Cell): boolean => {
  const word = typeof cell === 'string' ? COUNT.exec(cell.trim())?.[1] : undefined;
  return word !== undefined && (OF_PLACES.test(word) || BLOCKS.test(word));
};

/** The figures alone of a column of rooms that has some with the word for what they count. */
export function countsOfRooms(
  { name }: WantedTable,
  { wanted }: ColumnMatch,
  cells: readonly Cell[],
): { piece: Piece; conversion: 'figures' } | undefined {
  const isOfRooms = name === 'rooms' && (wanted === 'shelves' || wanted === 'blocks per shelf');
  return isOfRooms && cells.some(isCount)
    ? { piece: { at: 0, signs: [], isFigure: true }, conversion: 'figures' }
    : undefined;
}

/** The looks of a column of rooms: such counts are figures. */
export function looksOfRooms(looks: Looks, cells: readonly Cell[]): Looks {
  const counts = cells.filter((cell) => isCount(cell) && lookOf(cell, false) === 'text').length;
  if (counts === 0) return looks;
  const of = (look: Look): number => looks.get(look) ?? 0;
  return new Map([...looks, ['text', of('text') - counts], ['text number', of('text number') + counts]]);
}
