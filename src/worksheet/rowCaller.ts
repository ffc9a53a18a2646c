export type Calculate = (...values: unknown[]) => unknown;

/** One list per argument and how far to step in it per row: 0 for what is the same in every row. */
export interface Operands {
  readonly lists: readonly ArrayLike<unknown>[];
  readonly steps: readonly number[];
}

/** The call for row i. Spelled out by number of arguments: a spread costs several times the arithmetic of a row. */
export function rowCaller(f: Calculate, { lists, steps }: Operands, context: object): (i: number) => unknown {
  const [a, b, c, d, e, g, h] = lists;
  const [p, q, r, s, t, u, v] = steps as number[];
  switch (lists.length) {
    case 1:
      return (i) => f(a![i * p!], context);
    case 2:
      return (i) => f(a![i * p!], b![i * q!], context);
    case 3:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], context);
    case 4:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], context);
    case 5:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], e![i * t!], context);
    case 6:
      return (i) => f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], e![i * t!], g![i * u!], context);
    case 7:
      return (i) =>
        f(a![i * p!], b![i * q!], c![i * r!], d![i * s!], e![i * t!], g![i * u!], h![i * v!], context);
    default:
      return (i) => f(...lists.map((list, k) => list[i * steps[k]!]), context);
  }
}
