import { type Cell, cellError, isCellError } from '../../../worksheet/cells/cell';
import { ErrorValue, type Scalar } from './values';

/** A cell of the worksheet boundary as the evaluator holds it. */
export const toScalar = (cell: Cell): Scalar =>
  isCellError(cell) ? new ErrorValue(cell.code, cell.reason) : cell;

/** A value of the evaluator as the worksheet boundary takes it. */
export const toCell = (value: Scalar): Cell =>
  value instanceof ErrorValue ? cellError(value.code, value.reason) : value;
