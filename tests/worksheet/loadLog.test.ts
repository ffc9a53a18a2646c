import { beforeAll, describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { START } from './loadingFarm';
import { evaluate, prepared } from './prepared';

// What the crew writes down as it goes: a log of loads, and lots that were looked at and not ripe; and what the plan
// tells it for the week. The farm is invented: one flush on the sixth and seventh day, 0.6 kg a block.

beforeAll(() => prepared(LOADPLAN));

const strains: Grid = [
  ['strain', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'efficiency', 'ready spread'],
  ['Birch-1', 60, 70, 90, 6, 2, 0.6, null],
];
const rooms: Grid = [
  ['room', 'shelves', 'blocks per shelf'],
  ['North', 5, 12],
];
const lots = (...more: Cell[][]): Grid => [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated', 'not ripe on'],
  ...(more.length > 0 ? more : [['B-1', 'Birch-1', 40, 2.5, 0.6, START - 68, null]]),
];
const orders = (mass: number, due = START + 12): Grid => [
  ['product', 'mass', 'due'],
  ['Birch-1', mass, due],
];
const answer = (
  given: Grid,
  wanted: Grid,
  standing: Grid | null,
  view: string,
  more: Grid = strains,
): Cell[][] =>
  plainValues(
    evaluate(LOADPLAN, [given, more, rooms, wanted, [[START]], [[7]], null, standing, null, null, [[view]]]),
  );
const records = ([header, ...rows]: Cell[][]): Record<string, Cell>[] =>
  rows.map((row) => Object.fromEntries(header!.map((name, n) => [name as string, row[n]!])));
const said = (rows: Cell[][]): string => {
  const [[corner]] = rows as [[Cell]];
  return isCellError(corner) ? String(corner.reason) : '';
};

describe('a log of loads stands in for the table standing', () => {
  const log: Grid = [
    ['loaded', 'lot', 'room', 'blocks'],
    [START - 2, 'B-1', 'North', 15],
    [START - 1, 'B-1', 'North', 10],
  ];
  const full: Grid = [
    ['loaded', 'room', 'strain', 'blocks', 'block mass', 'moisture'],
    [START - 2, 'North', 'Birch-1', 15, 2.5, 0.6],
    [START - 1, 'North', 'Birch-1', 10, 2.5, 0.6],
  ];

  test('what it gives is sold as the product of its lot', () => {
    const planned = (product: string, given: Grid): Cell => {
      const [row] = records(answer(given, [orders(9)[0]!, [product, 9, START + 5]], log, 'orders'));
      return row!['planned']!;
    };
    const [header, row] = lots();
    const branded = [
      [...header!, 'product'],
      [...row!, 'Browns'],
    ];
    // 25 blocks of 0.6 kg are picked by then, which is more than 9 kg.
    expect(planned('Birch-1', lots())).toBe(9);
    expect(planned('Browns', branded)).toBe(9);
  });

  test('it gives the picks that the full table gives, and takes its blocks off the lot', () => {
    const fewer = lots(['B-1', 'Birch-1', 15, 2.5, 0.6, START - 68, null]);
    for (const view of ['plan', 'picks', 'orders', 'lots']) {
      expect(answer(lots(), orders(20), log, view)).toEqual(answer(fewer, orders(20), full, view));
    }
    expect(records(answer(lots(), orders(20), log, 'lots'))[0]).toMatchObject({ lot: 'B-1', blocks: 15 });
    expect(records(answer(lots(), orders(20), log, 'summary'))).toContainEqual({
      what: 'blocks loaded before',
      value: 25,
      note: 'listed in lots or standing: they are not opened again',
    });
  });

  test('blocks counted under loaded too are taken off once', () => {
    const [header, row] = lots() as [Cell[], Cell[]];
    const counted: Grid = [
      [...header, 'loaded'],
      [...row, 25],
    ];
    expect(records(answer(counted, orders(20), log, 'lots'))[0]).toMatchObject({ blocks: 15 });
  });

  test.each([
    [
      'more blocks than the lot has',
      [START - 1, 'B-1', 'North', 26],
      'blocks in standing must add up to no more than the lot B-1 has: they add up to 41, and it has 40 (row 3 of standing)',
    ],
    [
      'a lot that is not in lots',
      [START - 1, 'B-9', 'North', 5],
      'lot in standing: "B-9" is not in lots; did you mean "B-1"? (row 3 of standing)',
    ],
    [
      'neither lot nor strain',
      [START - 1, null, 'North', 5],
      'strain in standing is blank, and so is lot: fill in one of the two (row 3 of standing)',
    ],
  ])('%s is refused with its row', (_, row, words) => {
    expect(said(answer(lots(), orders(20), [log[0]!, log[1]!, row], 'plan'))).toBe(words);
  });
});

describe('a lot that was looked at and not ripe', () => {
  const late = lots(['B-1', 'Birch-1', 40, 2.5, 0.6, START - 60, START + 1]);

  test('is not opened before the day after, and its last day moves along', () => {
    // By whole days, whatever the hour of inoculation.
    const evening = lots(['B-1', 'Birch-1', 40, 2.5, 0.6, START - 60 + 0.8, START + 1.3]);
    expect(answer(evening, orders(24), null, 'lots')).toEqual(answer(late, orders(24), null, 'lots'));
    const [row] = records(answer(late, orders(24), null, 'lots'));
    expect(row).toMatchObject({ expires: START + 30 + 2 });
    const opened = records(answer(late, orders(24), null, 'plan')).map(({ loaded }) => Number(loaded));
    expect(Math.min(...opened.filter((day) => day > 0))).toBeGreaterThanOrEqual(START + 2);
  });

  test('changes nothing where it was looked at before it was due', () => {
    const before = lots(['B-1', 'Birch-1', 40, 2.5, 0.6, START - 60, START - 3]);
    const plain = lots(['B-1', 'Birch-1', 40, 2.5, 0.6, START - 60, null]);
    expect(answer(before, orders(24), null, 'plan')).toEqual(answer(plain, orders(24), null, 'plan'));
  });

  test('is planned over seasons in which it is later still, where the strain has a ready spread', () => {
    const spread: Grid = [strains[0]!, [...strains[1]!.slice(0, 7), 3]];
    const rows = records(answer(late, orders(24), null, 'orders', spread));
    expect(rows[0]).toHaveProperty('chance');
    expect(Number(rows[0]!['chance'])).toBeLessThan(1);
  });
});

describe('the view week is the crew’s sheet', () => {
  const standing: Grid = [
    ['loaded', 'lot', 'room', 'blocks'],
    [START - 6, 'B-1', 'North', 10],
  ];
  const sheet = (): Record<string, Cell>[] =>
    records(
      answer(
        lots(
          ['B-1', 'Birch-1', 40, 2.5, 0.6, START - 68, null],
          ['B-2', 'Birch-1', 30, 2.5, 0.6, START - 57, null],
        ),
        orders(18),
        standing,
        'week',
      ),
    );

  test('it has each of seven days, with what is picked, looked at and opened', () => {
    const rows = sheet();
    expect([...new Set(rows.map(({ day }) => day))]).toEqual([0, 1, 2, 3, 4, 5, 6].map((n) => START + n));
    expect(rows[0]).toMatchObject({ weekday: 'Monday', job: 'pick', room: 'North', mass: 3 });
    // B-2 is 60 days old on the fourth day.
    expect(rows.filter(({ job }) => job === 'look at')).toMatchObject([
      { day: START + 3, lot: 'B-2', blocks: 30 },
    ]);
    expect(rows.some(({ job }) => job === 'nothing')).toBe(true);
  });

  test('a lot that is too dear to open is left whole', () => {
    const [header, row] = lots();
    const dear = [
      [...header!, 'cost'],
      [...row!, 100],
    ];
    // It is good until it is 90 days old, long after the plan.
    const [left] = records(answer(dear, orders(6), null, 'lots'));
    expect(left).toMatchObject({ lot: 'B-1', loaded: 0, waiting: 40, 'going over age': 0 });
  });

  // 10 blocks of 0.6 kg are picked over two days: 3 kg on the first.
  test.each([
    [3, ''],
    [2.9, '3 in all today; the limit is 2.9'],
  ])('with a pick limit of %p its first pick says %p', (limit, note) => {
    const calendar: Grid = [
      ['day', 'pick limit', 'load limit'],
      ['every day', limit, 'none'],
    ];
    const fixed = [[[START]], [[7]], calendar, standing, null, null, [['week']]];
    const rows = records(plainValues(evaluate(LOADPLAN, [lots(), strains, rooms, orders(18), ...fixed])));
    expect(rows[0]).toMatchObject({ day: START, job: 'pick', mass: 3, note });
  });

  test('what it opens is what the view plan loads in these days', () => {
    const plan = records(
      answer(
        lots(
          ['B-1', 'Birch-1', 40, 2.5, 0.6, START - 68, null],
          ['B-2', 'Birch-1', 30, 2.5, 0.6, START - 57, null],
        ),
        orders(18),
        standing,
        'plan',
      ),
    );
    const opened = sheet().filter(({ job }) => job === 'open');
    expect(opened.map(({ day, lot, room, blocks }) => [day, lot, room, blocks])).toEqual(
      plan.map(({ loaded, lot, room, blocks }) => [loaded, lot, room, blocks]),
    );
  });

  // A block gives 0.6 kg. At a cost of 1 the 10 for the 6 kg ordered are opened, and none to spare.
  test.each([
    ['on its last ripe day', null, START + 2],
    ['on the day set for it', START + 1, START + 1],
  ])('it tells the last day of blocks that the plan leaves shut, %s', (_what, notAfter, last) => {
    const [header, old] = lots(['B-1', 'Birch-1', 40, 2.5, 0.6, START - 88, null]);
    const dear: Grid = [
      [...header!, 'cost', 'not after'],
      [...old!, 1, notAfter],
    ];
    const rows = records(answer(dear, orders(6), null, 'week'));
    const told = rows.filter(({ note }) => (note as string).startsWith('last day'));
    expect(told).toMatchObject([{ day: last, lot: 'B-1', blocks: 30 }]);
  });
});
