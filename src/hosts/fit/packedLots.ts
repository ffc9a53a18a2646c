import { isBlank, type Cell } from '../../worksheet/cells/cell';
import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import type { Piece } from './pieces';
import { massUnitIn, massUnitOf } from './units';

// Lots that say their blocks and what each weighs in one cell: `24 x 5 lb`, `24 bags of 2.5 kg`.

const COUNT = String.raw`(\d+)(?:\s*\p{L}[\p{L} ]*?)?`;
const MASS = String.raw`(\d+(?:[.,]\d+)?)\s*(\p{L}+)?\.?`;
const SIGN = String.raw`\s*(?:[x×*@]|\b(?:of|at|à|a|je|mit|met|de|da)\b)\s*`;
const COUNT_FIRST = new RegExp(`^${COUNT}${SIGN}${MASS}$`, 'iu');
const MASS_FIRST = new RegExp(String.raw`^${MASS}\s*[x×*]\s*(\d+)(?:\s*\p{L}[\p{L} ]*)?$`, 'iu');
const SIGNS = ['x', '×', '*', '@', 'of', 'at', 'à', 'a', 'je', 'mit', 'met', 'de', 'da'];

/** Where most cells say both, the others are told as unreadable. */
const MOST = 0.5;

/** Which of the two comes first in the cells of a column that say both; undefined where they do not. */
function bothIn(header: string, cells: readonly Cell[]): 'count' | 'mass' | undefined {
  const filled = cells.filter((cell) => !isBlank(cell));
  const isMass = (unit: string | undefined): boolean =>
    unit === undefined ? massUnitIn(header) !== undefined : massUnitOf(unit) !== undefined;
  const orders = filled.flatMap((cell) => {
    if (typeof cell !== 'string') return [];
    const [, , , unit] = COUNT_FIRST.exec(cell.trim()) ?? ['', '', '', ''];
    if (unit !== '' && isMass(unit)) return ['count' as const];
    const [, , before = ''] = MASS_FIRST.exec(cell.trim()) ?? [];
    return massUnitOf(before) === undefined ? [] : ['mass' as const];
  });
  const [first] = orders;
  return orders.length > filled.length * MOST && orders.every((one) => one === first) ? first : undefined;
}

/** Lots with both in one column, where no other has their blocks. */
export function withPackedLots(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): ColumnMatch[] {
  if (table.name !== 'lots') return matches;
  const [only, ...more] = [...headers].filter(([column, header]) => bothIn(header, cellsIn(column)));
  if (!only || more.length > 0) return matches;
  const [column, header] = only;
  const others = matches.filter((match) => match.column !== column);
  if (others.some(({ wanted }) => wanted === 'blocks')) return matches;
  const both = { column, header, by: 'its data' as const };
  const isOpen = (name: string): boolean =>
    table.columns.some((one) => one.name === name) && !others.some(({ wanted }) => wanted === name);
  return inOrder(table, [
    ...others,
    { wanted: 'blocks', ...both },
    ...(isOpen('block mass') ? [{ wanted: 'block mass', ...both }] : []),
  ]);
}

/** Which of the two figures in its cells a match is. */
export function lotsPiece(
  { name }: WantedTable,
  { wanted, header }: ColumnMatch,
  cells: readonly Cell[],
): Piece | undefined {
  if (name !== 'lots' || (wanted !== 'blocks' && wanted !== 'block mass')) return undefined;
  const first = bothIn(header, cells);
  if (!first) return undefined;
  const texts = cells.filter((cell) => typeof cell === 'string').map((text) => text.toLowerCase());
  const isBare = texts.some((text) => /\d\s*x\s*\d|\p{L}\s+x\s*\d/u.test(text));
  const signs = SIGNS.map((sign) =>
    /^\p{L}+$/u.test(sign) && !(sign === 'x' && isBare) ? ` ${sign} ` : sign,
  ).filter((sign) => texts.some((text) => text.includes(sign)));
  const isOfBlocks = wanted === 'blocks';
  return {
    at: isOfBlocks === (first === 'count') ? 0 : 1,
    signs,
    ...(isOfBlocks ? { isFigure: true } : { isLowered: true }),
  };
}
