import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { textOf } from '../../../src/hosts/fit/book';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { bookWith, day, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// What orders call a product, and who orders it. Farm, customers and strains are invented.

type Rows = readonly (readonly Held[])[];
const FIGURES: Answers = { figures: { today: '2026-03-30', days: 28 } };
const bookOf = (orders: Rows, sheet = 'Orders', product = false): Promise<Uint8Array> =>
  bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated'],
      ['L1', 'Blue larch', 40, 2, 0.6, '2026-03-02'],
      ['L2', 'Fen 3', 40, 2, 0.6, '2026-03-02'],
    ],
    Strains: [
      [
        'Strain',
        'Earliest',
        'Best',
        'Latest',
        'First pick',
        'Pick days',
        'Efficiency',
        ...(product ? ['Species'] : []),
      ],
      ['Blue larch', 18, 24, 60, 6, 2, 0.5, ...(product ? ['Shiitake'] : [])],
      ['Fen 3', 18, 24, 60, 6, 2, 0.5, ...(product ? ["Lion's mane"] : [])],
    ],
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf'],
      ['North', 8, 10],
    ],
    [sheet]: orders,
    Picks: [
      ['Date', 'Lot', 'Kg'],
      ['2026-03-01', 'K1', 4],
      ['2026-03-02', 'K1', 3],
      ['2026-03-03', 'K1', 2],
    ],
  });

test.each<[string, Answers['products']]>([
  ['one spelling', { "Lion's mane": ['Fen 3'] }],
  ['both', { "Lion's mane": ['Fen 3'], 'Lions mane': ['Fen 3'] }],
])('two spellings of a product are one, whether the answer names %s', async (_which, products) => {
  const bytes = await bookOf([
    ['Product', 'kg', 'Due'],
    ["Lion's mane", 3, '2026-04-14'],
    ['Lions mane', 2, '2026-04-16'],
    ['lions mane ', 1, '2026-04-17'],
  ]);
  expect(fitted(opened(bytes), 'plan', FIGURES).questions.map(questionWords)).toEqual([
    "Which strains are sold as Lion's mane?",
  ]);
  const [, prepared] = await laidOut(bytes, 'plan', { ...FIGURES, products: products! });
  const orders = valuesOf(prepared, '"orders"').slice(1);
  expect(orders.map(([product, , , mass, planned]) => [product, mass, planned])).toEqual([
    ["Lion's mane", 3, 3],
    ["Lion's mane", 2, 2],
    ["Lion's mane", 1, 1],
  ]);
  await doAllAgree(bytes, prepared);
});

describe('products across and those who order down', () => {
  test.each(['Chef', 'Restaurant', 'Kitchen', 'Café', 'Customer', 'Stockist'])(
    'under %s are orders, in a book that has a log of picks too',
    async (header) => {
      const bytes = await bookOf(
        [
          ['Wanted, kg'],
          [],
          ['Delivery', header, 'Shiitake', "Lion's mane"],
          ['2026-04-14', 'The Gate', 3, null],
          [null, 'Plum House', 2, 4],
          [null, 'Total', 5, 4],
          ['2026-04-17', 'The Gate', null, 1],
        ],
        'Week by week',
        true,
      );
      const given: Answers[] = [{}, { tables: { orders: 'Week by week' } }].map((tables) => ({
        ...FIGURES,
        ...tables,
        blanks: { 'orders, due': 'as above' },
      }));
      for (const answers of given) {
        const [, prepared] = await laidOut(bytes, 'plan', answers);
        const orders = valuesOf(prepared, '"orders"').slice(1);
        expect(orders.map(([product, , due, mass]) => [product, due, mass])).toEqual([
          ["Lion's mane", day(4, 14), 4],
          ['Shiitake', day(4, 14), 2],
          ['Shiitake', day(4, 14), 3],
          ["Lion's mane", day(4, 17), 1],
        ]);
        await doAllAgree(bytes, prepared);
      }
    },
  );

  test('blanks that are asked about are told once, in the question', async () => {
    const bytes = await bookOf(
      [
        ['Delivery', 'Chef', 'Shiitake', "Lion's mane"],
        ['2026-04-14', 'The Gate', 3, 1],
        [null, 'Plum House', 2, 4],
      ],
      'Orders',
      true,
    );
    const fit = fitted(opened(bytes), 'plan', FIGURES);
    expect(fit.questions).toMatchObject([{ kind: 'blanks', places: ['Orders!A3'] }]);
    expect(fit.unread).toEqual([]);
  });
});

