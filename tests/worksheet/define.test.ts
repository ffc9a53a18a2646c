import { describe, expect, test } from '@jest/globals';
import { CalcError, missing } from '../../src/maths/shared/calcError';
import {
  column,
  keyColumn,
  optionalColumn,
  optionalSetting,
  optionalTable,
  range,
  setting,
  table,
} from '../../src/worksheet/cells/arguments';
import {
  type Cell,
  type Grid,
  type CellError,
  cellError,
  isCellError,
  formatted,
} from '../../src/worksheet/cells/cell';
import { choice, count, fraction, mass, number, serial, text } from '../../src/worksheet/cells/kinds';
import { key, numbered, optional, others } from '../../src/worksheet/cells/table';
import { defineFunction, freeTable, resultColumn, row, tableResult, value } from '../../src/worksheet/define';
import { plainValues } from '../../src/worksheet/examples';

const words = {
  family: 'harvest',
  summary: 'A function of this test only',
  sources: ['none: a test'],
  examples: [],
  faults: [],
} as const;

const ratio = defineFunction({
  ...words,
  name: 'RATIO',
  arguments: [
    keyColumn('top', mass(), 'what is divided'),
    column('base', number(), 'what divides'),
    optionalColumn('times', number(), 1, 'a factor'),
  ],
  result: value('ratio'),
  eachRow: (top, base, times) => {
    if (base === 0) throw new CalcError('zeroBase', 'base: something to divide by needed, got 0');
    return (top / base) * times;
  },
});

const columnOf = (...cells: Cell[]): Grid => cells.map((cell) => [cell]);
const reasons = (given: (Grid | null)[], f = ratio): string[] =>
  plainValues(f.evaluate(given)).map(([cell]) => (isCellError(cell) ? cell.reason : String(cell)));

describe('a function for each row', () => {
  test('gives one value for single cells and a column for columns, repeating single cells', () => {
    expect(ratio.evaluate([[[6]], [[3]]]).rows).toEqual([[2]]);
    expect(ratio.evaluate([columnOf(6, 9), [[3]], [[10]]]).rows).toEqual([[20], [30]]);
    expect(ratio.evaluate([[[6]], columnOf(3, 2)]).rows).toEqual([[2], [3]]);
  });

  test('gives a row for cells that lie side by side', () => {
    expect(ratio.evaluate([[[6, 9, 12]], [[3]]])).toEqual({
      rows: [[2, 3, 4]],
      formats: ['plain', 'plain', 'plain'],
    });
  });

  test('leaves a row blank where the key is blank or 0, whatever else stands there', () => {
    expect(ratio.evaluate([columnOf(6, null, 0, '', ' ', 9), columnOf(3, 3, 'x', 3, 3, 3)]).rows).toEqual(
      columnOf(2, '', '', '', '', 3),
    );
  });

  test('keeps a fault in its own row and says where it is', () => {
    expect(reasons([columnOf(6, '6', 9, 8), columnOf(3, 3, 0, 4)])).toEqual([
      '2',
      'top: a mass above 0 needed, got "6" – it is text that looks like a number: retype it as a number (row 2)',
      'base: something to divide by needed, got 0 (row 3)',
      '2',
    ]);
  });

  test('maps each kind of fault to its code', () => {
    const codes = (['invalid', 'missing', 'zeroBase', 'noConvergence'] as const).map((kind) => {
      const f = defineFunction({
        ...words,
        name: 'FAULTY',
        arguments: [setting('x', number(), 'anything')],
        result: value('nothing'),
        eachRow: () => new CalcError(kind, 'x: no'),
      });
      return (f.evaluate([[[1]]]).rows[0]![0] as CellError).code;
    });
    expect(codes).toEqual(['#VALUE!', '#N/A', '#DIV/0!', '#NUM!']);
  });

  test('passes an error cell through as itself and lets no infinite number out', () => {
    const ref = cellError('#REF!');
    expect(ratio.evaluate([columnOf(6, ref), [[3]]]).rows).toEqual([[2], [ref]]);
    expect(reasons([[[1e308]], [[1e-300]]])).toEqual([
      'the numbers given are too large or too small to calculate with',
    ]);
  });

  test('refuses columns of different lengths and blocks', () => {
    expect(reasons([columnOf(1, 2, 3), columnOf(1, 2)])).toEqual([
      'base: as many rows as top (3) or one cell needed, got 2',
    ]);
    expect(reasons([[[1, 2], [3, 4]], [[1]]])).toEqual(['top: one column needed, got 2 rows by 2 columns']); // prettier-ignore
  });

  test('does not hide a defect of the maths behind an error cell', () => {
    const broken = defineFunction({
      ...words,
      name: 'BROKEN',
      arguments: [setting('x', number(), 'anything')],
      result: value('nothing'),
      eachRow: () => {
        throw new TypeError('a defect');
      },
    });
    expect(() => broken.evaluate([[[1]]])).toThrow('a defect');
  });

  test('gives several columns with their formats, a fault in one leaving the others', () => {
    const pair = defineFunction({
      ...words,
      name: 'PAIR',
      arguments: [keyColumn('day', serial(), 'a date')],
      result: row(resultColumn('next', 'date'), resultColumn('share', 'percent')),
      eachRow: (day) => [day + 1, missing('day', 'nothing known')],
    });
    expect(pair.evaluate([columnOf(46000, null)])).toEqual({
      rows: [
        [46001, cellError('#N/A', 'day: nothing known')],
        ['', ''],
      ],
      formats: ['date', 'percent'],
    });
  });
});

