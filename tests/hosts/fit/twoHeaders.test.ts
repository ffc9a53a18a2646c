import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { textOf } from '../../../src/hosts/fit/book';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Figures under two header rows. What is expected is read off the cells by eye; the day is 1 April 2026.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Strain', 'Open from', 'Best at', 'Toss after', '1st pick', 'Picking days', 'Between', 'Flushes', 'BE'],
  ['Shiitake', 60, 75, 95, 7, 4, 18, 1, 0.7],
  ['Tawny oyster', 14, 18, 28, 6, 3, 12, 1, 0.9],
];
const LOTS: Rows = [
  ['Batch', 'Strain', 'Made on', 'Bags', 'Bag kg', 'Moist %', 'Opened'],
  ['F-1', 'Shiitake', '2026-01-19', 60, 2.5, 62, null],
  ['F-2', 'Tawny oyster', '2026-03-16', 44, 2.5, 62, '2026-04-02'],
  ['F-3', 'Tawny oyster', '2026-03-16', 44, 2.5, 62, '2026-04-02'],
];
const ROOMS: Rows = [
  ['Room', 'Racks', 'Bags per rack'],
  ['Barn', 10, 12],
];
const farm = (orders: Rows, name = 'Orders'): Promise<Uint8Array> =>
  bookWith({ Growing: STRAINS, Blocks: LOTS, Rooms: ROOMS, [name]: orders });

const ANSWERS = { figures: { today: '2026-04-01', days: 28 } };

/** The orders that are read, in the order of their days. */
const ordersIn = (bytes: Uint8Array) => {
  const fit = fitted(opened(bytes), 'plan', ANSWERS);
  const { values } = fit.tables.get('orders')!;
  const [product, mass, due] = ['product', 'mass', 'due'].map((name) => values.get(name)!);
  const rows = product!.map((one, i) => [due![i], textOf(one), mass![i]] as const);
  const isBefore = (a: (typeof rows)[number], b: (typeof rows)[number]): number =>
    Number(a[0]) - Number(b[0]) || a[1].localeCompare(b[1]) || Number(a[2]) - Number(b[2]);
  return { asked: fit.questions.map(questionWords), orders: rows.sort(isBefore) };
};

const [first, second] = [day(4, 17), day(4, 24)];
const ORDERED = [
  [first, 'Shiitake', 6],
  [first, 'Shiitake', 14],
  [first, 'Tawny oyster', 3],
  [second, 'Shiitake', 12],
  [second, 'Tawny oyster', 2],
  [second, 'Tawny oyster', 8],
];
const BY_DAY: Rows = [
  ['Mill Inn', 6, 3, null, 8],
  ['Market', 14, null, 12, 2],
];
const TOTALS: readonly Held[] = ['TOTAL', 20, 3, 12, 10];
const REMARK: readonly Held[] = ['Mill Inn closed on 1 May'];

