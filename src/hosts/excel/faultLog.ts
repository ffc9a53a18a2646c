import { type Block, isCellError } from '../../worksheet/cells/cell';

/** The faults that one call shows: the first in words, and how many cells show one. */
export interface LoggedFault {
  readonly code: string;
  readonly reason: string;
  readonly cells: number;
}

const logged = new Map<string, LoggedFault>();

/** `Lots!H5` and `'My lots'!$H$5` alike. */
const keyOf = (address: string): string => address.replace(/[$']/g, '').toUpperCase();

/**
 * Remembers what a call at `address` shows, since Excel gives the pane the code of a fault but not its reason. The
 * functions and the pane run in one page (shared runtime), so this is a map in memory: only calls that fault stay.
 */
export function logFaults(address: string | undefined, block: Block): void {
  if (address === undefined) return;
  const faults = block.rows.flatMap((row) => row.filter((cell) => isCellError(cell)));
  if (faults.length === 0) {
    logged.delete(keyOf(address));
    return;
  }
  logged.set(keyOf(address), { code: faults[0]!.code, reason: faults[0]!.reason, cells: faults.length });
}

export const faultAt = (sheet: string, address: string): LoggedFault | undefined =>
  logged.get(keyOf(`${sheet}!${address}`));
