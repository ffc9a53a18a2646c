import type { Cell } from '../../../../src/worksheet/cells/cell';

/** What a formula gives: a value, an error's code, or the whole block it fills. */
export type Gives = Exclude<Cell, object> | readonly (readonly Exclude<Cell, object>[])[];

/**
 * How the formula was entered, which a file stores with it.
 *
 * - `plain`: without the array flag. Where one value is needed and a block given, the cell of its own row or column
 *   is taken.
 * - `spilling`: whole blocks are calculated, the result spills.
 * - `array`: `{=…}`, whole blocks are calculated, the result fills the cells given as `fills`.
 */
export type Entered = 'plain' | 'spilling' | 'array';

export interface Place {
  /** `Lots!J3`; by default a place with room on a sheet of its own. */
  readonly at?: string;
  readonly fills?: string;
}

/** A formula and what a worksheet gives for it. Written as `{=…}` it is entered as an array. */
export type Row = readonly [formula: string, gives: Gives, place?: Place];

/** Formulas that share their subject and the source of their expected values. */
export interface Chapter {
  readonly title: string;
  /** Where the expected values come from. */
  readonly source: string;
  /** `plain` where not set; a result of several cells is entered as `spilling`. */
  readonly entered?: 'spilling';
  /** The farm's workbook where not set. */
  readonly book?: 'harvest';
  readonly rows: readonly Row[];
}

/** Definitions by which values were worked out by hand from the data of `farmWorkbook.ts`. */
export const STANDARD = 'ISO/IEC 29500-1:2016, 18.17.7, the definition; worked out by hand';
export const REFERENCE = "definition on the function's page of the vendor's reference; worked out by hand";
export const EXAMPLE = "example on the function's page of the vendor's reference (from memory, unverified)";
