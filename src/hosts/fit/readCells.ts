import { cellError, isBlank, isCellError, type Cell } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { DateOrder } from '../../worksheet/writtenDates';
import { cellAt } from './book';
import type { Candidate } from './candidate';
import { partAt } from './columns';
import { cellsAbove } from './cellsAbove';
import { onTheirDays } from './dayBeside';
import { isLess, lessAt, tooManyWords } from './less';
import { inMonth } from './monthDays';
import { inCommonUnit } from './unitColumn';
import { inFull } from './legend';
import { restOf } from './dryBlocks';
import { readYield } from './yieldFigures';
import { lookedUp } from './lookedUp';
import type { LotDay } from './lotDays';
import { namedWithin } from './lotWithin';
import { standingOfLot } from './takenElsewhere';
import { dayOfStamp } from './otherDay';
import { valuesOf, type ColumnReading } from './reading';
import type { OfRange } from './conversion';
import type { YearTurn } from './years';
import { digitOf } from './ordinals';
import { partOfDay } from './overDays';
import { pieceOf } from './pieces';
import { lessTare, sumOf, type Rest } from './massParts';
import { isZero, sharesOfDry } from './recipe';
import { timesRacks } from './shelvesPerRack';
import { sumOfWait } from './waitParts';
import { readWeekdays, weekdaysIn } from './standing';
import type { DecimalMark, FigureUnit } from './units';
import { isDash, isDitto, isTextDate, withStrokes } from './values';
import { dayInWeek, withoutWeekWords } from './weekOf';
import { dayOfRange, startOf } from './weekRanges';
import { aMonday, dayOfWeek } from './weeks';
import { withoutLink } from './wordsInCells';

/** Does to cells what formulas on the sheet will do: one answer a cell, errors with their reason. */
export interface Reader {
  readonly dateSystem: DateSystem;
  /** The day in a cell that names a lot, written out. */
  readonly lotDay: (cell: Cell, day: LotDay) => Cell;
  readonly dates: (
    cells: readonly Cell[],
    order: DateOrder,
    year: number | undefined,
    turn?: YearTurn,
  ) => readonly Cell[];
  readonly figures: (
    cells: readonly Cell[],
    unit: FigureUnit,
    decimalMark: DecimalMark | undefined,
    ofRange?: OfRange,
  ) => readonly Cell[];
  readonly labels: (cells: readonly Cell[], list: readonly string[]) => readonly Cell[];
}

/** What a column's cells become, one for each data row. */
export function readColumn(
  candidate: Candidate,
  reading: ColumnReading,
  order: DateOrder | undefined,
  reader: Reader,
): readonly Cell[] {
  const read = readWhole(candidate, reading, order, reader);
  const { overDays } = reading;
  if (!overDays) return read;
  return read.map((cell, i) => partOfDay(candidate, overDays, candidate.dataRows[i]!, cell));
}

function readWhole(
  candidate: Candidate,
  reading: ColumnReading,
  order: DateOrder | undefined,
  reader: Reader,
): readonly Cell[] {
  const { sheet, dataRows } = candidate;
  const { rest, unless, unitColumn, perRack, parts } = reading;
  if (parts)
    return dataRows.map((row) =>
      isBlank(cellAt(sheet, row, reading.match.column))
        ? null
        : sumOfWait(
            candidate,
            parts,
            row,
            (cells, unit, ofRange) => reader.figures(cells, unit, undefined, ofRange),
            reading.ofRange,
          ),
    );
  const { ofYields } = reading;
  if (ofYields)
    return dataRows.map((row) =>
      readYield(candidate, ofYields, row, (cells, unit) => reader.figures(cells, unit, reading.decimalMark)),
    );
  const read = readOwn(candidate, reading, order, reader);
  if (reading.isDryShare) return restOf(read);
  const { ofRecipe, hasZeros } = reading;
  if (hasZeros)
    return read.map((cell, i) => (isZero(cellAt(sheet, dataRows[i]!, reading.match.column)) ? 'none' : cell));
  if (ofRecipe)
    return sharesOfDry(
      read,
      ofRecipe.moisture && readColumn(candidate, ofRecipe.moisture, undefined, reader),
    );
  if (unless !== undefined) {
    return read.map((cell, i) => (isBlank(cellAt(sheet, dataRows[i]!, unless)) ? cell : null));
  }
  if (unitColumn) return read.map((cell, i) => inCommonUnit(unitColumn, candidate, dataRows[i]!, cell));
  if (perRack) return read.map((cell, i) => timesRacks(candidate, perRack, dataRows[i]!, cell));
  if (!rest) return read;
  const small = readRest(candidate, reading, rest, reader);
  return read.map((cell, i) =>
    rest.isTakenOff ? lessTare(cell, small[i]!, rest) : sumOf(cell, small[i]!, rest.toOne),
  );
}