describe('orders under two header rows', () => {
  const products = ['Shiitake', 'Tawny oyster', 'Shiitake', 'Tawny oyster'];
  const layouts: Readonly<Record<string, Rows>> = {
    'days over products, the day once': [
      ['Standing orders, kg'],
      [],
      ['Client', '2026-04-17', null, '2026-04-24', null],
      [null, ...products],
      ...BY_DAY,
      TOTALS,
      [],
      REMARK,
    ],
    'days over products, the day in every cell': [
      ['Client', '2026-04-17', '2026-04-17', '2026-04-24', '2026-04-24'],
      [null, ...products],
      ...BY_DAY,
    ],
    'days over products, the customer in the lower row': [
      [null, '2026-04-17', null, '2026-04-24', null],
      ['Client', ...products],
      ...BY_DAY,
    ],
    'days over products, nothing over the customers': [
      [null, '2026-04-17', null, '2026-04-24', null],
      [null, ...products],
      ...BY_DAY,
      TOTALS,
    ],
    'days over products, totals of each day and of all': [
      ['Client', '2026-04-17', null, null, '2026-04-24', null, null, 'All days', null],
      [null, 'Shiitake', 'Tawny oyster', 'Total', 'Shiitake', 'Tawny oyster', 'Total', 'Total', 'Notes'],
      ['Mill Inn', 6, 3, 9, null, 8, 8, 17, 'pays late'],
      ['Market', 14, null, 14, 12, 2, 14, 28, null],
    ],
    'days over products, sums of the products behind a blank column': [
      ['Client', '2026-04-17', null, '2026-04-24', null, null, null, null],
      [null, ...products, null, 'Shiitake', 'Tawny oyster'],
      ['Mill Inn', 6, 3, null, 8, null, 6, 11],
      ['Market', 14, null, 12, 2, null, 26, 2],
    ],
    'one day alone over products': [
      ['Client', '2026-04-17', null],
      [null, 'Shiitake', 'Tawny oyster'],
      ['Mill Inn', 6, 3],
      ['Market', 14, null],
      [],
      ['Client', '2026-04-24', null],
      [null, 'Shiitake', 'Tawny oyster'],
      ['Mill Inn', null, 8],
      ['Market', 12, 2],
    ],
    'products over days': [
      ['Client', 'Shiitake', null, 'Tawny oyster', null],
      [null, '2026-04-17', '2026-04-24', '2026-04-17', '2026-04-24'],
      ['Mill Inn', 6, null, 3, 8],
      ['Market', 14, 12, null, 2],
      ['TOTAL', 20, 12, 3, 10],
    ],
    'products over days, totals of each product': [
      ['Client', 'Shiitake', null, null, 'Tawny oyster', null, null],
      [null, '2026-04-17', '2026-04-24', 'Total', '2026-04-17', '2026-04-24', 'Total'],
      ['Mill Inn', 6, null, 6, 3, 8, 11],
      ['Market', 14, 12, 26, null, 2, 2],
    ],
  };

  test.each(Object.entries(layouts))('%s, are read figure by figure', async (_, rows) => {
    expect(ordersIn(await farm(rows))).toEqual({ asked: [], orders: ORDERED });
  });

  test('dates of the workbook count as days, and the formulas on the sheets give what was shown', async () => {
    const on = (date: number): Date => new Date(Date.UTC(2026, 3, date));
    const bytes = await bookWith({
      Growing: STRAINS,
      Blocks: LOTS,
      Rooms: ROOMS,
      Orders: [['Client', on(17), null, on(24), null], [null, ...products], ...BY_DAY, TOTALS, REMARK],
    });
    expect(ordersIn(bytes)).toEqual({ asked: [], orders: ORDERED });
    const [, prepared] = await laidOut(bytes, 'plan', ANSWERS);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const [plan] = prepared.calls;
    expect(workbook.result(prepared.answer, plan!.address).block).toEqual(valuesOf(prepared, 'LOADPLAN'));
  });

  test.each([
    [
      'over days',
      ['Kunde', 'Rounds', null, 'Bunches', null],
      [null, '2026-04-17', '2026-04-24', '2026-04-17', '2026-04-24'],
    ],
    [
      'under days',
      ['Kunde', '2026-04-17', null, '2026-04-24', null],
      [null, 'Bunches', 'Rounds', 'Bunches', 'Rounds'],
    ],
  ] as [string, Held[], Held[]][])(
    'products that no list names are read %s, and asked',
    async (_, upper, lower) => {
      const rows: Rows = [upper, lower, ['Mill Inn', 6, 3, 2, 8], ['Market', 14, 1, 12, 2]];
      const { asked, orders } = ordersIn(await farm(rows));
      expect(asked).toEqual([expect.stringContaining('Which strains are sold as')]);
      expect(orders.map(([due]) => due)).toEqual([
        first,
        first,
        first,
        first,
        second,
        second,
        second,
        second,
      ]);
    },
  );

  test('days of the week over products are orders of every week', async () => {
    const rows: Rows = [['Client', 'Tue', null, 'Fri', null], [null, ...products], ...BY_DAY];
    // 1 April 2026 is a Wednesday: four weeks have four Fridays and four Tuesdays.
    const { asked, orders } = ordersIn(await farm(rows));
    expect([asked, orders.length]).toEqual([[], 24]);
  });

  test.each([
    [
      [null, 'kg', 'boxes', 'kg', 'boxes'],
      ['Shiitake', 20, 10, 12, 6],
      ['Tawny oyster', 3, 2, 10, 5],
    ],
    [
      [null, 'boxes', 'kg', 'boxes', 'kg'],
      ['Shiitake', 10, 20, 6, 12],
      ['Tawny oyster', 2, 3, 5, 10],
    ],
  ] as Rows[])('of what is under each day the mass is read: %j', async (...below) => {
    const rows: Rows = [['Product', '2026-04-17', null, '2026-04-24', null], ...below];
    const { orders } = ordersIn(await farm(rows));
    expect(orders).toEqual([
      [first, 'Shiitake', 20],
      [first, 'Tawny oyster', 3],
      [second, 'Shiitake', 12],
      [second, 'Tawny oyster', 10],
    ]);
  });
});

