import { CellError, type Cell } from '../../../worksheet/cells/cell';
import { ErrorValue, type Scalar } from './values';

/** A cell of the worksheet boundary as the evaluator holds it. */
export const toScalar = (cell: Cell): Scalar =>
  cell instanceof CellError ? new ErrorValue(cell.code, cell.reason) : cell;

/** A value of the evaluator as the worksheet boundary takes it. */
export const toCell = (value: Scalar): Cell =>
  value instanceof ErrorValue ? new CellError(value.code, value.reason) : value;
