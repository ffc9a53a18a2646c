import { isCertain, NO_SPREAD, type Spread } from './fates';
import type { Seen } from './fatesSeen';
import type { PickCurve } from './pickCurve';

/** A load on the shelves, and what it has shown so far. */
export interface WatchedLoad {
  /** The lot it is from, where that is known: loads of one lot fare alike. */
  readonly lot?: string | undefined;
  readonly room: string;
  readonly strain: string;
  readonly loaded: number;
  /** Fresh mass of one block over all flushes, and its days of picking, as they are expected now. */
  readonly yieldPerBlock: number;
  readonly curve: PickCurve;
  /** How far it may differ from what was expected when it was loaded; not at all where undefined. */
  readonly spread?: Spread | undefined;
  /** What was expected when it was loaded, and what it has shown since; undefined where nothing is known. */
  readonly expected?:
    | { readonly yieldPerBlock: number; readonly curve: PickCurve; readonly seen: Seen }
    | undefined;
}

/** What the fates of a load are counted from: what was expected when it was loaded, where it may differ from it. */
export function asLoaded<L extends WatchedLoad>(load: L): L {
  const { expected, spread = NO_SPREAD } = load;
  if (!expected || isCertain(spread)) return load;
  const { curve, yieldPerBlock } = expected;
  return { ...load, curve, yieldPerBlock: spread.yieldShare > 0 ? yieldPerBlock : load.yieldPerBlock };
}
