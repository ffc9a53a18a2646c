import { rangeOf, type Area } from '../xlsx/address';
import { sheetText, type BookSheet } from './book';
import type { EntryPart } from './entries';
import type { WantedTable } from './jobs';
import type { JoinedColumn } from './joinedColumns';
import type { Lost } from './lost';
import type { Within } from './lotWithin';
import type { TakenElsewhere } from './takenElsewhere';
import type { TakenOff } from './takenOff';
import type { CountedRows } from './whichRows';

/** `Grow log!A4:H13` */
export const partText = ({ sheet, area, block, parts }: Candidate): string =>
  parts ? [...new Set(parts.map(partText))].join('; ') : `${sheetText(sheet.name)}!${rangeOf(block ?? area)}`;

/** How a column of the grower's was matched. */
export type MatchedBy =
  | 'its name'
  | 'another name'
  | 'a name that means the same'
  | 'a name like it'
  | 'its data'
  | 'its only wait'
  | 'the parts of its wait'
  | 'what each flush gives'
  | 'you';

/** A column of the grower's book that serves for a wanted one. */
export interface ColumnMatch {
  readonly wanted: string;
  readonly header: string;
  /** Column of the sheet, from 0. */
  readonly column: number;
  readonly by: MatchedBy;
  /** The columns that the grower said are added up. */
  readonly parts?: readonly number[];
}

/** A cell of the grower's book. */
export interface Place {
  readonly sheet: string;
  readonly row: number;
  readonly column: number;
}

/** A cell of the sheet that says the same of every record: a product over a column of figures. */
export interface FixedCell {
  readonly cell: { readonly row: number; readonly column: number };
}

/** What is the same for all records and in no cell. */
export interface Constant {
  readonly figure: number | string;
}

/** A part of each cell of a column. */
export interface PartOfCells {
  readonly column: number;
  readonly entry: EntryPart;
}

/** Where a column of a part lies: in one of the sheet or a part of its cells, in one cell, or nowhere. */
export type Lies = number | PartOfCells | FixedCell | Constant;

/** A part of a sheet that could serve for a wanted table. */
export interface Candidate {
  readonly table: WantedTable;
  readonly sheet: BookSheet;
  /** Header row and all rows below that belong to it. */
  readonly area: Area;
  /** The workbook's own name for it, where it is a table. */
  readonly tableName: string | undefined;
  /** Headers as written, by their columns. */
  readonly headers: ReadonlyMap<number, string>;
  /** Whether a group stands over some headers, in a row of its own: no function reads that as it is. */
  readonly isGrouped: boolean;
  /** Parts that lie one below the other here: the same table on several sheets. */
  readonly parts?: readonly Candidate[];
  /** Whether it is one of several parts. */
  readonly isPart?: boolean;
  /** The columns of the sheet that its own are, where it is put together from some; what is the same for all its records. */
  readonly lies?: readonly Lies[];
  /** The part of the sheet that it is one column of, or that `sheet` shows otherwise than it lies there. */
  readonly block?: Area;
  /** Whether it lies on its side: its headers are down a column of the grower's sheet, its records are across. */
  readonly isTurned?: boolean;
  /** How many columns further right it lies on the grower's sheet. */
  readonly right?: number;
  /** Where another part of the table has other headers: the own column of each of that part’s. */
  readonly ownColumns?: ReadonlyMap<number, number>;
  /** Rows below the last record that are read as well, where that is settled. */
  readonly growth?: number;
  /** Which week it is read for, where it holds for every week. */
  readonly week?: number;
  /** Which day it is for of the week that its column of dates names, from the first; and how the days are counted. */
  readonly weekday?: number;
  readonly isSundayFirst?: boolean;
  /** Which of the days of the week that a cell names it is read for, from 0. */
  readonly day?: number;
  /** Headers of a block that nothing reads. */
  readonly ignored?: readonly string[];
  /** The column of the blocks that are left: a lot of which it says 0 is no record. */
  readonly left?: number;
  /** Whether what is left counts lots that were loaded: there the day of loading says which are still to open. */
  readonly isLeftApart?: boolean;
  /** The column beside weeks across that says on which day of them each row is for. */
  readonly dayBeside?: { readonly column: number; readonly header: string };
  /** How its cells write 0. */
  readonly noneLeft?: readonly string[];
  /** Rows of the sheet that are struck out and no record, as the grower said; and how many there are. */
  readonly struck?: readonly number[];
  readonly struckOut?: number;
  /** Rows that count, by what columns say of them. */
  readonly counted?: readonly CountedRows[];
  /** The columns that are looked up in other tables. */
  readonly joined?: ReadonlyMap<number, JoinedColumn>;
  /** The column that says within what its lots are numbered. */
  readonly within?: Within;
  /** Blocks that other rows of a log take off its lots. */
  readonly takenOff?: TakenOff;
  /** Blocks that other sheets take off them. */
  readonly takenElsewhere?: readonly TakenElsewhere[];
  /** The column that counts the same blocks, which is not read then. */
  readonly countedElsewhere?: number;
  /** The columns of what is left and of what was set out: a lot with neither is gone otherwise, and no record. */
  readonly gone?: { readonly left: number; readonly out: number };
  /** The dry mass of a block of any lot, for strains that say what a block gives. */
  readonly dryKilograms?: number;
  /** Columns that count lost blocks, as other columns of figures prove. */
  readonly provenLost?: readonly number[];
  /** The columns of blocks that were lost. */
  readonly lost?: Lost;
  /** How many lots have none left. */
  readonly usedUp?: number;
  /** What holds of a row that is a record, as a formula says it of columns of the sheet. */
  readonly record?: (cells: (column: number) => string) => string;
  /** The grower's own cell of a place in it. */
  readonly origin: (row: number, column: number) => Place;
  readonly matches: readonly ColumnMatch[];
  /** Needed columns that no header names. */
  readonly missing: readonly string[];
  /** Rows of the sheet, from 0, that hold a record. */
  readonly dataRows: readonly number[];
  /** Rows between them that hold a month, a total or the headers again. */
  readonly passedOver: readonly number[];
  readonly score: number;
}

/** Whether two parts of a book share cells. */
export const overlap = (one: Candidate, other: Candidate): boolean =>
  placesOf(one).some((own) => placesOf(other).some((its) => own.on === its.on && doMeet(own.area, its.area)));

/** Where a part lies; a block is on its sheet as a whole, a list of one flush beside its lots is not. */
const placesOf = (candidate: Candidate): { readonly on: BookSheet | string; readonly area: Area }[] =>
  (candidate.parts?.some(({ block }) => block) ? candidate.parts : [candidate]).map(
    ({ sheet, area, block, lies }) => ({ on: lies && !block ? sheet : sheet.name, area: block ?? area }),
  );

const doMeet = (one: Area, other: Area): boolean =>
  one.top <= other.bottom && one.bottom >= other.top && one.left <= other.right && one.right >= other.left;

/** The columns from the first to the last that is matched. */
export function spanOf(matches: readonly ColumnMatch[]): Pick<Area, 'left' | 'right'> {
  const columns = matches.map(({ column }) => column);
  return { left: Math.min(...columns), right: Math.max(...columns) };
}

/** Whether two whole tables touch each other under one row of headers. */
export function areNeighbours(one: Candidate, other: Candidate): boolean {
  const [own, its] = [spanOf(one.matches), spanOf(other.matches)];
  return (
    one.sheet === other.sheet &&
    [one, other].every(({ missing, parts, block }) => missing.length === 0 && !parts && !block) &&
    (own.right < its.left || its.right < own.left)
  );
}
