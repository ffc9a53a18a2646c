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
  /** Whether a function reads the whole by itself: it passes over totals, but not over months. */
  readonly isPlain: boolean;
}

/** Signs that a table's reference would have to escape. */
const PLAIN_HEADER = /^[A-Za-z][\w ]*$/;

export function readRange(candidate: Candidate): ReadRange {
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
