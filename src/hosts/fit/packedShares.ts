import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { textOf } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { inOrder } from './inOrder';
import type { WantedTable } from './jobs';
import { unaccented } from './otherLanguages';
import { pieceOf, piecesOf, signsIn, type Piece } from './pieces';
import type { DecimalMark } from './units';
import { provenMark } from './values';

// The shares of all flushes in one cell: `50/30/20` under `Flush split`. They give themselves away by adding up to 100%.

const OF_FLUSHES =
  /\b(?:flush\w*|splits?|breaks?|waves?|yields?|shares?|wellen?|schube?|anteile?|volees?|oleadas?|vlucht\w*|volate|rzuty?|vagas?|bolger?)\b/;
const OTHER = /\b(?:mix|substrate|recipe|supplement|bran|wood|sawdust|days?|between|every)\b/;

const MOST_FLUSHES = 6;
/** As people round thirds. */
const CLOSE = 0.015;

const FIGURE = /^\d+(?:[.,]\d+)?\s*%?$/;
const valueOf = (piece: string): number => Number.parseFloat(piece.replace(',', '.'));

/** What parts the shares in the cells of a column, and how many there are at most; undefined where it has no such shares. */
function packedIn(cells: readonly Cell[]): { signs: readonly string[]; most: number } | undefined {
  const filled = cells.filter((cell) => !isBlank(cell));
  const texts = filled.filter((cell) => typeof cell === 'string');
  const signs = signsIn(texts);
  const all = filled.map((cell) => (typeof cell === 'string' ? piecesOf(cell, signs) : [textOf(cell)]));
  const areShares = (pieces: readonly string[]): boolean => {
    const sum = pieces.reduce((total, piece) => total + valueOf(piece), 0);
    return (
      pieces.every((piece) => FIGURE.test(piece)) &&
      [1, 100].some((whole) => Math.abs(sum - whole) <= CLOSE * whole)
    );
  };
  const most = Math.max(0, ...all.map(({ length }) => length));
  return most >= 2 && most <= MOST_FLUSHES && all.every(areShares) ? { signs, most } : undefined;
}

/** Strains with the shares of their flushes in one column, which no count of flushes is, whatever its header. */
export function withPackedShares(
  named: ColumnMatch[],
  table: WantedTable,
  headers: ReadonlyMap<number, string>,
  cellsIn: (column: number) => readonly Cell[],
): ColumnMatch[] {
  const matches = named.filter(
    ({ wanted, column }) =>
      table.name !== 'strains' || wanted !== 'flushes' || packedIn(cellsIn(column)) === undefined,
  );
  const isWanted = table.name === 'strains' && table.columns.some(({ name }) => name === 'flush');
  if (!isWanted || matches.some(({ wanted }) => /^flush \d+$/.test(wanted))) return matches;
  const found = [...headers].flatMap(([column, header]) => {
    const words = unaccented(header).toLowerCase();
    const isFree = !matches.some((match) => match.column === column);
    const packed =
      isFree && OF_FLUSHES.test(words) && !OTHER.test(words) ? packedIn(cellsIn(column)) : undefined;
    return packed ? [{ column, header, most: packed.most }] : [];
  });
  const [only, ...more] = found;
  if (!only || more.length > 0) return matches;
  const shares = Array.from({ length: only.most }, (_, i) => ({
    wanted: `flush ${i + 1}`,
    column: only.column,
    header: only.header,
    by: 'its data' as const,
  }));
  return inOrder(table, [...matches, ...shares]);
}

/** Which of the shares in its cells a match is, where several flushes share a column. */
export function shareOfFlush(
  { matches }: Pick<Candidate, 'matches'>,
  { wanted, column }: ColumnMatch,
  cells: readonly Cell[],
): Piece | undefined {
  const number = /^flush (\d+)$/.exec(wanted)?.[1];
  const isShared = matches.some((other) => other.column === column && other.wanted !== wanted);
  const packed = number !== undefined && isShared ? packedIn(cells) : undefined;
  return packed && { at: Number(number) - 1, signs: packed.signs };
}

/** How shares that stand together in their cells are read. */
export function sharesRead(
  cells: readonly Cell[],
  piece: Piece,
): { unit: 'percent' | 'share'; conversion: 'figures'; decimalMark: DecimalMark | undefined } {
  const own = cells.map((cell) => pieceOf(cell, piece));
  const texts = own.filter((cell) => typeof cell === 'string');
  const isPercent = texts.some((text) => Number.parseFloat(text) > 1);
  return { unit: isPercent ? 'percent' : 'share', conversion: 'figures', decimalMark: provenMark(texts) };
}
