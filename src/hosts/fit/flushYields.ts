import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, textOf } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { flushIn, isOfWhatCameOff } from './flushHeaders';
import type { TableFit } from './fitted';
import { inOrder } from './inOrder';
import { JOB, type WantedTable } from './jobs';
import { naming } from './naming';
import { unaccented } from './otherLanguages';
import { pieceOf, piecesOf, signsIn, type Piece } from './pieces';
import { isDash } from './values';
import { isMassUnit, KILOGRAMS, massUnitIn, type FigureUnit } from './units';

// What each flush of a strain gives, in masses a block or in parts of the biological efficiency: `lb / block 1st, 2nd, 3rd`,
// `BE by flush (%) 52/26/12`. The share of a flush is its own figure in their sum; their sum is what a block gives.

/** The figure of one flush: a column, or one of the figures in its cells. */
export interface OfFlush {
  readonly column: number;
  readonly piece?: Piece;
}

/** A column of the strains that a block’s dry mass follows from. */
interface OfBlock {
  readonly column: number;
  readonly unit: FigureUnit;
}

/** What each flush gives. */
export interface FlushYields {
  readonly flushes: readonly OfFlush[];
  readonly unit: FigureUnit;
  /** The headers of their columns, together. */
  readonly header: string;
  /** What a block weighs, and its moisture; undefined where the figures are parts of the efficiency already. */
  readonly block: BlockColumns | { readonly dryKilograms: number } | undefined;
}

export interface BlockColumns {
  readonly mass: OfBlock;
  readonly moisture: OfBlock | undefined;
}

const MOST_FLUSHES = 6;
/** So close to a whole the figures are shares. */
const CLOSE = 0.015;
const OF_EFFICIENCY = /\b(?:be|b\.e|bio\w* eff\w*|efficiency)\b/;
const OF_MONEY = /[$€£¥]|price|cost/;
const OF_TIME = /\b(?:days?|weeks?|wks?|after|until|from|date)\b/;
const FIGURE = /^\d+(?:[.,]\d+)?\s*%?\s*(?:kg|g|lb|oz)?$/i;

const plain = (header: string): string => unaccented(header).toLowerCase();

const isFigure = (cell: Cell): boolean =>
  typeof cell === 'number' || (typeof cell === 'string' && FIGURE.test(cell.trim()));
export const isNone = (cell: Cell): boolean => isBlank(cell) || isDash(cell);

export type Headers = ReadonlyMap<number, string>;
type CellsIn = (column: number) => readonly Cell[];

/** What the figures under a header measure; undefined where it does not say that they are what came off. */
function measureOf(header: string): FigureUnit | undefined {
  const words = plain(header);
  if (OF_MONEY.test(words) || OF_TIME.test(words)) return undefined;
  if (OF_EFFICIENCY.test(words)) return 'percent';
  return massUnitIn(header);
}

/** Columns side by side, of which the first says what they are, and each the number of its flush. */
function besideOf(headers: Headers, cellsIn: CellsIn): Omit<FlushYields, 'block'>[] {
  return [...headers].flatMap(([first, header]) => {
    const unit = measureOf(header);
    if (unit === undefined || flushIn(header)?.flush !== 1) return [];
    const columns = [first];
    for (let column = first + 1; flushIn(headers.get(column) ?? '')?.flush === columns.length + 1; column++)
      columns.push(column);
    const areFigures = columns.every((column) =>
      cellsIn(column).every((cell) => isNone(cell) || isFigure(cell)),
    );
    if (columns.length < 2 || !areFigures) return [];
    const named = columns.map((column) => headers.get(column)!);
    return [{ flushes: columns.map((column) => ({ column })), unit, header: named.join(', ') }];
  });
}

/** One column with the figures of all flushes in its cells. */
function packedOf(headers: Headers, cellsIn: CellsIn): Omit<FlushYields, 'block'>[] {
  return [...headers].flatMap(([column, header]) => {
    const unit = measureOf(header);
    const isOfFlushes = isOfWhatCameOff(header) || OF_EFFICIENCY.test(plain(header));
    if (unit === undefined || !isOfFlushes) return [];
    const cells = cellsIn(column).filter((cell) => !isNone(cell));
    const signs = signsIn(cells.filter((cell) => typeof cell === 'string'));
    const all = cells.map((cell) => (typeof cell === 'string' ? piecesOf(cell, signs) : [cell]));
    const most = Math.max(0, ...all.map(({ length }) => length));
    const areFigures = all.every((pieces) => pieces.every((piece) => isFigure(piece)));
    if (most < 2 || most > MOST_FLUSHES || !areFigures) return [];
    const flushes = Array.from({ length: most }, (_, at) => ({ column, piece: { at, signs } }));
    return [{ flushes, unit, header }];
  });
}

