import { CalcError } from '../../maths/shared/fault';
import type { CellError } from './cell';

/** A fault that the boundary has put into words already, its place included. */
export class SheetFault extends Error {
  constructor(readonly cell: CellError) {
    super(cell.reason);
  }
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
