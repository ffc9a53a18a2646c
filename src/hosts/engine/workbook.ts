import type { Cell, Format } from '../../worksheet/cells/cell';
import type { Area } from '../xlsx/address';
import type { WorkbookContent } from '../xlsx/content';

export type { CellContent, SheetContent, WorkbookContent } from '../xlsx/content';

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
  /** What a formula needs that the calculation lacks, as far as its text tells. */
  lacking(sheet: string, address: string): string | undefined;
  /** The file's zeros are no results: `content` is the same workbook without them. Before `calculate`. */
  forgetZeros(content: WorkbookContent): void;
  /** Lets a formula keep its stored result, for a reason told as `unsupported`. Before `calculate`. */
  keep(sheet: string, address: string, reason: string): void;
  /** Names of the functions a cell's formula calls, in capitals, each once. */
  functionsOf(sheet: string, address: string): readonly string[];
  /** The cells a formula names, each area with its sheet. */
  areasOf(sheet: string, address: string): readonly (Area & { readonly sheet: string })[];
  calculate(): void;
}