const readRest = (
  { sheet, dataRows }: Candidate,
  { conversion, decimalMark }: ColumnReading,
  { column, unit }: Rest,
  reader: Reader,
): readonly Cell[] => {
  const values = valuesOf(sheet, dataRows, column);
  return conversion === 'figures' ? reader.figures(values, unit, decimalMark) : values;
};

function readOwn(
  candidate: Candidate,
  {
    wanted,
    match,
    conversion,
    unit,
    decimalMark,
    ofRange,
    headings,
    legend,
    isFilledDown,
    hasDittos,
    hasDashes,
    hasDates,
    year,
    turn,
    weeks,
    hasLinks,
    otherDay,
    lookedUp: list,
    within,
    lotDay,
    piece,
    digit,
    months,
    range,
    said,
    dayRows,
    week,
    dayBeside,
  }: ColumnReading,
  order: DateOrder | undefined,
  reader: Reader,
): readonly Cell[] {
  const { sheet, dataRows } = candidate;
  const lessOf = (made: number, row: number): Cell => {
    const less = lessAt(candidate, row);
    if (Number.isNaN(less)) return cellError('#VALUE!', `has no count under ${candidate.lost?.header ?? ''}`);
    return less + standingOfLot(candidate, row) > made
      ? cellError('#N/A', `is less than ${tooManyWords(candidate)}`)
      : made - less;
  };
  const withLess = (cells: readonly Cell[]): readonly Cell[] =>
    wanted.name === 'blocks' && isLess(candidate)
      ? cells.map((cell, i) => (typeof cell === 'number' ? lessOf(cell, dataRows[i]!) : cell))
      : cells;
  const above = isFilledDown || hasDittos ? cellsAbove(candidate, match.column) : undefined;
  // In the list’s own spelling, as the formula finds them.
  const inList =
    list?.strainOf === undefined
      ? undefined
      : reader.labels(
          dataRows.map((row) => list.strainOf!.get(row) ?? null),
          list.labels,
        );
  const own = dataRows.map((row, i) => {
    const cell = cellAt(sheet, row, match.column);
    if (hasDashes && isDash(cell)) return null;
    if (digit) return digitOf(isFilledDown ? above!(row) : cell, digit);
    if (piece) return pieceOf(cell, piece);
    if (hasLinks) return withoutLink(cell);
    if (otherDay && isBlank(cell)) return dayOfStamp(cellAt(sheet, row, otherDay.column));
    if (list) return lookedUp(list, inList ? inList[i]! : cell);
    if (within) return namedWithin(cellAt(sheet, row, within.column), cell);
    if (range) return startOf(cell);
    if (week) return withoutWeekWords(cell);
    if (months) return inMonth(candidate, row, cell, months);
    const said = above && (isFilledDown || isDitto(cell)) ? above(row) : cell;
    return lotDay ? reader.lotDay(said, lotDay) : said;
  });
  const values = legend ? own.map((cell) => inFull(legend, cell)) : own;
  switch (conversion) {
    case 'none':
      return withLess(values);
    case 'dates': {
      if (!weeks && order === undefined) return values;
      const days = weeks ? values.map((cell) => dayOfWeek(cell, weeks, weeks.system)) : values;
      const read = reader.dates(days, order ?? 'day first', year, turn);
      if (weeks && dayBeside) return onTheirDays(candidate, read, dayBeside);
      const { weekday } = range ?? {};
      if (weekday)
        return read.map((cell) =>
          typeof cell === 'number' ? dayOfRange(cell, weekday, aMonday(reader.dateSystem)) : cell,
        );
      if (!week) return read;
      return read.map((cell, i) => {
        const weekday = partAt(candidate, dataRows[i]!).weekday ?? 0;
        return typeof cell === 'number' ? dayInWeek(cell, weekday, aMonday(reader.dateSystem), week) : cell;
      });
    }
    case 'day figures':
      // As the formula says it: it has no error but this.
      return reader
        .dates(values.map(withStrokes), 'year first', undefined)
        .map((cell) => (isCellError(cell) ? cellError('#N/A', cell.reason) : cell));
    case 'figures':
      return withLess(reader.figures(values, unit, decimalMark, ofRange));
    case 'weekdays':
      return values.map((cell, i) => {
        const isDate = hasDates && !(typeof cell === 'string' && weekdaysIn(cell).length > 0);
        if (!isDate) return readWeekdays([cell], partAt(candidate, dataRows[i]!).day)[0]!;
        const isOpen = order === undefined && typeof cell === 'string' && isTextDate(cell);
        return isOpen ? cell : reader.dates([cell], order ?? 'day first', year, turn)[0]!;
      });
    case 'day headings': {
      const days = dataRows.map((row) => {
        const heading = dayRows?.get(row);
        return heading === undefined ? null : cellAt(sheet, heading, match.column);
      });
      return order === undefined ? days : reader.dates(days, order, year, turn);
    }
    case 'said':
      return dataRows.map(() => said?.value ?? null);
    case 'headings':
    case 'beginnings':
    case 'sheets':
      return dataRows.map((row) => headings?.get(row) ?? null);
  }
}
