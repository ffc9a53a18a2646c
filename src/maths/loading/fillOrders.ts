/** Fresh mass that may go to some of the orders. */
export interface Supply {
  readonly mass: number;
  /** Positions of the orders it may fill. */
  readonly orders: readonly number[];
}

export interface Wanted {
  readonly mass: number;
  /** Per unit of mass: dearer orders are filled first. */
  readonly price: number;
}

/** A mass below this counts as nothing: it is left over from floating point. */
const NOTHING = 1e-9;

/**
 * How much of each order a given picking fills, so that the value filled is as large as possible. Orders are taken
 * from the dearest down, in the order given where prices are equal. Each takes what it can get. Where needed, an
 * earlier order moves to another supply it accepts (augmenting paths), but keeps as much as it had. The sets of orders
 * that supplies can fill together form a polymatroid, so taking the dearest first is optimal.
 *
 * @returns mass filled of each order; of each supply the mass left, and the mass given to each order
 * @source Edmonds, J. (1970) Submodular functions, matroids, and certain polyhedra: the greedy rule on polymatroids;
 * Ford, L. R. & Fulkerson, D. R. (1956) Maximal flow through a network: augmenting paths
 */
export function fillOrders(
  orders: readonly Wanted[],
  supplies: readonly Supply[],
): { filled: number[]; left: number[]; given: ReadonlyMap<number, number>[] } {
  const left = supplies.map(({ mass }) => mass);
  const filled = orders.map(() => 0);
  const given = supplies.map(() => new Map<number, number>());
  const accepted: number[][] = orders.map(() => []);
  supplies.forEach((supply, at) => supply.orders.forEach((order) => accepted[order]!.push(at)));
  const turn = orders.map((_, order) => order).sort((a, b) => orders[b]!.price - orders[a]!.price || a - b);
  for (const order of turn) {
    while (orders[order]!.mass - filled[order]! > NOTHING) {
      const path = pathToSupply(order, accepted, left, given);
      if (!path) break;
      let moved = orders[order]!.mass - filled[order]!;
      path.forEach(({ supply }, step) => {
        const holder = path[step + 1]?.from;
        moved = Math.min(moved, holder === undefined ? left[supply]! : given[supply]!.get(holder)!);
      });
      path.forEach(({ supply, from }, step) => {
        const holder = path[step + 1]?.from;
        const shares = given[supply]!;
        shares.set(from, (shares.get(from) ?? 0) + moved);
        if (holder === undefined) left[supply]! -= moved;
        else shares.set(holder, shares.get(holder)! - moved);
      });
      filled[order]! += moved;
    }
  }
  return { filled, left, given };
}

/** One step of a path: the order `from` takes from `supply`; the next step's order gives up its share of it. */
interface PathStep {
  readonly supply: number;
  readonly from: number;
}

/** A shortest path from an order to a supply with mass left. */
function pathToSupply(
  start: number,
  accepted: readonly (readonly number[])[],
  left: readonly number[],
  given: readonly ReadonlyMap<number, number>[],
): PathStep[] | undefined {
  const reachedBy = new Map<number, PathStep>();
  const heldBy = new Map<number, number>();
  const queue = [start];
  const seen = new Set(queue);
  for (const order of queue) {
    for (const supply of accepted[order]!) {
      if (reachedBy.has(supply)) continue;
      reachedBy.set(supply, { supply, from: order });
      if (left[supply]! > NOTHING) return wayBack(supply, start, reachedBy, heldBy);
      for (const [holder, mass] of given[supply]!) {
        if (mass <= NOTHING || seen.has(holder)) continue;
        seen.add(holder);
        heldBy.set(holder, supply);
        queue.push(holder);
      }
    }
  }
  return undefined;
}

function wayBack(
  end: number,
  start: number,
  reachedBy: ReadonlyMap<number, PathStep>,
  heldBy: ReadonlyMap<number, number>,
): PathStep[] {
  const path: PathStep[] = [];
  for (let step = reachedBy.get(end)!; ; step = reachedBy.get(heldBy.get(step.from)!)!) {
    path.unshift(step);
    if (step.from === start) return path;
  }
}
