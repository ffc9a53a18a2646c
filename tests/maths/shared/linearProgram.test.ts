import { beforeAll, describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import highsPackage from 'highs';
import { loadModel } from '../../../src/maths/loading/loadModel';
import { planView } from '../../../src/maths/loading/planView';
import { loadHighs } from '../../../src/maths/shared/highs';
import {
  isSolvable,
  LinearProgramBuilder,
  type LinearProgram,
  type LinearSolution,
  telling,
  type LinearSolver,
  weighed,
} from '../../../src/maths/shared/linearProgram';
import { instance } from '../loading/instances';
import { loadLinearSolver } from '../../../src/maths/shared/linearSolver';

/** A transport problem: supplies are ceilings, demands are floors. */
function transport(supply: number[], demand: number[], cost: number[][]): LinearProgram {
  const builder = new LinearProgramBuilder();
  const from = supply.map((amount) => builder.addRow(-Infinity, amount));
  const to = demand.map((amount) => builder.addRow(amount, Infinity));
  cost.forEach((row, i) =>
    row.forEach((unit, j) =>
      builder.addColumn(unit, [
        [from[i]!, 1],
        [to[j]!, 1],
      ]),
    ),
  );
  return builder.build();
}

function optimum(solution: LinearSolution): Extract<LinearSolution, { status: 'optimal' }> {
  if (solution.status !== 'optimal') throw new Error(solution.status);
  return solution;
}

/** HiGHS by the simplex method, and by the interior point method, with and without presolving. */
const solvers: LinearSolver[] = [];
beforeAll(async () => {
  const highs = await loadHighs();
  solvers.push(
    highs,
    { solve: (program) => highs.solve(program, 'interior') },
    { solve: (program) => highs.solve(program, 'bare') },
  );
});
const each = (check: (solver: LinearSolver) => void): void => solvers.forEach(check);

describe('the solver gives published optima by either method', () => {
  // Dantzig, G. B. (1963) Linear Programming and Extensions, §3.3, in the units of the GAMS model library's
  // `trnsport`: freight 90 a case per thousand miles. 153.675 stands in many public test suites; the prices of the
  // markets are those of the GAMS tutorial's solution.
  test('two canneries, three markets: 153.675, markets priced 0.225, 0.153, 0.126', () => {
    const freight = [
      [2.5, 1.7, 1.8],
      [2.5, 1.8, 1.4],
    ].map((row) => row.map((miles) => (miles * 90) / 1000));
    const program = transport([350, 600], [325, 300, 275], freight);
    each((solver) => {
      const { cost, prices } = optimum(solver.solve(program));
      expect(cost).toBeCloseTo(153.675, 9);
      const { rows } = prices;
      [0.225, 0.153, 0.126].forEach((price, market) => expect(rows[2 + market]).toBeCloseTo(price, 9));
    });
  });

  // Hillier, F. S. & Lieberman, G. J., Introduction to Operations Research: P & T Company. From memory, unverified:
  // the optimum 152 535.
  test('three canneries, four warehouses: 152 535', () => {
    const program = transport(
      [75, 125, 100],
      [80, 65, 70, 85],
      [
        [464, 513, 654, 867],
        [352, 416, 690, 791],
        [995, 682, 388, 685],
      ],
    );
    each((solver) => {
      expect(optimum(solver.solve(program)).cost).toBeCloseTo(152_535, 6);
    });
  });
});

// Wagner, H. M. & Whitin, T. M. (1958) Dynamic version of the economic lot size model. Management Science 5(1):89–96,
// the example of twelve months. The data and the optimum, 864, as two public implementations of it have them.
describe('twelve months of lot sizes cost 864', () => {
  const demand = [69, 29, 36, 61, 61, 26, 34, 67, 45, 67, 79, 56];
  const setUp = [85, 102, 102, 101, 98, 114, 105, 86, 119, 110, 98, 114];
  const months = demand.map((_, month) => month);
  const total = demand.reduce((sum, mass) => sum + mass, 0);

  test('by the recursion over the month last made in', () => {
    const least = [0];
    for (let end = 1; end <= 12; end++) {
      const costs = months.slice(0, end).map((made) => {
        const held = demand.slice(made, end).reduce((sum, mass, k) => sum + k * mass, 0);
        return least[made]! + setUp[made]! + held;
      });
      least.push(Math.min(...costs));
    }
    expect(least[12]).toBe(864);
  });

  test('by whole set-ups, made and held from month to month', async () => {
    const highs = await highsPackage();
    const builder = new LinearProgramBuilder();
    const balance = demand.map((mass) => builder.addRow(mass, mass));
    const open = months.map(() => builder.addRow(-Infinity, 0));
    const { continuous, integer } = highs.constants.variableType;
    const types = months.flatMap((month) => {
      builder.addColumn(setUp[month]!, [[open[month]!, -total]], 0, 1);
      builder.addColumn(0, [
        [open[month]!, 1],
        [balance[month]!, 1],
      ]);
      const next = balance[month + 1];
      builder.addColumn(1, [[balance[month]!, -1], ...(next === undefined ? [] : [[next, 1] as const])]);
      return [integer, continuous, continuous];
    });
    const { cost, lower, upper, rowLower, rowUpper, starts, rows, values } = builder.build();
    const [numCols, numRows] = [cost.length, rowLower.length];
    const matrix = { format: 'csc' as const, numRows, numCols, starts, indices: rows, values };
    const bounds = { colCost: cost, colLower: lower, colUpper: upper, rowLower, rowUpper };
    const found = highs.withModel({ numCols, numRows, matrix, ...bounds, integrality: types }, (model) => {
      model.options.set({ output_flag: false });
      model.run();
      return [model.getModelStatus() === highs.constants.modelStatus.optimal, model.getObjectiveValue()];
    });
    expect(found).toEqual([true, expect.closeTo(864, 6)]);
  });

  // Krarup, J. & Bilde, O. (1977) Plant location, set covering and economic lot size: from each month made to each
  // month met, with which the relaxation has a whole optimum.
  test('by a linear programme of what is made in each month for each later one, by either method', () => {
    const builder = new LinearProgramBuilder();
    const met = months.map(() => builder.addRow(1, 1));
    for (const made of months) {
      const later = months.slice(made);
      const allowed = later.map(() => builder.addRow(-Infinity, 0));
      builder.addColumn(
        setUp[made]!,
        allowed.map((row) => [row, -1] as const),
      );
      later.forEach((month, k) =>
        builder.addColumn(k * demand[month]!, [
          [met[month]!, 1],
          [allowed[k]!, 1],
        ]),
      );
    }
    each((solver) => {
      const { cost, columns } = optimum(solver.solve(builder.build()));
      expect(cost).toBeCloseTo(864, 6);
      for (const value of columns) expect(Math.abs(value - Math.round(value))).toBeLessThan(1e-6);
    });
  });
});

/** Small programmes with bounds of every kind; x = the middle of the bounds keeps them feasible. */
const programmes = fc
  .tuple(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 1, max: 5 }))
  .chain(([columns, rows]) =>
    fc.record({
      columns: fc.array(
        fc.tuple(fc.integer({ min: -9, max: 9 }), fc.integer({ min: -4, max: 4 }), fc.nat(6)),
        {
          minLength: columns,
          maxLength: columns,
        },
      ),
      rows: fc.array(
        fc.tuple(
          fc.array(fc.integer({ min: -3, max: 3 }), { minLength: columns, maxLength: columns }),
          fc.nat(5),
          fc.nat(5),
          fc.constantFrom('both', 'floor', 'ceiling'),
        ),
        { minLength: rows, maxLength: rows },
      ),
    }),
  )
  .map(({ columns, rows }) => {
    const builder = new LinearProgramBuilder();
    const at = columns.map(([, low, width]) => low + width / 2);
    rows.forEach(([weights, down, up, kind]) => {
      const middle = weights.reduce((sum, weight, j) => sum + weight * at[j]!, 0);
      builder.addRow(
        kind === 'ceiling' ? -Infinity : middle - down,
        kind === 'floor' ? Infinity : middle + up,
      );
    });
    columns.forEach(([cost, low, width], j) =>
      builder.addColumn(
        cost,
        rows.flatMap(([weights], i) => (weights[j] === 0 ? [] : [[i, weights[j]!] as const])),
        low,
        low + width,
      ),
    );
    return builder.build();
  });

