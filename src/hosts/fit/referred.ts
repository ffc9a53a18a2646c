import type { Cell, Format, Grid } from '../../worksheet/cells/cell';
import { cellAt, sheetText } from './book';
import type { Candidate } from './candidate';
import type { ReadRange } from './columns';
import type { TableFit } from './fitted';
import type { TableName } from './jobs';

/** A table of a job as its formulas refer to it. */
export interface Referred {
  /** Headers and records: `'Ready lots read'!$A$7:$H$520`, or a part of the grower's own sheet. */
  readonly whole: string;
  readonly column: (name: string) => string;
  /** What lies in it now: headers and records, from the header row down to the last record. */
  readonly grid: Grid;
  /** The sheet and the row of the grower's that a row of `whole` is, as formulas; undefined of what was filled in. */
  readonly place: ((row: string) => PlaceText) | undefined;
  /** What is looked up elsewhere, by its column. */
  readonly joined?: Candidate['joined'];
  /** The last row of each of its parts, its header row being row 1. */
  readonly lastRows?: readonly number[];
}

/** A place on a sheet of the grower's as formulas say it; the letters of its column only where they differ by part. */
interface PlaceText {
  readonly sheet: string;
  readonly row: string;
  readonly column?: string;
}

/** A formula that reads a column of the grower's, with what it gives now. */
export interface ColumnRead {
  readonly table: TableName;
  readonly header: string;
  readonly formula: string;
  readonly cells: readonly Cell[];
  readonly format: Format;
}

/** The place of a row that lies as far below its header as on the grower's sheet. */
export const alike =
  ({ sheet, area }: Candidate): Referred['place'] =>
  (row) => ({ sheet: `"${sheetText(sheet.name).replaceAll('"', '""')}"`, row: `(${row}+${area.top})` });

/** The place of a row that columns beside it say: its sheet, its row, and its column where that differs by part. */
export const inColumns =
  ([sheet, row, column]: readonly (string | undefined)[]): Referred['place'] =>
  (at) => ({
    sheet: `INDEX(${sheet!},${at}-1)`,
    row: `INDEX(${row!},${at}-1)`,
    ...(column !== undefined && { column: `INDEX(${column},${at}-1)` }),
  });

/** The day from which a job counts: its cell, and what is in it. */
export interface FirstDay {
  readonly text: string;
  readonly serial: number;
}

/** A table that a function reads where it is. */
export function asItIs({ candidate, readings }: TableFit, range: ReadRange): Referred {
  const { sheet, area } = candidate;
  return {
    whole: range.whole,
    grid: Array.from({ length: area.bottom - area.top + 1 }, (_, r) =>
      Array.from({ length: area.right - area.left + 1 }, (__, c) =>
        cellAt(sheet, area.top + r, area.left + c),
      ),
    ),
    column: (wanted) => range.column(readings.find((one) => one.name === wanted)!.match.column),
    place: alike(candidate),
  };
}
