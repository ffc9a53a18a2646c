import { describe, expect, test } from '@jest/globals';
import { invalid, missing, noConvergence, zeroBase } from '../../src/maths/shared/fault';
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
  cellError,
  formatted,
  isCellError,
  plainValues,
  type Cell,
  type CellError,
  type Grid,
} from '../../src/worksheet/cells/cell';
import {
  key,
  numbered,
  optional,
  optionalOr,
  others,
  required,
  type TableColumns,
} from '../../src/worksheet/cells/columns';
import {
  choice,
  count,
  days,
  fraction,
  mass,
  number,
  orNone,
  orZero,
  price,
  serial,
  temperature,
  text,
  type Kind,
} from '../../src/worksheet/cells/kinds';
import {
  amount,
  date,
  label,
  mixed,
  namedIn,
  numberedIn,
  percent,
  row,
  sometimes,
  tableResult,
  value,
  views,
} from '../../src/worksheet/cells/results';
import { defineFunction } from '../../src/worksheet/define';

const words = { family: 'harvest' } as const;

const ratio = defineFunction({
  ...words,
  name: 'RATIO',
  arguments: [
    keyColumn('top', mass(), 'what is divided'),
    column('base', number(), 'what divides'),
    optionalColumn('times', number(), 1, 'a factor'),
  ],
  result: value('ratio', amount()),
  eachRow: (top, base, times) => {
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
      'top must be a mass above 0; it is "6" – it is text that looks like a number: type it again as a number (row 2 of the column)',
      'base must be a number; it is blank or 0 (row 3 of the column)',
      '2',
    ]);
  });

  test('maps each kind of fault to its code', () => {
    const codes = [invalid, missing, zeroBase, noConvergence].map((faultOf) => {
      const f = defineFunction({
        ...words,
        name: 'FAULTY',
        arguments: [setting('x', number(), 'anything')],
        result: value('nothing', amount()),
        eachRow: () => faultOf('x', 'tooFew', { least: 2, things: 'values', found: 1 }),
      });
      return (f.evaluate([[[1]]]).rows[0]![0] as CellError).code;
    });
    expect(codes).toEqual(['#VALUE!', '#N/A', '#DIV/0!', '#NUM!']);
  });

  test('passes an error cell through as itself and lets no infinite number out', () => {
    const ref = cellError('#REF!');
    expect(ratio.evaluate([columnOf(6, ref), [[3]]]).rows).toEqual([
      [2],
      [cellError('#REF!', 'top holds the error #REF! (row 2 of the column)', { argument: 'top', row: 2 })],
    ]);
    expect(reasons([[[1e308]], [[1e-300]]])).toEqual([
      'the numbers given are too large or too small to calculate with',
    ]);
  });

  test('refuses columns of different lengths and blocks', () => {
    expect(reasons([columnOf(1, 2, 3), columnOf(1, 2)])).toEqual([
      'base must have as many rows as top (3) or one cell; it has 2',
    ]);
    expect(reasons([[[1, 2], [3, 4]], [[1]]])).toEqual(['top must be one column; it is 2 rows by 2 columns']); // prettier-ignore
  });

  test('does not hide a defect of the maths behind an error cell', () => {
    const broken = defineFunction({
      ...words,
      name: 'BROKEN',
      arguments: [setting('x', number(), 'anything')],
      result: value('nothing', amount()),
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
      result: row({ next: date(), share: percent() }),
      eachRow: (day) => ({
        next: day + 1,
        share: missing('day', 'blank', { header: 'share', table: 'days' }),
      }),
    });
    expect(pair.evaluate([columnOf(46000, null)])).toEqual({
      rows: [
        [
          46001,
          cellError('#N/A', 'day: "share" in days is blank (row 1 of the column)', {
            argument: 'day',
            row: 1,
          }),
        ],
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
    result: value('running total', amount()),
    beside: (masses, times) => {
      let sum = 0;
      return masses.map((one, i) => {
        if (one > 1000) throw invalid('mass', 'outside', { to: 1000, given: one }, i);
        return (sum += one * times[i]!);
      });
    },
  });

  test('sets each answer beside its row, blank rows left out of the columns', () => {
    expect(running.evaluate([columnOf(1, null, 2, '', 3)]).rows).toEqual(columnOf(1, '', 3, '', 6));
  });

  test('names the row of the sheet, not the place in the array', () => {
    expect(reasons([columnOf(1, null, 2000)], running)).toEqual([
      'mass must be at most 1000; it is 2000 (row 3 of the column)',
    ]);
    expect(reasons([columnOf(1, null, 'x')], running)).toEqual([
      'mass must be a mass above 0; it is "x" (row 3 of the column)',
    ]);
  });

  test('tells the calculation the rows and the date system', () => {
    const about = defineFunction({
      ...words,
      name: 'ABOUT',
      arguments: [keyColumn('mass', mass(), 'a mass')],
      result: value('what it knows', label()),
      whole: (_masses, { rowNumbers, dateSystem }) => `${rowNumbers.join(' ')} in ${dateSystem}`,
    });
    expect(about.evaluate([columnOf(1, null, 2)], { dateSystem: 1904 }).rows).toEqual([['1 3 in 1904']]);
  });
});

describe('blank and 0', () => {
  const taking = (kind: Kind<number>): ((cell: Cell) => unknown) => {
    const f = defineFunction({
      ...words,
      name: 'TAKING',
      arguments: [setting('it', kind, 'a number')],
      result: value('it', amount()),
      eachRow: (given) => given,
    });
    return (cell) => {
      const [[got]] = f.evaluate([[[cell]]]).rows as [[unknown]];
      return isCellError(got) ? got.reason : got;
    };
  };

  test.each<[string, Kind<number>, Cell, unknown]>([
    ['a number refuses both', number(), 0, 'it must be a number; it is blank or 0'],
    ['a mass refuses both', mass(), null, 'it must be a mass above 0; it is blank or 0'],
    ['a temperature says how to write 0', temperature(), 0, 'it must be a temperature; it is blank or 0 – for 0 degrees write 0.01'], // prettier-ignore
    ['where 0 is an everyday entry, both are 0', orZero(number({ from: 0 })), null, 0],
    ['a word says 0', orNone(count()), 'None ', 0],
    ['and a blank is no word', orNone(count()), null, 'it must be a whole number, 1 or more, or the word none; it is blank or 0 – for 0 write none'], // prettier-ignore
    ['a price may be free', price(), 'free', 0],
    ['and is not when it is blank', price(), '', 'it must be a number above 0, or the word free; it is blank or 0 – for 0 write free'], // prettier-ignore
  ])('%s', (_what, kind, cell, wanted) => {
    expect(taking(kind)(cell)).toEqual(wanted);
  });

  test('inside an optional column that is given, a blank is not the default', () => {
    expect(reasons([columnOf(6, 6), [[3]], columnOf(2, null)])).toEqual([
      '4',
      'times must be a number; it is blank or 0 (row 2 of the column)',
    ]);
    // One blank cell, as a formula filled down gives it.
    expect(reasons([columnOf(6), [[3]], [[null]]])).toEqual(['times must be a number; it is blank or 0']);
    expect(reasons([columnOf(6), [[3]]])).toEqual(['2']);
  });

  test('a row without its key that has figures is told: in its own row, or of the whole', () => {
    const rank = defineFunction({
      ...words,
      name: 'RANK',
      arguments: [keyColumn('mass', mass(), 'a mass'), column('times', number(), 'a factor')],
      result: value('sum', amount()),
      beside: (masses) => masses,
    });
    const told = 'mass is blank, but "times" is not: fill it in or clear the row (row 2 of the column)';
    expect(reasons([columnOf(1, null, 3), columnOf(1, 2, 3)], rank)).toEqual(['1', told, '3']);
    const sum = defineFunction({
      ...words,
      name: 'SUMMED',
      arguments: [keyColumn('mass', mass(), 'a mass'), column('times', number(), 'a factor')],
      result: value('sum', amount()),
      whole: (masses) => masses.length,
    });
    expect(reasons([columnOf(1, null, 3), columnOf(1, 2, 3)], sum)).toEqual([told]);
    expect(reasons([columnOf(1, null, 3), columnOf(1, null, 3)], sum)).toEqual(['2']);
  });
});

describe('tables, ranges and settings', () => {
  const lots = table(
    'lots',
    {
      lot: key(text(), 'the lot'),
      'block mass': required(mass(), 'mass of a block'),
      grade: optionalOr(choice({ first: 'the best', second: 'the rest' }), 'first', 'how good'),
      flush: numbered(fraction(), 'share of each flush'),
    },
    'a table of lots',
  );
  const list = defineFunction({
    ...words,
    name: 'LISTING',
    arguments: [lots],
    result: tableResult({ lot: label(), mass: amount(), grade: label(), flushes: label() }),
    whole: (read) =>
      read.rows.map((one) => ({
        lot: one.lot,
        mass: one['block mass'],
        grade: one.grade,
        flushes: one.flush.map((part) => part ?? '-').join(' '),
      })),
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
      ['A', 2.5, 'first', '0.6 0.3 - - - - - - - 0.1'],
      ['7', 3, 'first', '0.6 0.4 - - - - - - - -'],
    ]);
  });

  test('leaves out a totals row, which would count twice', () => {
    const rows = ['A', 'Total', 'subtotal', ' GRAND TOTAL: ', 'Sum', 'Totals', 'Total Farm', 'Summer'];
    const grid: Grid = [['lot', 'block mass', 'flush 1'], ...rows.map((lot) => [lot, 1, 0.5])];
    expect(list.evaluate([grid]).rows.map(([lot]) => lot)).toEqual(['lot', 'A', 'Total Farm', 'Summer']);
  });

  test.each<[string, Grid, string]>([
    ['a missing header', [['lot', 'mass'], ['A', 1]], 'lots needs a column headed block mass; its headers are lot, mass'], // prettier-ignore
    ['a header twice', [['lot', 'block mass', 'Block-Mass'], ['A', 1, 2]], 'lots must have one column for block mass; it has "block mass" and "Block-Mass"'], // prettier-ignore
    ['a bad cell', [['lot', 'block mass'], ['A', 1], ['B', 'two']], 'block mass in lots must be a mass above 0; it is "two" (row 3 of lots)'], // prettier-ignore
  ])('names %s', (_what, grid, message) => {
    expect(reasons([grid], list)).toEqual([message]);
  });

  const lookup = defineFunction({
    ...words,
    name: 'LOOKUP',
    arguments: [keyColumn('lot', text(), 'a lot'), lots],
    result: value('mass', amount()),
    eachRow: (lot, read) => read.find(lot, 'lot')['block mass'],
  });

  test('looks rows up by key; a bad row of the table spoils only the rows that need it', () => {
    const grid: Grid = [['lot', 'block mass'], ['A', 1], ['B', 'two'], ['C', 3], ['c ', 4]]; // prettier-ignore
    expect(reasons([columnOf('a', 'B', 'C', 'D'), grid], lookup)).toEqual([
      '1',
      'block mass in lots must be a mass above 0; it is "two" (row 3 of lots)',
      'lot: "C" must be in one row of lots; it is in rows 4 and 5 (row 3 of the column)',
      'lot: "D" is not in lots (row 4 of the column)',
    ]);
  });

  test('reads every other column by its header, in columns and rows that the data decide', () => {
    const programme = defineFunction({
      ...words,
      name: 'PROGRAMME',
      arguments: [
        table(
          'programme',
          { day: required(orZero(number()), 'the day'), rest: others(number(), 'set points') },
          'a programme',
        ),
      ],
      result: tableResult({ day: amount(), 'set point': namedIn(mixed()) }),
      whole: (read) =>
        read.rows.map((one) => ({
          day: one.day,
          'set point': new Map([...one.rest].map(([header, set]) => [header, set ?? ''])),
        })),
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
      optionalSetting('point', choice({ best: 'the best', latest: 'the last' }), 'best', 'a point'),
      optionalTable('extra', { lot: key(text(), 'the lot') }, 'a table'),
    ],
    result: value('what was read', label()),
    whole: (values, blocks, point, extra) =>
      `${values.join('+')} ${blocks} ${point} ${extra?.rows.length ?? 'none'}`,
  });

  test('reads a range without its blanks, and gives settings and tables left out their defaults', () => {
    expect(reasons([[[1, null], [2, '']], [[5]]], settings)).toEqual(['1+2 5 best none']); // prettier-ignore
    expect(reasons([[[1]], [[5]], [[' LATEST ']], [['lot'], ['A']]], settings)).toEqual(['1 5 latest 1']);
    expect(reasons([[[1]], [[5]], [['']], [[null]]], settings)).toEqual(['1 5 best none']);
  });

  test.each<[(Grid | null)[], string]>([
    [[[['x']], [[5]]], 'values must be a number; it is "x"'],
    [[[[1], ['x']], [[5]]], 'values must be a number; it is "x" (row 2 of the column)'], // prettier-ignore
    [[[[1]], [[5], [6]]], 'blocks must be one cell; it is 2 rows by 1 column'], // prettier-ignore
    [[[[1]], null], 'blocks is needed but left out: a count'],
    [[[[1]], [[1.5]]], 'blocks must be a whole number, 1 or more; it is 1.5'],
    [[[[1]], [[5]], [['worst']]], 'point must be one of best, latest; it is "worst"'],
  ])('refuses %p', (given, message) => {
    expect(reasons(given, settings)).toEqual([message]);
  });

  test('carries a format of its own for a number that differs from its column', () => {
    const figures = defineFunction({
      ...words,
      name: 'MIXED',
      arguments: [setting('day', serial(), 'a date')],
      result: tableResult({ what: label(), value: mixed() }),
      whole: (day) => [
        { what: 'day', value: formatted(day, 'date') },
        { what: 'share', value: formatted(NaN, 'percent') },
      ],
    });
    expect(figures.evaluate([[[46000]]]).rows.slice(1)).toEqual([
      ['day', formatted(46000, 'date')],
      ['share', cellError('#NUM!', 'the numbers given are too large or too small to calculate with')],
    ]);
  });

  test('leaves out a row that is blank, but not one with figures and no key', () => {
    const grid: Grid = [['lot', 'block mass'], ['A', 1], [null, null], [null, 3]]; // prettier-ignore
    expect(reasons([grid], list)).toEqual([
      'lot is blank, but "block mass" is not: fill it in or clear the row (row 4 of lots)',
    ]);
  });

  test('knows a totals row wherever its word is, and passes over titles and months above and between the rows', () => {
    const grid: Grid = [
      ['Fernbank blocks 2026', null, null],
      [null, null, null],
      ['note', 'Lot #', 'Block Mass'],
      ['March', null, null],
      [null, 'A', 1],
      ['', 'B', 2],
      ['Total', null, 3],
    ];
    expect(list.evaluate([grid]).rows.map(([lot]) => lot)).toEqual(['lot', 'A', 'B']);
  });

  const read = (columns: TableColumns, grid: Grid): unknown[] =>
    defineFunction({
      ...words,
      name: 'READING',
      arguments: [table('lots', columns, 'a table')],
      result: value('what was read', label()),
      whole: (lots) => JSON.stringify(lots.rows.map(({ at: _, ...one }) => one)),
    }).evaluate([grid]).rows[0] as unknown[];

  test.each<[string, Grid, unknown]>([
    [
      'the other headers that growers use',
      [
        ['Batch No.', 'Qty'],
        ['A', 4],
      ],
      '[{"lot":"A","blocks":4}]',
    ],
    [
      'the exact name before another',
      [
        ['Batch', 'lot', 'blocks'],
        ['x', 'A', 4],
      ],
      '[{"lot":"A","blocks":4}]',
    ],
  ])('takes %s', (_what, grid, wanted) => {
    const columns = {
      lot: key(text(), 'the lot', 'batch', 'batch no'),
      blocks: required(count(), 'how many', 'qty', 'bags'),
    };
    expect(read(columns, grid)).toEqual([wanted]);
  });

  test('names all missing headers at once, each with the nearest found, and two that could both serve', () => {
    const columns = {
      lot: key(text(), 'the lot', 'batch'),
      blocks: required(count(), 'how many', 'qty', 'bags'),
      moisture: required(fraction(), 'water share'),
    };
    expect(
      read(columns, [
        ['Lott', 'moistrue', 'sort'],
        ['A', 0.6, 1],
      ]),
    ).toEqual([
      expect.objectContaining({
        reason:
          'lots needs columns headed lot (is it "Lott"?), blocks and moisture (is it "moistrue"?); its headers are Lott, moistrue, sort',
      }),
    ]);
    expect(
      read(columns, [
        ['lot', 'qty', 'Bags', 'moisture'],
        ['A', 3, 3, 0.6],
      ]),
    ).toEqual([
      expect.objectContaining({ reason: 'lots must have one column for blocks; it has "qty" and "Bags"' }),
    ]);
  });

  test.each<[string, string | undefined]>([
    ['block mass (kg)', undefined],
    ['best (weeks)', 'best in lots must be in days; its header "best (weeks)" says weeks'],
    ['best (days)', undefined],
    ['moisture (% wb)', undefined],
    [
      'moisture (dry basis)',
      'moisture in lots must be on a wet basis; its header "moisture (dry basis)" says dry basis',
    ],
  ])('reads the unit in the header %s', (header, refusal) => {
    const columns = {
      lot: key(text(), 'the lot'),
      'block mass': optional(mass(), 'mass of a block'),
      best: optional(days(), 'days'),
      moisture: optional(fraction(), 'water share'),
    };
    const [got] = read(columns, [
      ['lot', header],
      ['A', 0.6],
    ]);
    expect(refusal === undefined ? typeof got : (got as CellError).reason).toBe(refusal ?? 'string');
  });

  test('refuses two units of mass in the tables of one call', () => {
    const columns = (property: string): TableColumns => ({ [property]: required(mass(), 'a mass') });
    const both = defineFunction({
      ...words,
      name: 'BOTH',
      arguments: [
        table('lots', columns('block mass'), 'a table'),
        table('harvests', columns('mass'), 'a table'),
      ],
      result: value('nothing', amount()),
      whole: () => 1,
    });
    const call = (first: string, second: string): string[] =>
      reasons([[[first], [1]], [[second], [1]]], both); // prettier-ignore
    expect(call('block mass (kg)', 'mass (lb)')).toEqual([
      'mass in harvests is in lb, but block mass in lots is in kg: use one unit in a call',
    ]);
    expect(call('block mass (kg)', 'mass')).toEqual(['1']);
  });

  test('gives columns as many as the data have, leaves out those that no row has, and shows the view asked for', () => {
    const spread = defineFunction({
      ...words,
      name: 'SPREAD',
      arguments: [setting('view', choice({ lots: 'by lot', sum: 'in all' }), 'which table')],
      result: views({
        lots: { lot: label(), flush: numberedIn(amount()), 'no flush': sometimes(amount()) },
        sum: { total: amount() },
      }),
      whole: (view) =>
        view === 'sum'
          ? { view, rows: [{ total: 6 }] }
          : {
              view,
              rows: [
                { lot: 'A', flush: [1, 2], 'no flush': undefined },
                { lot: 'B', flush: [3], 'no flush': undefined },
              ],
            },
    });
    expect(spread.evaluate([[['lots']]]).rows).toEqual([
      ['lot', 'flush 1', 'flush 2'],
      ['A', 1, 2],
      ['B', 3, ''],
    ]);
    expect(spread.evaluate([[['sum']]]).rows).toEqual([['total'], [6]]);
  });
});
