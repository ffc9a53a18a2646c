import { CANDIDATES, fates, inTurn, isCertain, type Fate, type Spread } from './fates';
import type { PickCurve } from './pickCurve';

/** What a load has shown. Days count from its loading. */
export interface Seen {
  /** Day up to which it was watched. */
  readonly until: number;
  /** Day of its first pick; undefined where it is not known, or has not come. */
  readonly firstPick: number | undefined;
  /** What it has given, as a share of all it was expected to give; undefined where it is not known, 0 for nothing yet. */
  readonly picked: number | undefined;
}

type Flushes = PickCurve['flushes'];

/**
 * How far what a load has given says what it will give: a load of which this share is picked is taken to go on
 * half-way between what was expected and what it has shown. A judgement, not a measurement.
 */
export const HALF_KNOWN = 0.15;
/** Least spread of the yield, as a share, by which what was picked is weighed. */
const LEAST_YIELD_SPREAD = 0.05;

/**
 * What may still become of loads that fare alike, as those of one lot do, by what they have shown together. Many fates
 * are drawn, the day of the first pick is taken from the record where it is known, and each is weighed by how likely it
 * makes what was picked. Fates are then taken in proportion to their weights, evenly over the days of the flushes to
 * come. Where nothing is picked yet, the fates in which that is so are kept.
 *
 * @param seen what each of the loads has shown
 * @source Kitagawa, G. (1996) J. Computational and Graphical Statistics 5:1–25: systematic resampling by weight
 */
export function fatesSeen(
  name: string,
  spread: Spread,
  flushes: Flushes,
  seen: readonly Seen[],
  count: number,
): Fate[] {
  const told = seen.filter(({ firstPick, picked }) => firstPick !== undefined || picked !== undefined);
  if (flushes.length === 0 || told.length === 0) return fates(name, spread, flushes.length, count);
  const firsts = told.flatMap(({ firstPick }) => firstPick ?? []);
  const known =
    firsts.length > 0 ? Math.round(firsts.reduce((sum, day) => sum + day, 0) / firsts.length) : undefined;
  const waited = Math.max(...told.map(({ picked, until }) => (picked === 0 ? until : -Infinity)));
  const together: Seen =
    known === undefined
      ? { until: waited, firstPick: undefined, picked: 0 }
      : { until: waited, firstPick: known, picked: undefined };
  const drawn = fates(name, spread, flushes.length, isCertain(spread) ? count : CANDIDATES * count);
  const noise = HALF_KNOWN * Math.max(spread.yieldShare, LEAST_YIELD_SPREAD) ** 2;
  const candidates = drawn.map((one) => {
    const fate = fateOfLoad(one, flushes, together);
    // What was not picked by then comes later; a fate that had to be moved for it counts the less, the further it moved.
    let weight = known === undefined ? Math.exp(-3 * (fate.shifts[0]! - one.shifts[0]!)) : 1;
    for (const load of told) {
      if (load.picked === undefined || load.picked === 0) continue;
      const { shifts } = fateOfLoad(fate, flushes, load);
      const share = flushes.reduce((sum, flush, n) => {
        const past = Math.min(flush.days, Math.max(0, load.until - Math.max(0, flush.start + shifts[n]!)));
        return sum + (flush.share * past) / flush.days;
      }, 0);
      const variance = noise * share + 1e-4;
      weight *= Math.exp((-0.5 * (load.picked - fate.factor * share) ** 2) / variance) / Math.sqrt(variance);
    }
    return { fate, weight };
  });
  return inProportion(candidates, count, name) ?? fates(name, spread, flushes.length, count);
}

/** The fate of one of the loads: its own first pick is where the record has it, or not before it was last looked at. */
export function fateOfLoad(fate: Fate, [first]: Flushes, { until, firstPick, picked }: Seen): Fate {
  if (!first) return fate;
  const expected = first.start + fate.shifts[0]!;
  const late = (firstPick ?? (picked === 0 ? Math.max(until, expected) : expected)) - expected;
  return late === 0 ? fate : { ...fate, shifts: fate.shifts.map((shift) => shift + late) };
}

/** `count` fates in proportion to their weights, evenly over their last days; undefined where none has any weight. */
function inProportion(
  candidates: { readonly fate: Fate; readonly weight: number }[],
  count: number,
  name: string,
): Fate[] | undefined {
  candidates.sort((a, b) => a.fate.shifts.at(-1)! - b.fate.shifts.at(-1)! || a.fate.factor - b.fate.factor);
  const total = candidates.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return undefined;
  const taken: Fate[] = [];
  let sum = 0;
  for (const { fate, weight } of candidates) {
    sum += weight;
    while (taken.length < count && sum >= ((taken.length + 0.5) / count) * total) taken.push(fate);
  }
  const fated = new Array<Fate>(count).fill(taken[0]!);
  inTurn(`${name}|seen`, count).forEach((n, rank) => (fated[n] = taken[Math.min(rank, taken.length - 1)]!));
  return fated;
}
