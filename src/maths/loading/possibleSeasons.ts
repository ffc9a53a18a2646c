import type { LinearSolver } from '../shared/linearProgram';
import { drawnFates } from './drawnFates';
import { FreeCapacity } from './freeCapacity';
import type { GroupLoad } from './groupLoad';
import { assignRooms } from './assignRooms';
import { loadPlan } from './loadPlan';
import { groupsFor } from './openSlots';
import type { LoadingProblem, PlannedLoad } from './loadingProblem';
import { planView } from './planView';
import { playSeason, type Policy, type Season, type World } from './playSeason';

/** Days ahead that a plan of each week looks at. */
const HORIZON = 28;

/**
 * How the season is run: by the plan of each week, by the same without a look at what may differ, by the rule of
 * thumb, or by so many blocks a week, oldest ripe lots first.
 */
export type Way = 'plan' | 'certain' | 'thumb' | number;

/**
 * The coming season, played several times with what may become of each lot and load drawn from its strain's spread.
 * The draws go by names, and by the seed: with a room more or a lot more the others do the same, so two farms can be
 * compared.
 *
 * @param farm everything the season holds; its start is the first day
 * @param eachWeek called before each week of each season is planned
 */
export function possibleSeasons(
  farm: LoadingProblem,
  way: Way,
  weeks: number,
  count: number,
  seed: number,
  solver: LinearSolver | null,
  eachWeek: () => void = () => undefined,
): Season[] {
  const fatesOf = drawnFates(farm, count, `season ${seed}|`);
  const lots = new Map(farm.lots.map((lot) => [lot.lot, fatesOf(lot)]));
  const standing = farm.standing.map(fatesOf);
  const plan = policyOf(way, solver);
  const policy: Policy = (known, previous) => {
    eachWeek();
    return plan(known, previous);
  };
  return Array.from({ length: count }, (_, n) => {
    const world: World = {
      lot: (lot) => lots.get(lot)![n]!,
      standing: (at) => standing[at]![n]!,
      order: () => 1,
    };
    return playSeason(farm, world, policy, weeks, HORIZON);
  });
}

function policyOf(way: Way, solver: LinearSolver | null): Policy {
  switch (way) {
    case 'plan':
      return (known) => loadPlan(known, solver).loads;
    case 'certain':
      return (known) => loadPlan(withoutSpreads(known), solver).loads;
    case 'thumb':
      return (known) => loadPlan(withoutSpreads(known), null).loads;
    default:
      return (known) => oldestFirst(withoutSpreads(known), way);
  }
}

const withoutSpreads = (problem: LoadingProblem): LoadingProblem => ({
  ...problem,
  lots: problem.lots.map((lot) => ({ ...lot, spread: undefined })),
  standing: problem.standing.map((load) => ({ ...load, spread: undefined })),
});

/**
 * So many blocks in the first week, spread evenly over its days of loading, from the ripe lot whose last day is the
 * soonest. What does not fit on a day is loaded on the next. No limit of places, loading or picking is passed.
 */
export function oldestFirst(problem: LoadingProblem, perWeek: number): PlannedLoad[] {
  const view = planView(problem);
  const free = new FreeCapacity(view);
  const days = view.loadLimit.flatMap((limit, day) => (limit > 0 && day < 7 ? [day] : []));
  const byAge = view.lots.map((_, at) => at).sort((a, b) => view.lots[a]!.expires - view.lots[b]!.expires);
  const loads: GroupLoad[] = [];
  let loaded = 0;
  days.forEach((day, n) => {
    const due = Math.round((perWeek * (n + 1)) / days.length);
    for (const lot of byAge) {
      for (const group of groupsFor(view, lot, day)) {
        const blocks = Math.min(due - loaded, free.most({ lot, day, group }));
        if (blocks < 1) continue;
        const load = { lot, day, group, blocks };
        free.add(load);
        loads.push(load);
        loaded += blocks;
      }
    }
  });
  return assignRooms(view, loads, undefined);
}
