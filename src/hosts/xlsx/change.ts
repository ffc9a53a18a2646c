import type { Cell, Format } from '../../worksheet/cells/cell';

/** What a cell is to hold. */
export interface Change {
  readonly sheet: string;
  /** `B7`: the cell of the formula or, for a block, its first cell. */
  readonly address: string;
  /**
   * A formula to store there, as a grower types it (`=PINSET.MIX(Lots[Strain])`, `=SORT(A2:A9)`, `=B2*C2`). Left
   * out: the formula that stands there stays and only its results change, except that one that calls Pinset is
   * brought into the form in which Excel calculates it. Null: no formula, its results become constants.
   */
  readonly formula?: string | null;
  /** Set where the formula may fill more cells than its own, though no function in it says so. */
  readonly spills?: boolean;
  /**
   * The result, row by row: 1×1 for a single value. What an earlier, larger result filled beyond it is cleared.
   */
  readonly values: readonly (readonly Cell[])[];
  /**
   * How the numbers of each column read. Given only to cells whose style shows numbers as General; their other looks
   * stay. Left out: no style is touched.
   */
  readonly formats?: readonly Format[];
  /** The number format of the cell, whatever its style says. For constants. */
  readonly numberFormat?: string;
}
