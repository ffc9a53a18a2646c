import { blankPlaces, type BlankPlace } from '../../src/worksheet/cells/blanks';
import {
  cellError,
  isCellError,
  type Block,
  type Cell,
  type CellError,
  type Grid,
} from '../../src/worksheet/cells/cell';
import { tableHead } from '../../src/worksheet/cells/headers';
import { exampleGrid } from '../../src/worksheet/examples';
import type { DescribedFunction } from '../../src/worksheet/words';

// Calls that work, with one place whose cells can be set: for tests of what each place of each function takes.

export type Given = readonly (Grid | null)[];

/** A call with one place whose cells can be set. */
export interface Call {
  readonly given: Given;
  /** Rows of the grid that hold the place, as messages count them from 0. */
  readonly rows: readonly number[];
  /** The call with other cells in these rows. */
  readonly with: (cell: Cell, rows?: readonly number[]) => Given;
  /** The call with an error in every cell of a row: none of them is read where that changes nothing. */
  readonly spoiled: (row: number) => Given;
  /** Whether a row has figures besides the place. */
  readonly hasMore: (row: number) => boolean;
  /** Whether a blank there leaves a needed row of an answer beside each row with nothing in it. */
  readonly isEmptyWithout: (row: number) => boolean;
  /** The call with a row blank throughout. */
  readonly emptied: (row: number) => Given;
  /** The call without the place; undefined where it cannot be left out. */
  readonly without: Given | undefined;
}

/** Nothing takes this but what judges the records themselves: a place it does not matter in is not read. */
const REF = cellError('#REF!');

export const replaced = (given: Given, position: number, grid: Grid | null): Given =>
  Array.from({ length: Math.max(given.length, position + 1) }, (_, k) =>
    k === position ? grid : (given[k] ?? null),
  );

/** Cells of a grid with those at some rows of a column changed. */
const put = (grid: Grid, column: number, rows: readonly number[], cell: Cell): Grid =>
  grid.map((cells, r) => (rows.includes(r) ? cells.map((old, c) => (c === column ? cell : old)) : cells));

const isFilled = (cell: Cell | undefined): boolean =>
  cell !== null && cell !== undefined && cell !== '' && cell !== 0;

/** Whether an example gives an argument: it may stand in it as one blank cell. */
const isGiven = (grid: Grid | null | undefined): boolean =>
  grid?.some((cells) => cells.some(isFilled)) === true;

export const givenOf = ({ examples }: DescribedFunction): Given[] =>
  examples.map((example) => example.arguments.map(exampleGrid));

const sampleOf = ({ kind }: BlankPlace): Cell => kind.samples.find(isFilled) ?? 1;

/** A table of one row with every column filled in, for an optional table that no example gives. */
function inventedTable(f: DescribedFunction, { position, argument }: BlankPlace): Grid {
  const columns = blankPlaces(f).filter(
    (place) => place.argument === argument && place.position === position,
  );
  const headed = columns.map((place) => ({
    header:
      place.role === 'numbered' ? `${place.column!} 1` : place.role === 'others' ? 'another' : place.column!,
    place,
  }));
  return [headed.map(({ header }) => header), headed.map(({ place }) => sampleOf(place))];
}

function inTable(f: DescribedFunction, place: BlankPlace, given: Given): Call | undefined {
  const { position, column } = place;
  const grid = given[position];
  const argument = f.arguments[position]!;
  if (!grid || !isGiven(grid) || argument.shape !== 'table') return undefined;
  const head = tableHead(argument.name, argument.columns, grid);
  const at = head.located.find(({ property }) => property === column)!.at[0];
  if (at === undefined) return undefined;
  const rows = grid.flatMap((cells, r) => (r > head.row && isFilled(cells[at]) ? [r] : []));
  return {
    given,
    rows,
    with: (cell, some = rows) => replaced(given, position, put(grid, at, some, cell)),
    spoiled: (row) => replaced(given, position, put(grid, at, [row], REF)),
    hasMore: (row) => grid[row]!.some((cell, c) => c !== at && isFilled(cell)),
    isEmptyWithout: () => false,
    emptied: (row) =>
      replaced(
        given,
        position,
        grid.map((cells, r) => (r === row ? cells.map(() => null) : cells)),
      ),
    without:
      place.role === 'key' || place.role === 'required'
        ? undefined
        : replaced(
            given,
            position,
            grid.map((cells) => cells.filter((_, c) => c !== at)),
          ),
  };
}

