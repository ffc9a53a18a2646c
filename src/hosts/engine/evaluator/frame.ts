import type { CallContext, NumberTotals } from './builtIn';
import type { Block } from '../../../worksheet/cells/cell';
import type { WorksheetFunction } from '../../../worksheet/definition';
import type { Given } from '../../worker/messages';
import type { FormulaCell, Formats } from './sheetStore';
import type { Argument, Matrix, Reference, Scalar, SheetArea } from './values';

/** Where formulas read cells from: the calculated workbook, or what a file stores. */
export interface CellSource {
  read(sheet: number, row: number, column: number): Scalar;
  /** Visits cells that hold something, row by row; ends where `visit` returns false. */
  visit(area: SheetArea, visit: (value: Scalar, row: number, column: number) => boolean | void): void;
  /** The cells that the formula of a cell fills; the cell itself where its result is one value. */
  filledBy(sheet: number, row: number, column: number): SheetArea | undefined;
  /** What the numbers of an area come to; undefined where they have to be visited one by one. */
  totals(area: SheetArea): NumberTotals | undefined;
  /** A number that changes whenever a cell of these columns does; undefined where that is not told. */
  versionOf(area: SheetArea): number | undefined;
  /** Tells what a block rests on that was read before. */
  met: FormulaCell | undefined;
  /** The last row and column of a sheet that hold something; -1 where nothing does. */
  lastRow(sheet: number): number;
  lastColumn(sheet: number): number;
}

/** Variables of LET and LAMBDA, the innermost first. */
export interface Environment {
  readonly value: Argument;
  readonly outer: Environment | undefined;
}

/** One calculation of one formula. */
export interface Frame extends CallContext {
  readonly source: CellSource;
  environment: Environment | undefined;
  /** Formats of the last result that has any, row by row. */
  formats: Formats;
  /** Calls of functions written in formulas that are under way, and those made so far. */
  depth: number;
  calls: number;
  /** The answer of a function that may take long, as far as there is one; undefined where each is had at once. */
  longAnswer(definition: WorksheetFunction, given: Given): Block | undefined;
  /** The values of a reference as a block. */
  blockOf(reference: Reference): Matrix;
  /** As `blockOf`, whole columns to their full height. */
  wholeOf(reference: Reference): Matrix;
}
