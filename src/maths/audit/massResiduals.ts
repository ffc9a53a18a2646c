import { median } from '../shared/statistics';

/** A pick's place among its neighbours. Numbers label groups, from 0. */
export interface PlacedMass {
  readonly mass: number;
  readonly lot: number;
  /** One label for each strain and flush. */
  readonly kind: number;
  /** Dry mass (or any size) of the lot, above 0, so that lots of unequal size compare. */
  readonly size: number;
}

/** How far each mass is from what its neighbours suggest, on the scale of natural logarithms. */
export interface MassResiduals {
  /** ln(mass / expected). */
  readonly residuals: Float64Array;
  /** The residual's own robust standard deviation. */
  readonly deviations: Float64Array;
}

/** The median of n values has π/2 times the variance of their mean. */
const MEDIAN_VARIANCE = Math.PI / 2;
/** 1 / 0.6745: standard deviations to a median absolute deviation. */
const MAD_TO_SIGMA = 1.4826;
/** Lots differ by this much on the logarithmic scale: what a pick without a neighbour in its lot may be off by. */
const LOT_SPREAD = 0.35;
const LEAST_SIGMA = 0.03;

/**
 * What each mass should be by its neighbours, and how far off it is.
 *
 * Masses go by their logarithm, since picks spread in proportion. Expected = size of the lot × the median of picks of that
 * strain and flush × what the lot's other picks are above or below theirs × what the other picks of that lot and flush
 * still are above or below; the last two by medians that leave the pick itself out.
 * The spread is the pooled median absolute deviation of all residuals, so that a few slips do not widen it. Time grows
 * as n log n in the longest lot.
 *
 * @param picks masses and sizes above 0
 */
export function massResiduals(picks: readonly PlacedMass[]): MassResiduals {
  const logs = Float64Array.from(picks, ({ mass, size }) => Math.log(mass / size));
  const byKind = grouped(picks.map(({ kind }) => kind));
  for (const members of byKind.values()) {
    const middle = median(members.map((i) => logs[i]!));
    for (const i of members) logs[i]! -= middle;
  }
  const lots = picks.map(({ lot }) => lot);
  const ofLot = withoutNeighbours(logs, grouped(lots));
  const flushes = grouped(picks.map(({ lot, kind }) => `${lot} ${kind}`));
  const ofFlush = withoutNeighbours(ofLot.residuals, flushes);
  const residuals = ofFlush.residuals;
  const widths = Float64Array.from(ofLot.others, (others, i) =>
    others > 0 ? Math.sqrt(1 + MEDIAN_VARIANCE / (1 + Math.max(others / 2, ofFlush.others[i]!))) : 0,
  );
  const comparable = Array.from(residuals.keys()).filter((i) => widths[i]! > 0);
  const sigma = Math.max(
    LEAST_SIGMA,
    comparable.length > 0
      ? MAD_TO_SIGMA * median(comparable.map((i) => Math.abs(residuals[i]! / widths[i]!)))
      : LOT_SPREAD,
  );
  const deviations = widths.map((width) => (width > 0 ? sigma * width : Math.hypot(sigma, LOT_SPREAD)));
  return { residuals, deviations };
}

function grouped<T>(labels: readonly T[]): Map<T, number[]> {
  const groups = new Map<T, number[]>();
  labels.forEach((label, i) => {
    const members = groups.get(label);
    if (members) members.push(i);
    else groups.set(label, [i]);
  });
  return groups;
}

/**
 * Each value less the median of its group's other values and one 0: the 0 stands for an ordinary group, so that one wild
 * neighbour in a small group moves nothing.
 */
function withoutNeighbours<T>(
  values: Float64Array,
  groups: ReadonlyMap<T, readonly number[]>,
): { residuals: Float64Array; others: Float64Array } {
  const residuals = new Float64Array(values.length);
  const others = new Float64Array(values.length);
  for (const members of groups.values()) {
    const sorted = Float64Array.from([0, ...members.map((i) => values[i]!)]).sort();
    for (const i of members) {
      residuals[i] = values[i]! - medianWithout(sorted, values[i]!);
      others[i] = members.length - 1;
    }
  }
  return { residuals, others };
}

/** The median of sorted values with one of them left out; of two in the middle the one nearer 0. */
function medianWithout(sorted: Float64Array, value: number): number {
  const left = sorted.length - 1;
  const middle = left >> 1;
  // Leaving out a value at or below a place moves the values above it down by one.
  const at = (k: number): number => (sorted[k]! >= value ? sorted[k + 1]! : sorted[k]!);
  if (left % 2) return at(middle);
  const [low, high] = [at(middle - 1), at(middle)];
  return Math.abs(low) < Math.abs(high) ? low : high;
}
