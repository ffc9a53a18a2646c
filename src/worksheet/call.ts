import { catalogue } from './catalogue';
import type { DateSystem } from './calendar';
import { cellError, type Block, type Grid } from './cells/cell';
import type { Progress, WorksheetFunction } from './definition';
import { loadTools, NotLoaded, type Tools } from './tools';

/** What a call is told of the workbook it stands in. */
export interface CallOptions {
  readonly dateSystem?: DateSystem;
  /** How long the host can wait for a solver yet; where it is not said, as long as it takes. */
  readonly secondsLeft?: () => number;
  /** Told how far a call that takes long has come. */
  readonly onProgress?: (progress: Progress) => void;
}

/**
 * The functions as a host calls them. What goes in and out is plain JSON: a grid of cells for each argument (null for
 * one left out, errors as `{ code, reason }`), and a block of values, errors with their reasons and formats.
 */
export interface Caller {
  /** Loads what the functions of these names cannot do without; all of them where none are named. */
  readonly ready: (names?: Iterable<string>) => Promise<void>;
  /** Whether `call` can answer for this name at once. */
  readonly isReady: (name: string) => boolean;
  /** The answer of a function, named without prefix. Never throws. */
  readonly call: (name: string, grids: readonly (Grid | null | undefined)[], options?: CallOptions) => Block;
}

const onlyError = (reason: string): Block => ({ rows: [[cellError('#VALUE!', reason)]], formats: ['plain'] });

/** A caller with its own tools: each host, page or worker makes one and keeps it. */
export function newCaller(functions: readonly WorksheetFunction[] = catalogue): Caller {
  const byName = new Map(functions.map((definition) => [definition.name, definition]));
  let tools: Partial<Tools> = {};
  const isReady = (name: string): boolean =>
    (byName.get(name)?.needs ?? []).every((tool) => tools[tool] !== undefined);
  return {
    isReady,
    async ready(names = byName.keys()) {
      const needs = [...names].flatMap((name) => byName.get(name)?.needs ?? []);
      const loaded = await loadTools(needs, tools);
      // Others may have come meanwhile: this adds to them.
      const solver = tools.solver ?? loaded.solver;
      tools = { ...loaded, ...tools, ...(solver && { solver }) };
    },
    call(name, grids, { dateSystem = 1900, secondsLeft, onProgress } = {}) {
      const definition = byName.get(name);
      if (!definition) return onlyError(`there is no function ${name}`);
      const evaluated = (given: Partial<Tools>): Block =>
        definition.evaluate(grids, { dateSystem, tools: given, onProgress });
      try {
        const { solver } = tools;
        return secondsLeft && solver?.inTime && definition.needs.includes('solver')
          ? solver.inTime(secondsLeft, (limited) => evaluated({ ...tools, solver: limited }))
          : evaluated(tools);
      } catch (defect) {
        return onlyError(defectWords(name, defect));
      }
    },
  };
}

/** Why a call has no answer, in our own words: a host would send the grower to its own maker for it. */
export function defectWords(name: string, defect: unknown): string {
  if (defect instanceof NotLoaded) return `${name} could not be calculated: ${defect.message}`;
  const detail = defect instanceof Error ? defect.message : String(defect);
  return `${name} has a fault of its own and could not answer; your cells are not to blame (${detail})`;
}
