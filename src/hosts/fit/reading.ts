import type { Conversion, OfRange } from './conversion';
import type { DateSystem } from '../../worksheet/calendar';
import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { cellAt, type BookSheet } from './book';
import type { Candidate, ColumnMatch } from './candidate';
import { TARE, type WantedColumn } from './jobs';
import type { Legend } from './legend';
import { isOfDry, isOfDryShare } from './dryBlocks';
import { ofYields, type OfYields } from './flushYields';
import { isDateColumn, isFigureColumn, isFor, looksIn, unitShownAt } from './looks';
import type { LookedUp } from './lookedUp';
import type { LotDay } from './lotDays';
import type { MonthOf } from './monthDays';
import type { Within } from './lotWithin';
import { otherDayOf, type OtherDay } from './otherDay';
import { areWeekdays, haveWeekdays } from './standing';
import {
  isMass,
  isOfWeeks,
  isShare,
  massUnitIn,
  mostOf,
  slipFrom,
  type DecimalMark,
  type FigureUnit,
  type MassUnit,
} from './units';
import { isDash, isDitto, isTextDate, provenMark, provenOrder, type ProvenOrder } from './values';
import type { DayBeside } from './dayBeside';
import { digitAt, type DigitAt } from './ordinals';
import { lotsPiece } from './packedLots';
import { countsOfRooms, shelvesPiece } from './packedRooms';
import { shareOfFlush, sharesRead } from './packedShares';
import { packPiece } from './packsInWords';
import type { Piece } from './pieces';
import { perRackBeside, type PerRack } from './shelvesPerRack';
import { restBeside, type Rest } from './massParts';
import { ofRecipe, type Basis } from './recipe';
import { tareOf, taresOf } from './tare';
import { unitColumnOf, type UnitColumn } from './unitColumn';
import { overDaysOf, type OverDays } from './overDays';
import { areRanges, partsOfWait, type WaitPart } from './waitParts';
import { withoutWeekWords, weekWords, type Week } from './weekOf';
import { areWeekRanges, rangeSigns, rangeStart, type WeekRange } from './weekRanges';
import { weeksAmong, type WeekReading } from './weeks';
import type { YearTurn } from './years';
import { haveLinks, isRange } from './wordsInCells';

