import { requireFraction, requireFractionBelowOne, requireNumber, requireWithin } from '../shared/checks';
import { invalid, missing, noConvergence, type CalcError, type Placed } from '../shared/fault';
import { LinearProgramBuilder, type LinearProgram, type LinearSolver } from '../shared/linearProgram';
import { compensatedSum } from '../shared/numeric';

/** One limit of a need or of an ingredient's share. */
export interface NamedLimit {
  readonly name: string;
  readonly end: 'lowest' | 'highest';
  readonly at: number;
}

declare module '../shared/fault' {
  interface FaultDetails {
    /** A smallest set of limits that no mix keeps to. */
    clash: { readonly limits: readonly NamedLimit[] };
    /** A need without a lowest and without a highest. */
    noLimit: object;
    noSolver: { readonly what: string };
    notSettled: object;
    /** A need that no column of the ingredients tells of. */
    noColumnFor: { readonly header: string };
  }
}

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

type Limit = 'lowest' | 'highest';

/** How an ingredient or a need stands in the cheapest mix. */
export interface MixLevel {
  /** Share of the dry mass, or the level reached. */
  readonly level: number;
  /** The limit it rests on; undefined between limits. */
  readonly limit: Limit | undefined;
}

export interface CheapestMix {
  readonly ingredients: readonly (MixLevel & {
    /** Of an ingredient that is not used: the cost as received below which it would enter. */
    readonly entersAt: number | undefined;
  })[];
  readonly needs: readonly (MixLevel & {
    /** How much the cost of dry matter rises when the limit it rests on rises by one; 0 where it rests on none. */
    readonly worth: number;
  })[];
  /** Cost of a unit of dry matter, and of a unit as weighed out, before water. */
  readonly costOfDry: number;
  readonly costAsReceived: number;
}

/** How near a level counts as at its limit: the solver keeps limits to 1e-7. */
const NEAR = 1e-6;
/** No cost, content or limit is larger, and no ingredient wetter: figures beyond are slips that upset the solver. */
const LARGEST = 1e9;
const WETTEST = 0.999;
/** Contents this small count as none, and a limit this many times the largest content as out of reach. */
const LEAST_SCALE = 1e-30;
const OUT_OF_REACH = 1e12;
/** Solves spent on looking for a smaller clash than the first one found. */
const MOST_SOLVES = 3000;
const LARGEST_CLASH_SOUGHT = 3;

/**
 * The cheapest mix of dry shares that keeps to every need.
 *
 * Least Σ share × cost / (1 − moisture), shares between their limits and adding up to 1. Where no mix keeps to all
 * needs, the fault names a smallest set of limits that clash: without any one of them there would be a mix.
 *
 * @param solver a loaded linear solver; undefined where none can run
 * @throws invalid where an input is outside its range
 * @throws missing where there is no candidate, the needs cannot be met together, or there is no solver
 * @source Dantzig, G. B. (1963) Linear Programming and Extensions, §3.4, the blending problem; prices by the dual
 */
export function cheapestMix(
  candidates: readonly Candidate[],
  needs: readonly Need[],
  solver: LinearSolver | null,
): CheapestMix {
  requireCandidates(candidates);
  needs.forEach((need) => requireNeed(need, candidates));
  if (!solver) {
    throw missing('needs', 'noSolver', { what: 'the cheapest mix' });
  }
  const limits = limitsOf(candidates, needs);
  const solution = solver.solve(programOf(candidates, limits));
  if (solution.status !== 'optimal') {
    if (solution.status !== 'infeasible') throw noConvergence('needs', 'notSettled');
    throw clashOf(candidates, limits, solver);
  }
  const shares = Array.from(solution.columns, (share) => (Math.abs(share) < 1e-9 ? 0 : share));
  const prices = solution.prices;
  const costScale = costScaleOf(candidates);
  const total = (values: (candidate: Candidate, i: number) => number): number =>
    compensatedSum(candidates.map((candidate, i) => shares[i]! * values(candidate, i)));
  const asReceived = total(({ moisture }) => 1 / (1 - moisture));
  const costOfDry = total(costOfDryMatter);
  return {
    ingredients: candidates.map((candidate, i) => ({
      ...standing(shares[i]!, candidate.lowest, candidate.highest),
      entersAt:
        shares[i] === 0 && candidate.highest > 0
          ? candidate.cost - Math.max(0, prices.columns[i]!) * costScale * (1 - candidate.moisture)
          : undefined,
    })),
    needs: needs.map((need, n) => {
      const { content, per } = need;
      const level =
        content === 'moisture'
          ? 1 - 1 / asReceived
          : total((_, i) => content[i]!) / (per === undefined ? 1 : total((_, i) => per[i]!));
      // A row's price is per unit of the row; its limit moves the row by so much (the envelope theorem).
      const worth = limits.reduce((sum, limit, row) => {
        if (limit.need !== n) return sum;
        const move =
          content === 'moisture' ? 1 / (1 - limit.at) ** 2 : per === undefined ? 1 : total((_, i) => per[i]!);
        return sum + ((prices.rows[row + 1]! * costScale) / limit.scale) * move;
      }, 0);
      const at = standing(level, need.lowest ?? -Infinity, need.highest ?? Infinity);
      return { ...at, worth: at.limit === undefined ? 0 : worth + 0 };
    }),
    costOfDry,
    costAsReceived: costOfDry / asReceived,
  };
}

/** What costs are divided by for the solver, whose tolerances are absolute. */
const costScaleOf = (candidates: readonly Candidate[]): number =>
  Math.max(...candidates.map(costOfDryMatter)) || 1;

const costOfDryMatter = ({ cost, moisture }: Candidate): number => cost / (1 - moisture);

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

function standing(level: number, lowest: number, highest: number): MixLevel {
  const near = (limit: number): boolean => Math.abs(level - limit) <= NEAR * Math.max(1e-3, Math.abs(limit));
  // A share of 0 that has no lowest rests on nothing a grower set; no more does one of 1 without a highest.
  if (lowest > 0 && near(lowest)) return { level, limit: 'lowest' };
  if (highest < Infinity && !(highest === 1 && lowest === 0 && level === 1) && near(highest)) {
    return { level, limit: 'highest' };
  }
  return { level, limit: undefined };
}

/** One limit of a need, as a row Σ share × weight from `low` to `high`, over `scale` so that its weights are near 1. */
interface LimitRow {
  readonly limit: NamedLimit;
  /** Which need it belongs to. */
  readonly need: number;
  readonly at: number;
  readonly scale: number;
  readonly weights: readonly number[];
  readonly low: number;
  readonly high: number;
}

function limitsOf(candidates: readonly Candidate[], needs: readonly Need[]): LimitRow[] {
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
      return [{ limit, need: n, at, scale, weights: weights.map((weight) => weight / scale), low, high }];
    }),
  );
}

/** Rows: the shares add up to 1, then the limits in order. */
function programOf(
  candidates: readonly Candidate[],
  limits: readonly LimitRow[],
  bounded: (i: number, end: Limit) => boolean = () => true,
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

/** The fault that names a smallest set of limits no mix keeps to. */
function clashOf(
  candidates: readonly Candidate[],
  limits: readonly LimitRow[],
  solver: LinearSolver,
): CalcError {
  type Suspect = { limit: NamedLimit; row?: LimitRow; share?: string };
  const shareKey = (i: number, end: Limit): string => `${i} ${end}`;
  const suspectShare = (name: string, i: number, end: Limit, at: number): Suspect => ({
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
    const program = programOf(candidates, rows, (i, end) => shares.has(shareKey(i, end)));
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
