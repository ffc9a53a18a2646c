import type { Argument, ErrorValue, Lambda, Matrix, Reference, Scalar, SheetArea, Value } from './values';

/**
 * What an argument may be, as Excel's own functions see it.
 *
 * - `value`: one value. A block given here calls the function once for each of its values, and the results form a
 *   block; in a formula stored without the array flag the value of the formula's own row or column is taken. An error
 *   becomes the result unless the function takes errors.
 * - `block`: a single value or a Matrix; cells are read. Errors inside arrive.
 * - `array`: as `block`, and what the argument calculates is calculated for whole blocks even in a formula stored
 *   without the array flag, as SUMPRODUCT and LOOKUP do.
 * - `range`: the Reference itself where the argument is one, otherwise a single value or a Matrix. For functions that
 *   treat cells and written values differently (SUM, COUNT) or that ask where cells are (ROW, OFFSET, SUBTOTAL).
 * - `wholeRange`: as `range`, and what the argument calculates is calculated for whole blocks as for `array`: INDEX,
 *   AGGREGATE.
 */
export type Kind = 'value' | 'block' | 'array' | 'range' | 'wholeRange';

/** A built-in function of the worksheet. */
export interface BuiltIn {
  /** In capitals, as a formula spells it: `NORM.S.INV`. */
  readonly name: string;
  readonly least: number;
  /** `Infinity` where the last ones may be repeated. */
  readonly most: number;
  /** Kind of each argument. Where more are given, the last `repeats` kinds repeat. */
  readonly takes: readonly Kind[];
  /** 1 where it is not set; 2 for SUMIFS, whose ranges and conditions alternate. */
  readonly repeats?: number;
  /** Set where arguments may be errors, as for ISERROR and COUNT. */
  readonly takesErrors?: true;
  /** Set where the result changes though nothing it refers to did: NOW, RAND, OFFSET, INDIRECT. */
  readonly isVolatile?: true;
  /** Set where the result is a reference found by calculation: OFFSET, INDIRECT. */
  readonly findsReferences?: true;
  /** Set where it is called once for each of several references that such a function finds: SUMIF, SUBTOTAL, N. */
  readonly takesEachReference?: true;
  /** How the result reads: DATE gives a date. */
  readonly format?: 'date' | 'dateTime' | 'percent';
  /**
   * The result; an ErrorValue may be returned or thrown. Numbers that are no numbers or infinite become #NUM!. A
   * result of blank shows as 0. `given` is as long as the arguments written, left-out ones undefined: those kept at
   * the end are simply not there.
   */
  call(context: CallContext, given: readonly Argument[]): Value;
}

/** What a function may ask of the workbook. */
export interface CallContext {
  readonly dateSystem: 1900 | 1904;
  /** Where the formula is. */
  readonly sheet: number;
  readonly row: number;
  readonly column: number;
  /** Day and time as a serial of this workbook, the same for a whole calculation. */
  now(): number;
  /** From 0 to below 1. */
  random(): number;
  /**
   * The values of an argument as a block, a single one as a block of one. Cells of a whole column or row only as far
   * as the sheet is used: the rest would be blank. @throws ErrorValue for several areas or for a Lambda
   */
  matrixOf(value: Argument): Matrix;
  /** The value of an argument that is one value or one cell; of a larger block the first. */
  scalarOf(value: Argument): Scalar;
  /**
   * Visits the cells of a reference that hold something, area by area, row by row; blank ones are passed over. The
   * fast way through large ranges. Return `false` to stop.
   */
  eachCell(
    reference: Reference,
    visit: (value: Scalar, row: number, column: number, sheet: number) => boolean | void,
  ): void;
  /** Whether the same cells were asked about before, so that their block is likely kept. */
  wasAsked(reference: Reference): boolean;
  /**
   * What the numbers among the cells of a reference come to: the quick way for sums and counts of long ranges.
   * @throws ErrorValue the first error among them
   */
  totalsOf(reference: Reference): NumberTotals;
  /** Whether a row is hidden, by hand or by a filter. */
  isHidden(sheet: number, row: number): 'hand' | 'filter' | undefined;
  /** The formula of a cell as its author wrote it, with `=`; undefined where it holds none. */
  formulaAt(sheet: number, row: number, column: number): string | undefined;
  /**
   * What a text such as `Plan!B2:B9`, a defined name or a table reference refers to; `R2C3`, `R[-1]C` where
   * `byNumbers`. @throws ErrorValue #REF!
   */
  referenceTo(text: string, byNumbers?: boolean): Reference;
  /** Calls a function written in the formula. */
  invoke(lambda: Lambda, given: readonly Argument[]): Value;
  /** Names of the sheets, in order. */
  readonly sheetNames: readonly string[];
}

/** What some numbers come to; `least` and `most` are infinite where there are none. */
export interface NumberTotals {
  readonly sum: number;
  readonly count: number;
  readonly least: number;
  readonly most: number;
}

export type { Argument, ErrorValue, Lambda, Matrix, Reference, Scalar, SheetArea, Value };
