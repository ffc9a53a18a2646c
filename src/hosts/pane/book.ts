import type { Cell } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';
import type { GrowersBook } from '../fit/book';
import type { PlainSheet } from '../xlsx/describe';
import type { ValidatedCells, Written } from '../xlsx/page';
import type { CellsShown } from './reasons';

/** A place in a workbook. */
export interface Place {
  readonly sheet: string;
  /** `B7` */
  readonly address: string;
}

/** A block of cells, row by row, and the lists that some of its sheet's cells offer. */
export interface Block {
  readonly cells: readonly (readonly Written[])[];
  readonly lists: readonly ValidatedCells[];
}

/** A formula of the workbook and what it shows. */
export interface FormulaCell extends Place {
  /** In the form a person types: `=PINSET.READYDATE(Lots[Inoculated],…)`. */
  readonly formula: string;
  /** The first error it shows: `#VALUE!`. */
  readonly error?: string;
  /** Where it shows that error, if not in its own cell. */
  readonly at?: string;
  /** How many more of its cells show an error. */
  readonly more?: number;
  /** The reason of a fault of ours, where it is known. */
  readonly reason?: string;
  /** Set where the call would answer now. */
  readonly isStale?: true;
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
  /** What calls can be made again from: for the reason of an error where the host does not know it, and for pictures. */
  readonly shown?: CellsShown;
}

/** A constant for a cell, and the number format it is to have where that is another. */
export interface CellChange {
  readonly place: Place;
  readonly value: Cell;
  readonly format?: string;
}

/** What the pane can do to the workbook beside it, in any host. */
export interface Book {
  selection(): Promise<Place>;
  /** Addresses in a block that hold something; the block starts at `place`. */
  occupied(place: Place, rows: number, columns: number): Promise<readonly string[]>;
  /** Writes a block; the caller has made sure that nothing is overwritten. */
  write(place: Place, block: Block): Promise<void>;
  /** Adds a sheet of this name, or of this name and a number, and gives the name it got. */
  addSheet(name: string): Promise<string>;
  /** Names that a new table cannot have: those of tables and of cells. */
  takenNames(): Promise<readonly string[]>;
  /** Adds a described sheet under its name, or that name and a number, and gives the name it got. */
  layDown(sheet: PlainSheet): Promise<string>;
  contents(): Promise<BookContents>;
  /** All that its cells hold. */
  everything(): Promise<GrowersBook>;
  /** Puts constants into cells in place of what they hold. */
  change(changes: readonly CellChange[]): Promise<void>;
  /**
   * Takes away the sheets that were laid down last.
   * @throws Error in words where they can no longer be taken away
   */
  takeBack(sheets: readonly string[]): Promise<void>;
  goTo(place: Place): Promise<void>;
  /** Has a listener told of every change of cells, where the page around does not tell the pane itself. */
  readonly whenChanged?: (listener: () => void) => Promise<void>;
  /** Makes the host calculate every formula again; only where it may have left some out. */
  readonly calculateAgain?: () => Promise<void>;
}

/** The name, or the name and the first number that makes it new; case does not count. */
export function freeName(name: string, taken: readonly string[]): string {
  const others = new Set(taken.map((one) => one.toLowerCase()));
  let free = name;
  for (let n = 2; others.has(free.toLowerCase()); n++) free = `${name}${n}`;
  return free;
}