const OF_ALL =
  /\b(?:yields?|gives?|crops?|total|std|standard|expected|all (?:waves|flushes|breaks|picks)|ertrag|rendement|rendimiento|opbrengst|resa)\b/;
const OF_ONE =
  /\b(?:blocks?|bags?|units?|bricks?|logs?|tubs?|kits?|beutel|blocs?|sacs?|bloques?|bolsas?|zak(?:ken)?|sacc[oh]i?)\b/;

/** One column of what a block gives in all its flushes: `g per block, all waves`. */
const totalOf = (headers: Headers, cellsIn: CellsIn): Omit<FlushYields, 'block'>[] =>
  [...headers].flatMap(([column, header]) => {
    const unit = massUnitIn(header);
    const words = plain(header);
    const isTotal = OF_ALL.test(words) && OF_ONE.test(words) && !OF_MONEY.test(words) && !OF_TIME.test(words);
    const areFigures = cellsIn(column).every((cell) => isNone(cell) || isFigure(cell));
    return unit !== undefined && isTotal && areFigures && cellsIn(column).some((cell) => !isNone(cell))
      ? [{ flushes: [{ column }], unit, header }]
      : [];
  });

const LOT_COLUMNS = JOB.plan.tables[0]!.columns;

/** The best header for a column of lots that strains may say as well. */
function ofBlock(
  headers: Headers,
  wanted: 'block mass' | 'moisture',
  besides: readonly number[],
  cellsIn: CellsIn,
): OfBlock | undefined {
  const { column } = LOT_COLUMNS.find(({ name }) => name === wanted)!;
  const named = [...headers]
    .filter(([at, header]) => !besides.includes(at) && !isOfWhatCameOff(header))
    .map(([at, header]) => ({ at, header, points: naming(header, wanted, column.alsoCalled) }))
    .filter(({ header, points }) => points > 0 && (wanted === 'moisture' || massUnitIn(header) !== undefined))
    .sort((one, other) => other.points - one.points);
  const [best] = named;
  return (
    best && {
      column: best.at,
      unit: wanted === 'moisture' ? shareUnit(cellsIn(best.at)) : massUnitIn(best.header)!,
    }
  );
}

/** Figures above 1 are percentages. */
const shareUnit = (cells: readonly Cell[]): 'share' | 'percent' =>
  cells.some((cell) => typeof cell === 'number' && cell > 1) ? 'percent' : 'share';

/** What each flush of strains gives, where one place of a table says it. */
function flushYieldsIn(headers: Headers, cellsIn: CellsIn): FlushYields | undefined {
  const ofEach = [...besideOf(headers, cellsIn), ...packedOf(headers, cellsIn)];
  const found = ofEach.length > 0 ? ofEach : totalOf(headers, cellsIn);
  const [only, more] = found;
  if (!only || more) return undefined;
  if (!isMassUnit(only.unit)) {
    const figures = only.flushes.flatMap(({ column, piece }) =>
      cellsIn(column).map((cell) => Number(textOf(piece ? pieceOf(cell, piece) : cell).replace(',', '.'))),
    );
    return { ...only, unit: shareUnit(figures), block: undefined };
  }
  const own = only.flushes.map(({ column }) => column);
  const mass = ofBlock(headers, 'block mass', own, cellsIn);
  const isDry = mass !== undefined && /\bdry\b/i.test(headers.get(mass.column)!);
  const moisture = isDry ? undefined : ofBlock(headers, 'moisture', own, cellsIn);
  return { ...only, block: mass && (isDry || moisture) ? { mass, moisture } : undefined };
}

