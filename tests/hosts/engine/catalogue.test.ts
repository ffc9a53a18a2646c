import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { CellContent, CellResult } from '../../../src/hosts/engine/workbook';
import { described } from '../../../src/worksheet/described';
import { cellError, isCellError, plainValues, type Cell } from '../../../src/worksheet/cells/cell';
import type { ExampleArgument, DescribedFunction } from '../../../src/worksheet/words';
import { exampleGrid } from '../../../src/worksheet/examples';
import { PREFIX } from '../../../src/worksheet/constants';
import { evaluate, prepared } from '../../worksheet/prepared';
import { addressOf } from './addressOf';

// The same call gives the same results bare and through the engine, typed as array constants and read from cells.

type Call = readonly [title: string, f: DescribedFunction, given: readonly ExampleArgument[]];

const calls: Call[] = described.flatMap((f) => [
  ...f.examples.map((example): Call => [`${f.name}: ${example.title}`, f, example.arguments]),
  ...f.faults.map((fault): Call => [`${f.name}: fault, ${fault.says}`, f, fault.arguments]),
]);

/** A sheet with every argument's cells side by side, a column between, and the formula that reads them. */
function onASheet(
  f: DescribedFunction,
  given: readonly ExampleArgument[],
): { cells: CellContent[]; formula: string } {
  const cells: CellContent[] = [];
  let left = 0;
  const references = given.map((argument) => {
    if (argument === null) return '';
    const grid = exampleGrid(argument);
    grid.forEach((row, r) =>
      row.forEach((value, c) => cells.push({ address: addressOf(left + c, r), value })),
    );
    const reference = `${addressOf(left, 0)}:${addressOf(left + grid[0]!.length - 1, grid.length - 1)}`;
    left += grid[0]!.length + 1;
    return `Data!${reference}`;
  });
  return { cells, formula: `=PINSET.${f.name}(${references.join(',')})` };
}

async function through(
  formula: string,
  cells: readonly CellContent[],
): Promise<readonly (readonly Cell[])[]> {
  const workbook = await openWorkbook({
    dateSystem: 1900,
    sheets: [
      { name: 'Data', cells },
      { name: 'Result', cells: [{ address: 'A1', value: null, formula }] },
    ],
  });
  const result: CellResult = workbook.result('Result', 'A1');
  expect(result.unsupported).toBeUndefined();
  return result.block ?? [[result.value]];
}

function literal(cell: string | number | boolean | null): string {
  if (cell === null) return '""';
  if (typeof cell === 'boolean') return cell ? 'TRUE' : 'FALSE';
  return typeof cell === 'number' ? String(cell) : `"${cell.replaceAll('"', '""')}"`;
}

/** A call with blocks as array constants: `=PINSET.MIXWATER({100;20},{0.12;0.1},0.6)`. */
function withConstants({ name }: DescribedFunction, given: readonly ExampleArgument[]): string {
  const written = given.map((argument) => {
    if (argument === null) return '';
    const rows = exampleGrid(argument).map((row) => row.map((cell) => literal(cell as string)).join(','));
    return Array.isArray(argument) ? `{${rows.join(';')}}` : rows[0];
  });
  return `=${PREFIX}${name}(${written.join(',')})`;
}

const bare = async (f: DescribedFunction, given: readonly ExampleArgument[]): Promise<Cell[][]> => {
  await prepared(f);
  const grids = given.map((argument) => (argument === null ? null : exampleGrid(argument)));
  // A sheet keeps an error's code and reason.
  return plainValues(evaluate(f, grids)).map((row) =>
    row.map((cell) => (isCellError(cell) ? cellError(cell.code, cell.reason) : cell)),
  );
};

describe.each(calls)('%s', (_title, f, given) => {
  test('gives the same from array constants as in a bare call', async () => {
    expect(await through(withConstants(f, given), [])).toEqual(await bare(f, given));
  });

  test('gives the same from cells on another sheet as in a bare call', async () => {
    const { cells, formula } = onASheet(f, given);
    expect(await through(formula, cells)).toEqual(await bare(f, given));
  });
});

test('a function says which row is wrong, in the cell of that row alone', async () => {
  const [first, second, third] = await through('=PINSET.BIOEFFICIENCY({1.2;1.2;1.2},{4.5;-1;4.5},0.6)', []);
  expect([first, third]).toEqual([[1.2 / 1.8], [1.2 / 1.8]]);
  expect(second![0]).toHaveProperty('reason', expect.stringContaining('(row 2'));
});
