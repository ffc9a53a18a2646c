import { requireFraction, requireFractionBelowOne, requireNumber, requireWithin } from '../shared/checks';
import { invalid, missing, noConvergence } from '../shared/fault';
import type { LinearSolver } from '../shared/linearProgram';
import { compensatedSum } from '../shared/numeric';
import { costOfMoving, isReached, NEAR } from './costOfMoving';
import { clashOf } from './mixClash';
import {
  costOfDryMatter,
  limitRows,
  mixProgram,
  type Candidate,
  type LimitEnd,
  type Need,
} from './mixProgram';

declare module '../shared/fault' {
  interface FaultDetails {
    /** A need without a lowest and without a highest. */
    noLimit: object;
    noSolver: { readonly what: string };
    notSettled: object;
  }
}

/** How an ingredient or a need stands in the cheapest mix. */
export interface MixLevel {
  /** Share of the dry mass, or the level reached. */
  readonly level: number;
  /** The limit it rests on; undefined between limits. */
  readonly limit: LimitEnd | undefined;
  /**
   * How much the cost of dry matter rises when the limit it rests on rises by one, for as long as the same limits bind;
   * undefined where it rests on none, null where no mix could follow.
   */
  readonly worth: number | null | undefined;
}

export interface CheapestMix {
  readonly ingredients: readonly (MixLevel & {
    /** Of an ingredient that is not used: the cost as received below which it enters; null where it never does. */
    readonly entersAt: number | null | undefined;
  })[];
  readonly needs: readonly MixLevel[];
  /** Cost of a unit of dry matter, and of a unit as weighed out, before water. */
  readonly costOfDry: number;
  readonly costAsReceived: number;
}

/** No cost, content or limit is larger, and no ingredient wetter: figures beyond are slips that upset the solver. */
const LARGEST = 1e9;
const WETTEST = 0.999;

/**
 * The cheapest mix of dry shares that keeps to every need.
 *
 * Least Σ share × cost / (1 − moisture), shares between their limits and adding up to 1. Where several mixes cost the
 * same, the order of the rows does not decide between them. Where no mix keeps to all needs, the fault names a smallest
 * set of limits that clash: without any one of them there would be a mix.
 *
 * @param solver a loaded linear solver; null where none can run
 * @throws invalid where an input is outside its range
 * @throws missing where there is no candidate, the needs cannot be met together, or there is no solver
 * @source Dantzig, G. B. (1963) Linear Programming and Extensions, §3.4, the blending problem
 */
export function cheapestMix(
  candidates: readonly Candidate[],
  needs: readonly Need[],
  solver: LinearSolver | null,
): CheapestMix {
  requireCandidates(candidates);
  needs.forEach((need) => requireNeed(need, candidates));
  if (!solver) throw missing('needs', 'noSolver', { what: 'the cheapest mix' });
  const byName = namesInOrder(candidates);
  const inOrder = <T>(values: readonly T[]): T[] => byName.map((i) => values[i]!);
  const needsByName = namesInOrder(needs);
  const mix = solved(
    inOrder(candidates),
    needsByName.map((n) => {
      const { content, per, ...need } = needs[n]!;
      return {
        ...need,
        content: content === 'moisture' ? content : inOrder(content),
        ...(per && { per: inOrder(per) }),
      };
    }),
    solver,
  );
  if (mix === undefined) throw clashOf(candidates, limitRows(candidates, needs), solver);
  return {
    ...mix,
    ingredients: candidates.map((_, i) => mix.ingredients[byName.indexOf(i)]!),
    needs: needs.map((_, n) => mix.needs[needsByName.indexOf(n)]!),
  };
}

/** The positions of a list in the order of its names. */
const namesInOrder = (list: readonly { readonly name: string }[]): number[] =>
  list
    .map((_, i) => i)
    .sort((a, b) => (list[a]!.name < list[b]!.name ? -1 : list[a]!.name > list[b]!.name ? 1 : a - b));

