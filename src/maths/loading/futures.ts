import { picksUnder, type Fate } from './fates';
import type { LoadingProblem, Lot, PlanSettings, StandingLoad } from './loadingProblem';
import type { LotView } from './lotView';
import { asLoaded } from './watchedLoad';

/** One possible season: what each load gives when. Days count from the start of the plan. */
export interface Future {
  /** Visits day and mass of every pick of one block of a lot opened on a day. */
  readonly eachPickOf: (lot: number, day: number, visit: (day: number, mass: number) => void) => void;
  /** Mass picked from standing loads on each day. */
  readonly standingPicks: readonly number[];
  /** Mass that standing loads give in each atom, margin taken off. */
  readonly standingIn: readonly number[];
}

/** Possible seasons looked at where nothing is said of their number, for farms of up to so many days of lots. */
const SEASONS: readonly (readonly [seasons: number, lotDays: number])[] = [
  [48, 500],
  [16, 2500],
  [8, 5000],
  [4, Infinity],
];

/** The number of possible seasons that a plan looks at. */
export function seasonsOf({ scenarios }: PlanSettings, lots: readonly LotView[]): number {
  if (scenarios !== undefined) return scenarios;
  const lotDays = lots.reduce((sum, { from, to }) => sum + Math.max(0, to - from + 1), 0);
  return SEASONS.find(([, most]) => lotDays <= most)![0];
}

/** Days after which a plan is made again: a lot that is not ripe on its day is looked at again then. */
const REVIEW_DAYS = 7;

/** Days by which a lot is opened late that is ripe on the day `ripe` and was to be opened on `day`. */
function openedLate(ripe: number, day: number): number {
  if (ripe <= day) return 0;
  return Math.max(ripe, REVIEW_DAYS * (Math.floor(day / REVIEW_DAYS) + 1)) - day;
}

/** The n-th possible season. A lot that is not ripe on its day stays shut until the next plan, and is picked later. */
export function futureOf(
  { settings, standing, start }: LoadingProblem,
  lots: readonly LotView[],
  pickDays: number,
  drawn: (load: Lot | StandingLoad) => Fate[],
  n: number,
  atomOf: readonly Int32Array[],
  atomCount: number,
  kindOf: (load: StandingLoad) => number,
): Future {
  const inPlan = ([day]: readonly [number, number]): boolean => day >= 0 && day < pickDays;
  const lotFates = lots.map(({ lot }) => drawn(lot)[n]!);
  const ripe = lots.map(({ lot }, at) => Math.floor(lot.earliest) + lotFates[at]!.ripensLate - start);
  // For each lot its picks by the days it is opened late: days of opening share them.
  const known = lots.map((): (readonly (readonly [number, number])[])[] => []);
  const standingPicks = new Array<number>(pickDays).fill(0);
  const standingIn = new Array<number>(atomCount).fill(0);
  for (const load of standing) {
    const at = Math.floor(load.loaded) - start;
    const atoms = atomOf[kindOf(load)]!;
    const { curve, yieldPerBlock } = asLoaded(load);
    const picks = picksUnder(curve, load.blocks * yieldPerBlock, drawn(load)[n]!);
    for (const [day, mass] of picks.map(([k, one]) => [at + k, one] as const).filter(inPlan)) {
      standingPicks[day]! += mass;
      if (atoms[day]! >= 0) standingIn[atoms[day]!]! += mass * (1 - settings.margin);
    }
  }
  return {
    eachPickOf: (index, day, visit) => {
      const { lot } = lots[index]!;
      const late = openedLate(ripe[index]!, day);
      const picks = (known[index]![late] ??= picksUnder(
        lot.curve,
        lot.yieldPerBlock,
        lotFates[index]!,
        late,
      ));
      for (const [k, mass] of picks) if (day + k < pickDays) visit(day + k, mass);
    },
    standingPicks,
    standingIn,
  };
}
