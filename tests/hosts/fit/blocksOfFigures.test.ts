import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// A farm that keeps figures in blocks: customers by products, lots by days; blocks made and blocks left side by side; pounds
// and ounces; short names with a legend. Right answers are worked out by hand beside each; the day is 1 April 2026.

const STRAINS: readonly (readonly Held[])[] = [
  [
    ...['Variety', 'Open from', 'Best at', 'Toss after', '1st pick after opening', 'Pick for (days)'],
    ...['Days between flushes', '1st flush', '2nd flush', 'BE'],
  ],
  ['Shiitake', 60, 75, 95, 7, 4, 18, 0.6, 0.4, 0.7],
  ['Blue oyster', 14, 18, 28, 6, 3, 12, 0.65, 0.35, 0.9],
];

const LEGEND: readonly (readonly Held[])[] = [
  [null, 'What the letters mean'],
  [null, 'Short', 'In full'],
  [null, 'Shii', 'Shiitake'],
  [null, 'BO', 'Blue oyster'],
];

/** F-3 was opened on 9 March, and 16 of its 40 are left; F-4 is used up; of F-1 no day of opening is known. */
const LOTS: readonly (readonly Held[])[] = [
  ['Fernbank Hollow: blocks'],
  [],
  ['Batch', 'Strain', 'Made on', 'Bags made', 'Bags left', 'lb', 'oz', 'Moist %', 'Opened'],
  ['F-1', 'Shii', '19/01/26', 60, 58, 5, 8, 62, null],
  ['F-2', 'BO', '16/03/26', 44, 44, 6, 12, 62, null],
  ['F-3', 'BO', '14/03/26', 40, 16, 6, 12, 62, '30/03/26'],
  ['F-4', 'BO', '19/02/26', 40, 0, 6, 12, 62, '09/03/26'],
];

const ORDERS: readonly (readonly Held[])[] = [
  ['Orders, lbs'],
  ['For', '17/04/26'],
  ['Customer', 'Shiitake', 'Oysters', 'Total'],
  ['Mill Inn', 6, 3, 9],
  ['Market', 14, null, 14],
  ['Total', 20, 3, 23],
  [],
  ['For', '24/04/26'],
  ['Customer', 'Shiitake', 'Oysters', 'Total'],
  ['Mill Inn', '-', 8, 8],
  ['Market', 'a few', 0, null],
];

/** Each pick of F-4 is what its day should give but that of 16 March, which has lost its point. */
const PICKS: readonly (readonly Held[])[] = [
  ['Picked, lbs'],
  ['Lot', '15/03/26', '16/03/26', '17/03/26', 'Wk total', '27/03/26', '28/03/26', '29/03/26'],
  ['F-4', 24.3, 238, 12.3, 274.6, 12.9, 'lots', 6.4],
  ['Total', 24.3, 238, 12.3, 274.6, 12.9, null, 6.4],
];

const farm = (): Promise<Uint8Array> =>
  bookWith({
    Key: LEGEND,
    Growing: STRAINS,
    Blocks: LOTS,
    Space: [
      ['Bldg', 'Racks', 'Bags per rack'],
      ['Barn', 10, 12],
    ],
    Orders: ORDERS,
    Picked: PICKS,
  });

const ANSWERS: Answers = {
  products: { Oysters: ['Blue oyster'] },
  leaveOut: { orders: true },
  figures: { today: '2026-04-01', days: 28 },
};

describe('blocks made and blocks left side by side', () => {
  test('what is left counts for the ready lots, what was made for an audit', async () => {
    const [ready, prepared] = await laidOut(await farm(), 'ready', ANSWERS);
    expect(ready.tables.get('lots')!.values.get('blocks')).toEqual([58, 44, 16]);
    // F-1 is ready from 20 March; F-2 from 30 March; F-3 from 28 March: a part of it was opened, the rest still waits.
    const listed = valuesOf(prepared, 'READYLOTS')
      .slice(1)
      .map(([lot, strain, blocks]) => [lot, strain, blocks]);
    expect(listed).toEqual(
      expect.arrayContaining([
        ['F-1', 'Shiitake', 58],
        ['F-2', 'Blue oyster', 44],
        ['F-3', 'Blue oyster', 16],
      ]),
    );
    expect(listed).toHaveLength(3);
    const audit = fitted(opened(await farm()), 'audit', ANSWERS);
    expect(audit.tables.get('lots')!.values.get('blocks')).toEqual([60, 44, 40, 40]);
  });
});

