import { beforeAll, describe, expect, test } from '@jest/globals';
import { LEAST_LOADED_DATE } from '../../src/maths/shared/loadedBlocks';
import { LAST_SERIAL } from '../../src/maths/shared/serial';
import {
  cellOf,
  type Block,
  type Cell,
  type Format,
  type Grid,
  isCellError,
} from '../../src/worksheet/cells/cell';
import { headerKey } from '../../src/worksheet/cells/headerWords';
import { described } from '../../src/worksheet/described';
import type { Argument } from '../../src/worksheet/cells/arguments';
import type { Kind } from '../../src/worksheet/cells/kinds';
import type { DescribedFunction } from '../../src/worksheet/words';
import { exampleGrid } from '../../src/worksheet/examples';
import { evaluate, prepared } from './prepared';
import { broken } from './promises';

// A workbook counts its days from 1900 or from 1904: the same day is 1462 apart (ISO/IEC 29500-1, 18.17.4, from
// memory, unverified).

const APART = 1462;

const isOfDates = ({ word }: Kind<unknown>): boolean => word === 'date';

/** A grid with its dates, and nothing else, changed. */
function withDates(argument: Argument, grid: Grid, change: (serial: number) => Cell): Grid {
  // A lot's `loaded` may also be a number of blocks.
  const changed = (cell: Cell): Cell =>
    typeof cell === 'number' && cell >= LEAST_LOADED_DATE ? change(cell) : cell;
  if (argument.shape !== 'table') {
    return isOfDates(argument.kind) ? grid.map((row) => row.map(changed)) : grid;
  }
  const dated = new Set(
    Object.entries(argument.columns).flatMap(([name, { kind }]) =>
      isOfDates(kind) || (name === 'loaded' && kind.limits) ? [headerKey(name)] : [],
    ),
  );
  const headers = grid[0]!.map((header) => headerKey((header ?? '') as string));
  return grid.map((row, r) =>
    r === 0 ? row : row.map((cell, c) => (dated.has(headers[c]!) ? changed(cell) : cell)),
  );
}

const changedCall = (
  f: DescribedFunction,
  given: readonly Grid[],
  change: (serial: number) => Cell,
): Grid[] => given.map((grid, k) => withDates(f.arguments[k]!, grid, change));

const takesDates = (f: DescribedFunction): boolean => {
  const given = f.examples.map((example) => example.arguments.map(exampleGrid));
  return given.some((call) => JSON.stringify(changedCall(f, call, () => -1)) !== JSON.stringify(call));
};

/** A block as rows of value and format. */
const read = (block: Block): (readonly [Cell, Format])[][] =>
  block.rows.map((row, r) => row.map((_, c) => cellOf(block, r, c)));

const isDate = (value: Cell, format: Format): value is number =>
  typeof value === 'number' && (format === 'date' || format === 'dateTime');

/** As a workbook of the other system holds it: dates moved, also those that a reason repeats as they were given. */
const moved = (cells: readonly (readonly [Cell, Format])[][]): unknown[][] =>
  cells.map((row) =>
    row.map(([value, format]) => {
      if (isCellError(value)) {
        const repeated = (digits: string): string => String(Number(digits) - APART);
        return [{ ...value, reason: value.reason.replace(/\b4\d{4}\b/g, repeated) }, format];
      }
      return [isDate(value, format) ? value - APART : value, format];
    }),
  );

const dated = described.filter(takesDates).map((f) => [f.name, f] as const);

test('functions that take dates are found', () => {
  expect(dated.map(([name]) => name)).toEqual(
    expect.arrayContaining(['READYDATE', 'PICKCALENDAR', 'INOCULATEBY', 'READYFROMLOG']),
  );
});

describe.each(dated)('%s', (_name, f) => {
  beforeAll(() => prepared(f));
  const examples = f.examples.map((example) => example.arguments.map(exampleGrid));
  const faults = f.faults.map((fault) => fault.arguments.map(exampleGrid));
  const withAll = (serial: number): Grid[][] =>
    examples
      .map((given) => changedCall(f, given, () => serial))
      .filter((given, at) => JSON.stringify(given) !== JSON.stringify(examples[at]));

  test('gives the same days and the same words in a workbook that counts from 1904', () => {
    for (const given of [...examples, ...faults]) {
      const late = changedCall(f, given, (serial) => serial - APART);
      expect(read(evaluate(f, late, 1904))).toEqual(moved(read(evaluate(f, given, 1900))));
    }
  });

  test.each([-1, -0.25, LAST_SERIAL + 1, 1e9, 1e300])('refuses %d as a date', (serial) => {
    for (const given of withAll(serial)) {
      const reasons = evaluate(f, given).rows.flatMap((row) =>
        row.flatMap((cell) => (isCellError(cell) ? [cell.reason] : [])),
      );
      expect(reasons).toContainEqual(expect.stringMatching(/must be a date\b.*; it is /));
    }
  });

  // 60 is a day that never was, 29 February 1900; below it the weekdays of the 1900 system are a day off.
  test.each([0.5, 1, 59, 60, 60.5, 61, 1462.25, LAST_SERIAL, LAST_SERIAL + 0.999])(
    'with every date %d keeps its promises and gives no date beyond those a sheet shows',
    (serial) => {
      for (const given of withAll(serial)) {
        for (const system of [1900, 1904] as const) {
          const block = evaluate(f, given, system);
          expect(broken(block)).toBeUndefined();
          const dates = read(block)
            .flat()
            .flatMap(([value, format]) => (isDate(value, format) ? [value] : []));
          expect(dates.filter((date) => !(date >= 0 && date < LAST_SERIAL + 1))).toEqual([]);
        }
      }
    },
  );
});
