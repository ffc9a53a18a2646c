import type { Telling } from './voice';
import { refusalOf } from './wording/refusals';
import { cellError, isCellError, type Cell, type CellError, type Place } from './cells/cell';
import type { Kind } from './cells/kinds';

/** Why a cell was not taken. */
export interface Refusal {
  readonly error: CellError;
}

export const isRefusal = (read: unknown): read is Refusal =>
  typeof read === 'object' && read !== null && 'error' in read;

/** The value of `kind`, or why the cell is refused. */
export function readCell<T>(kind: Kind<T>, cell: Cell, place: Place, telling: Telling): T | Refusal {
  return kind.accept(cell) ?? refuse(kind, cell, place, telling);
}

/** Why `kind` does not take a cell. An error cell is refused with its own code, and where it lies. */
export function refuse(kind: Kind<unknown>, cell: Cell, place: Place, { dateSystem }: Telling): Refusal {
  const code = isCellError(cell) ? cell.code : '#VALUE!';
  return { error: cellError(code, refusalOf(kind, cell, place, dateSystem), place) };
}
