import type { DateSystem } from '../../src/worksheet/calendar';
import type { Block, Grid } from '../../src/worksheet/cells/cell';
import type { Progress, WorksheetFunction } from '../../src/worksheet/definition';
import { loadTools, type Tools } from '../../src/worksheet/tools';

// Tests call a function's own `evaluate`, which hides no defect. What it needs is loaded first.

const tools: Partial<Tools> = {};

/** Loads what a function needs. */
export async function prepared({ needs }: WorksheetFunction): Promise<void> {
  Object.assign(tools, await loadTools(needs, tools));
}

/** The answer of a function whose needs are loaded. */
export const evaluate = (
  f: WorksheetFunction,
  given: readonly (Grid | null | undefined)[],
  dateSystem: DateSystem = 1900,
  onProgress?: (progress: Progress) => void,
): Block => f.evaluate(given, { dateSystem, tools, onProgress });
