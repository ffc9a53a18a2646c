import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import type { Piece } from './pieces';

// Rooms that say their shelves and what each holds in one cell: `8 shelves x 24 blocks`, `10 x 24`, `6 shelves of 14`.

const WORDS = '(?:\\s*\\p{L}[\\p{L} ]*?)?';
const SIGNS = ['x', '×', '*', '@', 'of', 'à', 'a', 'je', 'with', 'mit', 'met', 'de'];
const BOTH = new RegExp(
  `^(\\d+)${WORDS}\\s*(?:[x×*@]|\\b(?:of|à|a|je|with|mit|met|de)\\b)\\s*(\\d+)${WORDS}\\.?$`,
  'iu',
);

/** Where most cells say both, the others are told as unreadable. */
const MOST = 0.5;

const sayBoth = (header: string, cells: readonly Cell[]): boolean => {
  // Rooms without headers begin with such a cell themselves.
  if (BOTH.test(header.trim())) return false;
  const filled = cells.filter((cell) => !isBlank(cell));
  const both = filled.filter((cell) => typeof cell === 'string' && BOTH.test(cell.trim()));
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

/** Which of the two figures in its cells a match is. */
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
  const signs = SIGNS.map((sign) =>
    /^\p{L}+$/u.test(sign) && !(sign === 'x' && isBare) ? ` ${sign} ` : sign,
  ).filter((sign) => texts.some((text) => text.includes(sign)));
  return { at, signs, isFigure: true };
};
