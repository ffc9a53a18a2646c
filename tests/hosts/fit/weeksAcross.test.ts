import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { textOf } from '../../../src/hosts/fit/book';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Orders with calendar weeks across. Week 10 of 2026 begins on Monday 2 March, by ISO 8601.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Strain', 'Open from', 'Best at', 'Toss after', '1st pick', 'Picking days', 'Between', 'Flushes', 'BE'],
  ['Shiitake', 60, 75, 95, 7, 4, 18, 1, 0.7],
  ['Tawny oyster', 14, 18, 28, 6, 3, 12, 1, 0.9],
];
const LOTS: Rows = [
  ['Batch', 'Strain', 'Made on', 'Bags', 'Bag kg', 'Moist %'],
  ['F-1', 'Shiitake', '2025-12-19', 60, 2.5, 62],
  ['F-2', 'Tawny oyster', '2026-02-16', 44, 2.5, 62],
];
const ROOMS: Rows = [
  ['Room', 'Racks', 'Bags per rack'],
  ['Barn', 10, 12],
];
const farm = (orders: Rows): Promise<Uint8Array> =>
  bookWith({ Growing: STRAINS, Blocks: LOTS, Rooms: ROOMS, Orders: orders });

const TODAY = { figures: { today: '2026-03-02', days: 28 } };
const ANSWERS: Answers = { ...TODAY, years: { 'orders, due': 2026 }, blanks: { 'orders, due': 'as above' } };

const readIn = (bytes: Uint8Array, answers: Answers) => {
  const fit = fitted(opened(bytes), 'plan', answers);
  const { values } = fit.tables.get('orders')!;
  const [product, mass, due] = ['product', 'mass', 'due'].map((name) => values.get(name)!);
  const orders = product!.map((one, i) => [due![i], textOf(one), mass![i]]);
  return { fit, asked: fit.questions.map(questionWords), unread: fit.unread.map(placeOfUnread), orders };
};

/** Two customers, one of them with two products. */
const ordersOf = (first: string, second: string): Rows => [
  ['Orders in kg, by week'],
  [],
  ['Customer', 'Delivery', 'Product', first, second, 'Total'],
  ['Market', 'Sat', 'Shiitake', 12, '12,5', 24.5],
  [null, null, 'Tawny oyster', 8, 7, 15],
  ['Mill Inn', 'Thu', 'Shiitake', '4,5', 2, 6.5],
  ['Mill Inn closed in the last week'],
];
/** Thursday 5 and 12 March, Saturday 7 and 14 March. */
const ORDERED = [
  [day(3, 7), 'Shiitake', 12],
  [day(3, 7), 'Tawny oyster', 8],
  [day(3, 5), 'Shiitake', 4.5],
  [day(3, 14), 'Shiitake', 12.5],
  [day(3, 14), 'Tawny oyster', 7],
  [day(3, 12), 'Shiitake', 2],
];

