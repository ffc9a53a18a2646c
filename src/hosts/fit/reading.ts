import { isBlank, isCellError, type Cell, type CellError } from '../../worksheet/cells/cell';
import { cellAt, type BookSheet } from './book';
import { lastRowOf, partAt } from './columns';
import {
  isMass,
  isShare,
  massUnitIn,
  slipFrom,
  type DecimalMark,
  type FigureUnit,
  type MassUnit,
} from './units';
import { isDateColumn, isFigureColumn, isFor, looksIn, type Candidate, type ColumnMatch } from './find';
import type { WantedColumn } from './jobs';
import { inFull, type Legend } from './legend';
import type { LotDay } from './lotDays';
import type { DateOrder } from '../../worksheet/writtenDates';
import { areWeekdays, readWeekdays } from './standing';
import { isDash, isDitto, isTextDate, provenOrder, type ProvenOrder } from './values';

/** What has to be done to a column of the grower's before a calculation can read it. */
export type Conversion =
  | 'none'
  | 'dates'
  | 'figures'
  | 'headings'
  | 'day headings'
  | 'beginnings'
  | 'sheets'
  | 'said'
  | 'weekdays';

/** Whether a column is read from other cells than its own. */
export const isFromElsewhere = (conversion: Conversion): boolean =>
  ['headings', 'day headings', 'beginnings', 'sheets', 'said'].includes(conversion);

/** How a matched column is read. */
export interface ColumnReading {
  readonly wanted: WantedColumn;
  /** Its name in the table that is read: `flush 1` for the numbered `flush`. */
  readonly name: string;
  readonly match: ColumnMatch;
  readonly conversion: Conversion;
  /** What its text dates prove, where it has any. */
  readonly proven: ProvenOrder | undefined;
  /** What its figures are in: a unit of mass where its header or its texts name one. */
  readonly unit: FigureUnit;
  /** The decimal mark that its texts prove. */
  readonly decimalMark: DecimalMark | undefined;
  /** The column beside it that has the rest of the mass: the ounces beside the pounds. */
  readonly rest?: Rest;
  /** The year of its dates that are written without one; of the earlier of them, where they pass New Year. */
  readonly year?: number;
  /** Where its dates without a year pass New Year: the last month that is of the year after. */
  readonly turn?: YearTurn;
  /** Whether a blank says the same as the cell above it. */
  readonly isFilledDown?: boolean;
  /** Whether it has marks that say the same as the cell above. */
  readonly hasDittos?: boolean;
  /** Whether it has dashes, which say that there is nothing: only of a column that may be blank. */
  readonly hasDashes?: boolean;
  /** What the grower said of all records alike, and in which words. */
  readonly said?: { readonly text: string; readonly value: Cell };
  /** Where the day is in the names of lots that it is read from. */
  readonly lotDay?: LotDay;
  /** What the short names in it stand for. */
  readonly legend?: Legend;
  /** A column that says it better where it is filled: the blocks left of a lot, beside the day it was opened. */
  readonly unless?: number;
  /** Of records under headings that name their strain, or whose names begin with it: the strain of each row. */
  readonly headings?: ReadonlyMap<number, string>;
  /** The strain of each sheet, where sheets are named after them. */
  readonly strainOn?: ReadonlyMap<string, string>;
  /** Of records under headings that name their day: the row of the heading of each. */
  readonly dayRows?: ReadonlyMap<number, number>;
}

/** Dates without a year that pass New Year. */
export interface YearTurn {
  /** The last month that is of the year after, from 1. */
  readonly month: number;
  /** The last date before New Year, and the one after. */
  readonly before: string;
  readonly after: string;
}

/** The smaller part of a mass that is written in two columns. */
export interface Rest {
  readonly column: number;
  readonly header: string;
  readonly unit: MassUnit;
  /** How many of its unit are one of the other's. */
  readonly toOne: number;
}

