import { describe, expect, test } from '@jest/globals';
import { textOf } from '../../../src/hosts/fit/book';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { readAnswers } from '../../../src/hosts/fit/readAnswers';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { ignoredWords, readingWords, sourceWords } from '../../../src/hosts/fit/told';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, fittedBare, laidOut, opened, valuesOf, type Held } from './laidOut';

// Waits in parts, figures that share a cell, rooms shelf by shelf, days in the corner of a block, sums without a known word.
// What is expected is added up by eye.

type Rows = readonly (readonly Held[])[];

const TODAY = { figures: { today: '2026-03-28' } };
const LOTS: Rows = [
  ['Lot', 'Strain', 'Bags', 'Inoculated'],
  ['A1', 'Larch 1', 20, '2026-01-05'],
  ['A2', 'Grey fen', 24, '2026-03-02'],
];

/** What the workbook itself gives for the answer of a job, once it is written. */
async function written(bytes: Uint8Array, prepared: Prepared, at = 0): Promise<unknown> {
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  return workbook.result(prepared.answer, prepared.calls[at]!.address).block;
}

describe('a wait in parts', () => {
  const sum = (...rows: Rows): Rows => rows;
  test.each<[string, Rows, string]>([
    [
      'columns of days, a dash for none',
      sum(
        ['Strain', 'Days colonize', 'Days brown', 'Rest', 'Days btw flushes', 'Too old after'],
        ['Larch 1', 55, 18, 7, 21, 110],
        ['Grey fen', 21, '-', '-', 12, 40],
      ),
      'the sum of Days colonize + Days brown + Rest',
    ],
    [
      'weeks and days as they are written',
      sum(
        ['Strain', 'Colonising', 'Browning', 'Ripening', 'Use within'],
        ['Larch 1', '8 wks', '19 d', '5 d', '110 days'],
        ['Grey fen', '3 wks', null, null, '40 days'],
      ),
      'the sum of Colonising + Browning + Ripening',
    ],
    [
      'abbreviations with a unit, a 0 for none',
      sum(
        ['Strain', 't_kol [d]', 't_brun [d]', 't_1 [d]', 't_max [d]'],
        ['Larch 1', 55, 25, 6, 110],
        ['Grey fen', 21, 'n/a', 10, 40],
        ['Old moss', 30, 0, 10, 60],
      ),
      'the sum of t_kol [d] + t_brun [d]',
    ],
    [
      'headers in weeks beside headers in days',
      sum(
        ['Strain', 'Spawn run (weeks)', 'Browning (days)', 'Max age'],
        ['Larch 1', 8, 24, 110],
        ['Grey fen', 3, null, 40],
      ),
      'the sum of Spawn run (weeks) + Browning (days)',
    ],
    [
      'a rest where nothing is said of flushes',
      sum(
        ['Strain', 'Colonise', 'Brown', 'Rest', 'Max age'],
        ['Larch 1', 55, 18, 7, 110],
        ['Grey fen', 14, 5, 2, 40],
      ),
      'the sum of Colonise + Brown + Rest',
    ],
    [
      'one cell for all parts',
      sum(
        ['Strain', 'Colonize / brown / rest', 'Toss after'],
        ['Larch 1', '55 / 18 / 7', '110 days'],
        ['Grey fen', 21, '40 days'],
      ),
      'the sum of Colonize / brown / rest',
    ],
    [
      'on its side',
      sum(
        [null, 'Larch 1', 'Grey fen'],
        ['colonising', 55, 21],
        ['browning', 18, '-'],
        ['ripening', 7, '-'],
        ['max. age', 110, 40],
        ['flush interval', 18, 12],
        ['number of flushes', 3, 2],
        ['BE', 0.8, 0.9],
      ),
      'the sum of colonising + browning + ripening',
    ],
  ])('is added up: %s', async (_, strains, words) => {
    const bytes = await bookWith({ Lots: LOTS, Strains: strains });
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    const own = fit.tables.get('strains')!;
    expect(['earliest', 'best'].map((name) => readingWords(own, name))).toEqual([words, words]);
    expect(own.values.get('best')!.slice(0, 2)).toEqual([80, 21]);
    expect(fit.unread).toEqual([]);
    const ready = valuesOf(prepared, 'READYLOTS(');
    const shown = (name: string): unknown[] => ready.slice(1).map((row) => row[ready[0]!.indexOf(name)]);
    // 80 days from 5 January are 26 March, 110 are 25 April; 21 days from 2 March are 23 March.
    expect(shown('lot')).toEqual(['A2', 'A1']);
    expect(shown('best')).toEqual([day(3, 23), day(3, 26)]);
    expect(shown('latest')).toEqual([day(4, 11), day(4, 25)]);
    expect(await written(bytes, prepared)).toEqual(ready);
  });

  test('that is a range each is over at the earliest after the first days, and surely after the last', async () => {
    const bytes = await bookWith({
      Lots: LOTS,
      Strains: [
        ['Strain', 'Colonising', 'Browning', 'Max age'],
        ['Larch 1', '45-50', '20', 110],
        ['Grey fen', '14 to 16', null, 40],
      ],
    });
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    const { values } = fit.tables.get('strains')!;
    expect([values.get('earliest'), values.get('best')]).toEqual([
      [65, 14],
      [70, 16],
    ]);
    expect(await written(bytes, prepared)).toEqual(valuesOf(prepared, 'READYLOTS('));
  });

  test.each<[string, Rows[number], Rows[number]]>([
    ['a whole wait is there as well', ['Colonise', 'Brown', 'Best'], [50, 20, 78]],
    ['one of the parts alone is there', ['Colonise', 'Room temp'], [50, 20]],
    ['one part is there twice', ['Colonise min', 'Colonise', 'Spawn run', 'Brown'], [40, 50, 50, 20]],
    ['a share is no part', ['Colonised %', 'Brown'], [90, 20]],
  ])('is not added up where %s', async (_, headers, figures) => {
    const strains: Rows = [
      ['Strain', ...headers, 'Max age'],
      ['Larch 1', ...figures, 110],
      ['Grey fen', ...figures, 110],
    ];
    const fit = fitted(opened(await bookWith({ Lots: LOTS, Strains: strains })), 'ready', TODAY);
    const own = fit.tables.get('strains');
    expect((own?.readings ?? []).filter(({ parts }) => parts)).toEqual([]);
  });

  test('of which the rest may be that between flushes is asked about', async () => {
    const strains: Rows = [
      ['Strain', 'Colonise', 'Brown', 'Rest', 'Flushes', 'Max age'],
      ['Larch 1', 50, 20, 7, 3, 110],
      ['Grey fen', 20, 5, 7, 2, 110],
    ];
    const fit = fitted(opened(await bookWith({ Lots: LOTS, Strains: strains })), 'ready', TODAY);
    expect(fit.questions.map(questionWords).join('\n')).toContain('“earliest”');
  });

  test('a first day in other words is no reason to take the usual one for it', async () => {
    const bytes = await bookWith({
      Lots: LOTS,
      Strains: [
        ['Strain', 'Earliest I would open', 'Usual', 'Too old after'],
        ['Larch 1', 70, 84, 110],
        ['Grey fen', 14, 18, 40],
      ],
    });
    const { values } = fitted(opened(bytes), 'ready', TODAY).tables.get('strains')!;
    expect([values.get('earliest'), values.get('best')]).toEqual([
      [70, 14],
      [84, 18],
    ]);
  });
});

