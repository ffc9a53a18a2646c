import { loadDistributions, type Distributions } from '../maths/shared/distributions';
import type { LinearSolver } from '../maths/shared/linearProgram';
import { loadLinearSolver } from '../maths/shared/linearSolver';

/** What some functions cannot do without and most do not need: loaded once a host asks for such a function. */
export interface Tools {
  /** Null where WebAssembly cannot run. */
  readonly solver: LinearSolver | null;
  readonly distributions: Distributions;
  /** What the loading family calculates with. */
  readonly planning: typeof import('./loading/planning');
  /** The audit's own code. */
  readonly auditing: typeof import('./audit/auditing');
  /** Comparisons of groups and of strains, control charts, the likeliest flushes. */
  readonly statistics: typeof import('./audit/statistics');
  /** The cheapest mix. */
  readonly mixing: typeof import('./substrate/mixing');
  /** Lists and calendars of ripe lots, logs of temperatures, records of ready lots. */
  readonly ripening: typeof import('./ripening/ripening');
  /** What reads dates, figures, labels and headers as a sheet has them. */
  readonly converting: typeof import('./records/converting');
}
export type ToolName = keyof Tools;

const LOADERS: { readonly [T in ToolName]: () => Promise<Tools[T]> } = {
  solver: loadLinearSolver,
  distributions: loadDistributions,
  planning: () => import('./loading/planning'),
  auditing: () => import('./audit/auditing'),
  statistics: () => import('./audit/statistics'),
  mixing: () => import('./substrate/mixing'),
  ripening: () => import('./ripening/ripening'),
  converting: () => import('./records/converting'),
};

/** A tool whose file did not come: the network is away, or the server has a newer version. */
export class NotLoaded extends Error {
  constructor(detail: unknown) {
    super(
      'a part of Pinset could not be loaded. Go online and calculate again; if it stays, close the workbook and ' +
        `open it again (${detail instanceof Error ? detail.message : String(detail)})`,
    );
  }
}

async function toolOf<T extends ToolName>(name: T): Promise<Tools[T]> {
  try {
    return await LOADERS[name]();
  } catch (fault) {
    throw new NotLoaded(fault);
  }
}

/** Loads the named tools, those in `loaded` excepted, and gives both together. */
export async function loadTools(
  names: Iterable<ToolName>,
  loaded: Partial<Tools> = {},
): Promise<Partial<Tools>> {
  const wanted = [...new Set(names)].filter((name) => (loaded[name] ?? null) === null);
  const entries = await Promise.all(wanted.map(async (name) => [name, await toolOf(name)] as const));
  return { ...loaded, ...Object.fromEntries(entries) };
}