export const valuesOf = (sheet: BookSheet, rows: readonly number[], column: number): Cell[] =>
  rows.map((row) => cellAt(sheet, row, column));

/** How each matched column of a candidate is read. */
export function readings(candidate: Candidate): ColumnReading[] {
  return candidate.matches.map((match) => {
    const wanted = candidate.table.columns.find((one) => isFor(one, match.wanted))!;
    const values = valuesOf(candidate.sheet, candidate.dataRows, match.column);
    const reading: ColumnReading = {
      ...readingOf(candidate, wanted, match),
      ...(values.some(isDitto) && { hasDittos: true }),
      ...(!wanted.isNeeded && values.some(isDash) && { hasDashes: true }),
    };
    if (match.wanted === 'loaded' && candidate.left !== undefined) {
      return { ...reading, unless: candidate.left };
    }
    const rest = restBeside(candidate, reading);
    if (!rest) return reading;
    const isWritten = valuesOf(candidate.sheet, candidate.dataRows, rest.column).some(
      (cell) => typeof cell === 'string' && !isBlank(cell),
    );
    return { ...reading, rest, ...(isWritten && { conversion: 'figures' }) };
  });
}

/** What a mass in two columns is written in. */
const SMALLER: Partial<Record<FigureUnit, readonly [unit: MassUnit, toOne: number]>> = {
  lb: ['oz', 16],
  kg: ['g', 1000],
};

/** The column of ounces right of one of pounds, or of grams right of kilograms, where none of them makes a whole one. */
function restBeside(
  { headers, matches, sheet, dataRows }: Candidate,
  reading: ColumnReading,
): Rest | undefined {
  const smaller = SMALLER[reading.unit];
  const at = reading.match.column + 1;
  const header = headers.get(at);
  if (!smaller || header === undefined || matches.some(({ column }) => column === at)) return undefined;
  const [unit, toOne] = smaller;
  const looks = looksIn(sheet, dataRows, at);
  const filled = dataRows.length - (looks.get('blank') ?? 0);
  const isFigures = (looks.get('number') ?? 0) + (looks.get('text number') ?? 0) > filled / 2;
  const figures = valuesOf(sheet, dataRows, at).map((cell) =>
    typeof cell === 'string' ? Number.parseFloat(cell.replace(',', '.')) : cell,
  );
  const isRest = isFigures && figures.every((one) => typeof one !== 'number' || !(one >= toOne));
  return massUnitIn(header) === unit && isRest ? { column: at, header, unit, toOne } : undefined;
}

function readingOf({ sheet, dataRows }: Candidate, wanted: WantedColumn, match: ColumnMatch): ColumnReading {
  const looks = looksIn(sheet, dataRows, match.column);
  const values = valuesOf(sheet, dataRows, match.column);
  const texts = values.filter((value): value is string => typeof value === 'string' && !isBlank(value));
  const reading = {
    wanted,
    name: match.wanted,
    match,
    proven: undefined,
    unit: 'number' as FigureUnit,
    decimalMark: provenMark(texts),
  };
  if (isDateColumn(wanted)) {
    if (wanted.name === 'due' && areWeekdays(values)) return { ...reading, conversion: 'weekdays' };
    if (!looks.has('text date') && !looks.has('text')) return { ...reading, conversion: 'none' };
    return { ...reading, conversion: 'dates', proven: provenOrder(texts.filter(isTextDate)) };
  }
  if (!isFigureColumn(wanted)) return { ...reading, conversion: 'none' };
  const hasTexts = looks.has('text number') || looks.has('text');
  if (isShare(wanted)) {
    const isSlip = (value: Cell): boolean => typeof value === 'number' && value > slipFrom(wanted);
    const isPercentage = (value: Cell): boolean =>
      isSlip(value) || (typeof value === 'string' && /^\s*\d/.test(value) && Number.parseFloat(value) > 1);
    const unit = values.some(isPercentage) ? 'percent' : 'share';
    return { ...reading, unit, conversion: hasTexts || values.some(isSlip) ? 'figures' : 'none' };
  }
  const unit = (isMass(wanted) ? (massUnitIn(match.header) ?? commonUnit(texts)) : undefined) ?? 'number';
  return { ...reading, unit, conversion: hasTexts ? 'figures' : 'none' };
}

