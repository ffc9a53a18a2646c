import { beforeAll, describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Block, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { tableHead } from '../../src/worksheet/cells/headers';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import type { DescribedFunction } from '../../src/worksheet/words';
import { evaluate, prepared } from './prepared';

// A grower sorts a table, or drags a column elsewhere: the answer has the same rows and the same figures.

/** Tables whose rows are a sequence by what they are: the first step is the mother culture, the last the block. */
const SEQUENCES: ReadonlySet<string> = new Set(['SPAWNCHAIN steps', 'BACKPLAN steps']);

beforeAll(async () => {
  for (const f of described) await prepared(f);
});

const turned = <T>(list: readonly T[]): T[] => [...list].reverse();

/** A row of a range as it was before it was turned, both counted from 1. */
type PlaceOf = (table: string, row: number) => number;
const asItIs: PlaceOf = (_, row) => row;

/** A cell as it is compared: sums in another order differ in their last digits, and a message tells of its own row. */
function comparable(cell: Cell, placeOf: PlaceOf): string {
  if (typeof cell === 'number') return String(Number(cell.toPrecision(9)) + 0);
  return String(isCellError(cell) ? `${cell.code} ${cell.reason}` : cell).replace(
    /\brow (\d+) of (\w+)/g,
    (_, row: string, table: string) => `row ${placeOf(table, Number(row))} of ${table}`,
  );
}

/** The rows of an answer; those of a table by their headers, in whatever order rows and columns come. */
function rowsOf({ result }: DescribedFunction, block: Block, placeOf = asItIs): string[] {
  const rows = plainValues(block);
  const texts = rows.map((row) => row.map((cell) => comparable(cell, placeOf)));
  if (result.shape === 'value' || result.shape === 'row') return texts.map((row) => row.join(' | '));
  const headers = texts[0]!;
  const [table, place] = [headers.indexOf('table'), headers.indexOf('row')];
  for (const row of texts.slice(1)) {
    if (place >= 0) row[place] = String(placeOf(row[table]!, Number(row[place])));
  }
  return texts
    .slice(1)
    .map((row) =>
      row
        .map((cell, c) => `${headers[c]}: ${cell}`)
        .sort()
        .join(' | '),
    )
    .sort();
}

interface Turned {
  readonly name: string;
  /** The answer to the call as it is, worked out once for all that is turned in it. */
  readonly before: () => string[];
  readonly changed: readonly (Grid | null)[];
  readonly placeOf: PlaceOf;
}

/** The calls of the examples with one table's rows or columns in reverse. */
const turnedCalls = (f: DescribedFunction): Turned[] =>
  f.examples.flatMap((example) => {
    const given = example.arguments.map(exampleGrid);
    let answer: string[] | undefined;
    const before = (): string[] => (answer ??= rowsOf(f, evaluate(f, given)));
    return f.arguments.flatMap((argument, at): Turned[] => {
      const grid = given[at];
      if (argument.shape !== 'table' || !grid || grid.length < 2) return [];
      const { row } = tableHead(argument.name, argument.columns, grid);
      const put = (what: string, changed: Grid, placeOf: PlaceOf): Turned => ({
        name: `${example.title}: ${what} of ${argument.name}`,
        before,
        changed: given.map((old, k) => (k === at ? changed : old)),
        placeOf,
      });
      const columns = put('columns', grid.map(turned), asItIs);
      if (SEQUENCES.has(`${f.name} ${argument.name}`)) return [columns];
      const rows = [...grid.slice(0, row + 1), ...turned(grid.slice(row + 1))];
      const wasAt: PlaceOf = (table, place) =>
        table === argument.name && place > row + 1 ? grid.length + row + 2 - place : place;
      return [columns, put('rows', rows, wasAt)];
    });
  });

const calls = described
  .map((f) => [f.name, f, turnedCalls(f)] as const)
  .filter(([, , list]) => list.length > 0);

describe.each(calls)('%s', (_name, f, list) => {
  test.each(list)('$name', ({ before, changed, placeOf }) => {
    expect(rowsOf(f, evaluate(f, changed), placeOf)).toEqual(before());
  });
});

test('every function that takes a table is tried', () => {
  const takesTable = described.filter((f) => f.arguments.some(({ shape }) => shape === 'table'));
  expect(calls.map(([name]) => name)).toEqual(takesTable.map(({ name }) => name));
});
