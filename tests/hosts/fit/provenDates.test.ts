import { expect, test } from '@jest/globals';
import { readingWords } from '../../../src/hosts/fit/told';
import { bookWith, day, doAllAgree, fitted, laidOut, opened, type Held } from './laidOut';

// Days as texts whose order only other dates of the book show.

type Rows = readonly (readonly Held[])[];
const TODAY = { figures: { today: '2026-03-30', days: 7 } };

const bookOf = (inoculated: readonly Held[], more: Readonly<Record<string, Rows>>): Promise<Uint8Array> =>
  bookWith({
    Lots: [
      ['Lot', 'Strain', 'Bags', 'Inoculated'],
      ...inoculated.map((one, i) => [`A${i + 1}`, 'Blue larch', 20, one]),
    ],
    Strains: [
      ['Strain', 'Min days', 'Best', 'Max days'],
      ['Blue larch', 18, 24, 45],
    ],
    ...more,
  });
const log = (...dates: readonly string[]): Rows => [
  ['When', 'Who', 'What'],
  ...dates.map((one) => [one, 'Ida', 'swept']),
];

test.each<[string, string, readonly Held[], Readonly<Record<string, Rows>>, number]>([
  [
    'day first',
    'day first',
    ['02/03/2026', '09/03/2026'],
    { Log: log('24/02/2026', '03/03/2026') },
    day(3, 2),
  ],
  [
    'month first',
    'month first',
    ['03/02/2026', '03/09/2026'],
    { Log: log('02/24/2026', '03/03/2026') },
    day(3, 2),
  ],
  [
    'day first beside years in front',
    'day first',
    ['02/03/2026'],
    { Log: log('24/02/2026'), Old: log('2026-02-24') },
    day(3, 2),
  ],
])('dates are %s as another sheet proves, and that is told', async (_, order, dates, more, first) => {
  const bytes = await bookOf(dates, more);
  const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
  const lots = fit.tables.get('lots')!;
  expect(readingWords(lots, 'inoculated')).toBe(`dates, ${order}, as Log proves`);
  expect(lots.values.get('inoculated')![0]).toBe(first);
  await doAllAgree(bytes, prepared);
});

test.each<[string, readonly Held[], Readonly<Record<string, Rows>>]>([
  ['nothing proves an order', ['02/03/2026', '09/03/2026'], { Log: log('03/03/2026') }],
  ['two sheets prove both', ['02/03/2026'], { Log: log('24/02/2026'), Sales: log('02/24/2026') }],
  ['a column has both', ['02/03/2026'], { Log: log('24/02/2026'), Sales: log('02/24/2026', '25/02/2026') }],
  [
    'the rows follow each other in the other order',
    ['03/05/2026', '03/09/2026', '04/02/2026'],
    { Log: log('24/02/2026') },
  ],
  [
    'only remarks have a date',
    ['02/03/2026'],
    {
      Log: [
        ['When', 'What'],
        [1, '24/02/2026'],
        [2, 'new bran'],
        [3, 'a leak'],
      ],
    },
  ],
])('dates are asked about where %s', async (_, dates, more) => {
  const { questions } = fitted(opened(await bookOf(dates, more)), 'ready', TODAY);
  expect(questions).toMatchObject([{ kind: 'dates', about: 'lots, inoculated' }]);
});
