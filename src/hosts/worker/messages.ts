import { type Block, type CellError, type Formatted, cellError, formatted } from '../../worksheet/cells/cell';
import type { DateSystem, WorksheetFunction } from '../../worksheet/define';

export type Given = Parameters<WorksheetFunction['evaluate']>[0];

/** A call as it goes to the worker. */
export interface Question {
  readonly name: string;
  readonly given: Given;
  readonly dateSystem: DateSystem;
}

/** The answer, or in words what should not have happened. */
export type Reply = { readonly block: Block } | { readonly defect: string };

/** What the worker says first: an error before it means that no worker starts here. */
export const STARTED = 'started';

/** On the way between page and worker an object of a class becomes a plain one. */
function revived(cell: unknown): unknown {
  if (typeof cell !== 'object' || cell === null) return cell;
  const { code, reason, value, format } = cell as CellError & Formatted;
  return code === undefined ? formatted(value, format) : cellError(code, reason);
}

/** Rows of cells as they were before they were sent. */
export const revivedRows = <T>(rows: readonly (readonly T[])[]): T[][] =>
  rows.map((row) => row.map((cell) => revived(cell) as T));
