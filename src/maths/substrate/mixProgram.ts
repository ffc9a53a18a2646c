import type { Placed } from '../shared/fault';
import { LinearProgramBuilder, type LinearProgram } from '../shared/linearProgram';

/** An ingredient that may go into the mix. */
export interface Candidate extends Placed {
  readonly name: string;
  /** Cost of a unit of mass as received, 0 to 1e9. */
  readonly cost: number;
  /** Water share as received, 0 to 0.999. */
  readonly moisture: number;
  /** Least and greatest share of the dry mass, 0 to 1. */
  readonly lowest: number;
  readonly highest: number;
}

/**
 * What the mix must keep to. `content` is held by each candidate per unit of dry matter; the level of the mix is
 * Σ share × content, over Σ share × `per` where that is given (carbon over nitrogen). `moisture` is that of the mix
 * as received, before water is added.
 */
export interface Need extends Placed {
  readonly name: string;
  readonly content: readonly number[] | 'moisture';
  readonly per?: readonly number[];
  readonly lowest: number | undefined;
  readonly highest: number | undefined;
}

export type LimitEnd = 'lowest' | 'highest';

/** One limit of a need or of an ingredient's share. */
export interface NamedLimit {
  readonly name: string;
  readonly end: LimitEnd;
  readonly at: number;
}

/** One limit of a need, as a row Σ share × weight from `low` to `high`, over `scale` so that its weights are near 1. */
export interface LimitRow {
  readonly limit: NamedLimit;
  /** Which need it belongs to. */
  readonly need: number;
  readonly scale: number;
  readonly weights: readonly number[];
  readonly low: number;
  readonly high: number;
}

/** Contents this small count as none, and a limit this many times the largest content as out of reach. */
const LEAST_SCALE = 1e-30;
const OUT_OF_REACH = 1e12;

/** The limits of all needs as rows, those of a need one after the other. */
export function limitRows(candidates: readonly Candidate[], needs: readonly Need[]): LimitRow[] {
  return needs.flatMap((need, n) =>
    (['lowest', 'highest'] as const).flatMap((end): LimitRow[] => {
      const at = need[end];
      if (at === undefined) return [];
      const { content, per } = need;
      const weights =
        content === 'moisture'
          ? candidates.map(({ moisture }) => 1 / (1 - moisture))
          : per === undefined
            ? content
            : content.map((value, i) => value - at * per[i]!);
      const scale = Math.max(...weights.map(Math.abs), LEAST_SCALE);
      const bound = content === 'moisture' ? 1 / (1 - at) : per === undefined ? at : 0;
      const within = Math.min(bound / scale, OUT_OF_REACH);
      const [low, high] = end === 'lowest' ? [within, Infinity] : [-Infinity, within];
      const limit = { name: need.name, end, at };
      return [{ limit, need: n, scale, weights: weights.map((weight) => weight / scale), low, high }];
    }),
  );
}

/** What a unit of an ingredient's dry matter costs. */
export const costOfDryMatter = ({ cost, moisture }: Candidate): number => cost / (1 - moisture);

/** What costs are divided by for the solver, whose tolerances are absolute. */
export const costScaleOf = (candidates: readonly Candidate[]): number =>
  Math.max(...candidates.map(costOfDryMatter)) || 1;

/** Rows: the shares add up to 1, then the limits in order. */
export function mixProgram(
  candidates: readonly Candidate[],
  limits: readonly LimitRow[],
  bounded: (i: number, end: LimitEnd) => boolean = () => true,
): LinearProgram {
  const builder = new LinearProgramBuilder();
  const costScale = costScaleOf(candidates);
  builder.addRow(1, 1);
  limits.forEach(({ low, high }) => builder.addRow(low, high));
  candidates.forEach((candidate, i) =>
    builder.addColumn(
      costOfDryMatter(candidate) / costScale,
      [[0, 1] as const, ...limits.map(({ weights }, row) => [row + 1, weights[i]!] as const)].filter(
        ([, weight]) => weight !== 0,
      ),
      bounded(i, 'lowest') ? candidate.lowest : 0,
      bounded(i, 'highest') ? candidate.highest : 1,
    ),
  );
  return builder.build();
}
