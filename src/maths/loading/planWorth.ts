import { labelKey } from '../shared/labels';
import type { LinearSolver } from '../shared/linearProgram';
import { NO_SPREAD, type Spread } from './fates';
import { loadPlan, type LoadPlan } from './loadPlan';
import type { LoadingProblem, Lot } from './loadingProblem';

/** Something that a farm could have more of, or be sure of. */
export type Change =
  | { readonly of: 'shelf'; readonly room: string }
  | { readonly of: 'picking'; readonly share: number }
  | { readonly of: 'blocks'; readonly lot: string; readonly blocks: number }
  | { readonly of: 'certainty'; readonly spread: keyof Spread };

export interface Worth {
  readonly change: Change;
  /**
   * What the plan costs less with it, over all possible seasons, in money. Below 0 by the rounding of blocks, or where it
   * fills orders that cost more than they bring.
   */
  readonly worth: number;
  /** Value that orders fall short with it, in the mean. */
  readonly short: number;
}

/** Picking that is tried, more than there is; and blocks. */
const MORE_PICKING = 0.1;
const MORE_BLOCKS = 10;
/** Rooms, and strains, that are tried. */
const MOST_TRIED = 4;

/**
 * What one shelf more in a room, a tenth more picking on every day, or ten blocks more of a lot would be worth, and
 * what each kind of uncertainty costs: the plan is made again with just that changed, and the costs are compared.
 * Nothing is read off the programme's prices, which hold only for a change too small to act on.
 */
export function planWorth(problem: LoadingProblem, solver: LinearSolver): { short: number; worths: Worth[] } {
  const base = loadPlan(problem, solver);
  const worths = changesOf(base).map((change): Worth => {
    const plan = loadPlan(changed(problem, change), solver);
    const spared = (one: LoadPlan): number =>
      costOf(one) - (change.of === 'blocks' ? leftCostOf(one, change.lot) : 0);
    return { change, worth: spared(base) - spared(plan), short: shortOf(plan) };
  });
  return { short: shortOf(base), worths };
}

const costOf = ({ expected, cost }: LoadPlan): number => expected?.total ?? cost.shortage + cost.rest;
const shortOf = ({ expected, cost }: LoadPlan): number => expected?.shortage ?? cost.shortage;

/** What the lot's unopened blocks cost: nobody would bring in more only to throw them away, so it does not count. */
function leftCostOf({ view, chosen }: LoadPlan, name: string): number {
  const at = view.lots.findIndex(({ key }) => key === labelKey(name));
  const { lot, leftCost } = view.lots[at]!;
  const opened = chosen.reduce((sum, load) => sum + (load.lot === at ? load.blocks : 0), 0);
  return (lot.blocks - opened) * leftCost;
}

function changesOf({ view }: LoadPlan): Change[] {
  const { rooms, lots, standing } = view.problem;
  const firstLots = new Map<string, Lot>();
  for (const { lot, from, to } of view.lots) {
    const key = labelKey(lot.strain);
    if (from <= to && lot.blocks > 0 && !firstLots.has(key)) firstLots.set(key, lot);
  }
  const isLimited = view.pickLimit.some((limit) => limit < Infinity);
  const spreads = [...lots, ...standing].map(({ spread = NO_SPREAD }) => spread);
  const kinds = (['yieldShare', 'pickDays', 'readyDays'] as const).filter((kind) =>
    spreads.some((spread) => spread[kind] > 0),
  );
  return [
    ...rooms.slice(0, MOST_TRIED).map(({ room }) => ({ of: 'shelf' as const, room })),
    ...(isLimited ? [{ of: 'picking' as const, share: MORE_PICKING }] : []),
    ...[...firstLots.values()]
      .slice(0, MOST_TRIED)
      .map(({ lot }) => ({ of: 'blocks' as const, lot, blocks: MORE_BLOCKS })),
    ...kinds.map((spread) => ({ of: 'certainty' as const, spread })),
  ];
}

/** The problem with just that changed. */
export function changed(problem: LoadingProblem, change: Change): LoadingProblem {
  switch (change.of) {
    case 'shelf':
      return {
        ...problem,
        rooms: problem.rooms.map((room) =>
          room.room === change.room ? { ...room, places: room.places + room.blocksPerShelf } : room,
        ),
      };
    case 'picking':
      return {
        ...problem,
        limitsOn: (day) => {
          const { pick, load } = problem.limitsOn(day);
          return { pick: pick * (1 + change.share), load };
        },
      };
    case 'blocks':
      return {
        ...problem,
        lots: problem.lots.map((lot) =>
          lot.lot === change.lot ? { ...lot, blocks: lot.blocks + change.blocks } : lot,
        ),
      };
    case 'certainty': {
      const sure = <L extends { readonly spread?: Spread | undefined }>(load: L): L => ({
        ...load,
        spread: load.spread && { ...load.spread, [change.spread]: 0 },
      });
      return { ...problem, lots: problem.lots.map(sure), standing: problem.standing.map(sure) };
    }
  }
}