const STRAINS: Rows = [
  [
    'Strain',
    'Sold as',
    'Min days',
    'Best',
    'Max days',
    '1st pick',
    'Pick days',
    'Then every',
    'Flush split',
    'BE',
  ],
  ['Larch 1', 'Shiitake', 70, 80, 110, 7, 4, 16, '50/30/20', 0.7],
  ['Grey fen', 'Oyster', 18, 24, 45, 7, 4, '12 days', '65% + 35%', 0.7],
];
const PLANNED: Rows = [
  ['Lot', 'Strain', 'Bags', 'Bag kg', 'Moisture', 'Inoculated', 'Cell', 'Opened'],
  ['A0', 'Grey fen', 10, 2.5, 0.6, '2026-02-10', 'Shed', '2026-03-20'],
  ['A1', 'Larch 1', 20, 2.5, 0.6, '2026-01-12', null, null],
  ['A2', 'Grey fen', 24, 2.5, 0.6, '2026-03-02', null, null],
];
const ROOMS: Rows = [
  ['Room', 'Shelving'],
  ['Shed', '4 shelves x 25 blocks'],
  ['Tent', '3 x 20'],
];
const ORDERS: Rows = [
  ['Customer', 'Product', 'kg', 'Due'],
  ['Inn', 'Shiitake', 2, '2026-04-10'],
  ['Box', 'Oyster', 3, '2026-04-12'],
];
const PLAN = {
  ...TODAY,
  fill: { calendar: [{ day: 'every day', 'pick limit': 'none', 'load limit': 'none' }] },
};

