import { beforeAll, describe, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { plainValues, type Grid } from '../../src/worksheet/cells/cell';
import { COSTPERMASS } from '../../src/worksheet/cost/costPerMass';
import { BIOEFFICIENCY } from '../../src/worksheet/harvest/bioEfficiency';
import { CROPTABLE } from '../../src/worksheet/harvest/cropTable';
import { EXPECTEDYIELD } from '../../src/worksheet/harvest/expectedYield';
import { FLUSHSPLIT } from '../../src/worksheet/harvest/flushSplit';
import { STRAINTABLE } from '../../src/worksheet/harvest/strainTable';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(STRAINTABLE));

test('BIOEFFICIENCY refuses a blank number of blocks in its own row, and takes none for a failed crop', () => {
  const given = [[[24], [24], ['none']], [[2]], [[0.6]], [[30], [null], [30]]];
  expect(plainValues(evaluate(BIOEFFICIENCY, given))).toEqual([
    [1],
    [expect.objectContaining({ code: '#VALUE!', place: { argument: 'blocks', row: 2 } })],
    [0],
  ]);
});

test('EXPECTEDYIELD takes a share of 0 as 0', () => {
  const given = [[[100]], [[2]], [[0.5]], [[0.8]], null, [[0.7], [0.3], [0]]];
  const masses = plainValues(evaluate(EXPECTEDYIELD, given)).flat() as number[];
  [56, 24, 0].forEach((mass, i) => expect(masses[i]).toBeCloseTo(mass, 10));
});

const PICKS: Grid = [
  ['lot', 'date', 'mass', 'flush'],
  ['A-101', 46007, 10, 1],
  ['A-102', 46018, 16, 1],
];
const LOTS: Grid = [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'loaded'],
  ['A-101', 'Alder-3', 10, 2.5, 0.6, 46000],
  ['A-102', 'Alder-3', 20, 2.5, 0.6, 46010],
];
const STRAINS: Grid = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flushes'],
  ['Alder-3', 6, 4, 10, 3],
];
const keptFor = (flushes: number): Grid => [STRAINS[0]!, ['Alder-3', 6, 4, 10, flushes]];
const fault = (reason: string) => expect.objectContaining({ reason: expect.stringContaining(reason) });

describe('FLUSHSPLIT', () => {
  const split = (rows: Grid, strains = STRAINS) =>
    plainValues(evaluate(FLUSHSPLIT, [[PICKS[0]!, ...rows], LOTS, strains]))
      .slice(1)
      .flat();

  test('numbers a lot that comes late by a whole flush gap 1, 2, 3, since the strain is kept for three', () => {
    const rows = [16, 17, 26, 27, 36].map((day) => ['A-101', 46000 + day, 2, null]);
    expect(split(rows)).toEqual([1, 1, 2, 2, 3]);
  });

  // Picks a flush gap late: a lot kept for two flushes has no third, one kept for four may have lost its first.
  test.each([
    [2, [1, 1, 2, 2]],
    [4, [2, 2, 3, 3]],
  ])('numbers a late lot by the %d flushes that it is kept for', (flushes, numbers) => {
    const rows = [16, 17, 26, 27].map((day) => ['A-101', 46000 + day, 2, null]);
    expect(split(rows, keptFor(flushes))).toEqual(numbers);
  });

  test('a flush on record binds the other picks of its lot', () => {
    const slow: Grid = [STRAINS[0]!, ['Alder-3', 7, 6, 18, 4]];
    const rows = [25, 26, 43, 44].map((day, i) => ['A-101', 46000 + day, 2, i === 1 ? 1 : null]);
    expect(split(rows, slow)).toEqual([1, 1, 2, 2]);
  });

  test.each([
    ['before the load', 45990, 'must be after loaded'],
    ['a year late', 46372, 'must be near the lot’s other picks'],
    ['that is text', '5 Jan', 'date in harvests'],
  ])('gives a date %s its own fault and renumbers nobody', (_what, date, reason) => {
    const right = [6, 7, 16].map((day) => ['A-101', 46000 + day, 2, null]);
    expect(split([['A-101', date, 2, null], ...right])).toEqual([fault(reason), 1, 1, 2]);
  });

  test('finds no flush for a crop that failed', () => {
    expect(split([['A-101', 46030, 'none', null]])).toEqual(['']);
  });
});