describe('orders by calendar week across', () => {
  const words = [
    'KW 1#',
    'Wk 1#',
    'W1#',
    'Week 1#',
    'v1#',
    'v. 1#',
    'Sem 1#',
    'S1#',
    'uke 1#',
    'uge 1#',
    '1#. KW',
    '1# KW.',
    '2026-W1#',
  ];

  test.each(words)('%s is the week whose day the delivery column says', async (word) => {
    const bytes = await farm(ordersOf(word.replace('#', '0'), word.replace('#', '1')));
    const { asked, unread, orders } = readIn(bytes, ANSWERS);
    expect([asked, unread, orders]).toEqual([[], [], ORDERED]);
  });

  test('the year and the blank days are asked, the year proposed that is nearest to the other dates', async () => {
    const bytes = await farm(ordersOf('KW 10', 'KW 11'));
    const { fit, orders } = readIn(bytes, TODAY);
    expect(fit.questions).toEqual([
      {
        kind: 'years',
        about: 'orders, due',
        texts: ['KW 10', 'KW 11'],
        elsewhere: 2026,
        turn: undefined,
      },
      { kind: 'blanks', about: 'orders, due', places: ['Orders!B5'] },
    ]);
    expect(answersTemplate(fit)).toMatchObject({ years: { 'orders, due': 2026 } });
    expect(orders).toHaveLength(ORDERED.length);
  });

  test('weeks on both sides of New Year are each in their own year', async () => {
    const rows: Rows = [
      ['Customer', 'Delivery', 'Product', 'KW 52', 'KW 1'],
      ['Market', 'Sat', 'Shiitake', 12, 11],
    ];
    const { asked, orders } = readIn(await farm(rows), {
      ...TODAY,
      years: { 'orders, due': 2026 },
    });
    // Week 52 of 2026 begins on 21 December; week 1 of 2027 on 4 January.
    expect(asked).toEqual([]);
    expect(orders).toEqual([
      [day(12, 26), 'Shiitake', 12],
      [day(12, 31) + 9, 'Shiitake', 11],
    ]);
  });

  test('a ditto mark says the day above, two days or none are told at their cell', async () => {
    const rows: Rows = [
      ['Customer', 'Delivery', 'Product', 'KW 10', 'KW 11'],
      ['Market', 'Sat', 'Shiitake', 12, 11],
      ['Market', '"', 'Tawny oyster', 8, null],
      ['Mill Inn', 'Tue + Fri', 'Shiitake', 4, null],
      ['Box', null, 'Shiitake', 3, null],
    ];
    const { unread, orders } = readIn(await farm(rows), { ...TODAY, years: { 'orders, due': 2026 } });
    expect(unread).toEqual(['Orders!B4', 'Orders!B5']);
    expect(orders.filter(([due]) => typeof due === 'number')).toEqual([
      [day(3, 7), 'Shiitake', 12],
      [day(3, 7), 'Tawny oyster', 8],
      [day(3, 14), 'Shiitake', 11],
    ]);
  });

  test('without a column of days the day is asked', async () => {
    const rows = ordersOf('KW 10', 'KW 11').map((row) => row.filter((_, column) => column !== 1));
    const bytes = await farm(rows);
    expect(readIn(bytes, TODAY).fit.questions.map(({ kind }) => kind)).toEqual(['weekdays', 'years']);
    const friday: Answers = { ...ANSWERS, weekdays: { 'orders, due': 'Friday' } };
    const { asked, orders } = readIn(bytes, friday);
    expect(asked).toEqual([]);
    expect(orders.map(([due]) => due)).toEqual([
      day(3, 6),
      day(3, 6),
      day(3, 6),
      day(3, 13),
      day(3, 13),
      day(3, 13),
    ]);
  });

  test('weeks with more beside their number are not offered for what every week needs, and what to write is said', async () => {
    const bytes = await farm(ordersOf('KW 10 (2.–8.3.)', 'KW 11 (9.–15.3.)'));
    const [asked] = fitted(opened(bytes), 'plan', TODAY).questions;
    expect(asked).toMatchObject({ kind: 'column', column: 'mass', choices: [] });
    expect(questionWords(asked!)).toContain('“KW 10 (2.–8.3.)” looks like a week');
  });

  test('products over weeks are weeks as well', async () => {
    const rows: Rows = [
      ['Customer', 'Delivery', 'Shiitake', null, 'Tawny oyster', null],
      [null, null, 'KW 10', 'KW 11', 'KW 10', 'KW 11'],
      ['Market', 'Sat', 12, 11, 8, null],
      ['Mill Inn', 'Thu', 4, null, null, 2],
    ];
    const { asked, orders } = readIn(await farm(rows), ANSWERS);
    expect([asked, orders]).toEqual([
      [],
      [
        [day(3, 7), 'Shiitake', 12],
        [day(3, 5), 'Shiitake', 4],
        [day(3, 14), 'Shiitake', 11],
        [day(3, 7), 'Tawny oyster', 8],
        [day(3, 12), 'Tawny oyster', 2],
      ],
    ]);
  });

  test.each([
    ['KW 10', 'S11'],
    ['10. KW', '11. KW'],
    ['2026-W10', '2026-W11'],
  ])(
    '%s, %s: the formulas on the sheets give what was shown, and nothing is asked again',
    async (first, second) => {
      const bytes = await farm(ordersOf(first, second));
      const [, prepared] = await laidOut(bytes, 'plan', ANSWERS);
      const written = withSheets(bytes, prepared.sheets);
      const workbook = await openWorkbook(readWorkbook(written));
      const [plan] = prepared.calls;
      expect(workbook.result(prepared.answer, plan!.address).block).toEqual(valuesOf(prepared, 'LOADPLAN'));
      const book = opened(written);
      const again = fitted(book, 'plan', keptAnswers(book, 'plan'));
      expect(again.questions).toEqual([]);
      expect(again.tables.get('orders')!.values.get('due')).toEqual(ORDERED.map(([due]) => due));
    },
  );
});
