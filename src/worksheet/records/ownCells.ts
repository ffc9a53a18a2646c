import type { Cell, CellError } from '../cells/cell';
import type { Kind } from '../cells/kinds';
import type { Context } from '../definition';
import { refuse } from '../readCell';
import { METRIC } from '../voice';

/** Why a cell of the first column of a call is not taken as a kind, its row included. */
export function refusedIn(
  argument: string,
  kind: Kind<unknown>,
  cell: Cell,
  at: number,
  { dateSystem, rowNumbers, isSingle }: Context,
): CellError {
  const place = { argument, ...(isSingle[0] ? {} : { row: rowNumbers[at]! }) };
  return refuse(kind, cell, place, { dateSystem, voice: METRIC }).error;
}
