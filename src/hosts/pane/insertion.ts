import { mayBeLeftOut } from '../../worksheet/cells/arguments';
import type { Grid } from '../../worksheet/cells/cell';
import type { Kind } from '../../worksheet/cells/kinds';
import { formatOfKind, shownCell } from '../../worksheet/cells/shown';
import { PREFIX } from '../../worksheet/constants';
import type { DescribedFunction } from '../../worksheet/words';
import { placeOf, rangeOf, type Area } from '../xlsx/address';
import type { ValidatedCells, Written } from '../xlsx/page';
import type { Block } from './book';
import { columnAt, kindAt } from './guide';

const wordsOf = (kind: Kind<unknown> | undefined): readonly string[] | undefined =>
  kind?.choices && Object.keys(kind.choices);
const words = (text: string): Written => ({ value: text });
const call = (f: DescribedFunction, given: readonly string[]): Written => ({
  value: null,
  formula: `=${PREFIX}${f.name}(${given.join(',')})`,
});
const NOTHING: Written = { value: null };

/** A call with its arguments' names as text to overwrite: `=PINSET.MIXWATER("masses","moistures","target")`. */
export function emptyCall(f: DescribedFunction): Block {
  const needed = f.arguments.filter((argument) => !mayBeLeftOut(argument));
  const names = needed.map(({ name }) => `"${name}"`);
  return { cells: [[call(f, names)]], lists: [] };
}

/**
 * An example laid out in cells from `address` on: the name of each argument above its cells, then the call that
 * refers to them, last, where its answer has room to spill. Cells that take a word of a few, or a label of another of
 * its tables, offer them as a list.
 */
export function exampleBlock(f: DescribedFunction, given: readonly Grid[], address: string): Block {
  const start = placeOf(address) ?? { row: 0, column: 0 };
  const rows: Written[][] = [[words(`Pinset example: ${f.name}`)]];
  const areas = given.map((grid, at): Area => {
    const argument = f.arguments[at]!;
    rows.push([words(argument.name)]);
    const top = start.row + rows.length;
    grid.forEach((cells, r) =>
      rows.push(
        cells.map((cell, c): Written => {
          const kind = kindAt(argument, grid, r, c);
          const format = kind ? formatOfKind(kind) : 'plain';
          return { value: cell, ...(format !== 'plain' && { reads: format }) };
        }),
      ),
    );
    return {
      top,
      left: start.column,
      bottom: top + grid.length - 1,
      right: start.column + grid[0]!.length - 1,
    };
  });
  rows.push([words('gives')], [call(f, areas.map(rangeOf))]);
  const width = Math.max(...rows.map((row) => row.length));
  return {
    cells: rows.map((row) => [...row, ...new Array<Written>(width - row.length).fill(NOTHING)]),
    lists: listsOf(columnsIn(f, given, areas)),
  };
}

/** A column of values in an example: what it holds and where it is. */
interface ExampleColumn {
  readonly argument: number;
  readonly name: string;
  readonly isKey: boolean;
  readonly choices: readonly string[] | undefined;
  readonly area: Area;
  readonly labels: readonly string[];
}

function columnsIn(
  f: DescribedFunction,
  given: readonly Grid[],
  areas: readonly Area[],
): readonly ExampleColumn[] {
  return given.flatMap((grid, at) => {
    const argument = f.arguments[at]!;
    const area = areas[at]!;
    const columnOf = (name: string, column: number, headers: number): ExampleColumn => ({
      argument: at,
      name,
      isKey: argument.shape === 'table' && columnAt(argument, grid, column)?.[1].role === 'key',
      choices: wordsOf(kindAt(argument, grid, headers, column)),
      area: { ...area, top: area.top + headers, left: area.left + column, right: area.left + column },
      labels: grid.slice(headers).map((row) => shownCell(row[column]!)),
    });
    if (argument.shape !== 'table') return [columnOf(argument.name, 0, 0)];
    if (grid.length === 1) return [];
    return grid[0]!.flatMap((_, column) => {
      const [name] = columnAt(argument, grid, column) ?? [];
      return name === undefined ? [] : [columnOf(name, column, 1)];
    });
  });
}

/** The lists of columns whose words are given, or whose labels are those of another table, each there once. */
function listsOf(columns: readonly ExampleColumn[]): readonly ValidatedCells[] {
  return columns.flatMap(({ argument, name, isKey, choices, area }): readonly ValidatedCells[] => {
    if (choices) return [{ area, choices }];
    // Of two tables with the same labels the earlier one, say of picks, repeats those of the later one, of lots.
    const source = columns.find(
      (other) =>
        other.isKey &&
        other.name === name &&
        (isKey ? other.argument > argument : other.argument !== argument) &&
        new Set(other.labels).size === other.labels.length,
    );
    return source ? [{ area, choices: rangeOf(source.area) }] : [];
  });
}
