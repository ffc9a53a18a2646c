import fc from 'fast-check';
import { type Cell, type Grid, cellError } from '../../src/worksheet/cells/cell';
import { mayBeLeftOut, type Argument } from '../../src/worksheet/cells/arguments';
import type { Kind } from '../../src/worksheet/cells/kinds';
import type { TableColumn } from '../../src/worksheet/cells/columns';
import type { DescribedFunction } from '../../src/worksheet/words';
import { exampleGrid } from '../../src/worksheet/examples';

// Random calls of a worksheet function, made from its arguments' own description: mostly what they ask for, now and
// then what nobody would.

/** Error cells that are put in, so that a test can tell them from ours. */
export const FOREIGN = [cellError('#REF!'), cellError('#N/A'), cellError('#DIV/0!')];

const LABELS = ['Alder-3', 'Birch-1', 'rowan-2 ', 'L-001', 'L-002', 'oak sawdust', '7'];

/** Labels that a list could take for two, a message for two lines, a terminal for a command. */
const STRANGE_LABELS = ['Elm, north; south', 'L-001\nL-002', 'Elm\u001b[31m\u0007', `L-${'0'.repeat(400)}`];

const hostileCell: fc.Arbitrary<Cell> = fc.oneof(
  fc.constantFrom<Cell>(null, '', ' ', 0, -0, true, false, ...FOREIGN),
  fc.constantFrom<Cell>(-1, 62, 1e308, -1e308, 5e-324, Infinity, -Infinity, NaN, 2958466, 60, 2 ** 53),
  fc.constantFrom<Cell>(
    '=1+1',
    '12',
    '2026-02-02',
    '<b>',
    '𝔪ycelium',
    "'",
    '#N/A',
    'constructor',
    '__proto__',
  ),
  fc.constantFrom<Cell>(...STRANGE_LABELS),
  fc.double(),
  fc.string({ maxLength: 12 }),
);

function goodCell(kind: Kind<unknown>): fc.Arbitrary<Cell> {
  const samples = fc.constantFrom<Cell>(...kind.samples);
  if (kind.choices) return samples;
  if (!kind.bounds) {
    return fc.oneof(
      { weight: 8, arbitrary: fc.constantFrom<Cell>(...LABELS) },
      { weight: 8, arbitrary: samples },
      { weight: 1, arbitrary: fc.constantFrom<Cell>(...STRANGE_LABELS) },
    );
  }
  const { low, high, whole } = kind.bounds;
  const [from, to] = [Math.max(low, -1e4), Math.min(high, kind.word === 'date' ? 50_000 : 1e4)];
  const inside = whole
    ? fc.integer({ min: Math.ceil(from), max: Math.max(Math.ceil(from), Math.min(to, 200)) })
    : fc.double({ min: from, max: to, noNaN: true });
  const everyday =
    kind.word === 'date'
      ? fc.integer({ min: 45_000, max: 45_400 })
      : fc.constantFrom(1, 2, 5, 10, 20, 0.6, 0.05);
  return fc.oneof({ weight: 3, arbitrary: everyday }, { weight: 2, arbitrary: inside }, samples);
}

const cell = (kind: Kind<unknown>): fc.Arbitrary<Cell> =>
  fc.oneof({ weight: 19, arbitrary: goodCell(kind) }, { weight: 1, arbitrary: hostileCell });

const blockOf = (of: fc.Arbitrary<Cell>, height: number, width: number): fc.Arbitrary<Grid> =>
  fc.array(fc.array(of, { minLength: width, maxLength: width }), { minLength: height, maxLength: height });

function headersOf(property: string, { role }: TableColumn<unknown>): string[] {
  if (role === 'numbered') return [`${property} 1`, `${property} 2`];
  return role === 'others' ? ['humidity', 'Kettle (°C)'] : [property];
}

