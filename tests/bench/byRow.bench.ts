import type { Cell, Grid } from '../../src/worksheet/cells/cell';
import { FAMILIES } from '../../src/worksheet/constants';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import type { DescribedFunction } from '../../src/worksheet/words';
import { evaluate, prepared } from '../worksheet/prepared';
import { compare, type Measurement } from './measure';

// Each family's functions with an answer beside each row: one call for a column of 20,000 rows, the function's own
// example over and over, and how much longer a call for each of the rows takes.

const ROWS = 20_000;

type Given = (Grid | null)[];

/** The call of an example with one row only. */
const oneRow = (f: DescribedFunction): Given =>
  f.arguments.map(({ shape }, k) => {
    const given = f.examples[0]!.arguments[k];
    if (given === undefined) return null;
    const grid = exampleGrid(given);
    return shape === 'column' ? [[grid[0]![0]!]] : grid;
  });

const manyRows = (f: DescribedFunction, one: Given): Given =>
  one.map((grid, k) => {
    if (!grid || f.arguments[k]!.shape !== 'column') return grid;
    const cell: Cell = grid[0]![0]!;
    return Array.from({ length: ROWS }, () => [cell]);
  });

export async function measurements(): Promise<Measurement[]> {
  const found: Measurement[] = [];
  for (const family of FAMILIES) {
    for (const f of described) {
      if (f.family !== family || f.calculates !== 'eachRow') continue;
      await prepared(f);
      const one = oneRow(f);
      const many = manyRows(f, one);
      const measurement = compare(
        `${family}: ${f.name}, a call for each of ${ROWS} rows`,
        () => {
          for (let row = 0; row < ROWS; row++) evaluate(f, one);
        },
        '',
        () => evaluate(f, many),
        undefined,
        3,
      );
      const perSecond = Math.round(ROWS / measurement.baseMilliseconds);
      found.push({ ...measurement, against: `one call, ${perSecond} thousand rows a second` });
    }
  }
  return found;
}
