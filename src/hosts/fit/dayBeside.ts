import { cellError, isBlank, type Cell } from '../../worksheet/cells/cell';
import type { Block } from './block';
import { cellAt, textOf } from './book';
import type { Candidate, FixedCell } from './candidate';
import { rowsAbove } from './cellsAbove';
import { cellsText } from './cellsText';
import type { ReadRange } from './columns';
import type { ColumnReading } from './reading';
import { areWeekdays, dayWord, readWeekdays, weekdayText } from './standing';
import { isDitto } from './values';
import { weekIn } from './weeks';

// Orders with weeks across, `KW 10`, and a column that says on which day of them each row is delivered: `Sat`.

/** The column that says the day of the week. */
export interface DayBeside {
  readonly column: number;
  readonly header: string;
  /** Whether a blank, or a ditto mark, says the same as the cell above it. */
  readonly isFilledDown: boolean;
  readonly hasDittos: boolean;
}

/** The only column of days of the week beside weeks across, which are in the header row where nothing else is said. */
export function dayColumn(
  { sheet, row, rows, across }: Block,
  weekAt: (column: number) => FixedCell['cell'] = (column) => ({ row, column }),
): number | undefined {
  const areWeeks = across.map(weekAt).every((at) => {
    const cell = cellAt(sheet, at.row, at.column);
    return weekIn(textOf(cell)) !== undefined;
  });
  const found = (sheet.rows[row] ?? [])
    .map((_, column) => column)
    .filter(
      (column) => !across.includes(column) && areWeekdays(rows.map((one) => cellAt(sheet, one, column))),
    );
  return areWeeks && found.length === 1 ? found[0] : undefined;
}

/** A reading of weeks with the day beside them, where a column says it. */
export function withDayBeside(
  candidate: Candidate,
  reading: ColumnReading,
  isFilledDown: (column: number) => boolean,
): ColumnReading {
  const { dayBeside: own, sheet, dataRows } = candidate;
  if (reading.name !== 'due' || !own) return reading;
  const hasDittos = dataRows.some((row) => isDitto(cellAt(sheet, row, own.column)));
  return { ...reading, dayBeside: { ...own, isFilledDown: isFilledDown(own.column), hasDittos } };
}

/** The row whose cell says the day of another. */
export function rowOfDay(candidate: Candidate, { column, isFilledDown }: DayBeside): (row: number) => number {
  const above = rowsAbove(candidate, column);
  return (row) => {
    const cell = cellAt(candidate.sheet, row, column);
    return isDitto(cell) || (isFilledDown && isBlank(cell)) ? (above(row) ?? row) : row;
  };
}

/** The days that the Mondays of weeks become. */
export function onTheirDays(
  candidate: Candidate,
  mondays: readonly Cell[],
  beside: DayBeside,
): readonly Cell[] {
  const rowAt = rowOfDay(candidate, beside);
  return mondays.map((monday, i) => {
    if (typeof monday !== 'number') return monday;
    const said = cellAt(candidate.sheet, rowAt(candidate.dataRows[i]!), beside.column);
    if (isBlank(said)) return cellError('#N/A', 'is blank: no day of the week');
    const [day] = readWeekdays([said]);
    const [second] = readWeekdays([said], 1);
    if (typeof day !== 'number') return day!;
    return typeof second === 'number'
      ? cellError('#N/A', `must name one day of the week; it is "${textOf(said)}"`)
      : monday + day - 1;
  });
}

/** The same as a formula says it. */
export function onTheirDaysText(
  candidate: Candidate,
  monday: string,
  range: ReadRange,
  own: DayBeside,
): string {
  const { column, isFilledDown, hasDittos } = own;
  const match = { wanted: 'due', header: own.header, column, by: 'its data' as const };
  const cells = cellsText({ match, isFilledDown, hasDittos }, range);
  const held = candidate.dataRows.map((row) => cellAt(candidate.sheet, row, column));
  return `${monday}+IF(${dayWord(cells, 1)}="",${weekdayText(cells, held)},NA())-1`;
}
