import { isSolvable, LinearProgramBuilder, opened, type LinearSolver } from '../shared/linearProgram';
import { loadModel } from './loadModel';
import { loadsIn } from './loadsIn';
import type { LoadingProblem, Lot, Order } from './loadingProblem';
import { planView } from './planView';

/** What a programme says is missing. Days count from the start of the plan. */
export interface Missing {
  /** Places, the days on which they are used, and the strains that use them. */
  readonly places: number;
  readonly placeDays: readonly number[];
  readonly strains: readonly string[];
  /** Whether a room that never shuts, and takes all strains, could have them. */
  readonly isAnyRoom: boolean;
  readonly picking: readonly (readonly [day: number, mass: number])[];
  readonly loading: readonly (readonly [day: number, blocks: number])[];
  readonly blocks: readonly (readonly [like: string, day: number, blocks: number])[];
  /** Mass of the order that nothing grown from the start on can give in time. */
  readonly tooSoon: number;
}

const KINDS = ['places', 'picking', 'loading', 'blocks'] as const;
type Kind = (typeof KINDS)[number];

/** More places or blocks than any plan could use. */
const PLENTY = 1e6;
/** A loading limit that leaves no block, and yet a day on which more could be loaded. */
const NO_BLOCK = 1e-9;
/**
 * What a place, a block's mass of picking, the loading of a block and a ripe block weigh when the least additions are
 * sought: judgements. A few hours are sooner had than places or ripe blocks. What is work on a day off weighs more.
 */
const WEIGHT: Readonly<Record<Kind, number>> = { places: 1, picking: 0.3, loading: 0.3, blocks: 1 };
const DAY_OFF = 4;
/** Weight of a block's mass that comes from elsewhere: only where nothing grown can do it. */
const FROM_ELSEWHERE = 1000;
/** How little the plan's usual costs weigh against what is added. */
const USUAL = 0.003;
/** One kind of addition alone may weigh so much more than the least mixture of several: it is sooner done. */
const SIMPLER = 1.5;
/** Parts of a block, or of its mass, that count as nothing. */
const NOTHING = 1e-6;

/**
 * The least additions with which an order is filled, and every other order as far as it is asked, by a linear
 * programme: the plan's own, with columns for places of one more room, for picking and loading over the limits, and
 * for ripe blocks like those of the lots. Of the kinds of additions as few are taken as do.
 *
 * @param shorts for each order, the mass that it may be short; below 0 for more than it asks
 * @param wanted the order that is to be filled: what it lacks then comes from elsewhere
 * @returns undefined where the solver finds no solution
 */
