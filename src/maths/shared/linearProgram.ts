import type { Model } from 'yalps';

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
      readonly prices: () => Prices;
    }
  | { readonly status: 'infeasible' | 'unbounded' | 'unsolved' };

/** `interior` is the interior point method followed by crossover: faster than the simplex on large programmes. */
export type LinearMethod = 'simplex' | 'interior';

export interface LinearSolver {
  readonly name: 'HiGHS' | 'YALPS';
  /** Largest number of columns that is solved in reasonable time. */
  readonly mostColumns: number;
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

/** Loads the solver: HiGHS as WebAssembly, or the small YALPS where WebAssembly is missing or not allowed. */
export const loadLinearSolver = (): Promise<LinearSolver> => loadHighs().catch(loadYalps);

/** HiGHS, an open-source solver compiled to WebAssembly. Fails where WebAssembly cannot run. */
export async function loadHighs(): Promise<LinearSolver> {
  if (!('WebAssembly' in globalThis)) throw new Error('WebAssembly is missing here');
  const { default: load } = await import('highs');
  const highs = await load();
  const { optimal, infeasible, unbounded } = highs.constants.modelStatus;
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
      model.options.set({ output_flag: false, solver: method === 'interior' ? 'ipm' : 'simplex' });
      model.run();
      const status = model.getModelStatus();
      if (status === infeasible) return { status: 'infeasible' };
      if (status === unbounded) return { status: 'unbounded' };
      if (status !== optimal) return { status: 'unsolved' };
      const { colValue, colDual, rowDual } = model.getSolution();
      const prices = { rows: rowDual, columns: colDual };
      return {
        status: 'optimal',
        cost: model.getObjectiveValue(),
        columns: colValue,
        prices: () => prices,
      };
    });
  };
  return { name: 'HiGHS', mostColumns: 65_000, solve };
}

/** YALPS, a solver in plain JavaScript with a dense table: right for small programmes, slow for large ones. */
export async function loadYalps(): Promise<LinearSolver> {
  const yalps = await import('yalps');
  const solveWith = (program: LinearProgram, hair: number): LinearSolution => {
    const { constraints, variables } = inNonNegativeColumns(program, hair);
    const model: Model<number, string> = { direction: 'minimize', objective: 'cost', constraints, variables };
    const options = { maxPivots: 5 * (program.cost.length + program.rowLower.length), precision: 1e-9 };
    const { status, variables: found } = yalps.solve(model, options);
    if (status === 'infeasible' || status === 'unbounded') return { status };
    if (status !== 'optimal') return { status: 'unsolved' };
    const columns = program.lower.map((low) => (low > -Infinity ? low : 0));
    for (const [key, value] of found) columns[Math.abs(key) - 1]! += key > 0 ? value : -value;
    const cost = weighed(program.cost, columns);
    return { status, cost, columns, prices: () => pricesOf(program, solveColumns) };
  };
  const solveColumns = (program: LinearProgram): LinearSolution => {
    let solution: LinearSolution = { status: 'unsolved' };
    for (const hair of HAIRS) {
      solution = solveWith(program, hair);
      if (solution.status === 'optimal') break;
    }
    return solution;
  };
  return { name: 'YALPS', mostColumns: 1_100, solve: solveColumns };
}

type YalpsEntry = readonly [string, number];

/**
 * What is added to every column's cost, once to twice, as a share of the largest one. The second is tried where
 * rounding errors led the first to a dead end.
 */
const HAIRS = [1e-8, 1e-7];

/**
 * The programme in columns of 0 or more: a column is counted from its lower bound, one without goes as a positive
 * and a negative part (keys j + 1 and −(j + 1)), an upper bound is a row of its own. Every cost gets a hair of its
 * own on top: where many columns cost the same, most often nothing, the simplex method else goes round in circles.
 *
 * @source Charnes, A. (1952) Optimality and degeneracy in linear programming. Econometrica 20(2):160–170, put to costs
 */
