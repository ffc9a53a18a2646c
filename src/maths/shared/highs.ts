import load, { type Model, type ModelData } from 'highs';
import {
  isSolvable,
  OUT_OF_TIME,
  type LinearProgram,
  type LinearSolution,
  type LinearSolver,
  type NextMethod,
} from './linearProgram';

/**
 * Steps after which the simplex method takes over from the interior point method. Without a limit, the latter never
 * ended on one seeded plan.
 */
const MOST_INTERIOR_STEPS = 500;
/** The solver's tolerance on reduced costs: finer than usual, so that every method breaks near ties alike. */
const [FINE, USUAL] = [1e-9, 1e-7];
/** How near the optimum the interior point method stops: nearly there where the simplex method soon goes the rest. */
const [NEARLY, THERE] = [1e-4, 1e-8];
/** The solver's numbers for its simplex methods. */
const [DUAL, PRIMAL] = [1, 4];

/** Thrown through all that a solver is used for once its seconds are over. */
class TimeIsUp extends Error {}

function secondsIn(secondsLeft: () => number): number {
  const seconds = secondsLeft();
  if (seconds <= 0) throw new TimeIsUp();
  return seconds;
}

/** The eight bytes that every WebAssembly module begins with: an empty one. */
const EMPTY_MODULE = Uint8Array.of(0, 0x61, 0x73, 0x6d, 1, 0, 0, 0);

/** Whether WebAssembly can be compiled here: some systems lack it, and a page's policy can forbid it. */
export function canRun(): boolean {
  type Modules = { readonly Module: new (bytes: Uint8Array) => object };
  try {
    return new (globalThis as unknown as { WebAssembly: Modules }).WebAssembly.Module(EMPTY_MODULE) !== null;
  } catch {
    return false;
  }
}

/** HiGHS, an open-source solver compiled to WebAssembly. */
export async function loadHighs(): Promise<LinearSolver> {
  const highs = await load();
  const { optimal, infeasible, unbounded, timeLimit } = highs.constants.modelStatus;
  const modelOf = (program: LinearProgram): ModelData => {
    const [numCols, numRows] = [program.cost.length, program.rowLower.length];
    const matrix = {
      format: 'csc' as const,
      numRows,
      numCols,
      starts: program.starts,
      indices: program.rows,
      values: program.values,
    };
    return {
      numCols,
      numRows,
      matrix,
      colCost: program.cost,
      colLower: program.lower,
      colUpper: program.upper,
      rowLower: program.rowLower,
      rowUpper: program.rowUpper,
    };
  };
  const runFor = (model: Model, secondsLeft: () => number): void => {
    const seconds = secondsIn(secondsLeft);
    // A programme that is kept would count the seconds of all its runs.
    if (seconds < Infinity) {
      model.zeroAllClocks();
      model.options.set({ time_limit: seconds });
    }
    model.run();
    if (model.getModelStatus() === timeLimit) throw new TimeIsUp();
  };
  const run = (model: Model, method: NextMethod, secondsLeft: () => number): LinearSolution => {
    // The options of the first try, then what is tried where it ends without an answer.
    const tries: Record<string, string | number>[] = [
      {
        solver: method === 'interior' || method === 'bare' ? 'ipm' : 'simplex',
        simplex_strategy: method === 'primal' ? PRIMAL : DUAL,
        ipm_iteration_limit: MOST_INTERIOR_STEPS,
        presolve: method === 'bare' ? 'off' : 'choose',
        ipm_optimality_tolerance: method === 'bare' ? NEARLY : THERE,
        dual_feasibility_tolerance: FINE,
      },
      {
        solver: 'simplex',
        simplex_strategy: DUAL,
        presolve: 'choose',
        dual_feasibility_tolerance: USUAL,
      },
      { presolve: 'off' },
    ];
    for (const [n, options] of tries.entries()) {
      model.options.set({ ...options, output_flag: false });
      if (n > 0) model.clearSolver();
      runFor(model, secondsLeft);
      const status = model.getModelStatus();
      if (status === unbounded) return { status: 'unbounded' };
      if (status === optimal) {
        const { colValue, colDual, rowDual } = model.getSolution();
        return {
          status: 'optimal',
          cost: model.getObjectiveValue(),
          columns: colValue,
          prices: { rows: rowDual, columns: colDual },
        };
      }
      // Presolving can call a programme infeasible that is so only by the solver's tolerance: one try without it says.
      if (status === infeasible && n === tries.length - 1) return { status: 'infeasible' };
    }
    return { status: 'unsolved' };
  };
  const solverWith = (secondsLeft: () => number): LinearSolver => ({
    solve: (program, method = 'simplex') =>
      highs.withModel(modelOf(program), (model) => run(model, method, secondsLeft)),
    open: (program, use) =>
      highs.withModel(modelOf(program), (model) => {
        const all = { kind: 'range', from: 0, to: program.cost.length - 1 } as const;
        return use({
          setCosts: (cost) => void model.changeColsCost(all, cost),
          setBounds: (lower, upper) => void model.changeColsBounds(all, lower, upper),
          setRowBounds: (row, lower, upper) => void model.changeRowBounds(row, lower, upper),
          solve: (method = 'simplex') => run(model, method, secondsLeft),
        });
      }),
    solveWhole: (program, { whole, start, mostNodes, gap }) => {
      if (!isSolvable(program)) return undefined;
      const integrality = new Int32Array(program.cost.length);
      for (const column of whole) integrality[column] = 1;
      return highs.withModel({ ...modelOf(program), integrality }, (model) => {
        model.options.set({
          output_flag: false,
          mip_max_nodes: mostNodes,
          mip_rel_gap: gap,
          mip_heuristic_effort: 0,
        });
        const given = [...start.keys()].filter((column) => !Number.isNaN(start[column]!));
        if (given.length > 0)
          model.setSolution({
            indices: Int32Array.from(given),
            values: Float64Array.from(given, (column) => start[column]!),
          });
        runFor(model, secondsLeft);
        const found = model.info.get('primal_solution_status') === highs.constants.solutionStatus.feasible;
        return found ? model.getSolution().colValue : undefined;
      });
    },
    checkTime: () => void secondsIn(secondsLeft),
    inTime: (seconds, use) => {
      try {
        return use(solverWith(seconds));
      } catch (thrown) {
        if (!(thrown instanceof TimeIsUp)) throw thrown;
        return use(OUT_OF_TIME);
      }
    },
  });
  return solverWith(() => Infinity);
}
