import { labelKey } from '../shared/labels';
import { inPlanOrder } from './assignRooms';
import { SLACK } from './freeCapacity';
import type { LoadingProblem, PlannedLoad } from './loadingProblem';
import { eachPick, planView } from './planView';
import { roomFree } from './roomGroups';

/** Why a load of the frozen days could not be kept whole: the rule that it would break. */
export type FrozenRule =
  | 'lot not known'
  | 'room not known'
  | 'too few blocks in the lot'
  | 'not ripe, or over age'
  | 'strain not allowed in the room'
  | 'too many blocks to load'
  | 'room full or shut'
  | 'too much to pick';

/** Blocks of the frozen days that could not be kept. */
export interface NotKept extends PlannedLoad {
  readonly why: FrozenRule;
}

/**
 * The previous plan's loads of the frozen days, as far as they still break no rule. They become standing loads, and
 * their blocks are taken off the lots. What has become impossible is cut down, and told.
 */
export function withFrozen(
  problem: LoadingProblem,
  before: readonly PlannedLoad[],
): { problem: LoadingProblem; frozen: PlannedLoad[]; notKept: NotKept[] } {
  const { start, settings } = problem;
  const wanted = before.filter(({ day }) => day < start + settings.freezeDays).sort(inPlanOrder);
  if (wanted.length === 0) return { problem, frozen: [], notKept: [] };
  const view = planView({ ...problem, settings: { ...settings, freezeDays: 0 } });
  const lots = new Map(view.lots.map(({ key }, at) => [key, at]));
  const rooms = new Map(problem.rooms.map(({ room }, at) => [labelKey(room), at]));
  const left = view.lots.map(({ lot }) => lot.blocks);
  const loading = [...view.loadLimit];
  const picking = [...view.pickFree];
  const free = problem.rooms.map((room) => roomFree(problem, room, view.pickDays));

  const frozen: PlannedLoad[] = [];
  const notKept: NotKept[] = [];
  for (const load of wanted) {
    const day = Math.floor(load.day) - start;
    const [at, roomAt] = [lots.get(labelKey(load.lot)), rooms.get(labelKey(load.room))];
    const limits: [number, FrozenRule][] = [];
    if (at === undefined) limits.push([0, 'lot not known']);
    else if (roomAt === undefined) limits.push([0, 'room not known']);
    else {
      const { from, to, stay, kind } = view.lots[at]!;
      const { strains, blocksPerShelf } = problem.rooms[roomAt]!;
      const allowed = !strains || strains.some((strain) => labelKey(strain) === view.kinds[kind]!.strain);
      const places = Math.min(...free[roomAt]!.slice(day, day + stay));
      let most = Infinity;
      eachPick(view, { lot: at, day }, (on, mass) => (most = Math.min(most, picking[on]! / mass + SLACK)));
      limits.push(
        [day >= from && day <= to ? Infinity : 0, 'not ripe, or over age'],
        [allowed ? Infinity : 0, 'strain not allowed in the room'],
        [loading[day]!, 'too many blocks to load'],
        [
          settings.wholeShelves ? Math.floor(places / blocksPerShelf) * blocksPerShelf : places,
          'room full or shut',
        ],
        [most, 'too much to pick'],
        [left[at]!, 'too few blocks in the lot'],
      );
    }
    const [tightest, why] = limits.reduce((a, b) => (b[0] < a[0] ? b : a));
    const blocks = Math.max(0, Math.min(load.blocks, Math.floor(tightest)));
    if (blocks < load.blocks) notKept.push({ ...load, blocks: load.blocks - blocks, why });
    if (blocks < 1 || at === undefined || roomAt === undefined) continue;
    const { stay } = view.lots[at]!;
    const perShelf = settings.wholeShelves ? problem.rooms[roomAt]!.blocksPerShelf : 1;
    const taken = Math.ceil(blocks / perShelf) * perShelf;
    left[at]! -= blocks;
    loading[day]! -= blocks;
    for (let k = day; k < Math.min(day + stay, view.pickDays); k++) free[roomAt]![k]! -= taken;
    eachPick(view, { lot: at, day }, (on, mass) => (picking[on]! -= blocks * mass));
    frozen.push({ ...load, blocks });
  }
  const standing = frozen.map(({ lot, room, day, blocks }) => {
    const { strain, product, yieldPerBlock, curve } = view.lots[lots.get(labelKey(lot))!]!.lot;
    return { room, strain, product, loaded: day, blocks, yieldPerBlock, curve };
  });
  return {
    problem: {
      ...problem,
      lots: problem.lots.map((lot) => ({ ...lot, blocks: left[lots.get(labelKey(lot.lot))!]! })),
      standing: [...problem.standing, ...standing],
    },
    frozen,
    notKept,
  };
}