describe('figures that share a cell', () => {
  test('the shares of all flushes, and what the shelves of a room are and hold, make a plan', async () => {
    const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Space: ROOMS, Orders: ORDERS });
    const [fit, prepared] = await laidOut(bytes, 'plan', TODAY);
    const { values } = fit.tables.get('strains')!;
    expect([1, 2, 3].map((number) => values.get(`flush ${number}`))).toEqual([
      [0.5, 0.65],
      [0.3, 0.35],
      [0.2, ''],
    ]);
    expect(values.get('flush gap')).toEqual([16, 12]);
    const rooms = fit.tables.get('rooms')!.values;
    expect([rooms.get('shelves'), rooms.get('blocks per shelf')]).toEqual([
      [4, 3],
      [25, 20],
    ]);
    // What a column holds are the names of the rooms, whatever it is called: A0 stands in the shed.
    expect(fit.tables.get('lots')!.values.get('room')).toEqual(['Shed', '', '']);
    const orders = valuesOf(prepared, '"orders"');
    expect(orders.slice(1).map((row) => row[orders[0]!.indexOf('short')])).toEqual([0, 0]);
    const at = prepared.calls.findIndex(({ formula }) => formula.includes('"orders"'));
    expect(await written(bytes, prepared, at)).toEqual(orders);
  });

  test.each<[string, Held, Held]>([
    ['they do not add up', '50/30/10', '70/30'],
    ['they are shares of a mix', '50/30/20', '50/50'],
  ])('are no shares of flushes where %s', async (title, first, second) => {
    const header = title.includes('mix') ? 'Substrate mix' : 'Flush split';
    const strains = STRAINS.map((row, i) =>
      row.map((cell, at) => (at !== 8 ? cell : i === 0 ? header : i === 1 ? first : second)),
    );
    const bytes = await bookWith({ Lots: PLANNED, Strains: strains, Space: ROOMS, Orders: ORDERS });
    const own = fitted(opened(bytes), 'plan', PLAN).tables.get('strains')!;
    expect(own.readings.filter(({ name }) => name.startsWith('flush '))).toHaveLength(1);
    expect(ignoredWords(own)).toContain(header);
  });

  test('a room that says neither can be left out, and is told', async () => {
    const rooms = [...ROOMS, ['Barn', '?']];
    const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Space: rooms, Orders: ORDERS });
    const open = fitted(opened(bytes), 'plan', PLAN);
    expect(open.unread.map(({ about }) => about)).toContain('rooms, shelves');
    const [, prepared] = await laidOut(bytes, 'plan', { ...PLAN, leaveOut: { rooms: true } });
    const orders = valuesOf(prepared, '"orders"');
    expect(orders.slice(1).map((row) => row[orders[0]!.indexOf('short')])).toEqual([0, 0]);
  });
});

