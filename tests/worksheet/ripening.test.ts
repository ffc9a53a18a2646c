import { beforeAll, describe, expect, test } from '@jest/globals';
import { cellError, isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { READYFROMLOG } from '../../src/worksheet/ripening/readyFromLog';
import { READYSTATS } from '../../src/worksheet/ripening/readyStats';
import { READYWINDOW } from '../../src/worksheet/ripening/readyWindow';
import { STAGE } from '../../src/worksheet/ripening/stage';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(READYSTATS));

const column = (...cells: Cell[]): Grid => cells.map((cell) => [cell]);
const reasonOf = (cell: unknown): string => (isCellError(cell) ? cell.reason : '');

describe('statistics of strains leave nothing out in silence', () => {
  const stats = (strain: Grid, inoculated: Grid, ready: Grid) =>
    plainValues(evaluate(READYSTATS, [strain, inoculated, ready, [[46090]]])).slice(1);

  test('a text for a date spoils its own strain and no other', () => {
    const [alder, birch] = stats(
      column('Alder-3', 'Alder-3', 'Birch-1'),
      column(46000, '10 December', 46042),
      column(46070, 46080, 46060),
    );
    expect(alder!.slice(0, 2)).toEqual(['Alder-3', 2]);
    expect(reasonOf(alder![3])).toContain('inoculated must be a date; it is "10 December"');
    expect(reasonOf(alder![3])).toContain('(row 2 of the column)');
    expect(birch!.slice(0, 4)).toEqual(['Birch-1', 1, 0, 18]);
  });

  test('a strain of which no record can be read is told all the same', () => {
    const [only] = stats(column('Alder-3'), column(46000), column(cellError('#REF!')));
    expect(only!.slice(0, 2)).toEqual(['Alder-3', 1]);
    expect(reasonOf(only![3])).toContain('ready holds the error #REF!');
  });

  test('lots without a strain or a date are counted in a row of their own, blank rows are not', () => {
    const rows = stats(
      column('Alder-3', null, null, 'Alder-3', null),
      column(46000, 46040, 46041, null, null),
      column(46070, 46080, null, null, null),
    );
    expect(rows.map(([strain, lots]) => [strain, lots])).toEqual([
      ['Alder-3', 1],
      ['2 lots without a strain left out', ''],
      ['1 lot without a date left out', ''],
    ]);
  });

  test('one strain for all rows makes no lots of the blank rows below', () => {
    const rows = stats([['Alder-3']], column(46000, null, null), column(46070, null, null));
    expect(rows.map(([strain, lots]) => [strain, lots])).toEqual([['Alder-3', 1]]);
  });
});

test('days of a strain that are out of order are refused, not shown as a window', () => {
  const strains: Grid = [
    ['strain', 'earliest', 'best', 'latest'],
    ['Alder-3', 90, 70, 80],
  ];
  const [cells] = plainValues(evaluate(READYWINDOW, [[[46055]], [['Alder-3']], strains]));
  expect(cells!.map(reasonOf)).toEqual(
    new Array(3).fill(
      'best in strains must be 90 days or more, which is earliest; it is 70 (row 2 of strains)',
    ),
  );
});

describe('a log and its strains table are in one unit', () => {
  const strains: Grid = [
    ['strain', 'best', 'observed at', 'min temp', 'best temp', 'max temp'],
    ['Alder-3', 77, 68, 41, 77, 91.4],
  ];
  const log = (unit: Cell, reading: number, table = strains) =>
    plainValues(
      evaluate(READYFROMLOG, [
        [[46055]],
        [['Alder-3']],
        table,
        column(46055, 46060, 46066),
        column(reading, reading, reading),
        null,
        [[unit]],
      ]),
    )[0]!;

  test('a strains table in °F goes with readings in °F', () => {
    expect(log('F', 68)[0]).toBeCloseTo(11 / 77, 12);
    expect(log('F', 68)[1]).toBeCloseTo(46132, 9);
  });

  // At 93.5 °F, above its max temp, the strain does not grow. With 32 °F read as 32 °C it was to be ready in 2033.
  test('a room too hot for the strain by a table in °F gives no date', () => {
    const warm: Grid = [strains[0]!, ['Alder-3', 14, 68, 32, 77, 91.4]];
    const hot = log('F', 93.5, warm);
    expect(hot[0]).toBe(0);
    expect(reasonOf(hot[1])).toBe('temperatures: the strain did not grow in the last 7 days of readings');
  });

  test('a strains table in °F is refused where the unit is C', () => {
    expect(reasonOf(log(null, 25)[0])).toBe(
      'best temp in strains must be from 5 to 60 °C; it is 77 °C (row 2 of strains)',
    );
  });
});

describe('stages of a strain', () => {
  const stages = (...strains: Cell[]): Grid => [
    ['strain', 'stage', 'from day'],
    ['Alder-3', 'spawn run', null],
    [strains[0]!, 'browning', 40],
    ['Birch-1', 'spawn run', null],
  ];
  const stageOf = (table: Grid) =>
    plainValues(evaluate(STAGE, [[[46000]], [[46060]], [['Alder-3']], table]))[0]![0];

  test('are told where the strain is written in the first row of its block only: the later stage would be missed', () => {
    expect(stageOf(stages('Alder-3'))).toBe('browning');
    expect(reasonOf(stageOf(stages(null)))).toBe(
      'strain is blank, but "stage" is not: fill it in or clear the row (row 3 of stages)',
    );
  });

  test('that are at fault name the table and no row of the lots', () => {
    const [, lot] = plainValues(
      evaluate(STAGE, [column(46000, 46000), [[46060]], [['Alder-3']], [...stages('Alder-3'), ['Alder-3', 'again', 40]]]), // prettier-ignore
    );
    expect(reasonOf(lot![0])).toMatch(
      /^stages must have one stage from day 40; it has "again" and "browning"$/,
    );
  });
});

test('READYFROMLOG counts the gaps of a log: one is one', () => {
  const responses: Grid = [
    ['strain', 'best', 'observed at', 'min temp', 'best temp', 'max temp'],
    ['Alder-3', 77, 20, 5, 25, 33],
  ];
  const open = (...times: number[]) =>
    plainValues(
      evaluate(READYFROMLOG, [
        [[46055]],
        [['Alder-3']],
        responses,
        column(...times),
        column(...times.map(() => 20)),
      ]),
    )[0]!.at(-1);
  expect(open(46055, 46055.2, 46057)).toBe('1 gap over 6 h');
  expect(open(46055, 46057, 46059)).toBe('2 gaps over 6 h');
});
