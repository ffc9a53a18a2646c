import { isBlank } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { onceForText } from './once';
import { unaccented } from './otherLanguages';
import type { Rest } from './massParts';
import { isMassUnit, KILOGRAMS, massUnitIn, type FigureUnit } from './units';

// Picks are weighed in their crate: of the mass on the scale the empty crate is taken off.

const GROSS = /\b(?:gross|brutt?o|brut\b|lordo|full\b)/;
const TARE = /\b(?:tare\b|tara|empty\b|leer(?:gewicht)?\b|(?:crate|box|tray|tub|basket)\s*(?:wt|weight)\b)/;
const NET = /\b(?:nett?|netto\w*|neto)\b/;

const plain = onceForText((header) => unaccented(header).toLowerCase().replaceAll('_', ' '));

/** Whether a header is of a mass with its crate, of the crate alone, of the mass without it. */
export const isGross = (header: string): boolean => GROSS.test(plain(header)) && !TARE.test(plain(header));
export const isTare = (header: string): boolean => TARE.test(plain(header)) && !NET.test(plain(header));
export const isNet = (header: string): boolean => NET.test(plain(header));

/** How a grower says that a column is taken off another. */
export const lessTare = (mass: string, tare: string): string => `${mass} less ${tare}`;

/** The only column of picks that says what their crates weigh. */
export function tareIn({
  table,
  headers,
  matches,
  sheet,
  dataRows,
  lies,
  parts,
}: Candidate): readonly [column: number, header: string] | undefined {
  if (table.name !== 'harvests' || lies || parts?.some((part) => part.lies)) return undefined;
  const found = [...headers].filter(
    ([column, header]) =>
      isTare(header) &&
      !matches.some((match) => match.column === column) &&
      dataRows.some((row) => !isBlank(cellAt(sheet, row, column))),
  );
  return found.length === 1 ? found[0] : undefined;
}

/** The tare of a mass whose header says that it is with the crate, or of which the grower said so. */
export function tareOf(candidate: Candidate, mass: string, massUnit: FigureUnit): Rest | undefined {
  const found = tareIn(candidate);
  if (!found) return undefined;
  const [column, header] = found;
  if (!isGross(mass) && !mass.endsWith(lessTare('', header))) return undefined;
  const unit = massUnitIn(header) ?? massUnit;
  const toOne = isMassUnit(unit) && isMassUnit(massUnit) ? KILOGRAMS[massUnit] / KILOGRAMS[unit] : 1;
  return { column, header, unit, toOne, isTakenOff: true };
}

/** Where a tare is, and in which unit. */
export interface Tare {
  readonly match: ColumnMatch;
  readonly unit: FigureUnit;
}

/** The tare of a mass that it is taken off: it is read besides, since a slip of the hand is in the mass with it. */
export const taresOf = ({ match: { by }, rest }: { match: ColumnMatch; rest?: Rest }): Tare[] =>
  rest?.isTakenOff
    ? [
        {
          match: { wanted: 'tare', header: rest.header, column: rest.column, by },
          unit: rest.unit,
        },
      ]
    : [];