test('customers over products lose none, the day of each row beside them', async () => {
  const rows: Rows = [
    ['For', 'Customer: Mill Inn', null, 'Customer: Market', null],
    [null, 'Shiitake', 'Tawny oyster', 'Shiitake', 'Tawny oyster'],
    ['2026-04-17', 6, 3, 14, null],
    ['2026-04-24', null, 8, 12, 2],
  ];
  expect(ordersIn(await farm(rows))).toEqual({ asked: [], orders: ORDERED });
});

test('a customer that is written once for several rows loses none of them', async () => {
  const rows: Rows = [
    ['Customer', 'Stop', '2026-04-17', null, '2026-04-24', null],
    [null, null, 'Shiitake', 'Tawny oyster', 'Shiitake', 'Tawny oyster'],
    ['Mill Inn', 'bar', 6, 3, null, 8],
    [null, 'kitchen', 14, null, 12, 2],
    ['TOTAL', null, 20, 3, 12, 10],
  ];
  expect(ordersIn(await farm(rows))).toEqual({ asked: [], orders: ORDERED });
});

test('picks of each grade under a day are all picks of it', async () => {
  const picks: Rows = [
    ['Lot', '2026-04-09', null, '2026-04-10', null, 'Sum'],
    [null, 'I', 'II', 'I', 'II', null],
    ['F-2', 5, 1, 6, 2, 14],
    ['F-3', 4, null, 3, 1, 8],
  ];
  const { tables } = fitted(opened(await farm(picks, 'Picked')), 'audit', ANSWERS);
  const { values } = tables.get('harvests')!;
  const rows = values.get('lot')!.map((lot, i) => [lot, values.get('date')![i], values.get('mass')![i]]);
  expect(rows).toEqual([
    ['F-2', day(4, 9), 5],
    ['F-3', day(4, 9), 4],
    ['F-2', day(4, 9), 1],
    ['F-2', day(4, 10), 6],
    ['F-3', day(4, 10), 3],
    ['F-2', day(4, 10), 2],
    ['F-3', day(4, 10), 1],
  ]);
});

test('picks with a day over the lots are read, each in its own cell', async () => {
  const picks: Rows = [
    ['Picked, kg'],
    ['Shelf', '2026-04-09', null, '2026-04-10', null],
    [null, 'F-2', 'F-3', 'F-2', 'F-3'],
    ['top', 5, 4, 6, 3],
    ['bottom', 4, null, 5, 3],
    ['Total', 9, 4, 11, 6],
  ];
  const { tables } = fitted(opened(await farm(picks, 'Picked')), 'audit', ANSWERS);
  const { values } = tables.get('harvests')!;
  const rows = values.get('lot')!.map((lot, i) => [lot, values.get('date')![i], values.get('mass')![i]]);
  expect(rows).toEqual([
    ['F-2', day(4, 9), 5],
    ['F-2', day(4, 9), 4],
    ['F-3', day(4, 9), 4],
    ['F-2', day(4, 10), 6],
    ['F-2', day(4, 10), 5],
    ['F-3', day(4, 10), 3],
    ['F-3', day(4, 10), 3],
  ]);
});
