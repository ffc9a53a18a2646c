/**
 * A linear programme: the columns x, each between its bounds, that make the sum of cost × x least while every row,
 * a weighted sum of columns, stays between its bounds. The matrix is stored column by column: the entries of column
 * j are those from `starts[j]` up to `starts[j + 1]`. A missing bound is ±Infinity.
 */
export interface LinearProgram {
  readonly cost: Float64Array;
  readonly lower: Float64Array;
  readonly upper: Float64Array;
  readonly rowLower: Float64Array;
  readonly rowUpper: Float64Array;
  readonly starts: Int32Array;
  readonly rows: Int32Array;
  readonly values: Float64Array;
}

/** What a bound is worth at the optimum, in cost per unit. */
export interface Prices {
  /** How much the least cost rises when the bound a row rests on rises by one; 0 for a row at rest between its bounds. */
  readonly rows: Float64Array;
  /** The same for the bound of each column: what one unit of an unused column adds to the cost. */
  readonly columns: Float64Array;
}

export type LinearSolution =
  | {
      readonly status: 'optimal';
      readonly cost: number;
      readonly columns: Float64Array;
      readonly prices: Prices;
    }
  | { readonly status: 'infeasible' | 'unbounded' | 'unsolved' };

/** `interior` is the interior point method followed by crossover: faster than the simplex on large programmes. */
export type LinearMethod = 'simplex' | 'interior';

export interface LinearSolver {
  readonly solve: (program: LinearProgram, method?: LinearMethod) => LinearSolution;
}

/** Puts a linear programme together: rows first, then columns with their entries in those rows. */
export class LinearProgramBuilder {
  private readonly cost: number[] = [];
  private readonly lower: number[] = [];
  private readonly upper: number[] = [];
  private readonly rowLower: number[] = [];
  private readonly rowUpper: number[] = [];
  private readonly starts: number[] = [0];
  private readonly rows: number[] = [];
  private readonly values: number[] = [];

  get columnCount(): number {
    return this.cost.length;
  }

  /** @returns the row's index */
  addRow(lower: number, upper: number): number {
    this.rowLower.push(lower);
    return this.rowUpper.push(upper) - 1;
  }

  /**
   * @param entries row index and coefficient, each row at most once
   * @returns the column's index
   */
  addColumn(cost: number, entries: Iterable<readonly [number, number]>, lower = 0, upper = Infinity): number {
    this.cost.push(cost);
    this.lower.push(lower);
    for (const [row, value] of entries) {
      this.rows.push(row);
      this.values.push(value);
    }
    this.starts.push(this.rows.length);
    return this.upper.push(upper) - 1;
  }

  build(): LinearProgram {
    return {
      cost: Float64Array.from(this.cost),
      lower: Float64Array.from(this.lower),
      upper: Float64Array.from(this.upper),
      rowLower: Float64Array.from(this.rowLower),
      rowUpper: Float64Array.from(this.rowUpper),
      starts: Int32Array.from(this.starts),
      rows: Int32Array.from(this.rows),
      values: Float64Array.from(this.values),
    };
  }
}

/** The sum of weight × value: what a solution costs under other costs than those it was found with. */
export function weighed(weights: Float64Array, values: Float64Array): number {
  let sum = 0;
  for (let j = 0; j < weights.length; j++) sum += weights[j]! * values[j]!;
  return sum;
}

/**
 * Loads the solver; null where it cannot be had, because WebAssembly cannot run or its file failed to arrive.
 *
 * There is no second solver for that case, since every supported host runs WebAssembly. One in plain JavaScript was
 * measured on the sixty seeded farms of the benchmark. It gave HiGHS's plan on 15 farms, was stuck on one and too slow
 * for 44, and took 120 lines to keep from cycling. Without a solver the plan's rule of thumb costs 22% of the order
 * value more than the solved plan in the median.
 */
export const loadLinearSolver = (): Promise<LinearSolver | null> => loadHighs().catch(() => null);

/**
 * Steps after which the simplex method takes over from the interior point method. Without a limit, the latter never
 * ended on one seeded plan.
 */
const MOST_INTERIOR_STEPS = 500;

/** HiGHS, an open-source solver compiled to WebAssembly. Fails where WebAssembly cannot run. */
export async function loadHighs(): Promise<LinearSolver> {
  if (!('WebAssembly' in globalThis)) throw new Error('WebAssembly is missing here');
  const { default: load } = await import('highs');
  const highs = await load();
  const { optimal, infeasible, unbounded, iterationLimit } = highs.constants.modelStatus;
  const solve = (program: LinearProgram, method: LinearMethod = 'simplex'): LinearSolution => {
    const [numCols, numRows] = [program.cost.length, program.rowLower.length];
    const matrix = {
      format: 'csc' as const,
      numRows,
      numCols,
      starts: program.starts,
      indices: program.rows,
      values: program.values,
    };
    const source = {
      numCols,
      numRows,
      matrix,
      colCost: program.cost,
      colLower: program.lower,
      colUpper: program.upper,
      rowLower: program.rowLower,
      rowUpper: program.rowUpper,
    };
    return highs.withModel(source, (model): LinearSolution => {
      model.options.set({
        output_flag: false,
        solver: method === 'interior' ? 'ipm' : 'simplex',
        ipm_iteration_limit: MOST_INTERIOR_STEPS,
      });
      model.run();
      if (method === 'interior' && model.getModelStatus() === iterationLimit) {
        model.options.set({ solver: 'simplex' });
        model.run();
      }
      const status = model.getModelStatus();
      if (status === infeasible) return { status: 'infeasible' };
      if (status === unbounded) return { status: 'unbounded' };
      if (status !== optimal) return { status: 'unsolved' };
      const { colValue, colDual, rowDual } = model.getSolution();
      return {
        status: 'optimal',
        cost: model.getObjectiveValue(),
        columns: colValue,
        prices: { rows: rowDual, columns: colDual },
      };
    });
  };
  return { solve };
}
