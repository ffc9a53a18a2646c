import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { PREFIX } from '../../worksheet/constants';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { looksIn } from './looks';
import type { Conversion } from './conversion';
import { massUnitIn, type DecimalMark, type FigureUnit, type MassUnit } from './units';

// Masses that are written in two columns: pounds and ounces, or what is on the scale and its crate.

/** The smaller part of a mass that is written in two columns, or what is taken off it. */
export interface Rest {
  readonly column: number;
  readonly header: string;
  readonly unit: FigureUnit;
  /** How many of its unit are one of the other's. */
  readonly toOne: number;
  /** Whether it is the tare of the mass. */
  readonly isTakenOff?: boolean;
}

/** What a mass in two columns is written in. */
const SMALLER: Partial<Record<FigureUnit, readonly [unit: MassUnit, toOne: number]>> = {
  lb: ['oz', 16],
  kg: ['g', 1000],
};

/** The column of ounces right of one of pounds, or of grams right of kilograms, where none of them makes a whole one. */
export function restBeside(
  { headers, matches, sheet, dataRows }: Candidate,
  mass: number,
  massUnit: FigureUnit,
): Rest | undefined {
  const smaller = SMALLER[massUnit];
  const at = mass + 1;
  const header = headers.get(at);
  if (!smaller || header === undefined || matches.some(({ column }) => column === at)) return undefined;
  const [unit, toOne] = smaller;
  const looks = looksIn(sheet, dataRows, at);
  const filled = dataRows.length - (looks.get('blank') ?? 0);
  const isFigures = (looks.get('number') ?? 0) + (looks.get('text number') ?? 0) > filled / 2;
  const figures = dataRows
    .map((row) => cellAt(sheet, row, at))
    .map((cell) => (typeof cell === 'string' ? Number.parseFloat(cell.replace(',', '.')) : cell));
  const isRest = isFigures && figures.every((one) => typeof one !== 'number' || !(one >= toOne));
  return massUnitIn(header) === unit && isRest ? { column: at, header, unit, toOne } : undefined;
}

/** A mass of two parts, of which one may be blank. */
export function sumOf(great: Cell, small: Cell, toOne: number): Cell {
  if (isCellError(great)) return great;
  if (isCellError(small) || isBlank(small)) return isCellError(small) ? small : great;
  if (isBlank(great)) return typeof small === 'number' ? small / toOne : small;
  return typeof great === 'number' && typeof small === 'number' ? great + small / toOne : great;
}

/** A mass without its crate. */
export function lessTare(gross: Cell, tare: Cell, { header, toOne }: Rest): Cell {
  if (isCellError(gross) || isBlank(gross)) return gross;
  if (isCellError(tare)) return tare;
  if (isBlank(tare)) return cellError('#N/A', `is blank: type 0 where ${header} is none`);
  return typeof gross === 'number' && typeof tare === 'number' ? gross - tare / toOne : gross;
}

/** A mass of two columns as a formula says it, of which one may be blank; a mass less its tare, which may not. */
export function massText(
  {
    conversion,
    decimalMark,
    unit,
  }: {
    readonly conversion: Conversion;
    readonly decimalMark: DecimalMark | undefined;
    readonly unit: FigureUnit;
  },
  rest: Rest,
  cells: string,
  beside: string,
): string {
  const mark = decimalMark === undefined ? '' : `,"${decimalMark}"`;
  const read = (column: string, own: FigureUnit): string =>
    conversion === 'figures' ? `IF(${column}="",0,${PREFIX}TONUMBERS(${column},"${own}"${mark}))` : column;
  if (!rest.isTakenOff) return `(${read(cells, unit)}+${read(beside, rest.unit)}/${rest.toOne})`;
  const tare = `IF(${beside}="",NA(),${read(beside, rest.unit)})`;
  return `(${read(cells, unit)}-${rest.toOne === 1 ? tare : `${tare}/${Number(rest.toOne.toPrecision(12))}`})`;
}