/** Strains with the shares of their flushes, and their efficiency, by what each flush gives. */
export function withFlushYields(
  matches: ColumnMatch[],
  table: WantedTable,
  headers: Headers,
  cellsIn: CellsIn,
): ColumnMatch[] {
  const wants = (name: string): boolean => table.columns.some((one) => one.name === name);
  if (table.name !== 'strains') return matches;
  const yields = flushYieldsIn(headers, cellsIn);
  if (!yields || areShares(yields, cellsIn)) return matches;
  const isOfEach = yields.flushes.length > 1;
  if (isOfEach && matches.some(({ wanted }) => /^flush \d+$/.test(wanted))) return matches;
  const columns = yields.flushes.map(({ column }) => column);
  const others = matches.filter(({ column }) => !columns.includes(column));
  const by = 'what each flush gives' as const;
  const matchOf = (wanted: string, { column }: OfFlush): ColumnMatch => ({
    wanted,
    column,
    header: headers.get(column)!,
    by,
  });
  const shares =
    isOfEach && wants('flush') ? yields.flushes.map((one, at) => matchOf(`flush ${at + 1}`, one)) : [];
  const isKnown = !isMassUnit(yields.unit) || yields.block !== undefined;
  const isOpen = wants('efficiency') && !others.some(({ wanted }) => wanted === 'efficiency');
  const efficiency = isKnown && isOpen ? [matchOf('efficiency', yields.flushes[0]!)] : [];
  return inOrder(table, [...others, ...shares, ...efficiency]);
}

/** Figures of flushes that add up to a whole are shares, whatever their header. */
function areShares({ flushes, unit }: FlushYields, cellsIn: CellsIn): boolean {
  if (isMassUnit(unit)) return false;
  const rows = cellsIn(flushes[0]!.column).map((_, row) =>
    flushes.reduce((sum, { column, piece }) => {
      const cell = cellsIn(column)[row]!;
      const own = piece ? pieceOf(cell, piece) : cell;
      return sum + (isNone(own) ? 0 : Number.parseFloat(textOf(own).replace(',', '.')));
    }, 0),
  );
  const isWhole = (sum: number): boolean => [1, 100].some((whole) => Math.abs(sum - whole) <= CLOSE * whole);
  return rows.filter((sum) => sum > 0).every(isWhole);
}

/** What is read from what each flush gives: the share of one, from 0, or all of it as the efficiency. */
export interface OfYields {
  readonly yields: FlushYields;
  readonly at: number | undefined;
}

/** How a match is read from what each flush gives. */
export function ofYields(
  { headers, sheet, dataRows, dryKilograms }: Candidate,
  { by, wanted }: ColumnMatch,
): OfYields | undefined {
  if (by !== 'what each flush gives') return undefined;
  const yields = flushYieldsIn(headers, (column) => dataRows.map((row) => cellAt(sheet, row, column)));
  const number = /^flush (\d+)$/.exec(wanted)?.[1];
  // What the blocks of the lots weigh, where the strains do not say it.
  const block =
    yields?.block ??
    (dryKilograms !== undefined && yields && isMassUnit(yields.unit) ? { dryKilograms } : undefined);
  return (
    yields && { yields: { ...yields, block }, at: number === undefined ? undefined : Number(number) - 1 }
  );
}

/** Strains whose crop of a block is said, with the dry mass that all blocks of the lots have; as it is where they differ. */
export function withBlocksOf(candidate: Candidate, lots: TableFit | undefined): Candidate {
  const { table, headers, matches, missing, sheet, dataRows } = candidate;
  if (table.name !== 'strains' || !missing.includes('efficiency') || !lots) return candidate;
  const yields = flushYieldsIn(headers, (column) => dataRows.map((row) => cellAt(sheet, row, column)));
  const unit = lots.readings.find(({ name }) => name === 'block mass')?.unit;
  const [mass, moisture] = ['block mass', 'moisture'].map((name) => onlyFigure(lots.values.get(name) ?? []));
  const isKnown = yields && isMassUnit(yields.unit) && unit !== undefined && isMassUnit(unit);
  if (!isKnown || mass === undefined || moisture === undefined) return candidate;
  const { column } = yields.flushes[0]!;
  const efficiency = {
    wanted: 'efficiency',
    column,
    header: headers.get(column)!,
    by: 'what each flush gives' as const,
  };
  return {
    ...candidate,
    dryKilograms: mass * inKilograms(unit) * (1 - moisture),
    matches: inOrder(table, [
      ...matches.filter((match) => match.column !== column || match.by === efficiency.by),
      efficiency,
    ]),
    missing: missing.filter((name) => name !== 'efficiency'),
  };
}

/** The figure that all cells have; undefined where they differ. */
function onlyFigure(cells: readonly Cell[]): number | undefined {
  const [first] = cells;
  return typeof first === 'number' && cells.every((cell) => cell === first) ? first : undefined;
}

export const inKilograms = (unit: FigureUnit): number => (isMassUnit(unit) ? KILOGRAMS[unit] : 1);