test('weighed(weights, values) is the sum of weight × value', () => {
  expect(weighed(Float64Array.of(2, 3, 5), Float64Array.of(7, 11, 13))).toBe(14 + 33 + 65);
});

describe('both methods agree and prove their optimum', () => {
  test('both give one cost, and prices whose dual bound equals it', () => {
    fc.assert(
      fc.property(programmes, (program) => {
        const found = solvers.map((solver) => optimum(solver.solve(program)));
        expect(found[0]!.cost).toBeCloseTo(found[1]!.cost, 6);
        for (const { cost, prices } of found) {
          const { rows, columns } = prices;
          const worth = (price: number, low: number, high: number): number =>
            Math.abs(price) < 1e-9 ? 0 : price * (price > 0 ? low : high);
          const bound =
            rows.reduce((sum, p, i) => sum + worth(p, program.rowLower[i]!, program.rowUpper[i]!), 0) +
            columns.reduce((sum, p, j) => sum + worth(p, program.lower[j]!, program.upper[j]!), 0);
          expect(bound).toBeCloseTo(cost, 6);
        }
      }),
    );
  });

  test('a column without a lower bound may go below 0', () => {
    const builder = new LinearProgramBuilder();
    const row = builder.addRow(-7, Infinity);
    builder.addColumn(1, [[row, 1]], -Infinity);
    each((solver) => {
      const { cost, columns } = optimum(solver.solve(builder.build()));
      expect([cost, columns[0]]).toEqual([-7, -7]);
    });
  });

  test('what cannot be met is infeasible, what has no least cost unbounded', () => {
    const clash = new LinearProgramBuilder();
    clash.addColumn(1, [[clash.addRow(5, Infinity), 1]], 0, 4);
    const endless = new LinearProgramBuilder();
    endless.addColumn(-1, [[endless.addRow(0, Infinity), 1]]);
    each((solver) => {
      expect(solver.solve(clash.build()).status).toBe('infeasible');
      expect(solver.solve(endless.build()).status).toBe('unbounded');
    });
  });

  // A fake clock: the solver is told that it has nothing left, at once or after some programmes.
  test('what is solved in time is as without a limit; past it the whole is asked of a solver that solves nothing', async () => {
    const program = transport(
      [350, 600],
      [325, 300, 275],
      [
        [2.5, 1.7, 1.8],
        [2.5, 1.8, 1.4],
      ],
    );
    const highs = await loadHighs();
    const statuses = (solver: LinearSolver): string[] => [1, 2, 3].map(() => solver.solve(program).status);
    const optimal = ['optimal', 'optimal', 'optimal'];
    expect(highs.inTime!(() => 60, statuses)).toEqual(optimal);
    for (const programmesInTime of [0, 1, 2]) {
      let asked = 0;
      const used: boolean[] = [];
      const found = highs.inTime!(
        () => (asked++ < programmesInTime ? 60 : 0),
        (solver) => {
          used.push(solver.isOutOfTime === true);
          return statuses(solver);
        },
      );
      expect([found, used]).toEqual([
        ['unsolved', 'unsolved', 'unsolved'],
        [false, true],
      ]);
    }
    expect(statuses(highs)).toEqual(optimal);
    expect(() =>
      highs.inTime!(
        () => 60,
        () => {
          throw new TypeError('a defect');
        },
      ),
    ).toThrow('a defect');
  });

  test('work between programmes ends where the time is over, and a solver that tells counts its programmes', async () => {
    const highs = await loadHighs();
    const outOfTime = highs.inTime!(
      () => 0,
      (solver) => {
        solver.checkTime?.();
        return solver.isOutOfTime;
      },
    );
    expect(outOfTime).toBe(true);
    expect(() => highs.checkTime!()).not.toThrow();
    let solved = 0;
    const solver = telling(highs, () => solved++);
    const program = transport([350], [325], [[2.5]]);
    expect(solver.solve(program)).toEqual(highs.solve(program));
    solver.open!(program, (open) => [open.solve(), open.solve('dual')]);
    expect(solved).toBe(3);
  });

  test('a programme under way is stopped: one of several seconds, by the clock, within a fraction of one', async () => {
    const highs = await loadHighs();
    const { program, total } = loadModel(
      planView(instance(1, { lots: 200, days: 120, rooms: 6, strains: 8, products: 3 })),
    );
    const started = performance.now();
    expect(
      highs.inTime!(
        () => 0.05 - (performance.now() - started) / 1000,
        (solver) =>
          solver.isOutOfTime
            ? 'stopped'
            : solver.open!({ ...program, cost: total }, (open) => open.solve('simplex').status),
      ),
    ).toBe('stopped');
  });

  test('where WebAssembly is missing there is no solver, and the next call that can load it has one', async () => {
    const wasm = Object.getOwnPropertyDescriptor(globalThis, 'WebAssembly')!;
    try {
      delete (globalThis as { WebAssembly?: unknown }).WebAssembly;
      expect(await loadLinearSolver()).toBeNull();
    } finally {
      Object.defineProperty(globalThis, 'WebAssembly', wasm);
    }
    expect(await loadLinearSolver()).not.toBeNull();
  });
});