/** The call of an example with a column that no example has. */
function withColumn(f: DescribedFunction, place: BlankPlace, given: Given): Call | undefined {
  const { position, column, role } = place;
  const argument = f.arguments[position]!;
  if (argument.shape !== 'table') return undefined;
  const grid = isGiven(given[position]) ? given[position]! : inventedTable(f, place);
  const head = tableHead(argument.name, argument.columns, grid);
  const header = role === 'numbered' ? `${column!} 1` : column!;
  const wider = grid.map((cells, r) => [
    ...cells,
    r === head.row ? header : r < head.row ? null : sampleOf(place),
  ]);
  const isThere = head.located.find(({ property }) => property === column)!.at.length > 0;
  return inTable(f, place, replaced(given, position, isThere ? grid : wider));
}

function inArgument(f: DescribedFunction, place: BlankPlace, given: Given): Call {
  const { position, role } = place;
  const argument = f.arguments[position]!;
  const lengths = f.arguments.map(({ shape }, k) => (shape === 'column' ? (given[k]?.length ?? 0) : 0));
  const height = Math.max(...lengths, 1);
  const one = isGiven(given[position]) ? given[position]! : [[sampleOf(place)]];
  const isColumn = argument.shape === 'column' && role === 'optional' && one.length === 1;
  const grid = isColumn ? Array.from({ length: Math.max(2, height) }, () => one[0]!) : one;
  const whole = replaced(given, position, grid);
  const hasMore = (row: number, needed = false): boolean =>
    longColumns.some(
      (k) =>
        k !== position && isFilled(whole[k]![row]![0]) && !(needed && f.arguments[k]!.role === 'optional'),
    );
  const rows = grid.flatMap(([cell], r) => (isFilled(cell) ? [r] : []));
  const longColumns = f.arguments.flatMap(({ shape }, k) =>
    shape === 'column' && (whole[k]?.length ?? 0) > 1 ? [k] : [],
  );
  return {
    given: whole,
    rows,
    with: (cell, some = rows) => replaced(whole, position, put(grid, 0, some, cell)),
    spoiled: (row) => replaced(whole, position, put(grid, 0, [row], REF)),
    hasMore,
    isEmptyWithout: (row) =>
      f.calculates === 'eachRow' && role !== 'optional' && grid.length > 1 && !hasMore(row, true),
    emptied: (row) =>
      whole.map((cells, k) =>
        k === position || longColumns.includes(k) ? put(cells!, 0, [row], null) : cells,
      ),
    without: role === 'optional' ? replaced(whole, position, null) : undefined,
  };
}

/** The first call that gives the place: an example, or one to which it is added. */
export function callOf(f: DescribedFunction, place: BlankPlace): Call {
  const calls = givenOf(f);
  if (place.column === undefined) {
    return inArgument(f, place, calls.find((given) => isGiven(given[place.position])) ?? calls[0]!);
  }
  for (const given of calls) {
    const call = inTable(f, place, given);
    if (call) return call;
  }
  return withColumn(f, place, calls[0]!)!;
}

export const nameOf = ({ argument, column }: BlankPlace): string =>
  column === undefined ? argument : `${argument}, ${column}`;

export const errorsOf = (block: Block): CellError[] => block.rows.flat().filter(isCellError);

/** Whether a place that is told is meant: columns that no declaration names are told by their own headers. */
function isToldOf(place: BlankPlace, argument: string): boolean {
  if (place.role === 'others' && argument.includes(', ')) return true;
  if (place.role === 'numbered' && argument.startsWith(`${nameOf(place)} `)) return true;
  return [place.argument, nameOf(place)].includes(argument);
}

/** Whether an error of the answer, or a line of words in it, names the place, and its row where it names one. */
export const names = (block: Block, place: BlankPlace, row: number): boolean =>
  wordsOf(block).some(
    (words) =>
      words.includes(`${place.column} in ${place.argument} must be`) && words.includes(`(row ${row} of`),
  ) ||
  errorsOf(block).some(
    ({ place: told }) =>
      told !== undefined && isToldOf(place, told.argument) && (told.row === undefined || told.row === row),
  );

export const wordsOf = (block: Block): string[] =>
  block.rows
    .flat()
    .map((cell) => (isCellError(cell) ? cell.reason : cell))
    .filter((cell): cell is string => typeof cell === 'string' && cell !== '');
