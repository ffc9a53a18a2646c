import { beforeAll, describe, expect, test } from '@jest/globals';
import { blankPlaces, type BlankPlace } from '../../src/worksheet/cells/blanks';
import { isCellError, plainValues, type Block, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { described } from '../../src/worksheet/described';
import type { DescribedFunction } from '../../src/worksheet/words';
import { callOf, errorsOf, givenOf, nameOf, names, replaced, wordsOf, type Given } from './places';
import { evaluate, prepared } from './prepared';

// What a blank or a 0 does, for every place of every function: the declaration says it, the answer has to show it.
// Each test starts from a call that works, puts a blank into one place and looks at the answer.

const BLANKS: readonly Cell[] = [null, 0, ''];
/** So little that an answer is that of 0. */
const LITTLE = 1e-13;
const MOST_ROWS = 4;

const same = (one: Block, other: Block): boolean => JSON.stringify(one) === JSON.stringify(other);

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

  test('says that 0 may be written as such wherever a blank counts as 0', () => {
    const places = blankPlaces(f).filter(({ effect }) => effect === 'zero');
    expect(places.filter(({ zero }) => zero !== '0')).toEqual([]);
  });

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
