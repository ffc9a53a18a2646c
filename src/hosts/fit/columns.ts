import { isBlank, type Cell } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headerWords';
import { isTotalsRow, isTotalsWord, totalOf } from '../../worksheet/cells/totals';
import { fixedRangeOf, type Area } from '../xlsx/address';
import { cellAt, sheetText } from './book';
import type { Candidate, Constant } from './candidate';
import { entryText } from './entries';
import { joinedText } from './joinedColumns';
import { isLess, lessFormula, whatComesOff } from './less';
import { isPageNumber, saysPickLimit } from './rows';
import { dayWord, haveWeekdays, isDayText } from './standing';
import { countedTest } from './whichRows';

/** Rows below the last record that a formula reads besides, so that new records count. */
const GROWTH = 500;

/** A part of a sheet as formulas refer to it: whole, or column by column. */
export interface ReadRange {
  /** First and last row of the records, from 0. */
  readonly first: number;
  readonly last: number;
  /** What a formula calls a column: `'Grow log'!$D$5:$D$513`, or `Lots[Date inoc]` of a table. */
  readonly column: (at: number) => string;
  /** Header row and records together. */
  readonly whole: string;
  /** What must hold for a row to be a record, where months, totals or headers lie between; undefined where none do. */
  readonly test: string | undefined;
  /** Which week it is read for, and which of the days that a cell names. */
  readonly week: number;
  readonly day: number;
  /** Which day of the week that its dates name, from the first. */
  readonly weekday: number;
  /** What is no record in a column of it: the words of totals, a month. */
  readonly passedOver: (at: number) => readonly string[];
  /** The rows of the sheet that the records are in, one below the other. */
  readonly rows: string;
  /** The sheet as a formula writes it. */
  readonly sheet: string;
  /** Whether a function reads the whole by itself: it passes over totals, but not over months. */
  readonly isPlain: boolean;
}

/** Signs that a table's reference would have to escape. */
const PLAIN_HEADER = /^[A-Za-z][\w ]*$/;

/**
 * The parts of a table as formulas refer to them, one below the other. Where records are told from other rows by a column
 * beside them, all columns are cells of the same number: a table's own reference is as long as the table.
 */
export const readRanges = (candidate: Candidate, isSifted: boolean): readonly ReadRange[] =>
  candidate.parts
    ? candidate.parts.map((part) => plainRange({ ...part, ...whatComesOff(candidate) }, true))
    : [plainRange(candidate, isSifted)];

/** Rows below the last record of a part of several: the next part follows them. */
const PART_GROWTH = 100;

/** The last row that a formula reads of a part, from 0. */
export function lastRowOf(candidate: Candidate, growth = PART_GROWTH): number {
  if (candidate.growth !== undefined) return candidate.area.bottom + candidate.growth;
  const lastRecord = candidate.dataRows.at(-1)!;
  const isOpen = candidate.area.bottom === lastRecord && !isAnythingBelow(candidate);
  // Totals at the end are read along, so that a record put in above them counts.
  return isOpen ? lastRecord + growth : candidate.area.bottom;
}

/** The part that a row of a candidate lies in: its own, where it has no parts. */
export function partAt(candidate: Candidate, row: number): Candidate {
  let end = candidate.area.top;
  return candidate.parts?.find((one) => row <= (end += lastRowOf(one) - one.area.top)) ?? candidate;
}