/** How a matched column is read. */
export interface ColumnReading {
  readonly wanted: WantedColumn;
  /** Its name in the table that is read: `flush 1` for the numbered `flush`. */
  readonly name: string;
  readonly match: ColumnMatch;
  readonly conversion: Conversion;
  /** What its text dates prove, where it has any. */
  readonly proven: ProvenOrder | undefined;
  /** The sheet whose dates prove the order of day and month, where its own texts do not. */
  readonly asProvenOn?: string | undefined;
  /** What its figures are in: a unit of mass where its header or its texts name one. */
  readonly unit: FigureUnit;
  /** The decimal mark that its texts prove. */
  readonly decimalMark: DecimalMark | undefined;
  /** The column beside it that has the rest of the mass: the ounces beside the pounds. */
  readonly rest?: Rest;
  /** Where its texts are ranges: which figure of each counts. */
  readonly ofRange?: OfRange;
  /** Whether its labels lead to pages, in brackets. */
  readonly hasLinks?: boolean;
  /** How weeks in it are read as days. */
  readonly weeks?: WeekReading & { readonly system: DateSystem };
  /** The column that says on which day of its weeks each row is for. */
  readonly dayBeside?: DayBeside;
  /** Where it writes weeks as their first and last day: which day of them is meant. */
  readonly range?: WeekRange;
  /** Where it names weeks, and each part of it a day of theirs: how. */
  readonly week?: Week;
  /** Whether it has dates among the days of the week. */
  readonly hasDates?: boolean;
  /** The column that says how many shelves each of its racks has. */
  readonly perRack?: PerRack;
  /** Where it is what goes out in a week: the column of the days that it is spread over. */
  readonly overDays?: OverDays;
  /** Where its cells, which count in words, have their figure. */
  readonly digit?: DigitAt;
  /** Which of the figures that share its cells it is. */
  readonly piece?: Piece;
  /** The parts of a wait that are added up, itself the first. */
  readonly parts?: readonly WaitPart[];
  /** What each flush gives, that it is read from. */
  readonly ofYields?: OfYields;
  /** The column that says the unit of each row. */
  readonly unitColumn?: UnitColumn;
  /** The year of its dates that are written without one; of the earlier of them, where they pass New Year. */
  readonly year?: number;
  /** Where its dates without a year pass New Year: the last month that is of the year after. */
  readonly turn?: YearTurn;
  /** The column whose day counts where it is blank. */
  readonly otherDay?: OtherDay;
  /** Whether it is the dry part of a block’s mass. */
  readonly isDry?: boolean;
  /** Whether it is the share that is dry, in the place of the moisture. */
  readonly isDryShare?: boolean;
  /** The list that says it for each of its labels. */
  readonly lookedUp?: LookedUp;
  /** The column that its lots are numbered within. */
  readonly within?: Within;
  /** Of a recipe: what its figures are parts of, and the moisture of each where they are weighed moist. */
  readonly ofRecipe?: { readonly basis: Basis; readonly moisture?: ColumnReading };
  /** Whether a 0 says that an ingredient holds no water. */
  readonly hasZeros?: boolean;
  /** Whether a blank says the same as the cell above it. */
  readonly isFilledDown?: boolean;
  /** Whether it has marks that say the same as the cell above. */
  readonly hasDittos?: boolean;
  /** Whether it has dashes, which say that there is nothing: only of a column that may be blank. */
  readonly hasDashes?: boolean;
  /** What the grower said of all records alike, and in which words. */
  readonly said?: { readonly text: string; readonly value: Cell };
  /** Where its days are those of months: what follows the day in each part of the book. */
  readonly months?: MonthOf;
  /** Where the day is in the names of lots that it is read from. */
  readonly lotDay?: LotDay;
  /** Words of a column of rooms that are none: `done`. */
  readonly noRooms?: readonly string[];
  /** The strains that each of its words names. */
  readonly inStrains?: ReadonlyMap<string, string>;
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

export const valuesOf = (sheet: BookSheet, rows: readonly number[], column: number): Cell[] =>
  rows.map((row) => cellAt(sheet, row, column));

/** Days that a form asks for only where they are not the day of the entry. */
const OF_ENTRY = new Set(['date', 'inoculated']);

/** How each matched column of a candidate is read. */
export function readings(candidate: Candidate): ColumnReading[] {
  const all = candidate.matches.map((match): ColumnReading => {
    const wanted = candidate.table.columns.find((one) => isFor(one, match.wanted))!;
    const values = valuesOf(candidate.sheet, candidate.dataRows, match.column);
    const reading: ColumnReading = {
      ...readingOf(candidate, wanted, match),
      ...countsOfRooms(candidate.table, match, values),
      ...overDaysOf(candidate, match),
      ...(values.some(isDitto) && { hasDittos: true }),
      ...(!wanted.isNeeded && values.some(isDash) && { hasDashes: true }),
    };
    if (match.wanted === 'block mass' && isOfDry(match.header))
      return { ...reading, conversion: 'figures', isDry: true };
    if (match.wanted === 'moisture' && isOfDryShare(match.header))
      return { ...reading, conversion: 'figures', isDryShare: true };
    const otherDay = OF_ENTRY.has(match.wanted) ? otherDayOf(candidate, match.column) : undefined;
    if (otherDay) return { ...reading, otherDay };
    if (match.wanted === 'lot' && candidate.within) return { ...reading, within: candidate.within };
    if (match.wanted === 'loaded' && candidate.left !== undefined && !candidate.isLeftApart) {
      return { ...reading, unless: candidate.left };
    }
    const digit = match.wanted === 'flush' ? digitAt(values) : undefined;
    if (digit) return { ...reading, conversion: 'none', digit };
    const perRack = perRackBeside(candidate, match.column, match.wanted);
    if (perRack) return { ...reading, perRack };
    const share = shareOfFlush(candidate, match, values);
    if (share) return { ...reading, ...sharesRead(values, share), piece: share };
    const piece =
      shelvesPiece(match, candidate.matches, values) ??
      lotsPiece(candidate.table, match, values) ??
      packPiece(candidate.table, match, values);
    if (piece) return { ...reading, conversion: 'figures', piece };
    const parts = partsOfWait(candidate, match);
    if (parts) {
      // From the first day of each a block may be ready; after the last of each it is.
      const ofRange = match.wanted === 'earliest' ? 'from' : 'to';
      const sum = { ...reading, conversion: 'figures' as const, unit: 'days' as const, parts };
      return areRanges(candidate, parts) ? { ...sum, ofRange } : sum;
    }
    const yields = ofYields(candidate, match);
    if (yields) return { ...reading, conversion: 'figures', ofYields: yields };
    const unitColumn = isMass(wanted) ? unitColumnOf(candidate, match.column) : undefined;
    if (unitColumn) return { ...reading, unit: unitColumn.unit, unitColumn };
    const isPicked = match.wanted === 'mass' && isMass(wanted);
    const tare = isPicked ? tareOf(candidate, match.header, reading.unit) : undefined;
    const rest = tare ?? restBeside(candidate, match.column, reading.unit);
    if (!rest) return reading;
    const isWritten = valuesOf(candidate.sheet, candidate.dataRows, rest.column).some(
      (cell) => typeof cell === 'string' && !isBlank(cell),
    );
    return { ...reading, rest, ...(isWritten && { conversion: 'figures' }) };
  });
  if (candidate.table.name === 'recipe') return all.map((reading) => ofRecipe(candidate, reading, all));
  const tares = all.flatMap(taresOf);
  return [...all, ...tares.map(({ match, unit }) => ({ ...readingOf(candidate, TARE, match), unit }))];
}

/** Columns that name something. */
const LABELS = new Set(['lot', 'strain', 'product', 'room', 'ingredient']);

function readingOf(
  { sheet, dataRows, parts, matches }: Candidate,
  wanted: WantedColumn,
  match: ColumnMatch,
): ColumnReading {
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
    if (wanted.name === 'due' && haveWeekdays(values)) {
      const proven = provenOrder(texts.filter(isTextDate));
      return {
        ...reading,
        conversion: 'weekdays',
        hasDates: true,
        ...(texts.some(isTextDate) && { proven }),
      };
    }
    if (wanted.name === 'due' && areWeekdays(values)) return { ...reading, conversion: 'weekdays' };
    const ofWeek = (parts ?? []).find(({ weekday }) => weekday !== undefined);
    if (ofWeek) {
      const words = new Set(texts.map((text) => weekWords(text).toLowerCase()).filter((one) => one !== ''));
      const days = texts.map(withoutWeekWords).filter((one) => typeof one === 'string');
      const week = { words: [...words], isSundayFirst: ofWeek.isSundayFirst === true };
      return { ...reading, conversion: 'dates', week, proven: provenOrder(days.filter(isTextDate)) };
    }
    if (areWeekRanges(values)) {
      const starts = texts.map((text) => rangeStart(text)!);
      return {
        ...reading,
        conversion: 'dates',
        range: { weekday: undefined, signs: rangeSigns(texts) },
        proven: provenOrder(starts),
      };
    }
    const figures = looks.get('figures that may be a day') ?? 0;
    if (figures > 0 && figures >= (dataRows.length - (looks.get('blank') ?? 0)) / 2)
      return { ...reading, conversion: 'day figures' };
    const hasTexts = looks.has('text date') || looks.has('text') || weeksAmong(texts).length > 0;
    if (!hasTexts) return { ...reading, conversion: 'none' };
    return { ...reading, conversion: 'dates', proven: provenOrder(texts.filter(isTextDate)) };
  }
  if (!isFigureColumn(wanted)) {
    const isLabel = LABELS.has(wanted.name) && haveLinks(values);
    return { ...reading, conversion: 'none', ...(isLabel && { hasLinks: true }) };
  }
  const hasTexts = looks.has('text number') || looks.has('text');
  if (isShare(wanted)) {
    const isSlip = (value: Cell): boolean => typeof value === 'number' && value > slipFrom(wanted);
    const isPercentage = (value: Cell): boolean =>
      isSlip(value) || (typeof value === 'string' && /^\s*\d/.test(value) && Number.parseFloat(value) > 1);
    const unit = values.some(isPercentage) ? 'percent' : 'share';
    const ofRange = ofRangeIn(texts, matches, match);
    const isRead = hasTexts || ofRange !== undefined || values.some(isSlip);
    return { ...reading, unit, conversion: isRead ? 'figures' : 'none', ...(ofRange && { ofRange }) };
  }
  const shown = (): (MassUnit | undefined)[] => dataRows.map((row) => unitShownAt(sheet, row, match.column));
  const unit =
    (isMass(wanted)
      ? (massUnitIn(match.header) ?? mostOf(texts.map(massUnitIn)) ?? mostOf(shown()))
      : undefined) ?? 'number';
  const ofRange = ofRangeIn(texts, matches, match);
  const conversion = hasTexts || ofRange ? 'figures' : 'none';
  if (wanted.column.kind.word !== 'days') return { ...reading, unit, conversion };
  const inWeeks = isOfWeeks(match.header);
  const wait = inWeeks ? 'weeks' : conversion === 'none' ? 'number' : 'days';
  return { ...reading, unit: wait, conversion, ...(ofRange && { ofRange }) };
}

/**
 * Which figure of a range counts, where there are any. Of one wait, 70–80 days, a block may be opened from the first and is
 * at its best until the second; of all else what is half-way between is expected.
 */
function ofRangeIn(
  texts: readonly string[],
  matches: readonly ColumnMatch[],
  { wanted, column }: ColumnMatch,
): OfRange | undefined {
  if (!texts.some(isRange)) return undefined;
  const isUntilLast = matches.some((other) => other.column === column && other.wanted === 'latest');
  if (wanted === 'earliest' || (wanted === 'best' && isUntilLast)) return 'from';
  const isShared = matches.some((other) => other.column === column && other.wanted !== wanted);
  return wanted === 'latest' || isShared ? 'to' : 'middle';
}
