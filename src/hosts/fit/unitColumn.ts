import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import { cellAt, textOf } from './book';
import type { Candidate } from './candidate';
import { KILOGRAMS, massUnitOf, wordsOfUnit, type MassUnit } from './units';

// A column beside a mass may say its unit row by row: pounds in one, ounces in the next.

/** The column that says in what unit each mass is. */
export interface UnitColumn {
  readonly column: number;
  readonly header: string;
  /** The unit of most rows, in which the masses of all are read. */
  readonly unit: MassUnit;
}

const OF_UNITS =
  /^(?:uom|u\/m|units?|unit of measure|measure|einheit|unit[ée]|unidad|unit[àa]|eenheid|enhed|jednostka|jm|unidade)\.?$/i;

/** The column of units beside a mass: by its header, or right of it; every text in it is a unit of mass. */
export function unitColumnOf(
  { headers, matches, sheet, dataRows, lies, parts }: Candidate,
  mass: number,
): UnitColumn | undefined {
  if (lies || parts?.some((part) => part.lies)) return undefined;
  for (const [column, header] of headers) {
    const isBeside = OF_UNITS.test(header.trim()) || column === mass + 1;
    if (!isBeside || matches.some((match) => match.column === column)) continue;
    const units = dataRows
      .map((row) => cellAt(sheet, row, column))
      .flatMap((cell) => (isBlank(cell) ? [] : [typeof cell === 'string' ? massUnitOf(cell) : undefined]));
    if (units.length === 0 || units.includes(undefined)) continue;
    const times = (unit: MassUnit): number => units.filter((one) => one === unit).length;
    const [unit] = [...new Set(units as MassUnit[])].sort((a, b) => times(b) - times(a));
    return { column, header, unit: unit! };
  }
  return undefined;
}

/** What a mass of a row is multiplied by for the unit of most; undefined where the row has no unit. */
export function rowFactor(
  { column, unit }: UnitColumn,
  { sheet }: Candidate,
  row: number,
): number | undefined {
  const own = massUnitOf(textOf(cellAt(sheet, row, column)));
  return own === undefined ? undefined : KILOGRAMS[own] / KILOGRAMS[unit];
}

/** A mass of a row in the unit of most. */
export function inCommonUnit(of: UnitColumn, candidate: Candidate, row: number, mass: Cell): Cell {
  if (isBlank(mass) || isCellError(mass) || typeof mass !== 'number') return mass;
  const factor = rowFactor(of, candidate, row);
  return factor === undefined ? cellError('#N/A', `has no unit under ${of.header}`) : mass * factor;
}

const UNITS: readonly MassUnit[] = ['kg', 'g', 'lb', 'oz'];

/** The factor of each row as a formula says it. */
export const factorFormula = ({ unit }: UnitColumn, cells: string): string =>
  UNITS.reduceRight((rest, own) => {
    const words = wordsOfUnit(own).map((word) => `"${word}"`);
    const factor = Number((KILOGRAMS[own] / KILOGRAMS[unit]).toPrecision(12));
    return `IF(ISNUMBER(MATCH(LOWER(TRIM(${cells})),{${words.join(',')}},0)),${factor},${rest})`;
  }, 'NA()');
