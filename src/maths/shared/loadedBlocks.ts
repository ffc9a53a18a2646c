import { invalid, type Placed } from './fault';

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

/**
 * Blocks of a lot that are not loaded yet.
 *
 * @param lastSerial a date of loading after this day does not count yet; left out, every date counts
 * @throws invalid where a number of blocks is not whole, or more than the lot has
 */
export function blocksLeft({ blocks, loaded, at }: LoadedLot, lastSerial = Infinity): number {
  if (loaded === undefined) return blocks;
  if (loaded >= LEAST_LOADED_DATE) return Math.floor(loaded) <= lastSerial ? 0 : blocks;
  if (!Number.isInteger(loaded) || loaded > blocks) {
    const what = 'the blocks of the lot, or a date';
    throw invalid(
      'lots, loaded',
      'outside',
      { from: 1, to: blocks, whole: true, what, given: loaded },
      { at },
    );
  }
  return blocks - loaded;
}
