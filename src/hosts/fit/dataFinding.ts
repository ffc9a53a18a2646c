import type { Cell } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import type { ColumnReading } from './reading';

/** A cell of the grower's book. */
export interface CellPlace {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** What a cell holds and what it would hold. */
export interface Correction extends CellPlace {
  readonly before: Cell;
  readonly after: Cell;
  /** The number format it would have, where it is another. */
  readonly format?: string;
}

export type DataCause =
  | 'text dates'
  | 'text figures'
  | 'per cent'
  | 'unreadable'
  | 'spellings'
  | 'twice'
  | 'totals'
  | 'units';

/** One cause of trouble in one column, with every cell it is in. */
export interface DataFinding {
  readonly cause: DataCause;
  readonly words: string;
  readonly cells: readonly CellPlace[];
  /** What would be corrected on the grower's click; several ways where only the grower knows which. */
  readonly ways: readonly { readonly name: string; readonly corrections: readonly Correction[] }[];
}

export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

export const areOrIs = (count: number): string => (count === 1 ? 'is' : 'are');

/** `Date inoc on Grow log` */
export const where = ({ sheet }: Candidate, { match }: ColumnReading): string =>
  `“${match.header}” on ${sheet.name}`;

export interface Held extends CellPlace {
  readonly held: Cell;
  readonly isFormula: boolean;
}

export const cellsOf = ({ sheet, dataRows }: Candidate, { match: { column } }: ColumnReading): Held[] =>
  dataRows.map((row) => ({
    sheet: sheet.name,
    row,
    column,
    held: cellAt(sheet, row, column),
    isFormula: sheet.isFormula(row, column),
  }));

/** Corrections of those cells whose reading succeeds; a formula is never typed over. */
export const corrected = (cells: readonly Held[], read: readonly Cell[], format?: string): Correction[] =>
  cells.flatMap(({ held, isFormula, ...place }, i) => {
    const after = read[i]!;
    if (isFormula || typeof after !== 'number') return [];
    return [{ ...place, before: held, after, ...(format !== undefined && { format }) }];
  });

export const placesOf = (cells: readonly CellPlace[]): CellPlace[] =>
  cells.map(({ sheet, row, column }) => ({ sheet, row, column }));