describe('orders as customers by products, a day above each block', () => {
  test('are read as orders, and what cannot be read is told', async () => {
    const [fit] = await laidOut(await farm(), 'plan', ANSWERS);
    const { values } = fit.tables.get('orders')!;
    const read = ['product', 'mass', 'due'].map((name) => values.get(name)!);
    const orders = read[0]!.map((product, i) => [product, read[1]![i], read[2]![i]]);
    expect(orders).toHaveLength(5);
    expect(orders).toEqual(
      expect.arrayContaining([
        ['Shiitake', 6, day(4, 17)],
        ['Shiitake', 14, day(4, 17)],
        ['Oysters', 3, day(4, 17)],
        ['Oysters', 8, day(4, 24)],
      ]),
    );
    expect(fit.unread.map(placeOfUnread)).toEqual(['Orders!B11']);
  });

  test('pounds and ounces are one mass, and the formulas on the sheets give what was shown', async () => {
    const bytes = await farm();
    const [fit, prepared] = await laidOut(bytes, 'plan', ANSWERS);
    // 5 lb 8 oz, 6 lb 12 oz
    expect(fit.tables.get('lots')!.values.get('block mass')).toEqual([5.5, 6.75, 6.75]);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    for (const { header, cells } of prepared.columns.filter(({ table }) => table === 'lots')) {
      expect([header, cells.filter((cell) => cell !== null).length]).toEqual([
        header,
        header === 'loaded' ? 0 : 3,
      ]);
    }
    const [plan] = prepared.calls;
    expect(workbook.result(prepared.answer, plan!.address).block!.slice(0, 4)).toEqual(
      valuesOf(prepared, 'LOADPLAN').slice(0, 4),
    );
  });

  test('are found again without a question', async () => {
    const bytes = await farm();
    const [, prepared] = await laidOut(bytes, 'plan', ANSWERS);
    const book = opened(withSheets(bytes, prepared.sheets));
    expect(fitted(book, 'plan', keptAnswers(book, 'plan')).questions).toEqual([]);
  });
});

test('picks as lots by days are audited: the slip is found in its own cell, and a remark is told', async () => {
  const bytes = await farm();
  const [fit, prepared] = await laidOut(bytes, 'audit', ANSWERS);
  expect(fit.unread.map(placeOfUnread)).toEqual(['Picked!G3']);
  const rows = valuesOf(prepared, 'YIELDAUDIT');
  const slip = rows.findIndex(([, , , , value]) => value === 238);
  expect(rows[slip]![6]).toBeCloseTo(23.8, 6);
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  expect(workbook.result('Audit', `A${4 + slip}`).value).toBe('Picked!C3');
});

describe('orders as weeks by products, the day written once for several rows', () => {
  const book = (): Promise<Uint8Array> =>
    bookWith({
      Growing: STRAINS,
      Orders: [
        ['Delivery', 'Customer', 'Shiitake', 'Blue oyster'],
        ['17/04/26', 'Mill Inn', 6, 3],
        [null, 'Market', 14, null],
        ['Total', null, 20, 3],
        ['24/04/26', 'Mill Inn', null, 8],
        [null, 'Market', 12, 2],
      ],
    });

  test('what a blank means is asked, and then read from the day above, never from a totals row', async () => {
    const asked = fitted(opened(await book()), 'plan', {}).questions.filter(({ kind }) => kind === 'blanks');
    expect(asked).toEqual([{ kind: 'blanks', about: 'orders, due', places: ['Orders!A3', 'Orders!A6'] }]);
    const { tables } = fitted(opened(await book()), 'plan', { blanks: { 'orders, due': 'as above' } });
    const { values } = tables.get('orders')!;
    const orders = values
      .get('product')!
      .map((product, i) => [product, values.get('mass')![i], values.get('due')![i]]);
    expect(orders).toEqual([
      ['Shiitake', 6, day(4, 17)],
      ['Shiitake', 14, day(4, 17)],
      ['Shiitake', 12, day(4, 24)],
      ['Blue oyster', 3, day(4, 17)],
      ['Blue oyster', 8, day(4, 24)],
      ['Blue oyster', 2, day(4, 24)],
    ]);
  });
});

describe('orders that stand, with a day of the week', () => {
  const book = (): Promise<Uint8Array> =>
    bookWith({
      Growing: STRAINS,
      Key: LEGEND,
      Blocks: LOTS,
      Space: [
        ['Bldg', 'Racks', 'Bags per rack'],
        ['Barn', 10, 12],
      ],
      'Standing orders': [
        ['Who', 'Item', 'When', 'Lbs'],
        ['Mill Inn', 'Shiitake', 'every Tue', 6],
        ['Market', 'Blue oyster', 'Saturdays', 12],
        ['Noodle bar', 'Blue oyster', 'Tue & Fri', 4],
        ['Bakery', 'Shiitake', 'Tuesday week', 3],
      ],
    });
  const days = { leaveOut: { orders: true }, figures: { today: '2026-04-01', days: 14 } };

  test('are due every week of the plan, on each day that a cell names; a cell that says more is told', async () => {
    const [fit, prepared] = await laidOut(await book(), 'plan', days);
    expect(fit.unread.map(placeOfUnread)).toEqual(["'Standing orders'!C5"]);
    // The day is a Wednesday: the first Friday is 3 April, the first Saturday the 4th, the first Tuesday the 7th.
    const orders = valuesOf(prepared, '"orders"')
      .slice(1)
      .map(([product, , due, mass]) => [product, due, mass]);
    expect(orders).toEqual([
      ['Blue oyster', day(4, 3), 4],
      ['Blue oyster', day(4, 4), 12],
      ['Blue oyster', day(4, 7), 4],
      ['Shiitake', day(4, 7), 6],
      ['Blue oyster', day(4, 10), 4],
      ['Blue oyster', day(4, 11), 12],
      ['Blue oyster', day(4, 14), 4],
      ['Shiitake', day(4, 14), 6],
    ]);
  });
});
