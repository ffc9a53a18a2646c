import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { sourceWords } from '../../../src/hosts/fit/told';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import type { Cell } from '../../../src/worksheet/cells/cell';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Tables that name the records of others by a key, as a database keeps them. Farm, strains and customers are invented.

type Rows = readonly (readonly Held[])[];
const FIGURES: Answers = { figures: { today: '2026-03-30', days: 28 } };
const LOTS: Rows = [
  ['lot_id', 'strain', 'blocks', 'block_kg', 'moisture', 'inoculated'],
  [101, 'Blue larch', 40, 2, 0.6, '2026-03-02'],
  [102, 'Blue larch', 40, 2, 0.6, '2026-03-06'],
];
const STRAINS: Rows = [
  ['strain', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'efficiency'],
  ['Blue larch', 18, 24, 60, 6, 2, 0.5],
];
const ROOMS: Rows = [
  ['room', 'shelves', 'blocks per shelf'],
  ['North', 8, 10],
];
const LINES: Rows = [
  ['line_id', 'order_id', 'product', 'qty_kg'],
  [1, 1001, 'Blue larch', 4],
  [2, 1002, 'Blue larch', 6],
  [3, 1002, 'Blue larch', 2],
  [4, 1003, 'Blue larch', 5],
];
const ORDERS: Rows = [
  ['status', 'customer', 'due_date', 'order_id'],
  ['open', 'Inn', '2026-04-14', 1001],
  ['cancelled', 'Box', '2026-04-16', 1003],
  ['open', 'Deli', '2026-04-20', 1002],
  ['open', 'Inn', '2026-04-22', 1004],
];
const bookOf = (sheets: Readonly<Record<string, Rows>>): Promise<Uint8Array> =>
  bookWith({ lots: LOTS, strains: STRAINS, rooms: ROOMS, ...sheets });
async function doesAgree(bytes: Uint8Array, prepared: Prepared, call: string): Promise<void> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const { address } = prepared.calls.find(({ formula }) => formula.includes(call))!;
  expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, call));
}
const ordersIn = (prepared: Prepared): Cell[][] =>
  valuesOf(prepared, '"orders"')
    .slice(1)
    .map(([, , due, mass]) => [due!, mass!]);

describe('lines of orders whose day and state are in a table of orders', () => {
  test('are read with that day, and asked about that state; the formulas say the same', async () => {
    const bytes = await bookOf({ order_lines: LINES, orders: ORDERS });
    const open = fitted(opened(bytes), 'plan', FIGURES);
    expect(open.questions.map(questionWords)).toEqual([
      '“status” tells rows apart: open (3), cancelled (1). Which of your orders still count?',
    ]);
    expect(sourceWords(open.tables.get('orders')!)).toContain(
      'due_date and status of orders!A1:D5, by order_id',
    );
    const rows = { orders: { status: ['open'] } };
    const [, prepared] = await laidOut(bytes, 'plan', { ...FIGURES, rows });
    expect(ordersIn(prepared)).toEqual([
      [day(4, 14), 4],
      [day(4, 20), 2],
      [day(4, 20), 6],
    ]);
    await doesAgree(bytes, prepared, '"orders"');
    const again = opened(withSheets(bytes, prepared.sheets));
    expect(fitted(again, 'plan', keptAnswers(again, 'plan')).questions.map(questionWords)).toEqual([]);
  });

  test('may have the key under id, in a table that it is named after', async () => {
    const orders = ORDERS.map((row, i) => [i === 0 ? 'id' : row[3]!, row[2]!, row[1]!]);
    const bytes = await bookOf({ order_lines: LINES, orders });
    const [, prepared] = await laidOut(bytes, 'plan', FIGURES);
    expect(ordersIn(prepared).map(([due]) => due)).toEqual([day(4, 14), day(4, 16), day(4, 20), day(4, 20)]);
  });

  test('that lead to no order are told at their key', async () => {
    const lines = [...LINES, [5, 1009, 'Blue larch', 3], [6, 1001, 'Blue larch', 1]];
    const orders = ORDERS.map((row) => row.slice(1));
    const fit = fitted(opened(await bookOf({ order_lines: lines, orders })), 'plan', FIGURES);
    expect(fit.questions).toEqual([]);
    expect(fit.unread.map(({ row, column, held, why }) => [row, column, held, why])).toEqual([
      [5, 1, 1009, 'leads to no due in orders!A1:C5'],
    ]);
  });

  test.each<[string, Readonly<Record<string, Rows>>]>([
    ['two tables have it', { orders: ORDERS, archive: ORDERS }],
    ['an order is there twice', { orders: [...ORDERS, ['open', 'Inn', '2026-04-23', 1001]] }],
  ])('are asked about where %s', async (_, sheets) => {
    const { questions } = fitted(opened(await bookOf({ order_lines: LINES, ...sheets })), 'plan', FIGURES);
    expect(questions).toMatchObject([{ kind: 'column', table: 'orders', column: 'due' }]);
  });
});

