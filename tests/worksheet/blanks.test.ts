import { beforeAll, describe, expect, test } from '@jest/globals';
import { blankPlaces, type BlankPlace } from '../../src/worksheet/cells/blanks';
import {
  cellError,
  isCellError,
  plainValues,
  type Block,
  type Cell,
  type CellError,
  type Grid,
} from '../../src/worksheet/cells/cell';
import { tableHead } from '../../src/worksheet/cells/headers';
import { described } from '../../src/worksheet/described';
import { exampleGrid } from '../../src/worksheet/examples';
import type { DescribedFunction } from '../../src/worksheet/words';
import { evaluate, prepared } from './prepared';

// What a blank or a 0 does, for every place of every function: the declaration says it, the answer has to show it.
// Each test starts from a call that works, puts a blank into one place and looks at the answer.

type Given = readonly (Grid | null)[];

/** A call with one place whose cells can be set. */
interface Call {
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

const BLANKS: readonly Cell[] = [null, 0, ''];
/** Nothing takes this but what judges the records themselves: a place it does not matter in is not read. */
const REF = cellError('#REF!');
/** So little that an answer is that of 0. */
const LITTLE = 1e-13;
const MOST_ROWS = 4;

const replaced = (given: Given, position: number, grid: Grid | null): Given =>
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

const givenOf = ({ examples }: DescribedFunction): Given[] =>
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
function callOf(f: DescribedFunction, place: BlankPlace): Call {
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

const same = (one: Block, other: Block): boolean => JSON.stringify(one) === JSON.stringify(other);

const nameOf = ({ argument, column }: BlankPlace): string =>
  column === undefined ? argument : `${argument}, ${column}`;

const errorsOf = (block: Block): CellError[] => block.rows.flat().filter(isCellError);

/** Columns that no declaration names are told by their own headers. */
const othersOf = (argument: string): string[] => (argument.includes(', ') ? [argument] : []);

/** Whether an error of the answer, or a line of words in it, names the place, and its row where it names one. */
const names = (block: Block, place: BlankPlace, row: number): boolean =>
  wordsOf(block).some(
    (words) =>
      words.includes(`${place.column} in ${place.argument} must be`) && words.includes(`(row ${row} of`),
  ) ||
  errorsOf(block).some(
    ({ place: told }) =>
      told !== undefined &&
      [place.argument, nameOf(place), ...(place.role === 'others' ? othersOf(told.argument) : [])].includes(
        told.argument,
      ) &&
      (told.row === undefined || told.row === row),
  );

const wordsOf = (block: Block): string[] =>
  block.rows
    .flat()
    .map((cell) => (isCellError(cell) ? cell.reason : cell))
    .filter((cell): cell is string => typeof cell === 'string' && cell !== '');

/** Whether an answer says something that another does not. */
function saysMore(block: Block, before: Block): boolean {
  const known = new Set(wordsOf(before));
  return wordsOf(block).some((words) => !known.has(words));
}

/** Whether two answers are the same. */
function isNear(one: Block, other: Block): boolean {
  const [a, b] = [plainValues(one), plainValues(other)];
  const near = (x: unknown, y: unknown): boolean =>
    typeof x === 'number' && typeof y === 'number'
      ? Math.abs(x - y) <= 1e-6 * Math.max(1, Math.abs(x))
      : isCellError(x) && isCellError(y)
        ? x.code === y.code
        : x === y;
  return a.length === b.length && a.every((row, r) => row.every((cell, c) => near(cell, b[r]![c])));
}

/** What is wrong with a place, in words; undefined where its blank does what the declaration says. */
function complaint(f: DescribedFunction, place: BlankPlace): string | undefined {
  const call = callOf(f, place);
  const answer = (given: Given): Block => evaluate(f, given);
  const before = answer(call.given);
  const rows = call.rows.slice(0, MOST_ROWS);
  const all = answer(call.with(null));
  if (BLANKS.some((blank) => !same(answer(call.with(blank)), all)))
    return 'takes blanks of several hosts unlike';

  /** A blank in one row alone: undefined where the row is not read, since an error there changes nothing either. */
  const blanked = (row: number): Block | undefined => {
    const given = answer(call.with(null, [row]));
    return same(given, before) && same(answer(call.spoiled(row)), before) ? undefined : given;
  };
  const read = rows.flatMap((row) => {
    const given = blanked(row);
    return given ? [{ row, given }] : [];
  });
  const wrong = (isRight: (given: Block, row: number) => boolean): string | undefined => {
    const bad = read.find(({ row, given }) => !isRight(given, row));
    return bad && `row ${bad.row + 1}: ${wordsOf(bad.given).join(' / ') || 'says nothing'}`;
  };
  switch (place.effect) {
    case 'refused':
      if (read.length === 0 && !names(all, place, rows[0]! + 1)) return 'is never told';
      return wrong((given, row) =>
        call.isEmptyWithout(row)
          ? given.rows[row]!.every((cell) => cell === '')
          : names(given, place, row + 1),
      );
    case 'zero': {
      // An answer may jump at 0, but not in every row; a row in which 0 is one too many is told of its 0.
      const isTaken = (given: Block, row: number): boolean =>
        names(given, place, row + 1)
          ? !errorsOf(given).some(({ reason }) => reason.includes('blank'))
          : place.kind.accept(LITTLE) === undefined || isNear(given, answer(call.with(LITTLE, [row])));
      return read.some(({ given, row }) => isTaken(given, row)) ? undefined : wrong(isTaken);
    }
    case 'nothing':
      // Left out where it can be; where it must be given, the function itself says what is missing.
      if (call.without) return same(answer(call.without), all) ? undefined : 'is not as if left out';
      return read.some(({ given }) => !same(given, before)) ? undefined : 'changes nothing';
    case 'default':
      return same(answer(call.without!), all) ? undefined : 'is not as if left out';
    case 'blankRow':
      return wrong((given, row) => given.rows[row]!.every((cell) => cell === ''));
    case 'noRow':
      return wrong((given, row) =>
        call.hasMore(row) ? saysMore(given, before) : same(given, answer(call.emptied(row))),
      );
    case 'noCell': {
      const without = (row: number): Given =>
        replaced(
          call.given,
          place.position,
          call.given[place.position]!.filter((_, r) => r !== row),
        );
      return wrong((given, row) => same(given, answer(without(row))));
    }
  }
}

describe.each(described.map((f) => [f.name, f] as const))('%s', (_name, f) => {
  beforeAll(() => prepared(f));

  test('does with a blank or a 0 in each place what its declaration says', () => {
    const complaints = blankPlaces(f).flatMap((place) => {
      const said = complaint(f, place);
      return said === undefined ? [] : [`${nameOf(place)} (${place.role}, ${place.effect}): ${said}`];
    });
    expect(complaints).toEqual([]);
  });

  const refusing = blankPlaces(f).filter(
    ({ argument, column, role, effect }) =>
      column === undefined &&
      role === 'optional' &&
      effect === 'refused' &&
      f.arguments.some(({ name, shape }) => name === argument && shape === 'column'),
  );
  // A formula filled down gives each row its own cell.
  const filledDown = refusing.map(({ argument, position }) => [argument, position] as const);
  if (filledDown.length > 0) {
    test.each(filledDown)(
      'refuses one blank cell given for %s, as a blank inside the column',
      (name, position) => {
        for (const blank of BLANKS) {
          const told = errorsOf(evaluate(f, replaced(givenOf(f)[0]!, position, [[blank]])));
          expect(told.map(({ place }) => place?.argument)).toContain(name);
        }
      },
    );
  }

  const columns = f.arguments.flatMap(({ shape, role }, k) =>
    shape === 'column' && role !== 'optional' ? [k] : [],
  );
  // Where every column takes a blank as 0, a row of blanks is a row of zeros.
  const isAsked = columns.some((k) =>
    blankPlaces(f).some(({ position, effect }) => position === k && effect !== 'zero'),
  );
  if (f.calculates === 'whole' || !isAsked) return;

  test('reads blank beside an empty row', () => {
    const [example] = givenOf(f);
    const longest = Math.max(...columns.map((k) => example![k]!.flat().length));
    const given = f.arguments.map(({ shape }, k): Grid | null => {
      const grid = example![k] ?? null;
      if (shape !== 'column' || !grid) return grid;
      const cells = grid.flat();
      if (!columns.includes(k)) return null;
      if (longest > 1 && cells.length === 1) return grid;
      return [cells[0]!, null, ...(longest > 1 ? cells.slice(1) : cells)].map((cell) => [cell]);
    });
    expect(evaluate(f, given).rows[1]!.filter((cell) => cell !== '')).toEqual([]);
  });
});
