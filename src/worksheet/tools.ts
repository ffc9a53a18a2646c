import { loadDistributions, type Distributions } from '../maths/shared/distributions';
import { loadLinearSolver, type LinearSolver } from '../maths/shared/linearProgram';

/** What some functions cannot do without and most do not need: loaded once a host asks for such a function. */
export interface Tools {
  /** Null where it cannot be had: the next call tries again. */
  readonly solver: LinearSolver | null;
  readonly distributions: Distributions;
  /** The loading plan's own code, which no other function needs. */
  readonly planning: typeof import('./loading/planning');
  /** The audit's own code. */
  readonly auditing: typeof import('./audit/auditing');
}
export type ToolName = keyof Tools;

const LOADERS: { readonly [T in ToolName]: () => Promise<Tools[T]> } = {
  solver: loadLinearSolver,
  distributions: loadDistributions,
  planning: () => import('./loading/planning'),
  auditing: () => import('./audit/auditing'),
};

/** Loads the named tools, those in `loaded` excepted, and gives both together. */
export async function loadTools(
  names: Iterable<ToolName>,
  loaded: Partial<Tools> = {},
): Promise<Partial<Tools>> {
  const wanted = [...new Set(names)].filter((name) => (loaded[name] ?? null) === null);
  const entries = await Promise.all(wanted.map(async (name) => [name, await LOADERS[name]()] as const));
  return { ...loaded, ...Object.fromEntries(entries) };
}