export function leastAdditions(
  given: LoadingProblem,
  wanted: Order,
  shorts: ReadonlyMap<Order, number>,
  solver: LinearSolver,
): Missing | undefined {
  const likes = likeLots(given);
  const everywhere = { room: '\nplaces', places: PLENTY, closedFrom: undefined, closedTo: undefined };
  const view = planView({
    ...given,
    rooms: [...given.rooms, { ...everywhere, blocksPerShelf: 1, strains: undefined }],
    lots: [...certain(given.lots), ...certain(likes.map((lot) => ripeAlways(lot, given)))],
    standing: certain(given.standing),
    limitsOn: (day) => {
      const { pick, load } = given.limitsOn(day);
      return { pick, load: load > 0 ? load : NO_BLOCK };
    },
    settings: { ...given.settings, peakCost: 0 },
  });
  const model = loadModel(view);
  const { massUnit, loads } = model;
  const likeOf = new Map(likes.map((lot) => [`\n${lot.lot}`, lot.lot]));
  const extraGroup = view.groups.findIndex(({ rooms }) => rooms.includes(given.rooms.length));
  const isAnyRoom = view.groups[extraGroup]!.rooms.length > 1;

  const builder = LinearProgramBuilder.from(model.program);
  const rowOf = (column: number): number => model.program.rows[model.program.starts[column]!]!;
  const cost = [...model.total].map((total, j) => USUAL * (total + model.ties[j]!));
  const short = new Set(model.shortColumns);
  short.forEach((column) => (cost[column] = 0));
  const weights = new Map<number, readonly [Kind, number]>();
  const buy = (column: number, kind: Kind, weight: number): void => {
    weights.set(column, [kind, weight]);
    cost[column] = weight + (cost[column] ?? 0);
  };
  loads.forEach(({ lot }, column) => {
    if (likeOf.has(view.lots[lot]!.lot.lot)) buy(column, 'blocks', WEIGHT.blocks);
  });
  const placeColumns = model.placeColumns[extraGroup]!;
  const places = builder.addColumn(0, [[rowOf(placeColumns[0]!), 1]]);
  buy(places, 'places', WEIGHT.places);
  const picking = model.pickDays.flatMap((day, n): [number, number][] => {
    const limit = view.pickLimit[day]!;
    if (limit === Infinity) return [];
    const column = builder.addColumn(0, [[rowOf(model.pickColumns[n]!), -1]]);
    buy(column, 'picking', WEIGHT.picking * (limit > 0 ? 1 : DAY_OFF));
    return [[day, column]];
  });
  const loading = model.labourRows.flatMap((row, day): [number, number][] => {
    if (row < 0) return [];
    const column = builder.addColumn(0, [[row, -1]]);
    buy(column, 'loading', WEIGHT.loading * (view.loadLimit[day]! > NO_BLOCK ? 1 : DAY_OFF));
    return [[day, column]];
  });
  const wantedAt = view.orders.findIndex(({ order }) => order === wanted);
  const elsewhere = builder.addColumn(0, [[rowOf(model.shortColumns[wantedAt]!), 1]]);
  cost[elsewhere] = FROM_ELSEWHERE;
  const program = builder.build();
  const { lower, upper } = program;
  placeColumns.forEach((column, day) => {
    lower[column] = -Infinity;
    upper[column] = view.groups[extraGroup]!.free[day]! - PLENTY;
  });
  // Picking limits are exact here; elsewhere they may be passed by floating point.
  for (const column of model.pickColumns) upper[column]! += NOTHING;
  view.orders.forEach(({ order }, o) => {
    const most = (shorts.get(order) ?? 0) / massUnit;
    const column = model.shortColumns[o]!;
    upper[column] = most + NOTHING;
    if (most < 0) lower[column] = most;
    if (order === wanted) lower[column] = Math.min(0, most);
  });
  const base = Float64Array.from(cost);
  if (!isSolvable({ ...program, cost: base })) return undefined;

  return opened(solver, program, (open) => {
    open.setCosts(base);
    const mixed = open.solve('interior');
    if (mixed.status !== 'optimal') return undefined;
    const weigh = (columns: Float64Array): number =>
      [...weights].reduce((sum, [column, [, weight]]) => sum + weight * columns[column]!, 0);
    const used = KINDS.filter((kind) =>
      [...weights].some(([column, [one]]) => one === kind && mixed.columns[column]! > NOTHING),
    );
    let best = mixed.columns;
    let kinds = used;
    const fewer = subsets(used).filter((set) => set.length > 0 && set.length < used.length);
    for (const set of fewer) {
      const most = upper.slice();
      weights.forEach(([kind], column) => (set.includes(kind) ? undefined : (most[column] = 0)));
      open.setBounds(lower, most);
      const alone = open.solve('dual');
      if (alone.status !== 'optimal') continue;
      if (alone.columns[elsewhere]! > mixed.columns[elsewhere]! + NOTHING) continue;
      if (weigh(alone.columns) > SIMPLER * weigh(mixed.columns)) continue;
      [best, kinds] = [alone.columns, set];
      break;
    }
    // The same once more with small additions made dearer, so that they come on few days.
    const most = upper.slice();
    weights.forEach(([kind], column) => (kinds.includes(kind) ? undefined : (most[column] = 0)));
    open.setBounds(lower, most);
    const dearer = base.slice();
    weights.forEach(([, weight], column) => (dearer[column]! += weight / (best[column]! + 0.5)));
    open.setCosts(dearer);
    const few = open.solve('primal');
    const columns = few.status === 'optimal' ? few.columns : best;

    const figures = (pairs: readonly [number, number][], unit: number): [number, number][] =>
      pairs.flatMap(([day, column]) => (columns[column]! > NOTHING ? [[day, columns[column]! * unit]] : []));
    const blocks = new Map<string, [string, number, number]>();
    loads.forEach(({ lot, day }, column) => {
      const like = likeOf.get(view.lots[lot]!.lot.lot);
      if (like === undefined || columns[column]! < NOTHING) return;
      const key = `${like} ${day}`;
      blocks.set(key, [like, day, columns[column]! + (blocks.get(key)?.[2] ?? 0)]);
    });
    const inExtra = loadsIn(model, columns).filter(
      ({ group, blocks: some }) => group === extraGroup && some > 0,
    );
    return {
      places: columns[places]! > NOTHING ? columns[places]! : 0,
      placeDays: placeColumns.flatMap((column, day) =>
        columns[column]! + columns[places]! > view.groups[extraGroup]!.free[day]! - PLENTY + NOTHING
          ? [day]
          : [],
      ),
      strains: [...new Set(inExtra.map(({ lot }) => view.lots[lot]!.lot.strain))].sort(),
      isAnyRoom,
      picking: figures(picking, massUnit),
      loading: figures(loading, 1),
      blocks: [...blocks.values()],
      tooSoon: columns[elsewhere]! > NOTHING ? columns[elsewhere]! * massUnit : 0,
    };
  });
}

/** All sets of some kinds, the smallest first. */
const subsets = (kinds: readonly Kind[]): Kind[][] =>
  Array.from({ length: 2 ** kinds.length }, (_, bits) => kinds.filter((_, n) => bits & (2 ** n))).sort(
    (a, b) => a.length - b.length,
  );

const certain = <L extends { readonly spread?: unknown }>(loads: readonly L[]): L[] =>
  loads.map((load) => ({ ...load, spread: undefined }));

/** Of each strain and product, the lot that more ripe blocks are to be like: the first that is ripe in the plan. */
function likeLots({ lots, start }: LoadingProblem): Lot[] {
  const kinds = new Map<string, Lot>();
  const later = (a: Lot, b: Lot): boolean => {
    const [x, y] = [Math.floor(a.latest) < start, Math.floor(b.latest) < start];
    return x === y ? a.best > b.best || (a.best === b.best && a.lot > b.lot) : x;
  };
  for (const lot of lots) {
    const key = `${lot.strain}\n${lot.product}`;
    const known = kinds.get(key);
    if (!known || later(known, lot)) kinds.set(key, lot);
  }
  return [...kinds.values()];
}

const ripeAlways = (lot: Lot, { start, days }: LoadingProblem): Lot => ({
  ...lot,
  lot: `\n${lot.lot}`,
  blocks: PLENTY,
  cost: 0,
  earliest: start,
  best: start,
  latest: start + days,
  notBefore: undefined,
  notAfter: undefined,
});
