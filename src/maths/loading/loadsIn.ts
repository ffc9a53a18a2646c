import type { GroupLoad } from './groupLoad';
import type { LoadColumn, LoadModel } from './loadModel';

/**
 * The loads of a solution, in parts of blocks, each in its group. Where blocks of a day are shared out, lots are taken
 * in turn and fill the groups in turn, so that few are divided; `home` says which group a lot had before.
 */
export function loadsIn(
  { loads, shared }: LoadModel,
  columns: Float64Array,
  home: (load: LoadColumn) => number | undefined = () => undefined,
): (GroupLoad & { readonly column: number })[] {
  const placed = loads.flatMap(({ lot, day, group }, column) =>
    group === undefined ? [] : [{ lot, day, group, blocks: columns[column]!, column }],
  );
  for (const { day, groups, columns: shares, loads: theirs } of shared) {
    const free = shares.map((column) => columns[column]!);
    const left = theirs.map((column) => columns[column]!);
    const put = (at: number, group: number, most: number): void => {
      const blocks = Math.min(left[at]!, most);
      if (blocks < 1e-9) return;
      left[at]! -= blocks;
      free[group]! -= blocks;
      const column = theirs[at]!;
      placed.push({ lot: loads[column]!.lot, day, group: groups[group]!, blocks, column });
    };
    theirs.forEach((column, at) => {
      const group = groups.indexOf(home(loads[column]!) ?? -1);
      if (group >= 0) put(at, group, free[group]!);
    });
    let group = 0;
    theirs.forEach((_, at) => {
      for (; group < groups.length && left[at]! > 1e-9;) {
        put(at, group, free[group]!);
        if (free[group]! > 1e-9) break;
        group++;
      }
    });
  }
  return placed;
}
