import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import type { Question } from '../../../src/hosts/fit/question';
import { plainValues } from '../../../src/worksheet/cells/cell';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Orders that stand in sentences. Days are counted by hand: 30 March 2026 is a Monday.

type Rows = readonly (readonly Held[])[];
const LOTS: Rows = [
  ['Lot', 'Strain', 'Bags', 'Bag kg', 'Moisture', 'Inoculated'],
  ['A1', 'Blue larch', 20, 2.5, '60%', '2026-03-02'],
  ['A2', 'Fen grey', 24, 2.5, '60%', '2026-03-02'],
];
const STRAINS: Rows = [
  ['Strain', 'Min days', 'Best', 'Max days', '1st pick', 'Pick days', 'BE'],
  ['Blue larch', 18, 24, 45, 7, 4, 0.7],
  ['Fen grey', 20, 28, 45, 8, 4, 0.6],
];
const ROOMS: Rows = [
  ['Room', 'Shelves', 'Blocks per shelf'],
  ['Shed', 10, 12],
];
const TODAY: Answers = { figures: { today: '2026-03-30', days: 14 } };
const bookOfNotes = (notes: Rows): Promise<Uint8Array> =>
  bookWith({ Lots: LOTS, Strains: STRAINS, Rooms: ROOMS, Notes: notes });
const askedIn = async (notes: Rows): Promise<(Question & { kind: 'fill' }) | undefined> =>
  fitted(opened(await bookOfNotes(notes)), 'plan', TODAY).questions.find(
    (one): one is Question & { kind: 'fill' } => one.kind === 'fill' && one.table === 'orders',
  );

describe('orders in sentences', () => {
  test.each<[string, Rows, unknown[]]>([
    [
      'a day, a customer, and two products',
      [['Every Friday: Harbour Deli 5 kg blue larch and 2,5 kg Fen Grey']],
      [
        ['Blue larch', 5, 'Friday'],
        ['Fen grey', 2.5, 'Friday'],
      ],
    ],
    [
      'cells side by side under a title',
      [['Standing orders'], ['Tue', 'Ferry Inn', '4 kg fen grey, 3000 g blue larch']],
      [
        ['Fen grey', 4, 'Tue'],
        ['Blue larch', 3, 'Tue'],
      ],
    ],
    [
      'a species whose first name is a letter',
      [['Every Tue 2 kg P. djamor for the canteen. Every week.']],
      [['P. djamor', 2, 'Tue']],
    ],
    ['two days', [['Every Tue and Fri the cafe: blue larch 2 kg']], [['Blue larch', 2, 'Tue, Fri']]],
    [
      'a cell right of a table, with a gap between',
      [['A1', 20, 4, null, 'each Tuesday 2 kg fen grey']],
      [['Fen grey', 2, 'Tuesday']],
    ],
    ['a range, of which none is taken', [['Each Monday 3-4 kg fen grey']], [['Fen grey', null, 'Monday']]],
  ])('are proposed from %s', async (_, notes, rows) => {
    const asked = await askedIn(notes);
    expect(asked?.rows.map(({ product, mass, due }) => [product, mass, due])).toEqual(rows);
  });

  test.each<[string, Rows]>([
    ['what was picked', [['Every Friday we picked 5 kg blue larch']]],
    ['a diary', [['Friday: 5 kg blue larch looked soft']]],
    ['a table’s own remark', [['A1', 20, 'each Tuesday 2 kg fen grey']]],
    ['a sentence without a day', [['Standing orders'], ['Harbour Deli 5 kg blue larch']]],
  ])('are not proposed from %s', async (_, notes) => {
    expect(await askedIn(notes)).toBeUndefined();
  });

  test('are told with their cells, and due every week of the plan; the formulas say the same', async () => {
    const bytes = await bookOfNotes([['Every Friday: Harbour Deli 5 kg blue larch']]);
    const { questions } = fitted(opened(bytes), 'plan', TODAY);
    expect(questions.map(questionWords)).toEqual([
      'Are these your orders? Notes!A1 says “Every Friday: Harbour Deli 5 kg blue larch”',
    ]);
    const orders = [
      { product: 'Blue larch', mass: 5, due: 'Fri' },
      { product: 'Fen grey', mass: 2, due: 'Mon, Thu' },
      { product: 'Fen grey', mass: 1, due: '2026-04-11' },
    ];
    const [, prepared] = await laidOut(bytes, 'plan', { ...TODAY, fill: { orders } });
    const view = valuesOf(prepared, '"orders"');
    const at = (name: string): number => view[0]!.indexOf(name);
    const due = view.slice(1).map((row) => [row[at('product')], row[at('mass')], row[at('due')]]);
    expect(due.sort((a, b) => Number(a[2]) - Number(b[2]))).toEqual([
      ['Fen grey', 2, day(3, 30)],
      ['Fen grey', 2, day(4, 2)],
      ['Blue larch', 5, day(4, 3)],
      ['Fen grey', 2, day(4, 6)],
      ['Fen grey', 2, day(4, 9)],
      ['Blue larch', 5, day(4, 10)],
      ['Fen grey', 1, day(4, 11)],
    ]);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    for (const { address, block } of prepared.calls)
      expect(workbook.result(prepared.answer, address).block).toEqual(plainValues(block));
  });
});

test('a table ends above a gap where words begin in its columns of figures', async () => {
  const rooms: Rows = [...ROOMS, [], ['Standing orders'], ['Tue', 'Ferry Inn', '4 kg fen grey']];
  const bytes = await bookWith({ Lots: LOTS, Strains: STRAINS, Rooms: rooms });
  const { tables, unread } = fitted(opened(bytes), 'plan', TODAY);
  expect(tables.get('rooms')!.values.get('room')).toEqual(['Shed']);
  expect(unread).toEqual([]);
});

test('a room in a sentence keeps the letter that it is called by', async () => {
  const notes: Rows = [['Tent A: 5 shelves of 6 bags, Tent B has 4 shelves of 6']];
  const bytes = await bookWith({ Lots: LOTS, Strains: STRAINS, Notes: notes });
  const { questions } = fitted(opened(bytes), 'plan', TODAY);
  const asked = questions.find((one) => one.kind === 'fill' && one.table === 'rooms');
  expect(asked).toMatchObject({ rows: [{ room: 'Tent A' }, { room: 'Tent B' }] });
});
