import { requireConfidence } from '../shared/checks';
import type { Distributions } from '../shared/distributions';
import { missing } from '../shared/fault';
import { compensatedSum } from '../shared/numeric';
import { mean, median, standardDeviation } from '../shared/statistics';
import type { FlushTimes } from './flushTimes';
import type { Crop } from './lotCrop';

/** A lot of a strain: what it gave and when. */
export interface CroppedLot {
  readonly crop: Crop;
  readonly times: FlushTimes;
}

/** What a farm's records say of a strain. */
export interface StrainRecord {
  readonly lots: number;
  /** Mean biological efficiency, each lot counting once. */
  readonly efficiency: number;
  /** Confidence interval of that mean; undefined for one lot. */
  readonly interval: readonly [low: number, high: number] | undefined;
  /** Days from load to the first pick; days a flush lasts; days from one flush's first pick to the next's. Medians. */
  readonly firstPick: number | undefined;
  readonly pickDays: number | undefined;
  readonly flushGap: number | undefined;
  /** Share of the mass in each flush, over the lots whose every pick has its flush; empty where none has. */
  readonly shares: readonly number[];
  /** Coefficient of variation of efficiency between lots; undefined for one lot, or where nothing was picked. */
  readonly yieldSpread: number | undefined;
  /** Standard deviation between lots of the days from load to the first pick; undefined for fewer than two. */
  readonly pickSpread: number | undefined;
}

/**
 * A strain's mean efficiency with its interval, flush shares by mass, and usual times. The interval is Student's t over
 * lots, since picks of one lot are not independent. Times are medians, so that one late lot does not move them.
 *
 * @param lots one or more
 * @param confidence 0.5 to 0.9999
 * @throws invalid where the confidence is out of range
 * @throws missing where there is no lot
 * @source NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.2: confidence limits for the mean
 */
export function strainRecord(
  lots: readonly CroppedLot[],
  confidence: number,
  distributions: Distributions,
): StrainRecord {
  requireConfidence('confidence', confidence);
  if (lots.length === 0)
    throw missing('lots', 'tooFew', { least: 1, things: 'lot that was picked', found: 0 });
  const efficiencies = lots.map(({ crop }) => crop.efficiency);
  const efficiency = mean(efficiencies);
  const half =
    lots.length > 1
      ? (distributions.studentHalfWidth(confidence, lots.length - 1) * standardDeviation(efficiencies)) /
        Math.sqrt(lots.length)
      : undefined;
  const firstPicks = lots.flatMap(({ times }) => (times.firstPick === undefined ? [] : [times.firstPick]));
  return {
    lots: lots.length,
    efficiency,
    interval: half === undefined ? undefined : [efficiency - half, efficiency + half],
    firstPick: middle(firstPicks),
    pickDays: middle(lots.flatMap(({ times }) => times.lengths)),
    flushGap: middle(lots.flatMap(({ times }) => times.gaps)),
    shares: flushShares(lots),
    yieldSpread: lots.length > 1 && efficiency > 0 ? standardDeviation(efficiencies) / efficiency : undefined,
    pickSpread: firstPicks.length > 1 ? standardDeviation(firstPicks) : undefined,
  };
}

const middle = (values: readonly number[]): number | undefined =>
  values.length > 0 ? median(values) : undefined;

function flushShares(lots: readonly CroppedLot[]): number[] {
  const complete = lots.filter(({ crop }) => crop.unassigned === 0);
  const total = compensatedSum(complete.map(({ crop }) => crop.total));
  if (!(total > 0)) return [];
  const flushes = Math.max(0, ...complete.map(({ crop }) => crop.byFlush.length));
  return Array.from(
    { length: flushes },
    (_, flush) => compensatedSum(complete.map(({ crop }) => crop.byFlush[flush] ?? 0)) / total,
  );
}
