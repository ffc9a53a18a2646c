/** A pick whose flush and date can be read. */
export interface OrderedPick {
  readonly day: number;
  readonly flush: number;
}

/**
 * The fewest picks of a lot that must be wrong for its flushes to follow each other in time: those outside a longest
 * run, by date, of flush numbers that never fall (patience method, n log n).
 *
 * @returns positions in `picks` of the odd ones, each with the flush its neighbours in time have, undefined where they
 * differ
 */
export function outOfOrder(picks: readonly OrderedPick[]): { at: number; flush: number | undefined }[] {
  const order = [...picks.keys()].sort(
    (a, b) => picks[a]!.day - picks[b]!.day || picks[a]!.flush - picks[b]!.flush,
  );
  // tails[k]: the place in `order` where a run of k + 1 ends with the lowest flush.
  const tails: number[] = [];
  const before = new Int32Array(order.length).fill(-1);
  const flushAt = (place: number): number => picks[order[place]!]!.flush;
  for (let place = 0; place < order.length; place++) {
    let low = 0;
    let high = tails.length;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (flushAt(tails[middle]!) <= flushAt(place)) low = middle + 1;
      else high = middle;
    }
    if (low > 0) before[place] = tails[low - 1]!;
    tails[low] = place;
  }
  if (tails.length === order.length) return [];
  const kept = new Uint8Array(order.length);
  for (let place = tails.at(-1) ?? -1; place >= 0; place = before[place]!) kept[place] = 1;
  const neighbour = (places: readonly number[]): (number | undefined)[] => {
    const nearest = new Array<number | undefined>(order.length);
    let flush: number | undefined;
    for (const place of places) {
      if (kept[place]) flush = flushAt(place);
      nearest[place] = flush;
    }
    return nearest;
  };
  const forward = [...order.keys()];
  const earlier = neighbour(forward);
  const later = neighbour([...forward].reverse());
  return forward
    .filter((place) => !kept[place])
    .map((place) => {
      const [one, other] = [earlier[place] ?? later[place], later[place] ?? earlier[place]];
      return { at: order[place]!, flush: one === other ? one : undefined };
    });
}
