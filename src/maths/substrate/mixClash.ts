import { missing, type CalcError } from '../shared/fault';
import type { LinearSolver } from '../shared/linearProgram';
import { mixProgram, type Candidate, type LimitEnd, type LimitRow, type NamedLimit } from './mixProgram';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A smallest set of limits that no mix keeps to. */
    clash: { readonly limits: readonly NamedLimit[] };
  }
}

/** Solves spent on looking for a smaller clash than the first one found. */
const MOST_SOLVES = 3000;
const LARGEST_CLASH_SOUGHT = 3;

/** The fault that names a smallest set of limits no mix keeps to. */
export function clashOf(
  candidates: readonly Candidate[],
  limits: readonly LimitRow[],
  solver: LinearSolver,
): CalcError {
  type Suspect = { limit: NamedLimit; row?: LimitRow; share?: string };
  const shareKey = (i: number, end: LimitEnd): string => `${i} ${end}`;
  const suspectShare = (name: string, i: number, end: LimitEnd, at: number): Suspect => ({
    limit: { name, end, at },
    share: shareKey(i, end),
  });
  const suspects: Suspect[] = [
    ...limits.map((row) => ({ limit: row.limit, row })),
    ...candidates.flatMap(({ name, lowest, highest }, i) => [
      ...(lowest > 0 ? [suspectShare(name, i, 'lowest', lowest)] : []),
      ...(highest < 1 ? [suspectShare(name, i, 'highest', highest)] : []),
    ]),
  ];
  let solves = 0;
  const clashes = (set: readonly Suspect[]): boolean => {
    solves++;
    const shares = new Set(set.map(({ share }) => share));
    const rows = set.flatMap(({ row }) => (row ? [row] : []));
    const program = mixProgram(candidates, rows, (i, end) => shares.has(shareKey(i, end)));
    return solver.solve(program).status === 'infeasible';
  };
  // Taking away whatever is not missed leaves a set none of which can be spared, though maybe not a smallest one.
  let found = [...suspects];
  for (const suspect of suspects) {
    const without = found.filter((other) => other !== suspect);
    if (clashes(without)) found = without;
  }
  for (let size = 1; size < Math.min(found.length, LARGEST_CLASH_SOUGHT + 1); size++) {
    const smaller = firstSubset(suspects, size, (set) => solves < MOST_SOLVES && clashes(set));
    if (smaller) found = smaller;
  }
  return missing('needs', 'clash', { limits: found.map(({ limit }) => limit) });
}

/** The first subset of `size` that passes; undefined where none does. */
function firstSubset<T>(
  items: readonly T[],
  size: number,
  passes: (set: readonly T[]) => boolean,
  chosen: readonly T[] = [],
): T[] | undefined {
  if (chosen.length === size) return passes(chosen) ? [...chosen] : undefined;
  for (let at = 0; at <= items.length - (size - chosen.length); at++) {
    const subset = firstSubset(items.slice(at + 1), size, passes, [...chosen, items[at]!]);
    if (subset) return subset;
  }
  return undefined;
}
