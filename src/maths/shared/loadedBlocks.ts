import { invalid, type Placed } from './fault';

declare module './fault' {
  interface FaultDetails {
    /** A figure under `loaded` that is neither a date nor a number of the lot's blocks. */
    notLoaded: { readonly blocks: number; readonly given: number };
  }
}

/**
 * From here on a figure under `loaded` is a date: in both date systems a day before this century (36526 and 35064 are
 * 2000-01-01), and more blocks than any lot has.
 */
export const LEAST_LOADED_DATE = 30_000;

/** A lot with what was loaded of it already: a date takes the whole lot, a smaller figure is a number of blocks. */
export interface LoadedLot extends Placed {
  readonly blocks: number;
  readonly loaded: number | undefined;
}

/** The day under `loaded`; undefined where it holds nothing or a number of blocks. */
export const loadedDay = (loaded: number | undefined): number | undefined =>
  loaded !== undefined && loaded >= LEAST_LOADED_DATE ? loaded : undefined;

/**
 * The number of blocks under `loaded`; undefined where it holds nothing or a date.
 *
 * @throws invalid where the number is not whole, or more than the lot has
 */
export function loadedBlocks({ blocks, loaded, at }: LoadedLot): number | undefined {
  if (loaded === undefined || loaded >= LEAST_LOADED_DATE) return undefined;
  if (Number.isInteger(loaded) && loaded <= blocks) return loaded;
  throw invalid('lots, loaded', 'notLoaded', { blocks, given: loaded }, { at });
}

/**
 * Blocks of a lot that are not loaded yet.
 *
 * @param lastSerial a date of loading after this day does not count yet; left out, every date counts
 * @throws invalid where a number of blocks is not whole, or more than the lot has
 */
export function blocksLeft(lot: LoadedLot, lastSerial = Infinity): number {
  const day = loadedDay(lot.loaded);
  if (day !== undefined) return Math.floor(day) <= lastSerial ? 0 : lot.blocks;
  return lot.blocks - (loadedBlocks(lot) ?? 0);
}