/** The decimal mark that a column's texts prove: one that is followed by one or two digits, or by four and more. */
function provenMark(texts: readonly string[]): DecimalMark | undefined {
  const proves = (mark: string): boolean =>
    texts.some(
      (text) => new RegExp(`\\d*\\${mark}(\\d{1,2}|\\d{4,})(?!\\d|[.,]\\d)`).test(text) && !isTextDate(text),
    );
  const [comma, point] = [proves(','), proves('.')];
  return comma === point ? undefined : comma ? 'comma' : 'point';
}

function commonUnit(texts: readonly string[]): MassUnit | undefined {
  const counts = new Map<MassUnit, number>();
  for (const text of texts) {
    const unit = massUnitIn(text);
    if (unit) counts.set(unit, (counts.get(unit) ?? 0) + 1);
  }
  return [...counts].sort(([, a], [, b]) => b - a)[0]?.[0];
}

/** Does to cells what formulas on the sheet will do: one answer a cell, errors with their reason. */
export interface Reader {
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
  ) => readonly Cell[];
  readonly labels: (cells: readonly Cell[], list: readonly string[]) => readonly Cell[];
}

/** The texts among figures that a decimal point and a decimal comma both read, each as another figure. */
export function readEitherWay(
  cells: readonly Cell[],
  { conversion, unit, decimalMark }: ColumnReading,
  reader: Reader,
): number[] {
  if (conversion !== 'figures' || decimalMark !== undefined) return [];
  const asPoint = reader.figures(cells, unit, 'point');
  const asComma = reader.figures(cells, unit, 'comma');
  return cells.flatMap((cell, i) => {
    const [point, comma] = [asPoint[i], asComma[i]];
    const isOpen = typeof point === 'number' && typeof comma === 'number' && point !== comma;
    return typeof cell === 'string' && isOpen ? [i] : [];
  });
}

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

/** What a column's cells become, one for each data row. */
export function readColumn(
  candidate: Candidate,
  reading: ColumnReading,
  order: DateOrder | undefined,
  reader: Reader,
): readonly Cell[] {
  const { sheet, dataRows } = candidate;
  const read = readOwn(candidate, reading, order, reader);
  const { rest, unless } = reading;
  if (unless !== undefined) {
    return read.map((cell, i) => (isBlank(cellAt(sheet, dataRows[i]!, unless)) ? cell : null));
  }
  if (!rest) return read;
  const small = readRest(candidate, reading, rest, reader);
  return read.map((cell, i) => sumOf(cell, small[i]!, rest.toOne));
}