// HiGHS documentation, list of options: infinite_cost and infinite_bound 1e20, large_matrix_value 1e15
test.each<
  [
    string,
    boolean,
    Partial<{ cost: number; value: number; lower: number; upper: number; row: [number, number] }>,
  ]
>([
  ['an everyday programme', true, {}],
  ['no limits at all', true, { lower: -Infinity, upper: Infinity, row: [-Infinity, Infinity] }],
  ['an endless cost', false, { cost: 1e20 }],
  ['an endless gain', false, { cost: -1e20 }],
  ['the greatest cost', true, { cost: 9e19 }],
  ['an entry out of reach', false, { value: 1e15 }],
  ['the greatest entry', true, { value: -9e14 }],
  ['a column that cannot be as much as it must', false, { lower: 1e20 }],
  ['a column that cannot be as little as it must', false, { lower: -Infinity, upper: -1e20 }],
  ['a row that cannot be as much as it must', false, { row: [1e20, Infinity] }],
  ['a row that cannot be as little as it must', false, { row: [-Infinity, -1e20] }],
  ['no number', false, { cost: NaN }],
])(
  'the solver can take %s: %p',
  (_, solvable, { cost = 1, value = 1, lower = 0, upper = 9, row = [1, 9] }) => {
    const builder = new LinearProgramBuilder();
    builder.addColumn(cost, [[builder.addRow(...row), value]], lower, upper);
    expect(isSolvable(builder.build())).toBe(solvable);
  },
);
