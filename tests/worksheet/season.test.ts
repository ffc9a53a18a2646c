import { beforeAll, describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import type { Progress, WorksheetFunction } from '../../src/worksheet/definition';
import { LOADPLAN } from '../../src/worksheet/loading/loadPlan';
import { SEASON } from '../../src/worksheet/loading/season';
import { loadTools } from '../../src/worksheet/tools';
import { START } from './loadingFarm';
import { evaluate, prepared } from './prepared';

// Seasons played from a sheet, and what a plan says beside its loads. The farm is invented.

beforeAll(() => Promise.all([prepared(SEASON), prepared(LOADPLAN)]));

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

// One flush on the sixth and seventh day after loading: a place is taken for eight days. A block gives 0.6 kg.
const strains = (...spreads: [number, number, number] | []): Grid => [
  [
    'strain',
    'earliest',
    'best',
    'latest',
    'first pick',
    'pick days',
    'efficiency',
    'yield spread',
    'pick spread',
    'ready spread',
  ],
  ['Birch-1', 60, 70, 90, 6, 2, 0.6, ...(spreads.length > 0 ? spreads : [null, null, null])],
];
const lots = (blocks: number, inoculated = START - 68, count = 1): Grid => [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated'],
  ...Array.from({ length: count }, (_, n): Cell[] => [
    `B-${n + 1}`,
    'Birch-1',
    blocks / count,
    2.5,
    0.6,
    inoculated,
  ]),
];
const rooms = (...shelves: number[]): Grid => [
  ['room', 'shelves', 'blocks per shelf'],
  ...shelves.map((count, n): Cell[] => [`Room ${n + 1}`, count, 12]),
];
const orders = (mass: number): Grid => [
  ['product', 'mass', 'due'],
  ['Birch-1', mass, START + 12],
];
const season = (spread: Grid, places: Grid, ...more: Cell[]): Map<Cell, Cell[]> =>
  new Map(
    cells(
      SEASON,
      lots(100, START - 68, 5),
      spread,
      places,
      orders(20),
      START,
      2,
      undefined,
      undefined,
      undefined,
      ...more,
    ).map(([what, ...figures]) => [what!, figures]),
  );

describe('SEASON plays the coming weeks', () => {
  // All places are filled on the first days. They are free again eight days later, in the second week.
  test.each([
    [[2], 48],
    [[2, 1], 72],
    [[5], 100],
  ])('rooms of %j shelves take %d of 100 blocks in two weeks', (shelves, blocks) => {
    expect(
      season(strains(), rooms(...shelves), 1000, 1)
        .get('blocks loaded')!
        .slice(0, 3),
    ).toEqual([blocks, blocks, blocks]);
  });

  test('the same cells and seed give the same seasons, another seed gives others', () => {
    const played = (seed: number): Cell[] =>
      season(strains(0.3, 1.5, 2), rooms(5), 40, 3, seed).get('orders filled')!;
    expect(played(1)).toEqual(played(1));
    expect(played(2)).not.toEqual(played(1));
    const [mean, lowest, highest] = played(1) as number[];
    expect(lowest!).toBeLessThan(highest!);
    expect(mean! > lowest! && mean! < highest!).toBe(true);
  });

  test('the plan of each week fills an order that certain blocks can fill, and says that nothing differs', () => {
    const played = season(strains(), rooms(5), 'plan', 2);
    expect(played.get('orders filled')!.slice(0, 3)).toEqual([1, 1, 1]);
    expect(played.get('seasons played')![3]).toContain('no strain has a spread');
  });
});

describe('LOADPLAN tells what a grower would ask', () => {
  const plan = (
    given: Grid,
    wanted: Grid,
    view?: string,
    calendar?: Grid,
    standing?: Grid,
    days = 7,
  ): Cell[][] =>
    cells(
      LOADPLAN,
      given,
      strains(),
      rooms(10),
      wanted,
      START,
      days,
      calendar,
      standing,
      undefined,
      undefined,
      view,
    );
  /** What stands above the plan: lines with a word in the last column and nothing more. */
  const said = (rows: Cell[][]): string =>
    rows
      .slice(1)
      .filter(([loaded]) => loaded === '')
      .map((row) => row.at(-1) as string)
      .join('; ');

  test('where nothing is ripe it says which lot is the first, and when', () => {
    expect(said(plan(lots(40, START - 40), orders(5)))).toContain(
      'no lot may be opened in these days: the first is B-1, on 2026-05-24',
    );
    expect(said(plan(lots(40, START - 95), orders(5)))).toContain('all are over age, or past their last day');
  });

  test('more blocks standing in a room than it has places are told', () => {
    const standing: Grid = [
      ['loaded', 'room', 'strain', 'blocks', 'block mass', 'moisture'],
      [START - 2, 'Room 1', 'Birch-1', 500, 2.5, 0.6],
    ];
    expect(said(plan(lots(40), orders(5), 'plan', undefined, standing))).toContain(
      '500 blocks are listed as standing in Room 1, which has 120 places',
    );
  });

  test('blocks that go over age are in the summary, with their lots', () => {
    const calendar: Grid = [
      ['day', 'pick limit', 'load limit'],
      ['every day', 'none', 1],
    ];
    const summary = plan(lots(40, START - 86), orders(5), 'summary', calendar);
    const [, blocks, note] = summary.find(([what]) => what === 'blocks going over age')!;
    // Opened on the five days up to its last, one block on each.
    expect([blocks, note]).toEqual([35, 'never opened: 35 of B-1']);
  });

  // START is a Monday. A date goes before its weekday, that before weekend and work days, those before every day.
  test.each<[Cell, number]>([
    ['every day', 7 * 2],
    ['weekend', 5 * 3 + 2 * 2],
    ['work days', 5 * 2 + 2 * 3],
    ['Tuesday', 6 * 3 + 2],
    [START, 6 * 3 + 2],
  ])('a calendar row for %s is read, before one for every day', (day, loaded) => {
    const calendar: Grid = [
      ['day', 'pick limit', 'load limit'],
      ...(day === 'every day' ? [] : [['every day', 'none', 3] as Cell[]]),
      [day, 'none', 2],
    ];
    const blocks = plan(lots(100), orders(60), 'plan', calendar)
      .slice(2)
      .reduce((sum, row) => sum + Number(row[4]), 0);
    expect(blocks).toBe(loaded);
  });

  // 36 kg take 60 blocks and there are 50: ten blocks more fill the order, for 6 kg at a price of 1, give or take what
  // larger picking days and fewer loads cost. A shelf more gives nothing.
  test('the view worth says what ten more blocks are worth, and that a shelf is worth nothing', () => {
    const worth = new Map(plan(lots(50), orders(36), 'worth').map(([what, value]) => [what, value]));
    expect(worth.get('one more shelf in Room 1')).toBeCloseTo(0, 9);
    const blocks = worth.get('10 more blocks of B-1') as number;
    expect(blocks).toBeGreaterThan(5.8);
    expect(blocks).toBeLessThan(6.3);
  });

  test('with spreads the view worth says what each kind of uncertainty costs', () => {
    const rows = cells(
      LOADPLAN,
      lots(100),
      strains(0.3, 1.5, 0),
      rooms(10),
      orders(40),
      START,
      7,
      undefined,
      undefined,
      undefined,
      undefined,
      'worth',
    );
    const worth = new Map(rows.map(([what, value]) => [what, value]));
    expect(worth.get('not knowing yields')).toBeGreaterThan(0);
    expect(worth.has('not knowing the days of flushes')).toBe(true);
    expect(worth.has('not knowing when lots are ripe')).toBe(false);
  });
});

test('a season tells each week that it has come to, and a plan each programme that it has solved', () => {
  const told: Progress[] = [];
  const onProgress = (progress: Progress): void => void told.push(progress);
  const farm: Grid[] = [lots(48), strains(), rooms(2), orders(20), [[START]]];
  evaluate(SEASON, [...farm, [[2]], null, null, null, [['thumb']], [[3]]], 1900, onProgress);
  expect(told).toEqual([0, 1, 2, 3, 4, 5].map((done) => ({ done, of: 6 })));
  told.length = 0;
  evaluate(LOADPLAN, [...farm, [[13]]], 1900, onProgress);
  expect(told.length).toBeGreaterThan(2);
  expect(told).toEqual(told.map((_, n) => ({ done: n + 1 })));
});

test('the note says how far chance may take the mean: twice its standard error, of two seasons and more', () => {
  const filled = (count: number): [mean: number, lowest: number, highest: number, note: string] =>
    season(strains(0.4, 1, 3), rooms(2), 'thumb', count).get('orders filled') as never;
  expect(filled(1)[3]).toBe('share of their value');
  // Of three seasons the middle one follows from the other figures. Standard error: √(Σ(x − mean)² ÷ (n − 1) ÷ n).
  const [mean, lowest, highest, note] = filled(3);
  const middle = 3 * mean - lowest - highest;
  const squares = [lowest, middle, highest].reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const off = Number((200 * Math.sqrt(squares / 2 / 3)).toPrecision(2));
  expect(off).toBeGreaterThan(0);
  expect(note).toBe(`share of their value; the mean may be ${off}% off by chance`);
  const [, low, high, ofTwo] = filled(2);
  const offOfTwo = Number((100 * (high - low)).toPrecision(2));
  expect(ofTwo).toBe(`share of their value; the mean may be ${offOfTwo}% off by chance`);
});

test.each([
  ['plan', /^WebAssembly cannot run here, so there is no solver/],
  ['certain', /^WebAssembly cannot run here, so there is no solver/],
  ['thumb', /^$/],
])('without a solver SEASON by the rule %s says whether that matters', async (rule, note) => {
  const farm: Grid[] = [lots(48), strains(0.4, 1, 3), rooms(2), orders(20), [[START]]];
  const { planning, statistics } = await loadTools(['planning', 'statistics']);
  const rows = plainValues(
    SEASON.evaluate([...farm, [[1]], null, null, null, [[rule]], [[1]]], {
      dateSystem: 1900,
      tools: { solver: null, planning: planning!, statistics: statistics! },
    }),
  );
  expect(rows.find(([what]) => what === 'seasons played')!.at(-1)).toMatch(note);
});