test('days between flushes ask how many there are, and then for the share of each', async () => {
  const strains = STRAINS.map((row) => row.filter((_, at) => at !== 8));
  const bytes = await bookWith({ Lots: PLANNED, Strains: strains, Space: ROOMS, Orders: ORDERS });
  const asked = (figures: Record<string, number>): string[] =>
    fitted(opened(bytes), 'plan', { ...PLAN, figures: { ...TODAY.figures, ...figures } }).questions.map(
      questionWords,
    );
  expect(asked({})).toEqual([expect.stringMatching(/“flushes”, number of flushes .*same for all strains/)]);
  expect(asked({ 'strains, flushes': 2 })).toEqual([expect.stringContaining('What share of its crop')]);
  expect(asked({ 'strains, flushes': 1 })).toEqual([]);
});

describe('rooms', () => {
  test('listed shelf by shelf are counted and proposed, and what is typed takes their place', async () => {
    const shelves: Rows = [
      ['Room', 'Shelf', 'Holds'],
      ['Shed', 1, 25],
      [null, 2, 25],
      [null, 3, 25],
      ['Tent', 1, 20],
      [null, 2, 20],
    ];
    const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Space: shelves, Orders: ORDERS });
    const fit = fitted(opened(bytes), 'plan', PLAN);
    const asked = fit.questions.find((question) => question.kind === 'fill' && question.table === 'rooms');
    expect(asked && questionWords(asked)).toBe(
      'Are these your rooms? Space!A1:C6 lists their shelves one by one',
    );
    const rows = asked?.kind === 'fill' ? asked.rows : [];
    expect(rows).toEqual([
      { room: 'Shed', shelves: 3, 'blocks per shelf': 25 },
      { room: 'Tent', shelves: 2, 'blocks per shelf': 20 },
    ]);
    const [given] = await laidOut(bytes, 'plan', { ...PLAN, fill: { ...PLAN.fill, rooms: rows } });
    expect(given.filled.get('rooms')).toEqual(rows);
  });

  test('that are typed may have loads standing in them', async () => {
    const rooms = [{ room: 'Shed', shelves: 4, 'blocks per shelf': 25 }];
    const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Orders: ORDERS });
    const fit = fitted(opened(bytes), 'plan', {
      ...PLAN,
      fill: { ...PLAN.fill, rooms },
      columns: { lots: { room: 'Cell' } },
    });
    expect(fit.hasShelves).toBe(true);
  });

  test('that are typed take the place of a table of rooms', async () => {
    const rows = [{ room: 'Loft', shelves: 9, 'blocks per shelf': 30 }];
    const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Space: ROOMS, Orders: ORDERS });
    const fit = fitted(opened(bytes), 'plan', { ...PLAN, fill: { ...PLAN.fill, rooms: rows } });
    expect([fit.tables.has('rooms'), fit.filled.get('rooms')]).toEqual([false, rows]);
  });

  test('one loading day that is no date keeps no other lot from standing where it says', async () => {
    const lots = [
      ...PLANNED,
      ['A3', 'Grey fen', 24, 2.5, 0.6, '2026-03-02', 'Tent', '20 on 3/24'],
      ['A4', 'Grey fen', 8, 2.5, 0.6, '2026-02-12', 'Garage', '2026-03-21'],
    ];
    const bytes = await bookWith({ Lots: lots, Strains: STRAINS, Space: ROOMS, Orders: ORDERS });
    const fit = fitted(opened(bytes), 'plan', PLAN);
    expect(fit.hasShelves).toBe(true);
    expect(fit.unread.map(({ held }) => held)).toEqual(['20 on 3/24', 'Garage']);
    expect(fit.unread[1]).toMatchObject({ about: 'lots, room', why: 'is not among your rooms' });
    expect(fit.tables.get('lots')!.values.get('room')).toEqual(['Shed', '', '', 'Tent', null]);
  });
});

