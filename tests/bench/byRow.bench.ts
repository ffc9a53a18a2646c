import { catalogue } from '../../src/worksheet/catalogue';
import type { Cell, Grid } from '../../src/worksheet/cells/cell';
import { FAMILIES, type WorksheetFunction } from '../../src/worksheet/define';
import { exampleGrid } from '../../src/worksheet/examples';
import { compare, type Measurement } from './measure';

// Each family's functions with an answer beside each row: one call for a column of 20,000 rows, the function's own
// example over and over, and how much longer a call for each of the rows takes.

const ROWS = 20_000;

type Given = (Grid | null)[];

/** The call of an example with one row only. */
const oneRow = (f: WorksheetFunction): Given =>
  f.arguments.map(({ shape }, k) => {
    const given = f.examples[0]!.arguments[k];
    if (given === undefined) return null;
    const grid = exampleGrid(given);
    return shape === 'column' ? [[grid[0]![0]!]] : grid;
  });

const manyRows = (f: WorksheetFunction, one: Given): Given =>
  one.map((grid, k) => {
    if (!grid || f.arguments[k]!.shape !== 'column') return grid;
    const cell: Cell = grid[0]![0]!;
    return Array.from({ length: ROWS }, () => [cell]);
  });

export async function measurements(): Promise<Measurement[]> {
  const found: Measurement[] = [];
  for (const family of FAMILIES) {
    for (const f of catalogue) {
      if (f.family !== family || !f.besideRows || !('eachRow' in f)) continue;
      await f.prepare?.();
      const one = oneRow(f);
      const many = manyRows(f, one);
      const measurement = compare(
        `${family}: ${f.name}, a call for each of ${ROWS} rows`,
        () => {
          for (let row = 0; row < ROWS; row++) f.evaluate(one);
        },
        '',
        () => f.evaluate(many),
        undefined,
        3,
      );
      const perSecond = Math.round(ROWS / measurement.baseMilliseconds);
      found.push({ ...measurement, against: `one call, ${perSecond} thousand rows a second` });
    }
  }
  return found;
}
