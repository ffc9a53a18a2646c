import type { Cell } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { Layout } from './layout';

/** A place in a workbook. */
export interface Place {
  readonly sheet: string;
  /** `B7` */
  readonly address: string;
}

/** A cell to be written: a constant, or a formula. Text is always written as text, whatever it begins with. */
export type Written =
  { readonly formula: string } | { readonly constant: Cell; readonly numberFormat?: string };

/** Cells that offer a list of what they may hold. */
export interface OfferedList {
  readonly range: string;
  readonly from:
    | { readonly words: readonly string[] }
    /** A column of a table, `Strains[strain]`. */
    | { readonly column: string }
    /** Cells of the same sheet, `A5:A8`. */
    | { readonly cells: string };
}

/** A block of cells and the lists that some of them offer. */
export interface Block {
  readonly cells: readonly (readonly Written[])[];
  readonly lists: readonly OfferedList[];
}

/** A formula of the workbook and what it shows. */
export interface FormulaCell extends Place {
  /** In the form a person types: `=PINSET.READYDATE(Lots[Inoculated],…)`. */
  readonly formula: string;
  /** The error it shows: `#VALUE!`. */
  readonly error?: string;
  /** The reason of a fault of ours, where the host knows it. */
  readonly reason?: string;
}

/** A table of the workbook. */
export interface TableArea {
  readonly name: string;
  readonly sheet: string;
  /** First and last row of the table on the sheet, from 1, headers included. */
  readonly firstRow: number;
  readonly lastRow: number;
}

/** The custom property of a workbook that says which version of the add-in last wrote into it. */
export const VERSION_PROPERTY = 'PinsetVersion';

/** What a check of the workbook looks at. */
export interface BookContents {
  readonly dateSystem: DateSystem;
  /** The add-in's version that the workbook was last saved with, where it says. */
  readonly savedWith?: string;
  readonly formulas: readonly FormulaCell[];
  readonly tables: readonly TableArea[];
}

/** What the pane can do to the workbook it stands beside, whatever shows it. */
export interface Book {
  selection(): Promise<Place>;
  /** Addresses in a block that hold something; the block starts at `place`. */
  occupied(place: Place, rows: number, columns: number): Promise<readonly string[]>;
  /** Writes a block; the caller has made sure that nothing is overwritten. */
  write(place: Place, block: Block): Promise<void>;
  /** Adds a sheet of this name, or of this name and a number, and gives the name it got. */
  addSheet(name: string): Promise<string>;
  /** Names of the workbook's tables. */
  tableNames(): Promise<readonly string[]>;
  /** Puts what was laid out on a new sheet of this name, or of this name and a number, and gives the name it got. */
  layDown(name: string, layout: Layout): Promise<string>;
  contents(): Promise<BookContents>;
  goTo(place: Place): Promise<void>;
}
