import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import { cellAt, textOf } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { flushIn, isOfWhatCameOff } from './flushHeaders';
import { inOrder } from './inOrder';
import { JOB, type WantedTable } from './jobs';
import { naming } from './naming';
import { unaccented } from './otherLanguages';
import { pieceOf, piecesOf, pieceText, signsIn, type Piece } from './pieces';
import { DASHES, isDash } from './values';
import { isMassUnit, KILOGRAMS, massUnitIn, type FigureUnit } from './units';

// What each flush of a strain gives, in masses a block or in parts of the biological efficiency: `lb / block 1st, 2nd, 3rd`,
// `BE by flush (%) 52/26/12`. The share of a flush is its own figure in their sum; their sum is what a block gives.

/** The figure of one flush: a column, or one of the figures in its cells. */
interface OfFlush {
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
  readonly block: { readonly mass: OfBlock; readonly moisture: OfBlock | undefined } | undefined;
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
const isNone = (cell: Cell): boolean => isBlank(cell) || isDash(cell);

type Headers = ReadonlyMap<number, string>;
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
export function flushYieldsIn(headers: Headers, cellsIn: CellsIn): FlushYields | undefined {
  const found = [...besideOf(headers, cellsIn), ...packedOf(headers, cellsIn)];
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
  if (table.name !== 'strains' || matches.some(({ wanted }) => /^flush \d+$/.test(wanted))) return matches;
  const yields = flushYieldsIn(headers, cellsIn);
  if (!yields || areShares(yields, cellsIn)) return matches;
  const columns = yields.flushes.map(({ column }) => column);
  const others = matches.filter(({ column }) => !columns.includes(column));
  const by = 'what each flush gives' as const;
  const matchOf = (wanted: string, { column }: OfFlush): ColumnMatch => ({
    wanted,
    column,
    header: headers.get(column)!,
    by,
  });
  const shares = wants('flush') ? yields.flushes.map((one, at) => matchOf(`flush ${at + 1}`, one)) : [];
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
  { headers, sheet, dataRows }: Candidate,
  { by, wanted }: ColumnMatch,
): OfYields | undefined {
  if (by !== 'what each flush gives') return undefined;
  const yields = flushYieldsIn(headers, (column) => dataRows.map((row) => cellAt(sheet, row, column)));
  const number = /^flush (\d+)$/.exec(wanted)?.[1];
  return yields && { yields, at: number === undefined ? undefined : Number(number) - 1 };
}

/** What is read from what each flush gives, in words. */
export const yieldWords = ({ yields: { header, block }, at }: OfYields, headers: Headers): string =>
  at === undefined
    ? `the sum of ${header}${block ? ` over the dry mass under ${ofBlockWords(block, headers)}` : ''}`
    : `its part of ${header}`;

const ofBlockWords = ({ mass, moisture }: NonNullable<FlushYields['block']>, headers: Headers): string =>
  [mass, moisture].flatMap((one) => (one ? [headers.get(one.column)!] : [])).join(' and ');

/** The columns that it is read from. */
export const yieldColumns = ({ yields: { flushes, block } }: OfYields): number[] => [
  ...flushes.map(({ column }) => column),
  ...[block?.mass, block?.moisture].flatMap((one) => (one ? [one.column] : [])),
];

/** What a strain has of them, as it is written. */
export function yieldsWritten(
  { yields, at }: OfYields,
  row: number,
  { sheet }: Pick<Candidate, 'sheet'>,
): string {
  const written = yields.flushes.map(({ column, piece }) => {
    const cell = cellAt(sheet, row, column);
    return textOf(piece ? pieceOf(cell, piece) : cell);
  });
  return at === undefined ? written.filter((text) => text !== '').join(' + ') : written[at]!;
}

type Figures = (cells: readonly Cell[], unit: FigureUnit) => readonly Cell[];

/** The share of a flush, from 0, or the efficiency of a strain. */
export function readYield(
  { sheet }: Candidate,
  { yields: { flushes, unit, block }, at }: OfYields,
  row: number,
  figures: Figures,
): Cell {
  const all: number[] = [];
  for (const { column, piece } of flushes) {
    const cell = cellAt(sheet, row, column);
    const own = piece ? pieceOf(cell, piece) : cell;
    const [read = null] = isNone(own) ? [0] : figures([own], unit);
    if (isCellError(read)) return read;
    if (typeof read !== 'number') return cellError('#N/A', 'must be what each flush gives');
    all.push(read);
  }
  const sum = all.reduce((total, one) => total + one, 0);
  if (sum === 0) return null;
  if (at !== undefined) return all[at] === 0 ? null : all[at]! / sum;
  if (!block) return sum;
  const [mass = null] = figures([cellAt(sheet, row, block.mass.column)], block.mass.unit);
  const [water = null] = block.moisture
    ? figures([cellAt(sheet, row, block.moisture.column)], block.moisture.unit)
    : [0];
  if (typeof mass !== 'number' || typeof water !== 'number')
    return cellError('#N/A', 'has no mass or no moisture of a block');
  return (sum * inKilograms(unit)) / (mass * inKilograms(block.mass.unit) * (1 - water));
}

const inKilograms = (unit: FigureUnit): number => (isMassUnit(unit) ? KILOGRAMS[unit] : 1);

/** The same as a formula says it. */
export function yieldText(
  { yields: { flushes, unit, block }, at }: OfYields,
  cellsOf: (column: number) => string,
): string {
  const figure = (cells: string, own: FigureUnit): string => `${PREFIX}TONUMBERS(${cells},"${own}")`;
  const one = ({ column, piece }: OfFlush): string => {
    const cells = piece ? pieceText(cellsOf(column), piece) : cellsOf(column);
    const none = `(${cells}="")+ISNUMBER(MATCH(LOWER(TRIM(${cells})),{${DASHES.map((dash) => `"${dash}"`).join(',')}},0))`;
    return `IF(${none},0,${figure(cells, unit)})`;
  };
  const sum = `(${flushes.map(one).join('+')})`;
  if (at !== undefined) return `IF(${one(flushes[at]!)}=0,"",${one(flushes[at]!)}/${sum})`;
  if (!block) return sum;
  const factor = inKilograms(unit) / inKilograms(block.mass.unit);
  const mass = figure(cellsOf(block.mass.column), block.mass.unit);
  const dry = block.moisture ? `*(1-${figure(cellsOf(block.moisture.column), block.moisture.unit)})` : '';
  return `${sum}${factor === 1 ? '' : `*${Number(factor.toPrecision(12))}`}/(${mass}${dry})`;
}
