import type { Cell, Format } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/calendar';

/** A cell as a workbook holds it. */
export interface CellContent {
  /** `B7` */
  readonly address: string;
  /** A constant, or a formula's result as last stored. Null with a `numberFormat`: a blank cell that has a format. */
  readonly value: Cell;
  /**
   * With leading `=`, in plain A1 references with explicit sheets where it crosses sheets, Pinset's functions as
   * `PINSET.NAME(…)`; defined names, table references and shared formulas already written out.
   */
  readonly formula?: string;
  /** The formula as its author wrote it, names and table references kept, where `formula` differs. */
  readonly written?: string;
  /** What a formula needs that could not be written out: the cell keeps its stored value and the report says why. */
  readonly unsupported?: string;
  /** For a stored array or spilling formula: the range its result filled when stored. */
  readonly spill?: string;
  /**
   * For a cell that a stored spill filled: the address of its formula. `value` is then part of that formula's stored
   * result, not a constant: it stands only where the formula's stored result is kept.
   */
  readonly spilledFrom?: string;
  /** Number format code of the sheet, `yyyy-mm-dd`. */
  readonly numberFormat?: string;
}

export interface SheetContent {
  readonly name: string;
  readonly cells: readonly CellContent[];
}

/** A workbook as a host opens it. */
export interface WorkbookContent {
  readonly dateSystem: DateSystem;
  readonly sheets: readonly SheetContent[];
}

/** What a cell shows after calculation. */
export interface CellResult {
  readonly value: Cell;
  readonly format?: Format;
  /** The whole result of a formula that spills, row by row, this cell first; undefined for a single value. */
  readonly block?: readonly (readonly Cell[])[];
  /** Set where a formula uses a built-in the engine lacks: `value` is then the stored one. */
  readonly unsupported?: string;
}

/** A calculating workbook, whatever engine is behind it. */
export interface CalculatingWorkbook {
  /** The result of a cell, spilled-into cells included. A fault is a CellError with its reason. */
  result(sheet: string, address: string): CellResult;
  /** Types a constant or a formula (`=…`) into a cell; null clears it. Dependents follow. */
  type(sheet: string, address: string, content: string | number | boolean | null): void;
}