test('levels on racks are multiplied, and what a room holds may be said each or in all', async () => {
  const rooms = async (...rows: Rows) => {
    const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Space: rows, Orders: ORDERS });
    return fitted(opened(bytes), 'plan', PLAN);
  };
  const racks = await rooms(['Room', 'Racks', 'Levels', 'Per level'], ['Shed', 2, 5, 8], ['Tent', 3, 4, 8]);
  expect(racks.tables.get('rooms')!.values.get('shelves')).toEqual([10, 12]);
  const unsure = await rooms(
    ['Room', 'Racks', 'Shelves', 'Bags/shelf'],
    ['Shed', 2, 5, 10],
    ['Tent', 3, 4, 8],
  );
  expect(unsure.questions.map(questionWords)).toEqual([
    expect.stringContaining('Say Racks if there are so many Shelves on each: both are then multiplied.'),
  ]);
  const bytes = await bookWith({
    Lots: PLANNED,
    Strains: STRAINS,
    Orders: ORDERS,
    Space: [
      ['Room', 'Racks', 'Shelves', 'Bags/shelf'],
      ['Shed', 2, 5, 10],
      ['Tent', 3, 4, 8],
    ],
  });
  const said = fitted(opened(bytes), 'plan', { ...PLAN, columns: { rooms: { shelves: 'Racks' } } });
  expect(said.tables.get('rooms')!.values.get('shelves')).toEqual([10, 12]);
  const each = await rooms(['Room', 'Shelves', 'Bags each'], ['Shed', 6, 12], ['Tent', 4, 10]);
  expect(each.tables.get('rooms')!.values.get('blocks per shelf')).toEqual([12, 10]);
  const whole = await rooms(['Room', 'Holds'], ['Shed', 60], ['Tent', 80]);
  expect(whole.questions.map(questionWords).join('\n')).toContain('“Holds” may be what a whole room holds');
  const bare = await rooms(['Shed', '6 shelves of 12'], ['Tent', '4 x 10']);
  expect(bare.questions.map(questionWords).join('\n')).toContain(
    'Are these your rooms? Space!B1 says “6 shelves of 12”. Space!B2 says “4 x 10”',
  );
});

test('orders in blocks are for the day in the corner of each, as a date or in words', async () => {
  const block = (corner: string | Date, mass: number): (Held | Date)[][] => [
    [corner, 'Shiitake', 'Oyster'],
    ['The Inn', mass, 2],
    ['Deli', 3, 1.5],
    ['total', mass + 3, 3.5],
    [],
  ];
  const sheets = {
    Lots: PLANNED,
    Strains: STRAINS,
    Space: ROOMS,
    Orders: [
      ['kg'],
      [],
      ...block('for Thu 16/04/2026', 4),
      ...block(new Date('2026-04-23'), 5),
      ...block('Thu 30/04/2026', 6),
    ],
  };
  const { values } = fitted(opened(await bookWith(sheets)), 'plan', PLAN).tables.get('orders')!;
  const read = values.get('due')!.map((due, i) => [due, values.get('product')![i], values.get('mass')![i]]);
  expect(read).toHaveLength(12);
  expect(read).toEqual(
    expect.arrayContaining([
      [day(4, 16), 'Shiitake', 4],
      [day(4, 23), 'Shiitake', 5],
      [day(4, 30), 'Shiitake', 6],
      [day(4, 30), 'Oyster', 1.5],
    ]),
  );
});