function plainRange(candidate: Candidate, isSifted: boolean): ReadRange {
  const { sheet, area, tableName, headers, matches, lies, isTurned = false, right = 0 } = candidate;
  const { ownColumns } = candidate;
  const first = area.top + 1;
  const between = candidate.passedOver;
  const inTable =
    tableName !== undefined &&
    !isSifted &&
    between.length === 0 &&
    matches.every(({ header }) => PLAIN_HEADER.test(header));
  // A table grows into whatever lies below it.
  const growth = candidate.isPart || isTurned ? PART_GROWTH : GROWTH;
  const last = inTable ? area.bottom + GROWTH : lastRowOf(candidate, growth);
  const reference = (part: Area): string => `${sheetText(sheet.name)}!${fixedRangeOf(part)}`;
  const cellsOf = (at: number): string =>
    reference(
      isTurned
        ? { top: at, bottom: at, left: first, right: last }
        : { top: first, bottom: last, left: at + right, right: at + right },
    );
  const own = (at: number): string => {
    if (!ownColumns) return isTurned ? `TRANSPOSE(${cellsOf(at)})` : cellsOf(at);
    const there = ownColumns.get(at);
    // What the other part alone has.
    return there === undefined ? `IF(ROW(${cellsOf([...ownColumns.values()][0]!)}),"")` : cellsOf(there);
  };
  const column = (at: number): string => {
    const other = candidate.joined?.get(at);
    if (other) return joinedText(other, column(other.key));
    const real = lies ? lies[at]! : at;
    if (typeof real !== 'number') {
      if ('entry' in real) return entryText(own(real.column), real.entry);
      const alike = 'figure' in real ? constantText(real) : reference(areaAt(real.cell));
      return `IF(ROW(${own(candidate.area.left)}),${alike})`;
    }
    return inTable && headers.has(at) ? `${tableName}[${headers.get(at)!}]` : own(real);
  };
  return {
    first,
    last,
    column,
    whole: inTable ? `${tableName}[#All]` : reference({ ...area, bottom: last }),
    test: recordIs(candidate, column, own),
    week: candidate.week ?? 0,
    day: candidate.day ?? 0,
    weekday: candidate.weekday ?? 0,
    passedOver: (at) => [
      ...new Set(
        between.flatMap((row) => {
          const cell = cellAt(sheet, row, at);
          return typeof cell === 'string' && !isBlank(cell) ? [cell.trim()] : [];
        }),
      ),
    ],
    rows: isTurned
      ? `TRANSPOSE(COLUMN(${cellsOf(area.left)}))`
      : `ROW(${lies ? own(area.left) : column(matches[0]!.column)})`,
    sheet: sheetText(sheet.name),
    isPlain:
      !candidate.isPart &&
      !isTurned &&
      right === 0 &&
      candidate.left === undefined &&
      candidate.gone === undefined &&
      candidate.struck === undefined &&
      candidate.counted === undefined &&
      candidate.joined === undefined &&
      !isLess(candidate) &&
      between.every((row) => isTotalsRow(sheet.rows[row] ?? [])),
  };
}

/** What holds of a row that is a record, where not every row below the headers is one. */
function recordIs(
  candidate: Candidate,
  column: (at: number) => string,
  own: (at: number) => string,
): string | undefined {
  const told = standingRecordIs(candidate, column, own);
  const counted = (candidate.counted ?? []).map((one) => countedTest(one, column(one.column)));
  const isThere = `(${column(candidate.matches[0]!.column)}<>"")`;
  const blocks = candidate.matches.find(({ wanted }) => wanted === 'blocks');
  if (blocks && isLess(candidate))
    counted.push(
      // What is no figure is told where it is read.
      `IFERROR(--(${column(blocks.column)}${lessFormula(candidate, column)}<>0),1)`,
    );
  const { gone } = candidate;
  const isNone = (at: number): string => `((${column(at)}&""="0")+(${column(at)}="")>0)`;
  if (gone) counted.push(`(1-${isNone(gone.left)}*${isNone(gone.out)})`);
  const test = counted.length === 0 ? told : [told ?? isThere, ...counted].join('*');
  const { struck = [], sheet, area } = candidate;
  if (struck.length === 0) return test;
  // The row of a cell, and no figure: it moves along where rows are put in above.
  const others = struck.map(
    (row) =>
      `(ROW(${own(area.left)})<>ROW(${sheetText(sheet.name)}!${fixedRangeOf(areaAt({ row, column: area.left }))}))`,
  );
  return [test ?? isThere, ...others].join('*');
}

