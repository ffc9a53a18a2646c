import { labelKey } from '../shared/labels';
import { fates, fatesSeen, isCertain, NO_SPREAD, type Fate, type Seen, type Spread } from './fates';
import type { PickCurve } from './pickCurve';

/** A load on the shelves, and what it has shown so far. */
export interface WatchedLoad {
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

/** What may become of a load, given what it has shown. The draws go by its strain, room and day of loading. */
export function standingFates(load: WatchedLoad, count: number, season = ''): Fate[] {
  const { spread = NO_SPREAD, expected } = load;
  const name = `${season}standing ${labelKey(load.strain)}|${labelKey(load.room)}|${Math.floor(load.loaded)}`;
  return expected && !isCertain(spread)
    ? fatesSeen(name, spread, expected.curve.flushes, expected.seen, count)
    : fates(name, spread, load.curve.flushes.length, count);
}