describe('a function for whole columns', () => {
  const running = defineFunction({
    ...words,
    name: 'RUNNING',
    arguments: [keyColumn('mass', mass(), 'a mass'), optionalColumn('times', number(), 1, 'a factor')],
    result: value('running total'),
    beside: (masses, times) => {
      let sum = 0;
      return masses.map((one, i) => {
        if (one > 1000) throw new CalcError('invalid', 'mass: too much', { argument: 'mass', index: i });
        return (sum += one * times[i]!);
      });
    },
  });

  test('sets each answer beside its row, blank rows left out of the columns', () => {
    expect(running.evaluate([columnOf(1, null, 2, '', 3)]).rows).toEqual(columnOf(1, '', 3, '', 6));
  });

  test('names the row of the sheet, not the place in the array', () => {
    expect(reasons([columnOf(1, null, 2000)], running)).toEqual(['mass: too much (row 3)']);
    expect(reasons([columnOf(1, null, 'x')], running)).toEqual([
      'mass: a mass above 0 needed, got "x" (row 3)',
    ]);
  });

  test('tells the calculation the rows and the date system', () => {
    const about = defineFunction({
      ...words,
      name: 'ABOUT',
      arguments: [keyColumn('mass', mass(), 'a mass')],
      result: value('what it knows'),
      whole: (_masses, { rowNumbers, dateSystem }) => `${rowNumbers.join(' ')} in ${dateSystem}`,
    });
    expect(about.evaluate([columnOf(1, null, 2)], 1904).rows).toEqual([['1 3 in 1904']]);
  });
});

