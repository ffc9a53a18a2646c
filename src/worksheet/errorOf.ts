import type { CalcError, Fault, FaultKind } from '../maths/shared/fault';
import { cellError, type CellError, type ErrorCode, type Place } from './cells/cell';
import type { Telling } from './voice';
import { sentenceOf } from './wording/faults';
import { placeWords } from './wording/phrases';

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
  const row = fault.at ?? rowOf?.(fault);
  const place: Place = { argument: fault.argument, ...(row === undefined ? {} : { row }) };
  return cellError(
    CODES[kind],
    sentenceOf(fault, telling) + placeWords(place, fault.at !== undefined),
    place,
  );
}
