import type { Cell, Format } from '../../worksheet/cells/cell';
import type { DateSystem } from '../../worksheet/define';
import type { Area } from '../xlsx/address';
import type { Vocabulary } from '../xlsx/formula';

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
  /**
   * Set where names, table references or variables could not be written out of `formula`, and why: a host that knows
   * none keeps the stored value.
   */
  readonly notWrittenOut?: string;
  /** For a stored array or spilling formula: the range its result filled when stored. */
  readonly spill?: string;
  /** Set where the formula fills exactly `spill`, as `{=…}` of older files does, whatever the size of its result. */
  readonly isFixedArray?: true;
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
  /** Rows hidden, from 0, and whether a filter hides them. */
  readonly hiddenRows?: ReadonlyMap<number, 'hand' | 'filter'>;
  readonly cells: readonly CellContent[];
}

/** A workbook as a host opens it. */
export interface WorkbookContent {
  readonly dateSystem: DateSystem;
  /** The workbook's names and tables; without it formulas can use none. */
  readonly vocabulary?: Vocabulary;
  readonly sheets: readonly SheetContent[];
  /** Set where the file says that its stored results are not those of a complete calculation. */
  readonly isStale?: true;
}

/** What a cell shows after calculation. */
export interface CellResult {
  readonly value: Cell;
  readonly format?: Format;
  /** The whole result of a formula that spills, row by row, this cell first; undefined for a single value. */
  readonly block?: readonly (readonly Cell[])[];
  /** Set where a formula uses a built-in the engine lacks: `value` is then the stored one. */
  readonly unsupported?: string;
  /** A cell that keeps its stored result and that this result was calculated from, directly or through others. */
  readonly restsOn?: CellName;
}

export interface CellName {
  readonly sheet: string;
  readonly address: string;
}

/** What one formula gives when everything it refers to is as the file stores it. */
export interface StoredTrial {
  readonly value: Cell;
  /** As in `CellResult`. */
  readonly block?: readonly (readonly Cell[])[];
  /** Whether the formula gives another result at another time though nothing it refers to changed. */
  readonly isVolatile: boolean;
  /** Whether a formula it refers to has no stored result: the trial then proves nothing. */
  readonly lacksStored: boolean;
  /** Set where the formula cannot be calculated: `value` is then the stored one. */
  readonly unsupported?: string;
}

/** A calculating workbook, whatever engine is behind it. */
export interface CalculatingWorkbook {
  /** The result of a cell, spilled-into cells included. A fault is a CellError with its reason. */
  result(sheet: string, address: string): CellResult;
  /** Types a constant or a formula (`=…`) into a cell; null clears it. Dependents follow. */
  type(sheet: string, address: string, content: string | number | boolean | null): void;
}

/** A calculating workbook whose formulas can be tried against what the file stores before they are believed. */
export interface ProvableWorkbook extends CalculatingWorkbook {
  /** Calculates one formula alone, from stored values. Before and after `calculate` alike; nothing changes by it. */
  evaluateFromStored(sheet: string, address: string): StoredTrial;
  /** Lets a formula keep its stored result, for a reason told as `unsupported`. Before `calculate`. */
  keep(sheet: string, address: string, reason: string): void;
  /** Names of the functions a cell's formula calls, in capitals, each once. */
  functionsOf(sheet: string, address: string): readonly string[];
  /** The cells a formula names, each area with its sheet. */
  areasOf(sheet: string, address: string): readonly (Area & { readonly sheet: string })[];
  calculate(): void;
}
