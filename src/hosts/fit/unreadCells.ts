import { isBlank, isCellError, type Cell, type CellError } from '../../worksheet/cells/cell';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { isFromElsewhere, type Conversion } from './conversion';
import { isDateColumn, isFigureColumn, unitShownAt } from './looks';
import type { ColumnReading } from './reading';
import { isMassUnit } from './units';
import { isDitto } from './values';

/** A cell that a job needs and cannot read. */
export interface UnreadCell {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
  /** The column it is read for: `lots, inoculated`. */
  readonly about: string;
  readonly held: Cell;
  readonly why: string;
}

/** A reason without the row that it counts: the cell's own place is told. */
export const reasonOf = ({ code, reason }: CellError): string =>
  reason === '' ? `is ${code}` : reason.replace(/ \(row \d+ of [^)]*\)$/, '');

/** What a cell says: under headings the heading does, not the record's own cell. */
const conversionHeld = (held: Cell, read: Cell, conversion: Conversion): Cell =>
  isFromElsewhere(conversion) ? read : held;

/** The cells of a column that cannot be read, blanks that are needed among them. */
export function unreadIn(candidate: Candidate, reading: ColumnReading, read: readonly Cell[]): UnreadCell[] {
  const { wanted, name, match, conversion, rest, isFilledDown, hasDashes, unless, unit, unitColumn } =
    reading;
  const { sheet, dataRows, table, origin } = candidate;
  const about = `${table.name}, ${name}`;
  return read.flatMap((cell, i): UnreadCell[] => {
    const row = dataRows[i]!;
    const held =
      reading.lookedUp?.strainOf?.get(row) ??
      conversionHeld(cellAt(sheet, row, match.column), cell, conversion);
    const told = (why: string): UnreadCell[] => [{ ...origin(row, match.column), about, held, why }];
    if (reading.weeks && reading.dayBeside && isCellError(cell)) {
      const { column } = reading.dayBeside;
      return [{ ...origin(row, column), about, held: cellAt(sheet, row, column), why: reasonOf(cell) }];
    }
    if (isDitto(held) && isBlank(cell)) return told('repeats the cell above, and there is none');
    if (reading.piece && isBlank(cell) && !isBlank(held) && wanted.isNeeded && !wanted.mayLack)
      return wanted.column.role === 'numbered' ? [] : told('has one of its two figures');
    const mayLack =
      unless !== undefined || hasDashes || (reading.piece && !wanted.isNeeded) || reading.ofYields;
    if (mayLack && isBlank(cell)) return [];
    if ((rest || isFilledDown || reading.otherDay) && isBlank(held) && !isBlank(cell) && !isCellError(cell))
      return [];
    if (rest && isCellError(cell) && (isBlank(held) || typeof held === 'number')) {
      const place = origin(row, rest.column);
      return [{ ...place, about, held: cellAt(sheet, row, rest.column), why: reasonOf(cell) }];
    }
    const other = candidate.joined?.get(match.column);
    if (other && isBlank(held) && wanted.isNeeded) {
      const own = cellAt(sheet, row, other.key);
      return [
        { ...origin(row, match.column), about, held: own, why: `leads to no ${name} in ${other.from}` },
      ];
    }
    if (isBlank(held)) return wanted.isNeeded && !wanted.mayLack ? told('is blank') : [];
    if (isCellError(cell)) return told(reasonOf(cell));
    if (reading.lookedUp && isBlank(cell)) return told(`is not in ${reading.lookedUp.from}`);
    if (conversion === 'weekdays') return [];
    const shown = isMassUnit(unit) && !unitColumn ? unitShownAt(sheet, row, match.column) : undefined;
    if (shown !== undefined && shown !== unit)
      return told(`is shown in ${shown}, the column in ${unit}: type it in ${unit}`);
    const needsFigure = isDateColumn(wanted) || isFigureColumn(wanted);
    const { kind } = wanted.column;
    if (!needsFigure || kind.word === 'anything' || kind.accept(cell) !== undefined) return [];
    // A 0 is a blank to the functions, but where there is a word for it.
    if (cell === 0 && !wanted.isNeeded && kind.zeroWord === undefined) return [];
    // As the function itself will say.
    const isZero = cell === 0 && kind.zeroWord !== undefined;
    if (isZero) return told(`is 0: for 0 write ${kind.zeroWord}`);
    return told(isDateColumn(wanted) ? 'is not a date' : 'is not a possible figure');
  });
}
