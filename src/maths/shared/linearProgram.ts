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

/**
 * `interior` is the interior point method followed by crossover: faster than the simplex on large programmes. `bare` is
 * the same without a search for what could be left out first: sooner where there is little of that.
 */
export type LinearMethod = 'simplex' | 'interior' | 'bare';

/**
 * `primal` and `dual` go on from the basis of the last solution: the primal simplex method where costs have changed,
 * the dual one where bounds have.
 */
export type NextMethod = LinearMethod | 'primal' | 'dual';

/** A programme that the solver keeps: costs and bounds may change between one solution and the next. */
export interface OpenProgram {
  readonly setCosts: (cost: Float64Array) => void;
  readonly setBounds: (lower: Float64Array, upper: Float64Array) => void;
  readonly setRowBounds: (row: number, lower: number, upper: number) => void;
  readonly solve: (method?: NextMethod) => LinearSolution;
}

/** How a programme in whole numbers is searched. */
export interface WholeSearch {
  /** Columns that must be whole numbers. */
  readonly whole: readonly number[];
  /** A solution to start from; NaN for columns that follow from the others. */
  readonly start: Float64Array;
  /** Parts of the search after which the best solution so far is taken: a count, so that the answer is always the same. */
  readonly mostNodes: number;
  /** Share of the cost within which the search may stop. */
  readonly gap: number;
}

export interface LinearSolver {
  readonly solve: (program: LinearProgram, method?: LinearMethod) => LinearSolution;
  /** Keeps a programme in the solver while `use` runs. */
  readonly open?: <T>(program: LinearProgram, use: (open: OpenProgram) => T) => T;
  /** The best columns found with some of them whole; undefined where none better than the start was. */
  readonly solveWhole?: (program: LinearProgram, search: WholeSearch) => Float64Array | undefined;
  /**
   * What `use` gives with this solver, or with one that is out of time where the seconds were over first. It is one or
   * the other as a whole: nothing is solved in part. `secondsLeft` is asked before each programme.
   */
  readonly inTime?: <T>(secondsLeft: () => number, use: (solver: LinearSolver) => T) => T;
  /** For work between programmes: ends what `inTime` runs where the seconds are over. */
  readonly checkTime?: () => void;
  /** Set where there was no time for it, so that it solves nothing. */
  readonly isOutOfTime?: true;
}

/** A programme's optimum. */
export type Optimum = Extract<LinearSolution, { status: 'optimal' }>;

/** The optimum of a programme that is kept; undefined where the solver finds none. */
export function optimum(open: OpenProgram, method: NextMethod): Optimum | undefined {
  const solution = open.solve(method);
  return solution.status === 'optimal' ? solution : undefined;
}

/** Solves nothing: its time is up. */
export const OUT_OF_TIME: LinearSolver = { isOutOfTime: true, solve: () => ({ status: 'unsolved' }) };

/** Keeps a programme in a solver; one that cannot keep it solves it from the start each time. */
export function opened<T>(solver: LinearSolver, program: LinearProgram, use: (open: OpenProgram) => T): T {
  if (solver.open) return solver.open(program, use);
  let now = program;
  return use({
    setCosts: (cost) => (now = { ...now, cost }),
    setBounds: (lower, upper) => (now = { ...now, lower, upper }),
    setRowBounds: (row, lower, upper) => {
      const [rowLower, rowUpper] = [now.rowLower.slice(), now.rowUpper.slice()];
      [rowLower[row], rowUpper[row]] = [lower, upper];
      now = { ...now, rowLower, rowUpper };
    },
    solve: (method) => solver.solve(now, method === 'interior' || method === 'bare' ? method : 'simplex'),
  });
}

/** The same solver, which tells each time it has solved a programme. */
export function telling(solver: LinearSolver, onSolved: () => void): LinearSolver {
  const told = <T>(found: T): T => {
    onSolved();
    return found;
  };
  const { open, solveWhole } = solver;
  return {
    ...solver,
    solve: (program, method) => told(solver.solve(program, method)),
    ...(open && {
      open: (program, use) =>
        open(program, (one) => use({ ...one, solve: (method) => told(one.solve(method)) })),
    }),
    ...(solveWhole && { solveWhole: (program, search) => told(solveWhole(program, search)) }),
  };
}

/** What the solver refuses as a coefficient, and what it takes for endless (options of HiGHS: large_matrix_value, infinite_cost). */
const LARGEST_COEFFICIENT = 1e15;
const ENDLESS = 1e20;

/** Whether the solver can take a programme: figures of a farm that are far out of the ordinary may leave no numbers. */
export function isSolvable({ cost, lower, upper, rowLower, rowUpper, values }: LinearProgram): boolean {
  const within = (most: number) => (figure: number) => Math.abs(figure) < most;
  const canBeReached = (bounds: Float64Array, sign: 1 | -1): boolean =>
    bounds.every((bound) => sign * bound < ENDLESS);
  return (
    cost.every(within(ENDLESS)) &&
    values.every(within(LARGEST_COEFFICIENT)) &&
    [lower, rowLower].every((bounds) => canBeReached(bounds, 1)) &&
    [upper, rowUpper].every((bounds) => canBeReached(bounds, -1))
  );
}

/** The entries of a column: what is put in one row is added up, and rows stay in the order in which they came. */
export class ColumnEntries {
  private readonly rows: number[] = [];
  /** By row. */
  private readonly sums: number[] = [];
  private readonly isPut: boolean[] = [];

  put(row: number, value: number): void {
    while (this.sums.length <= row) {
      this.sums.push(0);
      this.isPut.push(false);
    }
    if (!this.isPut[row]) this.rows.push(row);
    this.isPut[row] = true;
    this.sums[row]! += value;
  }

  clear(): void {
    for (const row of this.rows) {
      this.sums[row] = 0;
      this.isPut[row] = false;
    }
    this.rows.length = 0;
  }

  *[Symbol.iterator](): Generator<readonly [number, number]> {
    for (const row of this.rows) yield [row, this.sums[row]!];
  }
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

  /** The builder of a programme that begins with the columns and rows of another. */
  static from(program: LinearProgram): LinearProgramBuilder {
    const builder = new LinearProgramBuilder();
    builder.rowLower.push(...program.rowLower);
    builder.rowUpper.push(...program.rowUpper);
    builder.cost.push(...program.cost);
    builder.lower.push(...program.lower);
    builder.upper.push(...program.upper);
    builder.starts.push(...program.starts.slice(1));
    for (let k = 0; k < program.rows.length; k++) {
      builder.rows.push(program.rows[k]!);
      builder.values.push(program.values[k]!);
    }
    return builder;
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