describe('rows that are no records', () => {
  const lots: Rows = [
    ['Lot', 'Strain', 'Bags', 'Inoculated', 'Bag kg'],
    ...[1, 2, 3, 4].map((number) => [`A${number}`, 'Larch 1', 10 + number, `2026-01-0${number}`, 2.5]),
  ];
  const strains: Rows = [
    ['Strain', 'Min days', 'Best', 'Max days'],
    ['Larch 1', 70, 80, 110],
    ['Grey fen', 18, 24, 45],
  ];

  test('a sum under a word that no rule knows is passed over, and so by the formulas', async () => {
    const bytes = await bookWith({ Lots: [...lots, [null, 'all bags', 50]], Strains: strains });
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(sourceWords(fit.tables.get('lots')!)).toContain('4 records');
    expect(fit.unread).toEqual([]);
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready.slice(1).map(([lot]) => lot)).toEqual(['A1', 'A2', 'A3', 'A4']);
    expect(await written(bytes, prepared)).toEqual(ready);
  });

  test.each<[string, Held[]]>([
    ['another figure', [null, 'all bags', 51]],
    ['a record that is as full as the others', ['A5', 'Larch 1', 50, '2026-01-05', 2.5]],
  ])('%s is no sum', async (_, row) => {
    const fit = fitted(opened(await bookWith({ Lots: [...lots, row], Strains: strains })), 'ready', TODAY);
    expect(sourceWords(fit.tables.get('lots')!)).toContain('5 records');
  });

  test('a title after a gap ends a table whose rows are fuller than what follows', async () => {
    const below: Rows = [[], ['ROOMS'], ['Tent', '4 shelves of 12'], ['Loft', '6 shelves of 14']];
    const bytes = await bookWith({ Lots: lots, Strains: [...strains, ...below] });
    const fit = fitted(opened(bytes), 'ready', TODAY);
    expect(fit.tables.get('strains')!.values.get('strain')).toEqual(['Larch 1', 'Grey fen']);
  });

  test('lost blocks may be a dash, a word for all, a figure with its unit; another word spoils its own lot alone', async () => {
    const held: Held[] = ['Binned', '-', 'all', '2 bags', 3];
    const marked = lots.map((row, i) => [...row, held[i]!]);
    const bytes = await bookWith({ Lots: marked, Strains: strains });
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready.slice(1).map(([lot, , blocks]) => [lot, blocks])).toEqual([
      ['A1', 11],
      ['A3', 11],
      ['A4', 11],
    ]);
    expect(fit.unread).toEqual([]);
    expect(await written(bytes, prepared)).toEqual(ready);
    const asked = lots.map((row, i) => [...row, i === 1 ? '?' : held[i]!]);
    const open = fitted(opened(await bookWith({ Lots: asked, Strains: strains })), 'ready', TODAY);
    expect(open.unread.map(({ about, why }) => [about, why])).toEqual([
      ['lots, blocks', 'has no count under Binned'],
    ]);
    expect(open.tables.get('lots')!.values.get('blocks')!.slice(1)).toEqual([11, 11]);
  });

  test('a remark that is new leaves no lot out, and what it says of one that is gone is not forgotten', async () => {
    const remarks = ['Remarks', 'slow', 'binned 2/3', null, 'watered Tue'];
    const noted = lots.map((row, i) => [...row, remarks[i]!]);
    const rows = { lots: { Remarks: ['slow', 'blank'] } };
    const bytes = await bookWith({ Lots: noted, Strains: strains });
    const fit = fitted(opened(bytes), 'ready', { ...TODAY, rows });
    expect(fit.tables.get('lots')!.values.get('lot')).toEqual(['A1', 'A3', 'A4']);
  });

  test('how many were opened so far says more of what is left than the day', async () => {
    const more = lots.map((row, i) => [
      ...row,
      ...(i === 0 ? ['Date fruited', 'n fruited so far'] : i === 1 ? ['2026-03-20', 5] : [null, null]),
    ]);
    const [, prepared] = await laidOut(await bookWith({ Lots: more, Strains: strains }), 'ready', TODAY);
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready[1]!.slice(0, 3)).toEqual(['A1', 'Larch 1', 6]);
  });

  test('a status with rooms and days in it is asked about by its words, and read by its cells', async () => {
    const states: Held[] = ['Status', 'Tent 1 2/1', 'TOSSED', 'incubating', null];
    const rooms = Array.from({ length: 14 }, (_, i) => `Tent ${(i % 2) + 1} 1/${i + 2}`);
    const more: Rows = [
      ...lots.map((row, i) => [...row, states[i]!]),
      ...rooms.map((state, i) => [`B${i}`, 'Larch 1', 9, '2026-01-02', 2.5, state]),
    ];
    const bytes = await bookWith({ Lots: more, Strains: strains });
    const open = fitted(opened(bytes), 'ready', TODAY);
    expect(open.questions.map(questionWords)).toEqual([
      '“Status” tells rows apart: Tent 1 (8), TOSSED (1), incubating (1), blank (1), Tent 2 (7). Which of your lots still count?',
    ]);
    const { rows } = answersTemplate(open);
    expect(rows).toEqual({ lots: { Status: ['incubating', 'blank'] } });
    const [fit, prepared] = await laidOut(bytes, 'ready', { ...TODAY, rows: rows! });
    expect(fit.tables.get('lots')!.values.get('lot')).toEqual(['A3', 'A4']);
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready.slice(1).map(([lot]) => lot)).toEqual(['A3', 'A4']);
    expect(await written(bytes, prepared)).toEqual(ready);
  });

  test('an answer about a column that asks nothing of itself counts', async () => {
    const kinds = ['Kind', 'north', 'south', 'north', 'south'];
    const bytes = await bookWith({ Lots: lots.map((row, i) => [...row, kinds[i]!]), Strains: strains });
    const rows = { lots: { Kind: ['south'] } };
    const [fit, prepared] = await laidOut(bytes, 'ready', { ...TODAY, rows });
    expect(fit.tables.get('lots')!.values.get('lot')).toEqual(['A2', 'A4']);
    expect(await written(bytes, prepared)).toEqual(valuesOf(prepared, 'READYLOTS('));
  });

  test.each<[string, string, Held]>([
    ['Opened', 'yes', 'yes'],
    ['Opened', 'x', 'x'],
    ['Status', 'gone', 'gone'],
  ])('lots with “%s” %s are asked about, and proposed as no longer counting', async (header, word, held) => {
    const marked = lots.map((row, i) => [...row, i === 0 ? header : i === 1 ? held : null]);
    const fit = fitted(opened(await bookWith({ Lots: marked, Strains: strains })), 'ready', TODAY);
    expect(fit.questions.map(questionWords)).toEqual([
      `“${header}” tells rows apart: ${word} (1), blank (3). Which of your lots still count?`,
    ]);
    expect(fit.tables.get('lots')!.values.get('lot')).toEqual(['A2', 'A3', 'A4']);
  });
});