describe('tables, ranges and settings', () => {
  const lots = table(
    'lots',
    {
      lot: key(text()),
      'block mass': mass(),
      grade: optional(choice(['first', 'second']), 'first'),
      flush: numbered(fraction()),
    },
    'a table of lots',
  );
  const list = defineFunction({
    ...words,
    name: 'LISTING',
    arguments: [lots],
    result: tableResult(
      resultColumn('lot'),
      resultColumn('mass'),
      resultColumn('grade'),
      resultColumn('flushes'),
    ),
    whole: (read) =>
      read.rows.map((one) => [
        one.lot,
        one['block mass'],
        one.grade,
        one.flush.map((part) => part ?? '-').join(' '),
      ]),
  });

  test('finds columns by header whatever their order, case, spaces, hyphens, % and brackets', () => {
    const grid: Grid = [
      ['Flush-2', 'BLOCK_MASS (kg)', 'note', 'Lot', 'flush 10', 'Flush 1 %'],
      [0.3, 2.5, 'x', 'A', 0.1, 0.6],
      [null, null, null, null, null, null],
      [0.4, 3, null, 7, '', 0.6],
    ];
    expect(list.evaluate([grid]).rows).toEqual([
      ['lot', 'mass', 'grade', 'flushes'],
      ['A', 2.5, 'first', '0.6 0.3 0.1'],
      ['7', 3, 'first', '0.6 0.4 -'],
    ]);
  });

  test('leaves out a totals row, which would count twice', () => {
    const rows = ['A', 'Total', 'subtotal', ' GRAND TOTAL: ', 'Sum', 'Totals', 'Total Farm', 'Summer'];
    const grid: Grid = [['lot', 'block mass', 'flush 1'], ...rows.map((lot) => [lot, 1, 0.5])];
    expect(list.evaluate([grid]).rows.map(([lot]) => lot)).toEqual(['lot', 'A', 'Total Farm', 'Summer']);
  });

  test.each<[string, Grid, string]>([
    ['a missing header', [['lot', 'mass'], ['A', 1]], 'lots: a column headed block mass needed, found lot, mass'], // prettier-ignore
    ['a header twice', [['lot', 'block mass', 'Block-Mass'], ['A', 1, 2]], 'lots: one column headed block mass needed, got 2'], // prettier-ignore
    ['a bad cell', [['lot', 'block mass'], ['A', 1], ['B', 'two']], 'lots, block mass: a mass above 0 needed, got "two" (row 3)'], // prettier-ignore
  ])('names %s', (_what, grid, message) => {
    expect(reasons([grid], list)).toEqual([message]);
  });

  const lookup = defineFunction({
    ...words,
    name: 'LOOKUP',
    arguments: [keyColumn('lot', text(), 'a lot'), lots],
    result: value('mass'),
    eachRow: (lot, read) => read.find(lot, 'lot')['block mass'],
  });

  test('looks rows up by key; a bad row of the table spoils only the rows that need it', () => {
    const grid: Grid = [['lot', 'block mass'], ['A', 1], ['B', 'two'], ['C', 3], ['c ', 4]]; // prettier-ignore
    expect(reasons([columnOf('a', 'B', 'C', 'D'), grid], lookup)).toEqual([
      '1',
      'lots, block mass: a mass above 0 needed, got "two" (row 3)',
      'lot: one row for "C" needed in lots, got 2 (rows 4, 5) (row 3)',
      'lot: "D" is not in lots (row 4)',
    ]);
  });

  test('reads every other column by its header, in columns and rows that the data decide', () => {
    const programme = defineFunction({
      ...words,
      name: 'PROGRAMME',
      arguments: [table('programme', { day: number(), rest: others(number()) }, 'a programme')],
      result: freeTable(),
      whole: (read) => ({
        columns: [
          resultColumn('day'),
          ...[...read.rows[0]!.rest.keys()].map((header) => resultColumn(header)),
        ],
        rows: read.rows.map((one) => [one.day, ...[...one.rest.values()].map((set) => set ?? '')]),
      }),
    });
    const grid: Grid = [['day', 'Humidity', '°C'], [0, 0.95, 14], [7, 0.85, null]]; // prettier-ignore
    expect(programme.evaluate([grid]).rows).toEqual([
      ['day', 'Humidity', '°C'],
      [0, 0.95, 14],
      [7, 0.85, ''],
    ]);
  });

  const settings = defineFunction({
    ...words,
    name: 'SETTINGS',
    arguments: [
      range('values', number(), 'numbers'),
      setting('blocks', count(), 'a count'),
      optionalSetting('point', choice(['best', 'latest']), 'best', 'a point'),
      optionalTable('extra', { lot: key(text()) }, 'a table'),
    ],
    result: value('what was read'),
    whole: (values, blocks, point, extra) =>
      `${values.join('+')} ${blocks} ${point} ${extra?.rows.length ?? 'none'}`,
  });

  test('reads a range without its blanks, and gives settings and tables left out their defaults', () => {
    expect(reasons([[[1, null], [2, '']], [[5]]], settings)).toEqual(['1+2 5 best none']); // prettier-ignore
    expect(reasons([[[1]], [[5]], [[' LATEST ']], [['lot'], ['A']]], settings)).toEqual(['1 5 latest 1']);
    expect(reasons([[[1]], [[5]], [['']], [[null]]], settings)).toEqual(['1 5 best none']);
  });

  test.each<[(Grid | null)[], string]>([
    [[[['x']], [[5]]], 'values: a number needed, got "x"'],
    [[[[1], ['x']], [[5]]], 'values: a number needed, got "x" (row 2)'], // prettier-ignore
    [[[[1]], [[5], [6]]], 'blocks: one cell needed, got 2 rows by 1 columns'], // prettier-ignore
    [[[[1]], null], 'blocks: needed but left out – a count'],
    [[[[1]], [[1.5]]], 'blocks: a whole number of 1 or more needed, got 1.5'],
    [[[[1]], [[5]], [['worst']]], 'point: one of best, latest needed, got "worst"'],
  ])('refuses %p', (given, message) => {
    expect(reasons(given, settings)).toEqual([message]);
  });

  test('carries a format of its own for a number that differs from its column', () => {
    const mixed = defineFunction({
      ...words,
      name: 'MIXED',
      arguments: [setting('day', serial(), 'a date')],
      result: tableResult(resultColumn('what'), resultColumn('value')),
      whole: (day) => [
        ['day', formatted(day, 'date')],
        ['share', formatted(NaN, 'percent')],
      ],
    });
    expect(mixed.evaluate([[[46000]]]).rows.slice(1)).toEqual([
      ['day', formatted(46000, 'date')],
      ['share', cellError('#NUM!', 'the numbers given are too large or too small to calculate with')],
    ]);
  });
});
