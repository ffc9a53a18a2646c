import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';
import type { ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import type { Piece } from './pieces';
import { massUnitOf } from './units';

// What ingredients come in, in words: `20 kg sacks`, `50 lb bag`; what comes loose is only in a unit, `kg`.

const PACKS = [
  'sack',
  'bag',
  'bale',
  'pack',
  'tote',
  'drum',
  'bucket',
  'beutel',
  'säcke',
  'sac',
  'saco',
  'zak',
];
const IN_PACKS = new RegExp(
  `^\\d+(?:[.,]\\d+)?\\s*(\\p{L}+)\\.?\\s*/?\\s*(?:${PACKS.join('|')})\\p{L}*\\.?$`,
  'iu',
);
const LOOSE = /^(?:loose|bulk|by the load|truck\w*|trailer|lose|vrac|los)$/i;

const isInPacks = (cell: Cell): boolean =>
  typeof cell === 'string' && massUnitOf(IN_PACKS.exec(cell.trim())?.[1] ?? '') !== undefined;
const isLoose = (cell: Cell): boolean =>
  isBlank(cell) || (typeof cell === 'string' && (LOOSE.test(cell.trim()) || massUnitOf(cell) !== undefined));

const arePacks = (cells: readonly Cell[]): boolean =>
  cells.some(isInPacks) && cells.every((cell) => isInPacks(cell) || isLoose(cell));

/** A recipe with the mass of a pack, where the only column of such words says it. */
export function withPacksInWords(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): ColumnMatch[] {
  if (table.name !== 'recipe' || matches.some(({ wanted }) => wanted === 'pack')) return matches;
  const found = [...headers].filter(
    ([column]) => !matches.some((match) => match.column === column) && arePacks(cellsIn(column)),
  );
  const [only, ...more] = found;
  if (!only || more.length > 0) return matches;
  const [column, header] = only;
  return inOrder(table, [...matches, { wanted: 'pack', column, header, by: 'its data' }]);
}

/** The mass in such words. */
export function packPiece(
  { name }: WantedTable,
  { wanted }: ColumnMatch,
  cells: readonly Cell[],
): Piece | undefined {
  if (name !== 'recipe' || wanted !== 'pack' || !arePacks(cells)) return undefined;
  const texts = cells.filter(isInPacks).map((cell) => textOf(cell).toLowerCase());
  const signs = PACKS.filter((word) => texts.some((text) => text.includes(word)));
  const hasStroke = texts.some((text) => text.includes('/'));
  return { at: 0, signs: [...signs, ...(hasStroke ? ['/'] : [])], isLowered: true, isNothingElse: true };
}
