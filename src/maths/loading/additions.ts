import { labelKey } from '../shared/labels';
import type { LoadingProblem, Order, PlanSettings } from './loadingProblem';
import { isShut } from './shelfUse';

/** Something that a grower could add to a farm, or change on it. Days are serials. */
export type Addition =
  | { readonly of: 'places'; readonly room: string; readonly shelves: number }
  /** A room more, for any strain, that does not shut. */
  | { readonly of: 'room'; readonly places: number }
  /** A room that stays open over the days on which it would be shut. */
  | { readonly of: 'open room'; readonly room: string }
  | { readonly of: 'strain in room'; readonly room: string; readonly strain: string }
  | { readonly of: 'picking'; readonly day: number; readonly mass: number }
  | { readonly of: 'loading'; readonly day: number; readonly blocks: number }
  /** Blocks like those of a lot, that are at their best on a day and may be opened on no other. */
  | { readonly of: 'ripe blocks'; readonly like: string; readonly day: number; readonly blocks: number }
  /** Mass that an order is given from the cold store, or from elsewhere. */
  | { readonly of: 'given'; readonly order: Order; readonly mass: number }
  | { readonly of: 'setting'; readonly setting: keyof typeof WITHOUT }
  /** Lots whose blocks cost nothing to load. */
  | { readonly of: 'free blocks' };

/** The settings that may keep an order from being filled although nothing is missing, as they do not. */
const WITHOUT = {
  orderTolerance: 0,
  wholeShelves: false,
  smallestLoad: 1,
  loadCost: 0,
  earlyCost: 0,
  lateCost: 0,
  surplusCost: 0,
  peakCost: 0,
} satisfies Partial<PlanSettings>;

/** The label of what is added, so that it is no lot or room of the farm. */
const added = (name: string, at: number): string => `\n${name} ${at}`;

/** The problem with just that added. */
export function withAdditions(problem: LoadingProblem, additions: readonly Addition[]): LoadingProblem {
  return additions.reduce((now, addition, at) => withAddition(now, addition, at), problem);
}

function withAddition(problem: LoadingProblem, addition: Addition, at: number): LoadingProblem {
  const { rooms, lots, orders, limitsOn, settings } = problem;
  const inRoom = (name: string, change: (room: (typeof rooms)[number]) => (typeof rooms)[number]) => ({
    ...problem,
    rooms: rooms.map((room) => (labelKey(room.room) === labelKey(name) ? change(room) : room)),
  });
  switch (addition.of) {
    case 'places':
      return inRoom(addition.room, (room) => ({
        ...room,
        places: room.places + addition.shelves * room.blocksPerShelf,
      }));
    case 'room': {
      const open = { closedFrom: undefined, closedTo: undefined, strains: undefined };
      const room = { room: added('room', at), places: addition.places, blocksPerShelf: 1, ...open };
      return { ...problem, rooms: [...rooms, room] };
    }
    case 'open room':
      return inRoom(addition.room, (room) => ({ ...room, closedFrom: undefined, closedTo: undefined }));
    case 'strain in room':
      return inRoom(addition.room, (room) => ({
        ...room,
        strains: room.strains && [...room.strains, addition.strain],
      }));
    case 'picking':
    case 'loading':
      return {
        ...problem,
        limitsOn: (day) => {
          const { pick, load } = limitsOn(day);
          if (day !== addition.day) return { pick, load };
          return addition.of === 'picking'
            ? { pick: pick + addition.mass, load }
            : { pick, load: load + addition.blocks };
        },
      };
    case 'ripe blocks': {
      const like = lots.find(({ lot }) => labelKey(lot) === labelKey(addition.like))!;
      const { day, blocks } = addition;
      const ripe = { earliest: day, best: day, latest: day, notBefore: undefined, notAfter: undefined };
      return { ...problem, lots: [...lots, { ...like, lot: added('lot', at), blocks, ...ripe }] };
    }
    case 'given':
      return {
        ...problem,
        orders: orders.map((order) => {
          if (order !== addition.order) return order;
          const mass = Math.max(0, order.mass - addition.mass);
          return { ...order, mass, given: (order.given ?? 0) + addition.mass };
        }),
      };
    case 'free blocks':
      return { ...problem, lots: lots.map((lot) => ({ ...lot, cost: 0 })) };
    case 'setting':
      return { ...problem, settings: { ...settings, [addition.setting]: WITHOUT[addition.setting] } };
  }
}

/** First and last day of a plan on which a room is shut; undefined where it is open on all of them. */
export function shutDays(
  room: LoadingProblem['rooms'][number],
  start: number,
  days: number,
): readonly [from: number, to: number] | undefined {
  const shut = Array.from({ length: days }, (_, day) => start + day).filter((day) => isShut(room, day));
  return shut.length === 0 ? undefined : [shut[0]!, shut.at(-1)!];
}
