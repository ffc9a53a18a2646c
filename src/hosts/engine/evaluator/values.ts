/** The error codes a formula can give. */
export type ErrorCode =
  | '#NULL!'
  | '#DIV/0!'
  | '#VALUE!'
  | '#REF!'
  | '#NAME?'
  | '#NUM!'
  | '#N/A'
  | '#SPILL!'
  | '#CALC!'
  | '#BUSY!';

/** An error as a value. It may also be thrown: whoever called the function then takes it as the result. */
export class ErrorValue {
  constructor(
    readonly code: ErrorCode,
    /** What is wrong, in words; empty where the code says it all. */
    readonly reason = '',
  ) {}
}

export const VALUE = new ErrorValue('#VALUE!');
export const NUM = new ErrorValue('#NUM!');
export const NOT_AVAILABLE = new ErrorValue('#N/A');
export const DIVIDED_BY_ZERO = new ErrorValue('#DIV/0!');
export const REF = new ErrorValue('#REF!');
export const CALC = new ErrorValue('#CALC!');
export const SPILL = new ErrorValue('#SPILL!');
export const NULL = new ErrorValue('#NULL!');
export const NAME = new ErrorValue('#NAME?');

/** What one cell holds; null is a blank. Never NaN or infinite once it has left a function. */
export type Scalar = number | string | boolean | null | ErrorValue;

/** A block of values, row by row; never empty, never ragged. */
export type Matrix = readonly (readonly Scalar[])[];

/** A rectangle of cells on one sheet. All count from 0, bounds included. */
export interface SheetArea {
  /** The sheet's position in the workbook. */
  readonly sheet: number;
  readonly top: number;
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
}

/** Cells of the workbook: nearly always one area; several for a union, or for the same area on several sheets. */
export class Reference {
  constructor(readonly areas: readonly [SheetArea, ...SheetArea[]]) {}

  static to(area: SheetArea): Reference {
    return new Reference([area]);
  }

  /** The only area. @throws ErrorValue #VALUE! where there are several */
  get area(): SheetArea {
    if (this.areas.length > 1) throw VALUE;
    return this.areas[0];
  }

  get isOneCell(): boolean {
    const [{ top, left, bottom, right }] = this.areas;
    return this.areas.length === 1 && top === bottom && left === right;
  }
}

/** A function written in a formula. Called by `CallContext.invoke`. */
export class Lambda {
  constructor(
    /** How many arguments it takes. */
    readonly count: number,
    /** @throws ErrorValue */
    readonly call: (given: readonly Argument[]) => Value,
  ) {}
}

/** What an expression may come to. */
export type Value = Scalar | Matrix | Reference | Lambda;

/** What a function may be given: undefined where an argument is left out, as the second of `IF(A1,,3)`. */
export type Argument = Value | undefined;

export const isError = (value: unknown): value is ErrorValue => value instanceof ErrorValue;
export const isMatrix = (value: unknown): value is Matrix => Array.isArray(value);

/** A matrix's height and width. */
export const heightOf = (matrix: Matrix): number => matrix.length;
export const widthOf = (matrix: Matrix): number => matrix[0]!.length;
