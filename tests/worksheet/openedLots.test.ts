import { beforeAll, describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import type { WorksheetFunction } from '../../src/worksheet/definition';
import { CHECKLOADS } from '../../src/worksheet/loading/checkLoads';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { PICKCALENDAR } from '../../src/worksheet/loading/pickCalendar';
import { rooms, START } from './loadingFarm';
import { evaluate, prepared } from './prepared';

// A plan must not open what is opened, and must say first what is wrong with it. The farm is invented.

beforeAll(() => prepared(LOADPLAN));

const cells = (f: WorksheetFunction, ...given: (Cell | Grid | undefined)[]): Cell[][] => {
  const rows = plainValues(
    evaluate(
      f,
      given.map((one) => (one === undefined ? null : Array.isArray(one) ? (one as Grid) : [[one as Cell]])),
    ),
  );
  const [[corner]] = rows as [[Cell]];
  if (isCellError(corner)) throw new Error(corner.reason);
  return rows;
};

const STRAINS: Grid = [
  ['strain', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'efficiency', 'product'],
  ['Birch-1', 60, 70, 90, 6, 3, 0.6, 'Oyster'],
];
const lots = (...loaded: Cell[]): Grid => [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated', 'loaded'],
  ...loaded.map((one, n): Cell[] => [`B-${n + 1}`, 'Birch-1', 40, 2.5, 0.6, START - 68, one]),
];
// A block gives 2.5 × 0.4 × 0.6 = 0.6 kg.
const orders = (product: string, mass: number): Grid => [
  ['product', 'mass', 'due'],
  [product, mass, START + 12],
];
const plan = (given: Grid, wanted: Grid, view?: string): Cell[][] =>
  cells(LOADPLAN, given, STRAINS, rooms, wanted, START, 7, undefined, undefined, undefined, undefined, view);
const blocksOf = (rows: Cell[][]): number => rows.slice(1).reduce((sum, row) => sum + Number(row[4]), 0);

describe('LOADPLAN does not open what is loaded', () => {
  test.each<[string, Cell[], number]>([
    ['nothing loaded', [null, null], 80],
    ['a lot with a date', [START - 3, null], 40],
    ['a number of blocks', [15, null], 65],
    ['both', [15, START - 3], 25],
  ])('%s', (_what, loaded, left) => {
    expect(blocksOf(plan(lots(...loaded), orders('Birch-1', 48)))).toBe(left);
  });

  test('a lot that is loaded needs no date and no strain that is still grown', () => {
    const given: Grid = [...lots(null), ['Old', 'Elm-2', 30, 2.5, 0.6, null, START - 90]];
    expect(blocksOf(plan(given, orders('Birch-1', 24)))).toBe(40);
  });

  test('more blocks loaded than a lot has is refused', () => {
    expect(() => plan(lots(41), orders('Birch-1', 24))).toThrow(
      'loaded in lots must be a date, or a whole number of blocks up to the 40 of the lot; it is 41 (row 2 of lots)',
    );
  });

  test('the summary counts them', () => {
    const summary = plan(lots(START - 3, 10), orders('Birch-1', 12), 'summary');
    expect(summary.find(([what]) => what === 'blocks loaded before')?.[1]).toBe(50);
  });
});

describe('CHECKLOADS counts what is loaded once', () => {
  const check = (loaded: Cell, day: number): Cell[][] =>
    cells(
      CHECKLOADS,
      [
        ['loaded', 'lot', 'room', 'blocks'],
        [day, 'B-1', 'North', 40],
      ],
      lots(loaded),
      STRAINS,
      rooms,
      orders('Birch-1', 24),
    ).slice(1);

  test('a lot that the plan itself loaded on that day is in order', () => {
    expect(check(START, START)).toEqual(check(null, START));
  });

  test('a lot that was loaded before is told', () => {
    expect(check(null, START)[0]![0]).toBe('none broken');
    expect(check(START - 3, START)[0]!.at(-1)).toBe('B-1 has 0 blocks, 40 are loaded');
  });
});

describe('the products of orders are those of the strains', () => {
  test('an order for the product of a strain is filled', () => {
    const [, row] = plan(lots(null), orders('oyster', 24), 'orders');
    expect(row!.slice(4, 6)).toEqual([expect.closeTo(24), 0]);
  });

  test('a product of the lot’s own goes before it', () => {
    const given = lots(null).map((row, at) => [...row, at === 0 ? 'product' : 'Grey']);
    expect(plan(given, orders('Oyster', 24), 'orders')[1]![7]).toBe('no lot for it');
    expect(plan(given, orders('Grey', 24), 'orders')[1]![5]).toBe(0);
  });
});

describe('a plan begins with what is wrong', () => {
  const headline = (given: Grid, wanted: Grid): Cell => plan(given, wanted)[1]!.at(-1)!;

  test('orders that no lot can fill', () => {
    const wanted: Grid = [...orders('Shiitake', 9), ...orders('Lion', 9).slice(1)];
    expect(headline(lots(null), wanted)).toBe('0 of 2 orders are filled: no lot is Lion or Shiitake');
  });

  test('an order for a label that is nearly one there is', () => {
    expect(headline(lots(null), orders('Birch 1', 9))).toBe(
      '0 of 1 orders is filled: no lot is Birch 1 (did you mean Birch-1?)',
    );
  });

  test('two lots that look the same', () => {
    const twins = [...lots(null), ['B 1', 'Birch-1', 40, 2.5, 0.6, START - 68, null]];
    expect(headline(twins, orders('Oyster', 24))).toBe('two lots look the same but are not: B-1 and B 1');
  });

  test('orders that fall short', () => {
    expect(headline(lots(null), orders('Oyster', 100))).toBe(
      '0 of 1 orders is filled: the view orders says why',
    );
  });

  test('blocks that are loaded while nothing stands on the shelves', () => {
    expect(headline(lots(START - 3, null), orders('Oyster', 24))).toBe(
      '40 blocks are loaded already, but no table standing says where: their places and picks are not counted',
    );
  });

  test.each([
    ['Opening', 'loaded, the day it was loaded'],
    ['Days till ripe', 'best, the best day to open the lot'],
    ['Ready?', 'best, the best day to open the lot'],
    ['Expires', 'latest, the last day the lot may be opened'],
  ])('a column %s that nothing reads and that looks like one that is missing', (header, meant) => {
    const given = lots(null).map((row, at) => [...row.slice(0, 6), at === 0 ? header : START - 3]);
    expect(headline(given, orders('Oyster', 24))).toBe(`nothing reads “${header}” in lots: is it ${meant}?`);
  });

  test('a line in each row, where several things are wrong', () => {
    const lines = plan(lots(START - 3, null), orders('Lion', 9))
      .slice(1)
      .filter(([, lot]) => lot === '')
      .map((row) => row.at(-1));
    expect(lines).toEqual([
      '0 of 1 orders is filled: no lot is Lion',
      '40 blocks are loaded already, but no table standing says where: their places and picks are not counted',
    ]);
  });

  test('nothing, where nothing is wrong', () => {
    const rows = plan(lots(null), orders('Oyster', 24));
    expect(rows[1]![1]).toBe('B-1');
  });

  test('and a call that reads the plan passes over it', () => {
    const rows = plan(lots(null), orders('Oyster', 100));
    const picks = cells(PICKCALENDAR, rows, STRAINS).slice(1);
    const mass = picks.reduce(
      (sum, row) => sum + row.slice(1).reduce<number>((all, one) => all + Number(one), 0),
      0,
    );
    expect(mass).toBeGreaterThan(0);
  });
});

describe('a time of day changes no day of a plan', () => {
  const standing = (time: number): Grid => [
    ['loaded', 'room', 'strain', 'blocks', 'block mass', 'moisture'],
    [START - 1 + time, 'North', 'Birch-1', 20, 2.5, 0.6],
  ];
  const timed = (time: number): Grid =>
    lots(null).map((row, r) => (r === 0 ? row : row.map((cell, c) => (c === 5 ? START - 68 + time : cell))));
  const view = (time: number, name: string, days: number): Cell[][] =>
    cells(
      LOADPLAN,
      timed(time),
      STRAINS,
      rooms,
      orders('Birch-1', 24),
      START,
      days,
      undefined,
      standing(time),
      undefined,
      undefined,
      name,
    );

  // Loaded the day before the plan, picked six to eight days later: the last pick is seven days after its start, and
  // the picks of a plan of two days end with it.
  test.each([
    ['plan', 7],
    ['lots', 7],
    ['picks', 2],
  ] as const)('%s', (name, days) => {
    const whole = view(0, name, days);
    expect(whole.length).toBeGreaterThan(1);
    expect(view(0.75, name, days)).toEqual(whole);
  });
});

describe('a load says what it is for', () => {
  // 30 blocks of 0.6 kg, picked on the sixth and the seventh day: 18 kg, half on each.
  const strain: Grid = [STRAINS[0]!.slice(0, 7), ['Birch-1', 60, 70, 90, 6, 2, 0.6]];
  const ripe: Grid = [lots()[0]!.slice(0, 6), ['B-1', 'Birch-1', 30, 2.5, 0.6, START - 72]];
  test.each([
    [[[18, 12]], '18 due 2026-05-16'],
    [[[4, 6]], '4 due 2026-05-10, 14 spare'],
    [
      [
        [4, 7],
        [14, 12],
      ],
      '14 due 2026-05-16, 4 due 2026-05-11',
    ],
    [
      [
        [14, 7],
        [4, 12],
      ],
      '14 due 2026-05-11, 4 due 2026-05-16',
    ],
  ])('masses and days due of %j: the order with most first, then what is spare', (masses, said) => {
    const wanted: Grid = [
      ['product', 'mass', 'due'],
      ...masses.map(([mass, days]) => ['Birch-1', mass!, START + days!]),
    ];
    const [, ...rows] = cells(LOADPLAN, ripe, strain, rooms, wanted, START, 7);
    expect(rows.map((row) => [row[4], row.at(-1)])).toEqual([[30, said]]);
  });
});
