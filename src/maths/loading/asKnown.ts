import type { StandingLoad } from './loadingProblem';
import { curveOfFlushes } from './pickCurve';
import type { Spread } from './fates';

/**
 * How far what a load has given says what it will give: a load of which this share is picked is taken to go on
 * half-way between what was expected and what it has shown. A judgement, not a measurement.
 */
const HALF_KNOWN = 0.15;

/**
 * A standing load as it is expected once something is known of it. Flushes to come are as late as the first one was.
 * Its yield is corrected by what it has given, the more so the more of it is picked. Flushes that are over are left
 * out of what can still differ.
 *
 * @param start day from which the plan is made: what was picked before counts
 * @param firstPicked day of its first pick; undefined where it is not known
 * @param picked mass picked of it before the start; undefined where it is not known
 */
export function asKnown(
  load: StandingLoad,
  start: number,
  firstPicked: number | undefined,
  picked: number | undefined,
): StandingLoad {
  const { curve, blocks, yieldPerBlock } = load;
  const loaded = Math.floor(load.loaded);
  const late = firstPicked === undefined ? 0 : Math.floor(firstPicked) - loaded - curve.firstPick;
  const flushes = curve.flushes.map((flush) => ({ ...flush, start: Math.max(0, flush.start + late) }));
  const shifted = curveOfFlushes(flushes);
  const share = shifted.shares.reduce((sum, one, k) => sum + (loaded + k < start ? one : 0), 0);
  const ratio = picked === undefined || !(share > 0) ? 1 : picked / (blocks * yieldPerBlock * share);
  const factor = 1 + (share / (share + HALF_KNOWN)) * (ratio - 1);
  const isOver = ({ start: from, days }: { start: number; days: number }): boolean =>
    loaded + from + days <= start;
  const spread: Spread | undefined = load.spread && {
    ...load.spread,
    yieldShare:
      picked === undefined
        ? load.spread.yieldShare
        : load.spread.yieldShare * (1 - share / (share + HALF_KNOWN)),
  };
  return {
    ...load,
    yieldPerBlock: yieldPerBlock * Math.max(0, factor),
    curve: { ...shifted, flushes: flushes.filter((flush) => !isOver(flush)) },
    spread,
  };
}