test('a template keeps what was answered, and an answer that names no header is told', async () => {
  const strains: Rows = [
    ['Strain', 'Colonise', 'Brown', 'Rest', 'Flushes', 'Gone after', 'Picked for'],
    ['Larch 1', 50, 20, 7, 3, 110, 4],
    ['Grey fen', 20, 5, 7, 2, 40, 3],
  ];
  const bytes = await bookWith({ Lots: PLANNED, Strains: strains, Space: ROOMS, Orders: ORDERS });
  const columns = { strains: { 'pick days': 'Picked for', best: 'Ripe after' } };
  const fit = fitted(opened(bytes), 'plan', { ...PLAN, columns, leaveOut: { lots: true } });
  const template = answersTemplate(fit);
  expect(template.columns!['strains']).toMatchObject({ 'pick days': 'Picked for', best: '?' });
  expect(template.leaveOut).toEqual({ lots: true });
  expect(fit.questions.map(questionWords).join('\n')).toContain('No header is called “Ripe after”.');
  // The rest may be that between flushes: the grower says what is added up.
  const sums = { strains: { earliest: 'Colonise + Brown', best: 'colonise+brown+rest' } };
  const { values } = fitted(opened(bytes), 'plan', { ...PLAN, columns: sums }).tables.get('strains')!;
  expect([values.get('earliest'), values.get('best')]).toEqual([
    [70, 25],
    [77, 32],
  ]);
});