describe('what a room is for', () => {
  const STRAINS = [
    {
      strain: 'Blue larch',
      earliest: 18,
      best: 24,
      latest: 60,
      'first pick': 6,
      'pick days': 2,
      efficiency: 0.5,
    },
    { strain: 'Fen 3', earliest: 18, best: 24, latest: 60, 'first pick': 6, 'pick days': 2, efficiency: 0.5 },
  ];
  const roomsBook = (header: string, uses: readonly string[]): Promise<Uint8Array> =>
    bookWith({
      Lots: [
        ['Lot', 'Strain', 'Blocks', 'Block mass', 'Moisture', 'Inoculated'],
        ['L1', 'Blue larch', 40, 2, 0.6, '2026-03-02'],
        ['L2', 'Fen 3', 40, 2, 0.6, '2026-03-02'],
      ],
      Rooms: [
        ['Room', 'Shelves', 'Blocks per shelf', header],
        ...uses.map((use, i) => [`R${i + 1}`, 4, 10, use]),
      ],
      Orders: [
        ['Product', 'kg', 'Due'],
        ['Blue oyster', 3, '2026-04-14'],
        ["Lion's mane", 3, '2026-04-14'],
      ],
    });
  const products = { 'Blue oyster': ['Blue larch'], "Lion's mane": ['Fen 3'] };
  const answers: Answers = { ...FIGURES, products, fill: { strains: STRAINS } };

  test.each([
    ['What for', ['oysters', 'lions mane'], ['Blue larch', 'Fen 3'], ['Blue larch in R1', 'Fen 3 in R2']],
    ['Takes', ['Fen 3', 'blue larch only'], ['Fen 3', 'Blue larch'], ['Fen 3 in R1', 'Blue larch in R2']],
    [
      'Used for',
      ['oysters', 'any'],
      ['Blue larch', ''],
      ['Blue larch in R1', 'Blue larch in R2', 'Fen 3 in R2'],
    ],
    ['Grows', ['oysters & lions mane'], ['Blue larch, Fen 3'], ['Blue larch in R1', 'Fen 3 in R1']],
  ])('under %s is read in names of strains and of products', async (header, uses, read, allowed) => {
    const bytes = await roomsBook(header, uses);
    const [fit, prepared] = await laidOut(bytes, 'plan', answers);
    expect(fit.tables.get('rooms')!.values.get('strains')).toEqual(read);
    const placed = valuesOf(prepared, 'LOADPLAN(')
      .slice(1)
      .flatMap(([, , strain, room]) =>
        room === null || room === '' ? [] : [`${textOf(strain!)} in ${textOf(room!)}`],
      );
    expect(placed.length).toBeGreaterThan(0);
    expect(placed.filter((one) => !allowed.includes(one))).toEqual([]);
    await doAllAgree(bytes, prepared);
  });

  test.each([
    ['Last used for', ['oysters', 'lions mane']],
    ['What for', ['oysters', 'drying racks']],
    ['Painted', ['Fen 3', 'Fen 3']],
  ] as const)('is not what stands under %s, %j', async (header, uses) => {
    const { tables } = fitted(opened(await roomsBook(header, uses)), 'plan', answers);
    expect(tables.get('rooms')!.readings.map(({ name }) => name)).not.toContain('strains');
  });
});