function inNonNegativeColumns(
  program: LinearProgram,
  hair: number,
): {
  constraints: (readonly [string, { min?: number; max?: number; equal?: number }])[];
  variables: (readonly [number, readonly YalpsEntry[]])[];
} {
  const shift = new Float64Array(program.rowLower.length);
  const variables: (readonly [number, readonly YalpsEntry[]])[] = [];
  const ceilings: (readonly [string, { max: number }])[] = [];
  const least = hair * (program.cost.reduce((most, cost) => Math.max(most, Math.abs(cost)), 0) || 1);
  program.cost.forEach((cost, j) => {
    const [low, high] = [program.lower[j]!, program.upper[j]!];
    const start = low > -Infinity ? low : 0;
    const entries: YalpsEntry[] = [['cost', cost + least * (1 + ((j * 0.618_034) % 1))]];
    for (let k = program.starts[j]!; k < program.starts[j + 1]!; k++) {
      entries.push([`row ${program.rows[k]!}`, program.values[k]!]);
      shift[program.rows[k]!]! += program.values[k]! * start;
    }
    if (high <= low) return;
    if (high < Infinity) {
      entries.push([`column ${j}`, 1]);
      ceilings.push([`column ${j}`, { max: high - start }]);
    }
    variables.push([j + 1, entries]);
    if (low === -Infinity) variables.push([-(j + 1), entries.map(([row, value]) => [row, -value] as const)]);
  });
  const limits = Array.from(program.rowLower, (low, row) => {
    const [min, max] = [low - shift[row]!, program.rowUpper[row]! - shift[row]!];
    const between = { ...(min > -Infinity && { min }), ...(max < Infinity && { max }) };
    return [`row ${row}`, min === max ? { equal: min } : between] as const;
  });
  return { constraints: [...limits, ...ceilings], variables };
}

/**
 * Prices from the dual programme, for a solver that does not give them: one column for each finite bound of a row
 * or column, one row for each column of the programme.
 */
function pricesOf(program: LinearProgram, solve: (program: LinearProgram) => LinearSolution): Prices {
  const builder = new LinearProgramBuilder();
  const [columnCount, rowCount] = [program.cost.length, program.rowLower.length];
  const entriesOfRow = Array.from({ length: rowCount }, (): [number, number][] => []);
  for (let j = 0; j < columnCount; j++) {
    builder.addRow(program.cost[j]!, program.cost[j]!);
    for (let k = program.starts[j]!; k < program.starts[j + 1]!; k++) {
      entriesOfRow[program.rows[k]!]!.push([j, program.values[k]!]);
    }
  }
  const bounds: { of: 'rows' | 'columns'; index: number; sign: 1 | -1 }[] = [];
  const addBounds = (
    of: 'rows' | 'columns',
    index: number,
    entries: [number, number][],
    ends: number[],
  ): void =>
    ends.forEach((end, side) => {
      if (!Number.isFinite(end)) return;
      const sign = side === 0 ? 1 : -1;
      builder.addColumn(
        -sign * end,
        entries.map(([row, value]) => [row, sign * value] as const),
      );
      bounds.push({ of, index, sign });
    });
  entriesOfRow.forEach((entries, i) =>
    addBounds('rows', i, entries, [program.rowLower[i]!, program.rowUpper[i]!]),
  );
  for (let j = 0; j < columnCount; j++) {
    addBounds('columns', j, [[j, 1]], [program.lower[j]!, program.upper[j]!]);
  }
  const dual = solve(builder.build());
  if (dual.status !== 'optimal') throw new Error(`the dual of a solved programme came out ${dual.status}`);
  const prices = { rows: new Float64Array(rowCount), columns: new Float64Array(columnCount) };
  bounds.forEach(({ of, index, sign }, k) => {
    prices[of][index]! += sign * dual.columns[k]!;
  });
  return prices;
}