/** What a column says at a row: its cell, or the last filled one above it in the same part, totals and months aside. */
export function cellsAbove(candidate: Candidate, column: number): (row: number) => Cell {
  const { sheet, area, passedOver, parts } = candidate;
  const tops = new Set([area.top]);
  let top = area.top;
  for (const part of parts ?? []) {
    tops.add(top);
    top += lastRowOf(part) - part.area.top;
  }
  const skipped = new Set(passedOver);
  return (row) => {
    for (let at = row; at > area.top; at--) {
      const cell = cellAt(sheet, at, column);
      if (!isBlank(cell) && !isDitto(cell) && !skipped.has(at)) return cell;
      if (tops.has(at - 1)) return null;
    }
    return null;
  };
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

/** A mass of two parts, of which one may be blank. */
function sumOf(great: Cell, small: Cell, toOne: number): Cell {
  if (isCellError(great)) return great;
  if (isCellError(small) || isBlank(small)) return isCellError(small) ? small : great;
  if (isBlank(great)) return typeof small === 'number' ? small / toOne : small;
  return typeof great === 'number' && typeof small === 'number' ? great + small / toOne : great;
}

function readOwn(
  candidate: Candidate,
  {
    match,
    conversion,
    unit,
    decimalMark,
    headings,
    legend,
    isFilledDown,
    hasDittos,
    hasDashes,
    year,
    turn,
    lotDay,
    said,
    dayRows,
  }: ColumnReading,
  order: DateOrder | undefined,
  reader: Reader,
): readonly Cell[] {
  const { sheet, dataRows } = candidate;
  const above = isFilledDown || hasDittos ? cellsAbove(candidate, match.column) : undefined;
  const own = dataRows.map((row) => {
    const cell = cellAt(sheet, row, match.column);
    if (hasDashes && isDash(cell)) return null;
    const said = above && (isFilledDown || isDitto(cell)) ? above(row) : cell;
    return lotDay ? reader.lotDay(said, lotDay) : said;
  });
  const values = legend ? own.map((cell) => inFull(legend, cell)) : own;
  switch (conversion) {
    case 'none':
      return values;
    case 'dates':
      return order === undefined ? values : reader.dates(values, order, year, turn);
    case 'figures':
      return reader.figures(values, unit, decimalMark);
    case 'weekdays':
      return values.map((cell, i) => readWeekdays([cell], partAt(candidate, dataRows[i]!).day)[0]!);
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

/** A reason without the row that it counts: the cell's own place is told. */
export const reasonOf = ({ code, reason }: CellError): string =>
  reason === '' ? `is ${code}` : reason.replace(/ \(row \d+ of [^)]*\)$/, '');

/** What a cell says: under headings the heading does, not the record's own cell. */
const conversionHeld = (held: Cell, read: Cell, conversion: Conversion): Cell =>
  isFromElsewhere(conversion) ? read : held;

/** The cells of a column that cannot be read, blanks that are needed among them. */
export function unreadIn(
  { sheet, dataRows, table, origin }: Candidate,
  { wanted, name, match, conversion, rest, isFilledDown, hasDashes, unless }: ColumnReading,
  read: readonly Cell[],
): UnreadCell[] {
  return read.flatMap((cell, i): UnreadCell[] => {
    const row = dataRows[i]!;
    const held = conversionHeld(cellAt(sheet, row, match.column), cell, conversion);
    const at = { ...origin(row, match.column), about: `${table.name}, ${name}`, held };
    if (isDitto(held) && isBlank(cell)) return [{ ...at, why: 'repeats the cell above, and there is none' }];
    if ((unless !== undefined || hasDashes) && isBlank(cell)) return [];
    if ((rest || isFilledDown) && isBlank(held) && !isBlank(cell) && !isCellError(cell)) return [];
    if (rest && isCellError(cell) && (isBlank(held) || typeof held === 'number')) {
      const place = origin(row, rest.column);
      return [{ ...at, ...place, held: cellAt(sheet, row, rest.column), why: reasonOf(cell) }];
    }
    if (isBlank(held)) return wanted.isNeeded ? [{ ...at, why: 'is blank' }] : [];
    if (isCellError(cell)) return [{ ...at, why: reasonOf(cell) }];
    if (conversion === 'weekdays') return [];
    const needsFigure = isDateColumn(wanted) || isFigureColumn(wanted);
    const { kind } = wanted.column;
    if (!needsFigure || kind.word === 'anything' || kind.accept(cell) !== undefined) return [];
    // As the function itself will say.
    const isZero = cell === 0 && kind.zeroWord !== undefined;
    const why = isZero
      ? `is 0: for 0 write ${kind.zeroWord}`
      : isDateColumn(wanted)
        ? 'is not a date'
        : 'is not a possible figure';
    return [{ ...at, why }];
  });
}