describe('STRAINTABLE', () => {
  const strains = async (picks: Grid, lots: Grid) => {
    await prepared(catalogue.find(({ name }) => name === STRAINTABLE.name)!);
    const [headers, ...rows] = plainValues(evaluate(STRAINTABLE, [picks, lots]));
    return rows.map((row) => Object.fromEntries(headers!.map((header, i) => [header as string, row[i]])));
  };
  const plain = { strain: 'Alder-3', lots: 2, 'not picked': 0, 'first pick': 7.5 };
  const extra = ['A-103', 46030, 5, 1];

  test.each([
    ['is not in lots', [extra, extra], [], '2 rows', '"A-103" is not in lots'],
    [
      'has moisture 62',
      [extra],
      [['A-103', 'Alder-3', 10, 2.5, 62, 46010]],
      '1 row',
      'moisture in lots must be',
    ],
    [
      'is twice in lots',
      [extra],
      [
        ['A-103', 'Alder-3', 10, 2.5, 0.6, 46010],
        ['A-103', 'Alder-3', 10, 2.5, 0.6, 46010],
      ],
      '1 row',
      'rows 4 and 5',
    ],
    [
      'was picked before it was loaded',
      [extra],
      [['A-103', 'Alder-3', 10, 2.5, 0.6, 46040]],
      '1 row',
      'must be after loaded',
    ],
    [
      'was picked before it was loaded and after: its first pick would be a day below 0',
      [extra, ['A-103', 46050, 5, 1]],
      [['A-103', 'Alder-3', 10, 2.5, 0.6, 46040]],
      '2 rows',
      'must be after loaded (2026-01-18); it is 2026-01-08 (row 4 of harvests)',
    ],
    [
      'has a pick that cannot be read',
      [extra, ['A-103', 46031, '5,2', 1]],
      [['A-103', 'Alder-3', 10, 2.5, 0.6, 46010]],
      '2 rows',
      'mass in harvests must be',
    ],
  ])('tells a lot that %s in a line of its own, and why', async (_what, picks, lots, rows, reason) => {
    const table = await strains([...PICKS, ...picks], [...LOTS, ...lots]);
    expect(table).toEqual([
      expect.objectContaining({ ...plain, 'differs from': 'none shown' }),
      expect.objectContaining({
        strain: `A-103 left out, with ${rows} of harvests`,
        lots: '',
        'differs from': fault(reason),
      }),
    ]);
    expect(table[0]!['efficiency']).toBeCloseTo(0.9, 12);
  });

  test('tells a weighing without a lot', async () => {
    const table = await strains([...PICKS, [null, 46030, 5, 1]], LOTS);
    expect(table.map(({ strain }) => strain)).toEqual([
      'Alder-3',
      '1 row of harvests without a lot left out',
    ]);
  });

  test('counts a crop that failed as 0 in the mean, and not in times or shares', async () => {
    const table = await strains(
      [...PICKS, ['A-103', 46060, 'none', null]],
      [...LOTS, ['A-103', 'Alder-3', 10, 2.5, 0.6, 46010]],
    );
    expect(table).toEqual([expect.objectContaining({ ...plain, lots: 3, 'flush 1': 1 })]);
    expect(table[0]!['efficiency']).toBeCloseTo(0.6, 12);
  });

  test('gives a strain whose every crop failed an efficiency of 0', async () => {
    const table = await strains([PICKS[0]!, ['A-101', 46060, 'none', 1]], LOTS.slice(0, 2));
    expect(table).toEqual([
      expect.objectContaining({ lots: 1, efficiency: 0, 'first pick': '', flushes: '' }),
    ]);
  });
});

test('CROPTABLE has a column for picks without a flush where others have one, and only there', () => {
  const table = (...picks: Grid) => plainValues(evaluate(CROPTABLE, [[...PICKS, ...picks], LOTS])) as Grid;
  expect(table()[0]).not.toContain('no flush');
  expect(table(['A-101', 46009, 3, null]).map((row) => row.slice(3, 6))).toEqual([
    ['flush 1', 'no flush', 'total'],
    [10, 3, 13],
    [16, 0, 16],
  ]);
});

test('a crop that failed reads none in CROPTABLE, and its cost counts in COSTPERMASS', () => {
  const crops = plainValues(
    evaluate(CROPTABLE, [
      [...PICKS, ['A-103', 46030, 'none', null]],
      [...LOTS, ['A-103', 'Alder-3', 10, 2.5, 0.6, 46010]],
    ]),
  ) as Grid;
  expect(crops.at(-1)).toEqual(['A-103', 'Alder-3', 10, 0, 'none', 'none', 'none', 20, 'none']);
  const costs: Grid = [
    ['item', 'amount', 'per'],
    ['blocks', 3, 'block'],
  ];
  const costed = plainValues(evaluate(COSTPERMASS, [costs, crops]));
  expect(costed.at(-1)).toEqual(['all lots picked', 40, 26, 120, 120 / 26]);
});