function tableGrid(columns: readonly [string, TableColumn<unknown>][], rows: number): fc.Arbitrary<Grid> {
  const headed = columns.flatMap(([property, column]) =>
    headersOf(property, column).map((header) => ({ header, column })),
  );
  const body = fc
    .tuple(...headed.map(({ column }) => fc.array(cell(column.kind), { minLength: rows, maxLength: rows })))
    .map((lists): Grid => Array.from({ length: rows }, (_, r) => lists.map((list) => list[r]!)));
  return fc
    .oneof(
      { weight: 9, arbitrary: body },
      { weight: 1, arbitrary: fc.tuple(body, fc.nat(rows - 1), fc.nat(rows)).map(withRowTwice) },
    )
    .map((written): Grid => [headed.map(({ header }) => header), ...written]);
}

/** The rows with one of them once more, elsewhere. */
const withRowTwice = ([body, row, at]: [Grid, number, number]): Grid => [
  ...body.slice(0, at),
  body[row]!,
  ...body.slice(at),
];

const hostileGrid: fc.Arbitrary<Grid> = fc
  .tuple(fc.integer({ min: 1, max: 4 }), fc.integer({ min: 1, max: 4 }))
  .chain(([height, width]) => blockOf(hostileCell, height, width));

function goodGrid(argument: Argument, rows: number): fc.Arbitrary<Grid> {
  switch (argument.shape) {
    case 'setting':
      return blockOf(cell(argument.kind), 1, 1);
    case 'range':
      return blockOf(cell(argument.kind), rows, 1);
    case 'block':
      return blockOf(cell(argument.kind), rows + 1, 3);
    case 'table':
      return tableGrid(Object.entries(argument.columns), rows);
    case 'column':
      return fc.oneof(
        { weight: 36, arbitrary: blockOf(cell(argument.kind), rows, 1) },
        { weight: 12, arbitrary: blockOf(cell(argument.kind), 1, 1) },
        { weight: 1, arbitrary: blockOf(cell(argument.kind), rows + 1, 1) },
      );
  }
}

function anyGrid(argument: Argument, rows: number): fc.Arbitrary<Grid | null> {
  return fc.oneof(
    { weight: 36, arbitrary: goodGrid(argument, rows) },
    { weight: mayBeLeftOut(argument) ? 12 : 1, arbitrary: fc.constant(null) },
    { weight: 1, arbitrary: hostileGrid },
  );
}

const changedCell = fc.oneof(hostileCell, fc.double({ min: 0, max: 100, noNaN: true }));

/** A copy of a grid with one cell changed. */
const oneCellChanged = (grid: Grid): fc.Arbitrary<Grid> =>
  fc
    .tuple(fc.nat(grid.length - 1), fc.nat(grid[0]!.length - 1), changedCell)
    .map(([r, c, changed]) =>
      grid.map((row, at) => (at === r ? row.map((old, k) => (k === c ? changed : old)) : row)),
    );

/** An example of the function with one argument, or one cell of it, changed: gets where random tables seldom do. */
function nearExample(
  f: DescribedFunction,
  grids: readonly fc.Arbitrary<Grid | null>[],
): fc.Arbitrary<(Grid | null)[]> {
  return fc.tuple(fc.constantFrom(...f.examples), fc.nat(f.arguments.length - 1)).chain(([example, at]) => {
    const given: (Grid | null)[] = f.arguments.map((_, k) =>
      example.arguments[k] === undefined ? null : exampleGrid(example.arguments[k]),
    );
    const old = given[at];
    const changed = old ? fc.oneof({ weight: 2, arbitrary: oneCellChanged(old) }, grids[at]!) : grids[at]!;
    return changed.map((grid) => given.map((kept, k) => (k === at ? grid : kept)));
  });
}

/** Calls with up to `most` rows. What they are drawn from is made once a length: that takes longer than to draw. */
export function callsOf(f: DescribedFunction, most = 10): fc.Arbitrary<(Grid | null)[]> {
  const ofRows = Array.from({ length: most }, (_, fewer) => {
    const grids = f.arguments.map((argument) => anyGrid(argument, fewer + 1));
    return fc.oneof(fc.tuple(...grids), nearExample(f, grids));
  });
  return fc.integer({ min: 1, max: most }).chain((rows) => ofRows[rows - 1]!);
}
