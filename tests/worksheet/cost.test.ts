import { beforeAll, describe, expect, test } from '@jest/globals';
import { catalogue } from '../../src/worksheet/catalogue';
import { plainValues, type Grid } from '../../src/worksheet/cells/cell';
import { evaluate, prepared } from './prepared';

const call = (name: string, ...given: (Grid | null)[]) =>
  plainValues(
    evaluate(
      catalogue.find((f) => f.name === name)!,
      given,
    ),
  );

const costs: Grid = [
  ['item', 'amount', 'per'],
  ['substrate', 2, 'block'],
];
const crops: Grid = [
  ['lot', 'blocks', 'total'],
  ['A-101', 100, 50],
  ['A-102', 100, 'none'],
];

describe('COSTPERMASS', () => {
  beforeAll(() => prepared(catalogue.find(({ name }) => name === 'SHELFDAYMARGIN')!));

  test('counts the cost of a crop that failed: 400 for 50 is 8', () => {
    const rows = call('COSTPERMASS', costs, crops);
    expect(rows.at(-1)).toEqual(['all lots picked', 200, 50, 400, 8]);
    expect(rows[2]!.slice(0, 4)).toEqual(['A-102', 100, 0, 200]);
    expect(rows[2]![4]).toMatchObject({ code: '#DIV/0!' });
  });

  test.each([
    ['COSTPERMASS', [], ['', '', '', '']],
    ['SHELFDAYMARGIN', [[[10]], [[20]], [['lot']]], ['', '', '', '', '', '', '', '']],
  ] as const)('%s says how many lots have no total yet', (name, rest, blanks) => {
    const shown: Grid = [
      ['lot', 'blocks', 'total', 'days'],
      ['A-101', 100, 50, 40],
      ['A-102', 100, null, null],
    ];
    expect(call(name, costs, shown, ...rest).at(-1)).toEqual(['1 lot without a total left out', ...blanks]);
  });

  test('says which table has no rows', () => {
    expect(call('COSTPERMASS', [costs[0]!], crops)[0]![0]).toMatchObject({
      reason: expect.stringMatching(/^costs must hold at least 1 item; there (is|are) (none|0)/),
    });
  });

  test('refuses a lot that is in two rows', () => {
    expect(call('COSTPERMASS', costs, [...crops, ['a-101', 100, 50]])).toEqual([
      [
        expect.objectContaining({
          code: '#VALUE!',
          reason: expect.stringContaining('"A-101" must be in one row of crops; it is in rows 2 and 4'),
          place: expect.objectContaining({ argument: 'crops, lot' }),
        }),
      ],
    ]);
  });

  test.each(['Total cost', 'total costs', 'Sum of all costs', 'Grand total cost:'])(
    'refuses the row %p, which sums the others',
    (item) => {
      expect(call('COSTPERMASS', [...costs, [item, 2, 'block']], crops)).toEqual([
        [
          expect.objectContaining({
            code: '#VALUE!',
            reason: expect.stringContaining('looks like the sum of the other rows and would count twice'),
          }),
        ],
      ]);
    },
  );

  test('tells a cost without an item', () => {
    expect(call('COSTPERMASS', [...costs, [null, 30, 'batch']], crops)).toEqual([
      [
        expect.objectContaining({
          code: '#VALUE!',
          reason: expect.stringContaining('item is blank, but "amount" is not'),
        }),
      ],
    ]);
  });
});

describe('BLOCKCOST', () => {
  test('takes the word free for what costs nothing', () => {
    expect(call('BLOCKCOST', [...costs, ['own compost', 'free', 'block']], [[10]])).toEqual([[2]]);
  });
});
