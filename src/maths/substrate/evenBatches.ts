import { requireWhole } from '../shared/checks';
import { invalid } from '../shared/fault';

declare module '../shared/fault' {
  interface FaultDetails {
    tooManyRuns: { readonly blocks: number; readonly most: number; readonly capacity: number };
  }
}

/** More runs than anybody makes: beyond it a figure is in the wrong cell. */
const MOST_RUNS = 10_000;

/**
 * Blocks split as evenly as can be over the fewest runs of a mixer or steriliser.
 *
 * @param blocks blocks to run, a whole number from 1
 * @param capacity blocks a run holds, a whole number from 1
 * @returns blocks in each run: no two differ by more than one, the fuller runs first
 * @throws invalid where an input is outside its range, or more than 10,000 runs would be needed
 */
export function evenBatches(blocks: number, capacity: number): number[] {
  requireWhole('blocks', blocks, 1);
  requireWhole('capacity', capacity, 1);
  const runs = Math.ceil(blocks / capacity);
  if (runs > MOST_RUNS) {
    throw invalid('capacity', 'tooManyRuns', { blocks, most: MOST_RUNS, capacity });
  }
  const least = Math.floor(blocks / runs);
  const fuller = blocks - least * runs;
  return Array.from({ length: runs }, (_, run) => least + (run < fuller ? 1 : 0));
}
