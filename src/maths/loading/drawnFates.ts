import { labelKey } from '../shared/labels';
import { fates, fatesOfLate, isCertain, NO_SPREAD, type Fate } from './fates';
import { fateOfLoad, fatesSeen, type Seen } from './fatesSeen';
import type { LoadingProblem, Lot, StandingLoad } from './loadingProblem';
import { asLoaded, type WatchedLoad } from './watchedLoad';

const NOTHING_SEEN: Seen = { until: 0, firstPick: undefined, picked: undefined };

/**
 * What may become of each lot and of each load on the shelves: `count` fates for each, by the spread of its strain.
 * Loads of one lot fare alike, and so does what is left of it: what one of them has shown is known of all. The draws go
 * by the name of the lot, or by strain, room and day of a load without one, so that nothing besides changes them.
 *
 * @param season put before the names, for draws of another season
 */
export function drawnFates(
  { lots, standing }: Pick<LoadingProblem, 'lots' | 'standing'>,
  count: number,
  season = '',
): (load: Lot | StandingLoad) => Fate[] {
  const known = new Map<Lot | StandingLoad, Fate[]>();
  const ofLots = new Map<string, Fate[]>();
  for (const [key, loads] of alike(standing)) {
    const { spread = NO_SPREAD } = loads[0]!;
    const { flushes } = asLoaded(loads[0]!).curve;
    const seen = loads.map(({ expected }) => (!isCertain(spread) && expected?.seen) || NOTHING_SEEN);
    const shared = fatesSeen(`${season}${nameOf(loads[0]!)}`, spread, flushes, seen, count);
    ofLots.set(key, shared);
    loads.forEach((load, n) => {
      const fatesOfLoad = shared.map((fate) => fateOfLoad(fate, flushes, seen[n]!));
      known.set(load, fatesOfLoad);
    });
  }
  for (const lot of lots) {
    // A lot of which some is on the shelves is ripe.
    const opened = ofLots.get(lotKey(lot))?.map((fate) => ({ ...fate, ripensLate: 0 }));
    known.set(lot, opened ?? lotFates(lot, count, season));
  }
  return (load) => known.get(load)!;
}

/** Loads with the same key fare alike. What is said of a lot may differ from row to row; then its loads do not. */
const lotKey = ({ lot, strain, curve }: Pick<WatchedLoad, 'lot' | 'strain' | 'curve'>): string =>
  [labelKey(lot!), labelKey(strain), curve.flushes.length].join('|');

/** Loads of one lot together, and each without a lot by itself. */
function alike(standing: readonly StandingLoad[]): Map<string, StandingLoad[]> {
  const groups = new Map<string, StandingLoad[]>();
  standing.forEach((load, at) => {
    const key = load.lot === undefined ? `${at}` : lotKey(asLoaded(load));
    groups.set(key, [...(groups.get(key) ?? []), load]);
  });
  return groups;
}

const nameOf = ({ lot, strain, room, loaded }: StandingLoad): string =>
  lot === undefined
    ? `standing ${labelKey(strain)}|${labelKey(room)}|${Math.floor(loaded)}`
    : `lot ${labelKey(lot)}`;

function lotFates(
  { lot, spread = NO_SPREAD, curve, lateBy = 0 }: Lot,
  count: number,
  season: string,
): Fate[] {
  const name = `${season}lot ${labelKey(lot)}`;
  return lateBy > 0
    ? fatesOfLate(name, spread, curve.flushes.length, lateBy, count)
    : fates(name, spread, curve.flushes.length, count);
}
