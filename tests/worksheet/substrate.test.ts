import { beforeAll, describe, expect, test } from '@jest/globals';
import { isCellError, plainValues, type Cell, type Grid } from '../../src/worksheet/cells/cell';
import { CHEAPESTMIX } from '../../src/worksheet/substrate/cheapestMix';
import { MIX } from '../../src/worksheet/substrate/mix';
import { MIXRATIO } from '../../src/worksheet/substrate/mixRatio';
import { evaluate, prepared } from './prepared';

beforeAll(() => prepared(CHEAPESTMIX));

const NEEDS: Grid = [
  ['need', 'lowest', 'highest'],
  ['nitrogen', 0.007, null],
];
const cheapest = (ingredients: Grid, needs = NEEDS) =>
  plainValues(evaluate(CHEAPESTMIX, [ingredients, needs]));
const reasonOf = (rows: readonly (readonly unknown[])[]): string => {
  const cell = rows[0]![0];
  return isCellError(cell) ? cell.reason : '';
};

describe('the cheapest mix assumes no figure', () => {
  const header = ['ingredient', 'cost', 'moisture', 'highest', 'nitrogen'];
  const oak = ['oak sawdust', 0.08, 0.2, 1, 0.002];
  const bran = ['wheat bran', 0.36, 0.1, 1, 0.027];
  const withBran = (at: number, cell: Cell): Grid => [
    header,
    oak,
    bran.map((own, column) => (column === at ? cell : own)),
  ];

  test.each([
    ['price', 1, 'cost in ingredients must be a number above 0, or the word free; it is blank or 0'],
    ['moisture', 2, 'moisture in ingredients must be a percentage between 0% and 100%, or the word none'],
    ['highest', 3, 'highest in ingredients must be a percentage up to 100%'],
    [
      'nitrogen',
      4,
      'nitrogen in ingredients must be a percentage above 0% and at most 100%, or the word none',
    ],
  ])('an ingredient with a blank or 0 for its %s is refused', (_what, at, says) => {
    expect(reasonOf(cheapest(withBran(at, null)))).toContain(says);
    expect(cheapest(withBran(at, 0))).toEqual(cheapest(withBran(at, null)));
  });

  test('an ingredient that is free is used as far as the needs allow', () => {
    const rows = cheapest(withBran(1, 'free'), [
      ['need', 'lowest', 'highest'],
      ['nitrogen', 'none', 0.007],
    ]);
    expect(rows[2]![1]).toBeCloseTo(0.2, 9);
  });

  test('a highest of none keeps an ingredient out', () => {
    const rows = cheapest([...withBran(3, 'none'), ['soy hulls', 0.45, 0.1, 1, 0.02]]);
    expect(rows[2]!.slice(0, 3)).toEqual(['wheat bran', 0, 'highest']);
    expect(rows[3]![1]).toBeCloseTo(0.005 / 0.018, 9);
  });

  test('the limit of an ingredient has its worth, a point at a time', () => {
    // Bran at most 10%: hulls bring 0.5% − 10% × 2.5% = 0.25% at 1.8% a share. A point more of bran saves
    // 2.5 / 1.8 of a point of hulls for sawdust: 0.01 × ((0.4 − 0.1) − (2.5 / 1.8) × (0.5 − 0.1)).
    const rows = cheapest([...withBran(3, 0.1), ['soy hulls', 0.45, 0.1, 1, 0.02]]);
    expect(rows[2]!.slice(2, 4)).toEqual(['highest', '']);
    expect(rows[2]![4]).toBeCloseTo(0.01 * (0.3 - (2.5 / 1.8) * 0.4), 9);
    expect(rows[2]![5]).toBe('1 point');
  });

  test('a need that no column is named after is told with the nearest', () => {
    const needs: Grid = [
      ['need', 'lowest'],
      ['nitrogn', 0.007],
    ];
    expect(reasonOf(cheapest([header, oak], needs))).toContain(
      'ingredients has no column headed nitrogn; did you mean "nitrogen"?',
    );
  });

  test('protein stands in for a blank nitrogen, not for one of none', () => {
    const grid = (nitrogen: Cell): Grid => [
      ['ingredient', 'cost', 'moisture', 'nitrogen', 'protein'],
      ['oak sawdust', 0.08, 0.2, 0.002, 'none'],
      ['wheat bran', 0.36, 0.1, nitrogen, 0.16875],
    ];
    expect(cheapest(grid(null))[2]![1]).toBeCloseTo(0.2, 9);
    expect(reasonOf(cheapest(grid('none')))).toContain('no mix keeps to nitrogen lowest 0.007');
  });
});

test('a recipe that lacks one nitrogen still gives its masses', () => {
  const recipe: Grid = [
    ['ingredient', 'share', 'moisture', 'carbon', 'nitrogen'],
    ['oak sawdust', 0.9, 0.2, 0.488, 0.0016],
    ['wheat bran', 0.1, 0.1, 0.45, null],
  ];
  const rows = plainValues(evaluate(MIX, [recipe, [[40]], [[2.5]], [[0.6]]]));
  const total = rows.find(([what]) => what === 'total')!;
  expect(total.slice(1, 3)).toEqual([40, 100]);
  expect(total.slice(4).map(isCellError)).toEqual([true, true]);
  expect(rows[1]!.slice(4)).toEqual([0.0016, 305]);
});

test('blank carbon or nitrogen is refused in the C:N of a mix, and none counts as 0', () => {
  const ratio = (carbon: Cell) =>
    evaluate(MIXRATIO, [
      [[10], [1]],
      [[0.1], ['none']],
      [[0.45], [carbon]],
      [[0.01], ['none']],
    ]).rows;
  expect(reasonOf(ratio(null))).toContain('for 0 write none (row 2 of the column)');
  expect(ratio('none')[0]![0]).toBeCloseTo(45, 9);
});

test.each([null, 0, '0', '0%', '0,0'])(
  'a moisture of %p in a recipe is told the word that says 0',
  (cell) => {
    const recipe: Grid = [
      ['ingredient', 'share', 'moisture'],
      ['oak', 0.98, 0.2],
      ['gypsum', 0.02, cell],
    ];
    const reason = reasonOf(evaluate(MIX, [recipe, [[100]], [[2.5]], [[0.62]]]).rows);
    expect(reason).toContain('– for 0 write none (row 3 of recipe)');
  },
);

test('CHEAPESTMIX reads a content that is no share in its own unit, below 1 too', () => {
  const ingredients: Grid = [
    ['ingredient', 'cost', 'moisture', 'lime g per kg'],
    ['straw', 0.1, 0.1, 0.2],
    ['bran', 0.4, 0.1, 0.8],
  ];
  const needs: Grid = [
    ['need', 'lowest'],
    ['lime g per kg', 0.5],
  ];
  // Half of each: 0.5 × 0.2 + 0.5 × 0.8 is 0.5.
  const rows = cheapest(ingredients, needs);
  expect(rows.slice(1, 3).map(([what, share]) => [what, share])).toEqual([
    ['straw', expect.closeTo(0.5, 9)],
    ['bran', expect.closeTo(0.5, 9)],
  ]);
});
