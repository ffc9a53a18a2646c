import { cellError, isCellError, type Cell } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import {
  inKilograms,
  isNone,
  type BlockColumns,
  type FlushYields,
  type Headers,
  type OfFlush,
  type OfYields,
} from './flushYields';
import { pieceOf, pieceText } from './pieces';
import type { FigureUnit } from './units';
import { DASHES } from './values';

// What each flush of a strain gives as figures, words and formulas.

/** What is read from what each flush gives, in words. */
export const yieldWords = ({ yields: { header, block }, at }: OfYields, headers: Headers): string =>
  at === undefined
    ? `the sum of ${header}${block ? ` over the dry mass of ${ofBlockWords(block, headers)}` : ''}`
    : `its part of ${header}`;

const ofBlockWords = (block: NonNullable<FlushYields['block']>, headers: Headers): string =>
  'dryKilograms' in block ? 'your lots’ blocks' : `a block, by ${columnWords(block, headers)}`;

const columnWords = ({ mass, moisture }: BlockColumns, headers: Headers): string =>
  [mass, moisture].flatMap((one) => (one ? [headers.get(one.column)!] : [])).join(' and ');

/** The columns that it is read from. */
export const yieldColumns = ({ yields: { flushes, block } }: OfYields): number[] => [
  ...flushes.map(({ column }) => column),
  ...(block && 'mass' in block ? [block.mass, block.moisture] : []).flatMap((one) =>
    one ? [one.column] : [],
  ),
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
  if ('dryKilograms' in block) return (sum * inKilograms(unit)) / block.dryKilograms;
  const [mass = null] = figures([cellAt(sheet, row, block.mass.column)], block.mass.unit);
  const [water = null] = block.moisture
    ? figures([cellAt(sheet, row, block.moisture.column)], block.moisture.unit)
    : [0];
  if (typeof mass !== 'number' || typeof water !== 'number')
    return cellError('#N/A', 'has no mass or no moisture of a block');
  return (sum * inKilograms(unit)) / (mass * inKilograms(block.mass.unit) * (1 - water));
}

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
  if ('dryKilograms' in block)
    return `${sum}*${Number((inKilograms(unit) / block.dryKilograms).toPrecision(12))}`;
  const factor = inKilograms(unit) / inKilograms(block.mass.unit);
  const mass = figure(cellsOf(block.mass.column), block.mass.unit);
  const dry = block.moisture ? `*(1-${figure(cellsOf(block.moisture.column), block.moisture.unit)})` : '';
  return `${sum}${factor === 1 ? '' : `*${Number(factor.toPrecision(12))}`}/(${mass}${dry})`;
}