test('what a template leaves open is no answer, and “none” is one', () => {
  const template = { tables: { lots: '?' }, columns: { lots: { loaded: '?', lot: 'Batch', room: 'none' } } };
  expect(readAnswers(JSON.stringify(template))).toEqual({
    tables: {},
    columns: { lots: { lot: 'Batch', room: null } },
  });
});

test.each<[string, Held[], number[]]>([
  ['figures with their ending', ['1st', '2nd', 3], [1, 2, 3]],
  ['words before the figure', ['F1', 'F2', 'F3'], [1, 2, 3]],
])('flushes may be counted in %s', async (_, flushes, expected) => {
  const picks: Rows = [
    ['Lot', 'Date', 'kg', 'Flush'],
    ...flushes.map((flush, i) => ['A0', `2026-03-${27 + i}`, 3, flush]),
  ];
  const bytes = await bookWith({ Lots: PLANNED, Strains: STRAINS, Picks: picks });
  const [fit, prepared] = await laidOut(bytes, 'audit', {});
  expect(fit.tables.get('harvests')!.values.get('flush')).toEqual(expected);
  expect(fit.unread).toEqual([]);
  expect(await written(bytes, prepared)).toEqual(valuesOf(prepared, 'YIELDAUDIT('));
});

test.each([
  ['pick crew can do 120 lb a day, no picking Sundays', '120 lb, Sunday off', 54.4311],
  ['two of us pick about 25 kg a day max', '25 kg', 25],
  ['max 60 kg per dag plukken', '60 kg', 60],
  ['pick max 15 kg/day', '15 kg', 15],
])('“%s” is proposed as the limit of a day', async (note, told, limit) => {
  const bytes = await bookWith({
    Lots: PLANNED,
    Strains: STRAINS,
    Space: [...ROOMS, [], [note]],
    Orders: ORDERS,
  });
  const { questions } = fittedBare(opened(bytes), 'plan', TODAY);
  const [asked] = questions.filter((one) => one.kind === 'fill' && one.table === 'calendar');
  expect(questionWords(asked!)).toContain(`says “${note}”: ${told}.`);
  expect(asked?.kind === 'fill' && asked.rows[0]!['pick limit']).toBe(limit);
});

test('days across may be written as day and month alone, and a pick of no lot names the nearest', async () => {
  const bytes = await bookWith({
    Lots: [
      ['Lot', 'Strain', 'Bags', 'Bag kg', 'Moisture', 'Inoculated', 'Loaded'],
      ['2612-B', 'Grey fen', 20, 2.5, 0.6, '2026-02-10', '2026-03-01'],
      ['2613-C', 'Grey fen', 20, 2.5, 0.6, '2026-02-12', '2026-03-05'],
    ],
    Strains: STRAINS,
    Pluk: [
      ['kg'],
      ['Batch', '8/3', '9/3', '10/3', '21/3'],
      ['2612-B', 4, 6, null, 3],
      ['9613-C', null, null, 5, 4],
    ],
  });
  const fit = fitted(opened(bytes), 'audit', { years: { 'harvests, date': 2026 } });
  const { values } = fit.tables.get('harvests')!;
  expect(values.get('date')!.map((date, i) => [values.get('lot')![i], date, values.get('mass')![i]])).toEqual(
    expect.arrayContaining([
      ['2612-B', day(3, 8), 4],
      ['2612-B', day(3, 21), 3],
      ['9613-C', day(3, 10), 5],
    ]),
  );
  expect(fit.unread.map(({ held, why }) => `${textOf(held)} ${why}`)).toContain(
    '9613-C is not among your lots; did you mean “2613-C”?',
  );
});
