import { HALF_KNOWN } from './fatesSeen';
import type { StandingLoad } from './loadingProblem';
import { curveOfFlushes } from './pickCurve';

/**
 * A standing load as it is expected once something is known of it. Flushes to come are as late as the first one was.
 * A load of which nothing is picked yet gives its first flush from the start on. Its yield is corrected by what it has
 * given, the more so the more of it is picked. Flushes that are over are left out.
 *
 * @param start day from which the plan is made: what was picked before counts
 * @param firstPicked day of its first pick; undefined where it is not known
 * @param picked mass picked of it before the start, 0 for nothing yet; undefined where it is not known
 */
export function asKnown(
  load: StandingLoad,
  start: number,
  firstPicked: number | undefined,
  picked: number | undefined,
): StandingLoad {
  if (firstPicked === undefined && picked === undefined) return load;
  const { curve, blocks, yieldPerBlock } = load;
  const loaded = Math.floor(load.loaded);
  const isYetToCome = firstPicked === undefined && picked === 0;
  const first = isYetToCome
    ? Math.max(curve.firstPick, start - loaded)
    : Math.floor(firstPicked ?? NaN) - loaded;
  const late = Number.isNaN(first) ? 0 : first - curve.firstPick;
  const flushes = curve.flushes.map((flush) => ({ ...flush, start: Math.max(0, flush.start + late) }));
  const shifted = curveOfFlushes(flushes);
  const share = shifted.shares.reduce((sum, one, k) => sum + (loaded + k < start ? one : 0), 0);
  const ratio = picked === undefined || !(share > 0) ? 1 : picked / (blocks * yieldPerBlock * share);
  const factor = 1 + (share / (share + HALF_KNOWN)) * (ratio - 1);
  const isOver = ({ start: from, days }: { start: number; days: number }): boolean =>
    loaded + from + days <= start;
  return {
    ...load,
    yieldPerBlock: yieldPerBlock * Math.max(0, factor),
    curve: { ...shifted, flushes: flushes.filter((flush) => !isOver(flush)) },
    expected: {
      curve,
      yieldPerBlock,
      seen: {
        until: start - loaded,
        firstPick: firstPicked === undefined ? undefined : Math.floor(firstPicked) - loaded,
        picked: picked === undefined ? undefined : picked / (blocks * yieldPerBlock),
      },
    },
  };
}