test('a mass is the key of nothing, though another table has the same masses', async () => {
  const lines = LINES.slice(0, 4).map((row) => [row[2]!, row[3]!]);
  const others: Rows = [
    ['qty_kg', 'due_date'],
    [4, '2026-04-14'],
    [6, '2026-04-16'],
    [2, '2026-04-18'],
  ];
  const { questions } = fitted(opened(await bookOf({ order_lines: lines, others })), 'plan', FIGURES);
  expect(questions).toMatchObject([{ kind: 'column', table: 'orders', column: 'due' }]);
});

test('orders are due on the day of the week on which their customer is delivered to', async () => {
  const orders: Rows = [
    ['customer', 'product', 'kg'],
    ['Inn', 'Blue larch', 4],
    ['Deli', 'Blue larch', 3],
  ];
  const customers: Rows = [
    ['customer', 'delivery day', 'stop'],
    ['Deli', 'Friday', 1],
    ['Inn', 'Tuesday', 2],
    ['Box', 'Friday', 3],
  ];
  const bytes = await bookOf({ orders, customers });
  const [, prepared] = await laidOut(bytes, 'plan', { figures: { today: '2026-04-06', days: 14 } });
  // 7 April 2026 is a Tuesday.
  expect(ordersIn(prepared)).toEqual([
    [day(4, 7), 4],
    [day(4, 10), 3],
    [day(4, 14), 4],
    [day(4, 17), 3],
  ]);
  await doesAgree(bytes, prepared, '"orders"');
});

test('a recipe has the moisture that a table of ingredients says', async () => {
  const bytes = await bookWith({
    recipe: [
      ['Ingredient', 'Share %'],
      ['Oak sawdust', 80],
      ['Wheat bran', 20],
    ],
    ingredients: [
      ['Ingredient', 'Price', 'Moisture'],
      ['Wheat bran', 9, 0.12],
      ['Gypsum', 4, 0.02],
      ['Oak sawdust', 3, 0.3],
    ],
  });
  const answers = { figures: { blocks: 10, 'block mass': 2, moisture: '60%' } };
  const [fit, prepared] = await laidOut(bytes, 'mix', answers);
  expect(fit.tables.get('recipe')!.values.get('moisture')).toEqual([0.3, 0.12]);
  await doesAgree(bytes, prepared, 'MIX(');
});

test.each([
  ['recipe_id', 'recipe_id'],
  ['recipe_no', 'id'],
])('lots have the moisture of their recipe, by its number: %s in %s', async (header, key) => {
  const lots = LOTS.map((row, i) => [...row.slice(0, 4), i === 0 ? header : 7 + (i % 2), row[5]!]);
  const recipes: Rows = [
    [key, 'name', 'moisture'],
    [7, 'Plain', 0.58],
    [8, 'Rich', 0.62],
    [9, 'Old', 0.6],
  ];
  const lines = [
    ['product', 'kg', 'due'],
    ['Blue larch', 4, '2026-04-14'],
  ];
  const bytes = await bookWith({ lots, strains: STRAINS, rooms: ROOMS, recipes, orders: lines });
  const [fit, prepared] = await laidOut(bytes, 'plan', FIGURES);
  expect(fit.tables.get('lots')!.values.get('moisture')).toEqual([0.62, 0.58]);
  await doesAgree(bytes, prepared, 'LOADPLAN(');
});
