import { noConvergence } from '../shared/fault';
import { LinearProgramBuilder, type LinearSolver } from '../shared/linearProgram';
import { compensatedSum } from '../shared/numeric';
import { costOfDryMatter, costScaleOf, type Candidate, type LimitRow } from './mixProgram';

/** How near a share, or a row that is near 1, counts as at its limit: the solver keeps limits to 1e-7. */
export const NEAR = 1e-7;

/** The limit that moves: that of a share which rests on it, or that of a need. */
export type Moved = { readonly share: number } | { readonly need: number };

/** Whether a mix rests on the limit of a row. */
export function isReached({ weights, low, high }: LimitRow, shares: readonly number[]): boolean {
  const bound = low === -Infinity ? high : low;
  const level = compensatedSum(weights.map((weight, i) => weight * shares[i]!));
  return Math.abs(level - bound) <= NEAR * Math.max(1, Math.abs(bound));
}

/**
 * How much the least cost of dry matter rises when a limit that the cheapest mix rests on rises, per unit of the share
 * or of the need's row.
 *
 * The prices that a solver hands over do not say it where more limits are reached than it takes to fix the mix: there
 * they are one choice of many. So this solves for the cheapest change of shares that follows the limit and leaves every
 * other limit reached where it is. By duality that is the greatest of all such prices.
 *
 * @param shares a cheapest mix, as the solver found it
 * @returns cost per unit, below 0 where the mix becomes cheaper; null where no mix could follow the limit
 * @source Bertsimas, D. & Tsitsiklis, J. N. (1997) Introduction to Linear Optimization, §5.1–5.2 and §5.4: the slopes of
 * the least cost where prices are not unique
 */
export function costOfMoving(
  moved: Moved,
  candidates: readonly Candidate[],
  rows: readonly LimitRow[],
  shares: readonly number[],
  solver: LinearSolver,
): number | null {
  const builder = new LinearProgramBuilder();
  const costScale = costScaleOf(candidates);
  builder.addRow(0, 0);
  const reached = rows.filter((row) => isReached(row, shares));
  for (const { need, low, high } of reached) {
    const by = 'need' in moved && moved.need === need ? 1 : 0;
    builder.addRow(low === -Infinity ? -Infinity : by, high === Infinity ? Infinity : by);
  }
  candidates.forEach((candidate, i) => {
    const by = 'share' in moved && moved.share === i ? 1 : 0;
    const entries = [[0, 1] as const, ...reached.map(({ weights }, row) => [row + 1, weights[i]!] as const)];
    builder.addColumn(
      costOfDryMatter(candidate) / costScale,
      entries.filter(([, weight]) => weight !== 0),
      shares[i]! <= candidate.lowest + NEAR ? by : -Infinity,
      shares[i]! >= candidate.highest - NEAR ? by : Infinity,
    );
  });
  const solution = solver.solve(builder.build());
  if (solution.status === 'infeasible') return null;
  if (solution.status !== 'optimal') throw noConvergence('needs', 'notSettled');
  return solution.cost * costScale;
}