function standingRecordIs(
  candidate: Candidate,
  column: (at: number) => string,
  own: (at: number) => string,
): string | undefined {
  const { record, lies, passedOver, isPart, matches, left } = candidate;
  const isThere = `(${column(matches[0]!.column)}<>"")`;
  const isRecord = record
    ? record(own)
    : lies
      ? wideTest(candidate, column)
      : passedOver.length > 0
        ? recordTest(candidate, passedOver, column)
        : isPart || left !== undefined
          ? isThere
          : undefined;
  const { week = 0, day = 0 } = candidate;
  const due = week + day > 0 ? matches.find(({ wanted }) => wanted === 'due') : undefined;
  // Further days of a row are orders of their own; the row itself is read for its first. A date is one order.
  if (due && (day > 0 || hasDates(candidate, due.column))) {
    const test = hasDates(candidate, due.column)
      ? isDayText(column(due.column), day, heldIn(candidate, due.column))
      : `(${dayWord(column(due.column), day)}<>"")`;
    return `${isRecord ?? isThere}*${test}`;
  }
  if (left === undefined) return isRecord;
  const isLeft = (candidate.noneLeft ?? ['0']).map((none) => `(${column(left)}&""<>"${none}")`);
  return [isRecord, ...isLeft].join('*');
}

const heldIn = ({ sheet, area }: Candidate, at: number): Cell[] =>
  sheet.rows.slice(area.top + 1, area.bottom + 1).map((_, i) => cellAt(sheet, area.top + 1 + i, at));

const hasDates = (candidate: Candidate, at: number): boolean => haveWeekdays(heldIn(candidate, at));

/** A record of a flush is a row with a lot and something of that flush; a totals row is none. */
function wideTest({ sheet, matches, passedOver }: Candidate, column: (at: number) => string): string {
  const [lot, ...others] = matches.map((match) => match.column);
  const words = new Set(
    passedOver.map((row) => cellAt(sheet, row, lot!)).filter((cell) => typeof cell === 'string'),
  );
  const own = others.filter((at) => !column(at).startsWith('IF('));
  return [
    `(${column(lot!)}<>"")`,
    `(${own.map(column).join('&')}<>"")`,
    ...[...words].map((word) => `(${column(lot!)}<>"${word.trim().replaceAll('"', '""')}")`),
  ].join('*');
}

const constantText = ({ figure }: Constant): string =>
  typeof figure === 'string' ? `"${figure.replaceAll('"', '""')}"` : String(figure);

const areaAt = ({ row, column }: { readonly row: number; readonly column: number }): Area => ({
  top: row,
  bottom: row,
  left: column,
  right: column,
});

function isAnythingBelow({ sheet, area }: Candidate): boolean {
  for (let row = area.bottom + 1; row < sheet.rows.length; row++) {
    for (let column = area.left; column <= area.right; column++) {
      if (!isBlank(cellAt(sheet, row, column))) return true;
    }
  }
  return false;
}

/** Passes over months, totals and headers that are repeated between the records. */
function recordTest(
  { sheet, area, headers, matches }: Candidate,
  between: readonly number[],
  column: (at: number) => string,
): string {
  const headed = new Set<number>();
  const words = new Map<string, { at: number; word: string }>();
  // Beside the sums of the records one word stands, whatever it is.
  const isOnlyText = (row: number, at: number): boolean => {
    const cells = (sheet.rows[row] ?? []).slice(area.left, area.right + 1);
    const others = cells.filter((cell, i) => !isBlank(cell) && area.left + i !== at);
    return others.length > 0 && others.every((cell) => typeof cell === 'number');
  };
  for (const row of between) {
    const filled: number[] = [];
    for (let at = area.left; at <= area.right; at++) if (!isBlank(cellAt(sheet, row, at))) filled.push(at);
    for (const at of filled) {
      const text = cellAt(sheet, row, at);
      if (typeof text !== 'string') {
        if (filled.length === 1) headed.add(at);
        continue;
      }
      const isHeader = headerKey(text) === headerKey(headers.get(at) ?? '');
      if (
        isTotalsWord(text) ||
        isPageNumber(text) ||
        saysPickLimit(text) ||
        (totalOf(text) !== undefined && filled.length > 1) ||
        isOnlyText(row, at) ||
        (isHeader && filled.length > 1)
      )
        words.set(`${at}\n${text}`, { at, word: text });
      else if (filled.length === 1) headed.add(at);
    }
  }
  const told = matches.map(({ column: at }) => at).filter((at) => !headed.has(at));
  return [
    `(${told.map(column).join('&')}<>"")`,
    ...[...words.values()].map(({ at, word }) => `(${column(at)}<>"${word.trim().replaceAll('"', '""')}")`),
  ].join('*');
}
