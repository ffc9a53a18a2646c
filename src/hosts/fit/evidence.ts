import { writtenDate } from '../../worksheet/calendar';
import { isCellError } from '../../worksheet/cells/cell';
import { cellAt, showsDate, textOf, type GrowersBook } from './book';
import type { Candidate } from './candidate';
import { yieldsWritten } from './yieldFigures';
import { rowOfDay } from './dayBeside';
import { lessAt } from './less';
import { lookedUp as saidOf } from './lookedUp';
import { namedWithin } from './lotWithin';
import { inMonth, shownInMonth } from './monthDays';
import { daysBeside } from './overDays';
import { pieceOf } from './pieces';
import { rowsAbove } from './cellsAbove';
import type { ColumnReading } from './reading';
import { partsWritten } from './waitParts';

/** What is read of a record, as the grower wrote it. */
export function evidenceOf(
  book: GrowersBook,
  candidate: Candidate,
  row: number,
  reading: ColumnReading,
): string {
  const { name, match, headings, dayRows, rest, unit, unitColumn, perRack, parts, piece, said } = reading;
  const { isFilledDown, hasDittos } = reading;
  if (said) return said.text;
  if (headings) return headings.get(row) ?? '';
  if (dayRows) return dayRows.has(row) ? shownAt(book, candidate, dayRows.get(row)!, match.column) : '';
  if (reading.ofYields) return yieldsWritten(reading.ofYields, row, candidate);
  if (parts) return partsWritten(parts, (column) => shownAt(book, candidate, row, column));
  if (reading.months)
    return shownInMonth(inMonth(candidate, row, cellAt(candidate.sheet, row, match.column), reading.months));
  const above = isFilledDown || hasDittos ? rowsAbove(candidate, match.column)(row) : undefined;
  const own = shownAt(book, candidate, above ?? row, match.column);
  const takenOff = name === 'blocks' ? lessAt(candidate, row) : 0;
  if (takenOff !== 0 && !Number.isNaN(takenOff)) return `${own} − ${takenOff}`;
  if (piece && !perRack) return textOf(pieceOf(cellAt(candidate.sheet, row, match.column), piece));
  if (perRack && own !== '') return `${own} × ${shownAt(book, candidate, row, perRack.column)}`;
  const days = reading.overDays ? daysBeside(candidate, reading.overDays, row) : 1;
  if (days > 1 && own !== '') return `${own} ÷ ${days}`;
  if (unitColumn && own !== '') return `${own} ${shownAt(book, candidate, row, unitColumn.column)}`;
  if (unit === 'weeks' && own !== '') return `${own} × 7`;
  const { otherDay, lookedUp, within, dayBeside } = reading;
  if (dayBeside)
    return `${own} ${shownAt(book, candidate, rowOfDay(candidate, dayBeside)(row), dayBeside.column)}`.trim();
  if (otherDay && own === '') return shownAt(book, candidate, row, otherDay.column);
  if (lookedUp) {
    const label = lookedUp.strainOf?.get(row) ?? own;
    return `${textOf(label)} ${textOf(saidOf(lookedUp, label))}`.trim();
  }
  if (within && own !== '') return textOf(namedWithin(shownAt(book, candidate, row, within.column), own));
  const more = rest ? shownAt(book, candidate, row, rest.column) : '';
  if (rest?.isTakenOff && more !== '') return `${own} − ${more}`;
  return rest && more !== '' ? `${own === '' ? '' : `${own} ${unit} `}${more} ${rest.unit}` : own;
}

/** What the grower sees in a cell. */
export function shownAt(
  { dateSystem }: GrowersBook,
  { sheet }: Pick<Candidate, 'sheet'>,
  row: number,
  column: number,
): string {
  const cell = cellAt(sheet, row, column);
  if (cell === null) return '';
  if (isCellError(cell)) return cell.code;
  if (typeof cell !== 'number') return String(cell);
  const format = sheet.formatAt(row, column);
  if (showsDate(format)) return writtenDate(Math.floor(cell), dateSystem);
  if (format?.includes('%')) return `${Number((cell * 100).toPrecision(12))}%`;
  return String(Number(cell.toPrecision(12)));
}
