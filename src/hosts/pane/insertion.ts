import { NUMBER_FORMATS, type Grid } from '../../worksheet/cells/cell';
import { formatOfKind } from '../../worksheet/cells/shown';
import type { WorksheetFunction } from '../../worksheet/define';
import { placeOf, rangeOf } from '../xlsx/address';
import type { Written } from './book';
import { kindAt } from './guide';

/** A block of cells for a sheet, from its first cell on. */
export type Insertion = readonly (readonly Written[])[];

const words = (text: string): Written => ({ constant: text });
const NOTHING: Written = { constant: null };

/** A call with its arguments' names as text to overwrite: `=PINSET.MIXWATER("masses","moistures","target")`. */
export function emptyCall(f: WorksheetFunction): Insertion {
  const needed = f.arguments.filter((argument) => argument.shape === 'range' || argument.role !== 'optional');
  return [[{ formula: `=PINSET.${f.name}(${needed.map(({ name }) => `"${name}"`).join(',')})` }]];
}

/**
 * An example laid out in cells from `address` on: the name of each argument above its cells, then the call that
 * refers to them, last, where its answer has room to spill.
 */
export function exampleBlock(f: WorksheetFunction, given: readonly Grid[], address: string): Insertion {
  const start = placeOf(address) ?? { row: 0, column: 0 };
  const rows: Written[][] = [[words(`Pinset example: ${f.name}`)]];
  const references = given.map((grid, at) => {
    const argument = f.arguments[at]!;
    rows.push([words(argument.name)]);
    const top = start.row + rows.length;
    grid.forEach((cells, r) =>
      rows.push(
        cells.map((cell, c): Written => {
          const kind = kindAt(argument, grid, r, c);
          const format = kind ? formatOfKind(kind) : 'plain';
          return { constant: cell, ...(format === 'plain' ? {} : { numberFormat: NUMBER_FORMATS[format] }) };
        }),
      ),
    );
    return rangeOf({
      top,
      left: start.column,
      bottom: top + grid.length - 1,
      right: start.column + grid[0]!.length - 1,
    });
  });
  rows.push([words('gives')], [{ formula: `=PINSET.${f.name}(${references.join(',')})` }]);
  const width = Math.max(...rows.map((row) => row.length));
  return rows.map((row) => [...row, ...new Array<Written>(width - row.length).fill(NOTHING)]);
}
