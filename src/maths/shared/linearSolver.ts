import type { LinearSolver } from './linearProgram';

/**
 * Loads the solver; null where WebAssembly cannot run. Rejects where its files did not arrive: the next call may have
 * them.
 *
 * There is no second solver for that case, since every supported host runs WebAssembly. One in plain JavaScript was
 * measured on the sixty seeded farms of the benchmark. It gave HiGHS's plan on 15 farms, was stuck on one and too slow
 * for 44, and took 120 lines to keep from cycling. Without a solver the plan's rule of thumb costs 22% of the order
 * value more than the solved plan in the median.
 */
export const loadLinearSolver = (): Promise<LinearSolver | null> =>
  import('./highs').then(({ loadHighs, canRun }) => (canRun() ? loadHighs() : null));
