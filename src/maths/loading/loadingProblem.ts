import type { Spread } from './fates';
import type { PickCurve } from './pickCurve';
import type { Room } from './shelfUse';
import type { WatchedLoad } from './watchedLoad';

/** Blocks of one strain and product that ripen together and are not opened yet. Days are serials. */
export interface Lot {
  readonly lot: string;
  readonly strain: string;
  /** What its mushrooms are sold as. */
  readonly product: string;
  readonly blocks: number;
  /** First, best and last day of opening, by ripeness. `notBefore` and `notAfter` are set by the grower. */
  readonly earliest: number;
  readonly best: number;
  readonly latest: number;
  readonly notBefore: number | undefined;
  readonly notAfter: number | undefined;
  /** Expected fresh mass of one block over all flushes. */
  readonly yieldPerBlock: number;
  readonly curve: PickCurve;
  /** How far it may differ from that; not at all where undefined. */
  readonly spread?: Spread | undefined;
  /** Days by which it is known to be late: its days have moved by so much, and it may be later still. */
  readonly lateBy?: number;
  /** Cost of loading one block. */
  readonly cost: number;
}

/** A room as the planner needs it. */
export interface PlanRoom extends Room {
  readonly blocksPerShelf: number;
  /** Strains it may hold; any if undefined. */
  readonly strains: readonly string[] | undefined;
}

export interface Order {
  /** A product, a strain, or `any`. */
  readonly product: string;
  /** Still to be picked for it: what is given already is taken off. */
  readonly mass: number;
  /** What it has been given already, from the cold store or by earlier deliveries. */
  readonly given?: number;
  /** First and last day on which picking can fill it. */
  readonly from: number;
  readonly due: number;
  /** Per unit of mass. */
  readonly price: number;
}

/** Blocks on the shelves when the plan starts. */
export interface StandingLoad extends WatchedLoad {
  readonly product: string;
  readonly blocks: number;
}

/** What can be done on one day: Infinity is no limit, 0 is a day off. */
export interface DayLimits {
  /** Fresh mass that can be picked. */
  readonly pick: number;
  /** Blocks that can be loaded. */
  readonly load: number;
}

/** Costs in money; undefined takes the default, a share of a block's value. */
export interface PlanSettings {
  /** Per block and day that it is opened before, or after, the comfort days around its best day. */
  readonly earlyCost: number | undefined;
  readonly lateCost: number | undefined;
  /** Per block that goes over its last day unopened. */
  readonly discardCost: number | undefined;
  /** Per block and day that a block still unopened at the end is past its best. */
  readonly waitCost: number | undefined;
  /** Per unit of mass picked that no order takes. */
  readonly surplusCost: number | undefined;
  /** Per unit of mass of each week's largest picking day. */
  readonly peakCost: number | undefined;
  /** Per separate load: the higher, the fewer and larger the loads. */
  readonly loadCost: number | undefined;
  /** Days either side of the best day that cost nothing. */
  readonly comfortDays: number;
  /** Days a place stays empty after the last pick. */
  readonly turnRound: number;
  /** Share taken off yields when orders are filled. Picking limits count the full yield. */
  readonly margin: number;
  /** Share of the order value that staying with the previous plan may cost. */
  readonly keepTolerance: number;
  /** Number of first days on which the previous plan does not change. */
  readonly freezeDays: number;
  /** Whether loads fill whole shelves; the rest of a lot need not. */
  readonly wholeShelves: boolean;
  /** Fewest blocks in a load; the rest of a lot may be fewer. */
  readonly smallestLoad: number;
  /** Share of the order value that may be given up where it saves more than it is worth. */
  readonly orderTolerance: number;
  /** Per block that leaves the place it has in the previous plan; undefined takes a share of a block's value. */
  readonly moveCost: number | undefined;
  /** Possible seasons that the plan looks at, where strains have a spread; undefined takes 48, fewer for large farms. */
  readonly scenarios: number | undefined;
  /** Per unit of mass picked over a day's limit, where strains have a spread; undefined takes four times the mean price. */
  readonly overtimeCost: number | undefined;
  /**
   * Share of the orders' value to be filled in the mean, where strains have a spread: what is short beyond that counts
   * several times. Undefined counts all the same.
   */
  readonly serviceLevel: number | undefined;
}

/** A load of a plan, with its room. */
export interface PlannedLoad {
  readonly lot: string;
  readonly room: string;
  /** Serial. */
  readonly day: number;
  readonly blocks: number;
}

/** What a grower gives: everything that decides a plan. */
export interface LoadingProblem {
  readonly lots: readonly Lot[];
  readonly rooms: readonly PlanRoom[];
  readonly orders: readonly Order[];
  readonly standing: readonly StandingLoad[];
  /** First day of loading and number of days. */
  readonly start: number;
  readonly days: number;
  readonly limitsOn: (day: number) => DayLimits;
  readonly settings: PlanSettings;
}
