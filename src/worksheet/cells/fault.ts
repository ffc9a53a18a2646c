import { CalcError, type FaultKind } from '../../maths/shared/calcError';
import { CellError, type ErrorCode } from './cell';

const CODES: Record<FaultKind, ErrorCode> = {
  invalid: '#VALUE!',
  missing: '#N/A',
  zeroBase: '#DIV/0!',
  noConvergence: '#NUM!',
};

/** A fault already worded for the sheet, place included. */
export class SheetFault extends Error {
  constructor(readonly cell: CellError) {
    super(cell.reason);
  }
}

/** Which code shows for which kind of fault, with `place` behind the reason. Excel shows it with #VALUE! and #N/A only. */
export function toCellError(fault: CalcError, place = ''): CellError {
  return new CellError(CODES[fault.kind], fault.message + place);
}

/** The cell for whatever a calculation threw on purpose; anything else is a defect of ours and goes on. */
export function cellErrorOf(fault: unknown, place = ''): CellError {
  if (fault instanceof SheetFault) return fault.cell;
  if (fault instanceof CalcError) return toCellError(fault, place);
  throw fault;
}
