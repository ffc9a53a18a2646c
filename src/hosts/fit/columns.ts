import { isBlank } from '../../worksheet/cells/cell';
import { headerKey } from '../../worksheet/cells/headers';
import { isTotalsRow, isTotalsWord } from '../../worksheet/cells/totals';
import { fixedRangeOf, type Area } from '../xlsx/address';
import { cellAt, sheetText } from './book';
import type { Candidate } from './find';

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
  /** The rows of the sheet that the records are in, one below the other. */
  readonly rows: string;
  /** The sheet of each record as a formula writes it, where they are on several. */
  readonly sheets: string | undefined;
  /** Whether a function reads the whole by itself: it passes over totals, but not over months. */
  readonly isPlain: boolean;
}

/** Signs that a table's reference would have to escape. */
const PLAIN_HEADER = /^[A-Za-z][\w ]*$/;

export function readRange(candidate: Candidate): ReadRange {
  return candidate.parts ? stackedRange(candidate.parts) : plainRange(candidate);
}

/** Parts on several sheets, one below the other. */
function stackedRange(parts: readonly Candidate[]): ReadRange {
  const ranges = parts.map(plainRange);
  const stack = (texts: readonly string[]): string => `VSTACK(${texts.join(',')})`;
  const column = (at: number): string => stack(ranges.map((range) => range.column(at)));
  const key = parts[0]!.matches[0]!.column;
  const length = ranges.reduce((sum, { first, last }) => sum + last - first + 1, 0);
  return {
    first: 0,
    last: length - 1,
    column,
    whole: '',
    test: stack(ranges.map((range) => range.test ?? `(${range.column(key)}<>"")`)),
    rows: stack(ranges.map(({ rows }) => rows)),
    sheets: stack(
      parts.map(({ sheet }, i) => `IF(${ranges[i]!.rows},"${sheetText(sheet.name).replaceAll('"', '""')}")`),
    ),
    isPlain: false,
  };
}

function plainRange(candidate: Candidate): ReadRange {
  const { sheet, area, dataRows, tableName, headers, matches } = candidate;
  const lastRecord = dataRows.at(-1)!;
  const first = area.top + 1;
  const isOpen = area.bottom === lastRecord && !isAnythingBelow(candidate);
  // Totals at the end are read along, so that a record put in above them counts.
  const last = isOpen ? lastRecord + GROWTH : area.bottom;
  const between = candidate.passedOver;
  const inTable = tableName !== undefined && matches.every(({ header }) => PLAIN_HEADER.test(header));
  const reference = (part: Area): string => `${sheetText(sheet.name)}!${fixedRangeOf(part)}`;
  const column = (at: number): string =>
    inTable && headers.has(at)
      ? `${tableName}[${headers.get(at)!}]`
      : reference({ top: first, bottom: last, left: at, right: at });
  return {
    first,
    last,
    column,
    whole: inTable ? `${tableName}[#All]` : reference({ ...area, bottom: last }),
    test: between.length > 0 ? recordTest(candidate, between, column) : undefined,
    rows: `ROW(${column(matches[0]!.column)})`,
    sheets: undefined,
    isPlain: between.every((row) => isTotalsRow(sheet.rows[row] ?? [])),
  };
}

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
  for (const row of between) {
    const filled: number[] = [];
    for (let at = area.left; at <= area.right; at++) if (!isBlank(cellAt(sheet, row, at))) filled.push(at);
    for (const at of filled) {
      const text = cellAt(sheet, row, at);
      if (typeof text !== 'string') continue;
      const isHeader = headerKey(text) === headerKey(headers.get(at) ?? '');
      if (isTotalsWord(text) || (isHeader && filled.length > 1))
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