/** The cheapest mix; undefined where there is none. */
function solved(
  candidates: readonly Candidate[],
  needs: readonly Need[],
  solver: LinearSolver,
): CheapestMix | undefined {
  const rows = limitRows(candidates, needs);
  const solution = solver.solve(mixProgram(candidates, rows));
  if (solution.status === 'infeasible') return undefined;
  if (solution.status !== 'optimal') throw noConvergence('needs', 'notSettled');
  const shares = Array.from(solution.columns, (share) => (Math.abs(share) < NEAR ? 0 : share));
  const total = (values: (candidate: Candidate, i: number) => number): number =>
    compensatedSum(candidates.map((candidate, i) => shares[i]! * values(candidate, i)));
  const asReceived = total(({ moisture }) => 1 / (1 - moisture));
  const costOfDry = total(costOfDryMatter);
  return {
    ingredients: candidates.map((candidate, share) => {
      const limit = limitOfShare(candidate, shares[share]!);
      const isUnused = shares[share] === 0 && candidate.highest > 0;
      const rise =
        limit !== undefined || isUnused
          ? costOfMoving({ share }, candidates, rows, shares, solver)
          : undefined;
      return {
        level: shares[share]!,
        limit,
        worth: limit === undefined ? undefined : rise,
        entersAt: isUnused ? entryPrice(candidate, rise!) : undefined,
      };
    }),
    needs: needs.map(({ content, per }, need) => {
      const held = per === undefined ? 1 : total((_, i) => per[i]!);
      const level = content === 'moisture' ? 1 - 1 / asReceived : total((_, i) => content[i]!) / held;
      const row = rows.find(
        (one) =>
          one.need === need && (one.limit.end === 'highest' || one.limit.at > 0) && isReached(one, shares),
      );
      if (row === undefined) return { level, limit: undefined, worth: undefined };
      const { limit, scale } = row;
      const rise = costOfMoving({ need }, candidates, rows, shares, solver);
      // The limit moves its row by so much (the envelope theorem).
      const move = (content === 'moisture' ? 1 / (1 - limit.at) ** 2 : held) / scale;
      return { level, limit: limit.end, worth: rise === null ? null : rise * move };
    }),
    costOfDry,
    costAsReceived: costOfDry / asReceived,
  };
}

/** The limit that a share rests on. A share of 0 without a lowest, or of 1 without a highest, rests on none. */
function limitOfShare({ lowest, highest }: Candidate, share: number): LimitEnd | undefined {
  if (lowest > 0 && share <= lowest + NEAR) return 'lowest';
  return highest < 1 && share >= highest - NEAR ? 'highest' : undefined;
}

/** The cost as received at which a first share of dry matter costs nothing more; null where that is no price. */
function entryPrice({ cost, moisture }: Candidate, rise: number | null): number | null {
  if (rise === null) return null;
  const price = cost - Math.max(0, rise) * (1 - moisture);
  return price > NEAR * cost ? price : null;
}

function requireCandidates(candidates: readonly Candidate[]): void {
  if (candidates.length === 0) throw missing('ingredients', 'noIngredient');
  for (const candidate of candidates) {
    const { cost, moisture, lowest, highest } = candidate;
    requireWithin('ingredients, cost', cost, 0, LARGEST, undefined, candidate);
    requireWithin('ingredients, moisture', moisture, 0, WETTEST, undefined, candidate);
    requireFraction('ingredients, lowest', lowest, candidate);
    requireFraction('ingredients, highest', highest, candidate);
    requireNumber('ingredients, highest', highest, { from: lowest }, 'the lowest', candidate);
  }
}

function requireNeed(need: Need, candidates: readonly Candidate[]): void {
  const { content, per, lowest, highest } = need;
  if (lowest === undefined && highest === undefined) {
    throw invalid('needs', 'noLimit', undefined, need);
  }
  for (const limit of [lowest, highest]) {
    if (limit === undefined) continue;
    if (content === 'moisture') requireFractionBelowOne('needs, moisture', limit, need);
    else requireWithin('needs', limit, 0, LARGEST, undefined, need);
  }
  if (lowest !== undefined && highest !== undefined) {
    requireNumber('needs, highest', highest, { from: lowest }, 'the lowest', need);
  }
  if (content === 'moisture') return;
  for (const held of [content, per ?? []]) {
    held.forEach((value, i) => requireWithin('ingredients', value, 0, LARGEST, undefined, candidates[i]));
  }
}
