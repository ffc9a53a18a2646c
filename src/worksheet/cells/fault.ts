import { CalcError, type Fault, type FaultKind } from '../../maths/shared/fault';
import type { Telling } from '../voice';
import { sentenceOf } from '../wording/faults';
import { placeWords } from '../wording/phrases';
import { cellError, type CellError, type ErrorCode, type Place } from './cell';

/** A fault that the boundary has put into words already, its place included. */
export class SheetFault extends Error {
  constructor(readonly cell: CellError) {
    super(cell.reason);
  }
}

const CODES: Record<FaultKind, ErrorCode> = {
  invalid: '#VALUE!',
  missing: '#N/A',
  zeroBase: '#DIV/0!',
  noConvergence: '#NUM!',
};

/** The error cell of a fault. `rowOf` gives the row of the range that a fault lies in, if in one. */
export function errorOf(
  { kind, fault }: CalcError,
  telling: Telling,
  rowOf?: (fault: Fault) => number | undefined,
): CellError {
  const row = rowOf?.(fault) ?? fault.at;
  const place: Place = { argument: fault.argument, ...(row === undefined ? {} : { row }) };
  return cellError(
    CODES[kind],
    sentenceOf(fault, telling) + placeWords(place, fault.at !== undefined),
    place,
  );
}

/** The answer of a calculation, or the fault it threw: one bad value leaves its neighbours alone. */
export function orFault<T>(calculate: () => T): T | CalcError | CellError {
  try {
    return calculate();
  } catch (thrown) {
    if (thrown instanceof CalcError) return thrown;
    if (thrown instanceof SheetFault) return thrown.cell;
    throw thrown;
  }
}
