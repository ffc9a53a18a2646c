import ExcelJS from 'exceljs';
import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { textOf } from '../../../src/hosts/fit/book';
import { placeOfUnread } from '../../../src/hosts/fit/unreadTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, fitted, laidOut, opened, type Held } from './laidOut';

// How many blocks a room holds, in the ways that farms write it. The places are worked out by hand.

type Rows = readonly (readonly Held[])[];

const STRAINS: Rows = [
  ['Strain', 'Open from', 'Best at', 'Toss after', '1st pick', 'Picking days', 'Between', 'Flushes', 'BE'],
  ['Tawny', 14, 18, 28, 6, 3, 12, 1, 0.9],
  ['Fen grey', 16, 20, 30, 7, 3, 12, 1, 0.8],
];
const LOTS: Rows = [
  ['Batch', 'Strain', 'Made on', 'Bags', 'Bag kg', 'Moist %'],
  ['F-1', 'Tawny', '2026-03-19', 60, 2.5, 62],
  ['F-2', 'Fen grey', '2026-03-16', 44, 2.5, 62],
];
const ORDERS: Rows = [
  ['Product', 'kg', 'Due'],
  ['Tawny', 5, '2026-04-17'],
  ['Fen grey', 4, '2026-04-17'],
];
const farm = (rooms: Rows): Promise<Uint8Array> =>
  bookWith({ Growing: STRAINS, Blocks: LOTS, Rooms: rooms, Orders: ORDERS });

const ANSWERS: Answers = { figures: { today: '2026-04-01', days: 28 } };

/** Rooms with their shelves and what each holds. */
const roomsIn = (bytes: Uint8Array) => {
  const fit = fitted(opened(bytes), 'plan', ANSWERS);
  const own = fit.tables.get('rooms');
  const of = (name: string) => own?.values.get(name) ?? [];
  return {
    asked: fit.questions.map(questionWords),
    unread: fit.unread.map(placeOfUnread),
    rooms: of('room').map((room, i) => [
      textOf(room),
      Number(of('shelves')[i]),
      Number(of('blocks per shelf')[i]),
    ]),
    proposed: fit.questions.flatMap((one) =>
      one.kind === 'fill' && one.table === 'rooms'
        ? one.rows.map((row) => [row['room'], row['shelves'], row['blocks per shelf']])
        : [],
    ),
  };
};

describe('three figures in the cell of a room', () => {
  const cells = [
    ['4 racks x 5 tiers x 9 bags', '2 racks x 4 tiers x 8 bags'],
    ['4 x 5 x 9', '2 x 4 x 8'],
    ['4x5x9', '2x4x8'],
    ['4 × 5 × 9 = 180', '2 × 4 × 8 = 64'],
    ['4 Regale à 5 x 9', '2 Regale à 4 x 8'],
    ['4 racks, 5 levels, 9 per level', '2 racks, 4 levels, 8 per level'],
    ['4 racks of 5 shelves of 9', '2 racks of 4 shelves of 8'],
  ] as const;

  test.each(cells)('%s: the first two are multiplied', async (one, other) => {
    const rooms: Rows = [
      ['Chamber', 'Layout', 'RH (%)'],
      ['FC1', one, 90],
      ['FC2', other, 92],
    ];
    const { asked, rooms: read } = roomsIn(await farm(rooms));
    expect([asked, read]).toEqual([
      [],
      [
        ['FC1', 20, 9],
        ['FC2', 8, 8],
      ],
    ]);
  });

  test('a room with two figures beside it keeps them, and the formulas give the same', async () => {
    const bytes = await farm([
      ['Chamber', 'Layout'],
      ['FC1', '4 racks x 5 tiers x 9 bags'],
      ['FC2', '8 shelves x 24 bags'],
    ]);
    expect(roomsIn(bytes).rooms).toEqual([
      ['FC1', 20, 9],
      ['FC2', 8, 24],
    ]);
    const [, prepared] = await laidOut(bytes, 'plan', ANSWERS);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const read = prepared.sheets.find(({ name }) => name !== prepared.answer)!;
    for (const { formula, cells: shown } of prepared.columns.filter(({ table }) => table === 'rooms')) {
      const { at } = read.things.find((one) => one.kind === 'formula' && one.formula === formula) as {
        at: string;
      };
      const { block } = workbook.result(read.name, at);
      expect(block!.flat().filter((cell) => cell !== '')).toEqual(shown.filter((cell) => cell !== null));
    }
  });

  test('in words beside no table they are proposed, multiplied', async () => {
    const notes: Rows = [
      ['Room 1 has 4 racks x 5 tiers x 9 bags, tent B: 10 Regale à 6 x 10'],
      ['Room 3: 8 racks of 24'],
    ];
    expect(roomsIn(await farm(notes)).proposed).toEqual([
      ['Room 1', 20, 9],
      ['tent B', 60, 10],
      ['Room 3', 8, 24],
    ]);
  });

  test.each([
    ['Size', '6 x 4 x 3'],
    ['Layout', '6 m x 4 m x 3 m'],
    ['Layout', '4 racks x 5 tiers'],
  ])('%s, %s, says no places: they are asked', async (header, cell) => {
    const rooms: Rows = [
      ['Chamber', header, 'RH (%)'],
      ['FC1', cell, 90],
      ['FC2', cell, 90],
    ];
    const { asked, rooms: read } = roomsIn(await farm(rooms));
    expect([asked.length > 0, read.filter(([, , each]) => Number(each) > 0)]).toEqual([true, []]);
  });
});

describe('levels in a column of their own', () => {
  test.each([
    ['Shelves', 'Levels', 'Blocks per level'],
    ['Regale', 'Ebenen', 'Blöcke je Ebene'],
    ['Racks', 'Tiers', 'Bags / tier'],
  ])('%s, %s and %s are multiplied, racks in words among them', async (shelves, levels, each) => {
    const rooms: Rows = [
      ['Room', shelves, levels, each],
      ['Hall 1', '10 Regale', 6, 10],
      ['Hall 2', '8 racks', 6, 8],
      ['Cellar', 6, 4, 7],
    ];
    const { asked, unread, rooms: read } = roomsIn(await farm(rooms));
    expect([asked, unread, read]).toEqual([
      [],
      [],
      [
        ['Hall 1', 60, 10],
        ['Hall 2', 48, 8],
        ['Cellar', 24, 7],
      ],
    ]);
  });
});

test('levels beside shelves whose blocks are counted by shelf are asked, and multiplied where the grower says so', async () => {
  const rooms: Rows = [
    ['Room', 'Shelves', 'Levels', 'Blocks per shelf'],
    ['Hall 1', 2, 5, 12],
    ['Hall 2', 4, 5, 10],
  ];
  const bytes = await farm(rooms);
  expect(roomsIn(bytes).asked).toEqual([
    expect.stringContaining('Say Levels if each of the Shelves has as many levels'),
  ]);
  const shelvesAs = (header: string) => {
    const answers = { ...ANSWERS, columns: { rooms: { shelves: header } } };
    const fit = fitted(opened(bytes), 'plan', answers);
    return [fit.questions, fit.tables.get('rooms')!.values.get('shelves')];
  };
  expect(shelvesAs('Shelves')).toEqual([[], [2, 4]]);
  expect(shelvesAs('Levels')).toEqual([[], [10, 20]]);
});

test('counts with their word are figures, whatever its length', async () => {
  const rooms: Rows = [
    ['Room', 'Shelves', 'Bags per shelf'],
    ['Hall 1', '12 shelves', '24 bags'],
    ['Hall 2', '9 shelves', '20 blocks'],
  ];
  const { asked, unread, rooms: read } = roomsIn(await farm(rooms));
  expect([asked, unread, read]).toEqual([
    [],
    [],
    [
      ['Hall 1', 12, 24],
      ['Hall 2', 9, 20],
    ],
  ]);
  const lacking = rooms.map((row, i) => (i === 2 ? ['Hall 2', null, '20 blocks'] : row));
  expect(roomsIn(await farm(lacking)).unread).toEqual(['Rooms!B3']);
});

describe('a row of sums below the rooms', () => {
  const withSums = async (label: string, isFormula: boolean): Promise<Uint8Array> => {
    const workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load((await farm([])).buffer as ArrayBuffer);
    const sheet = workbook.getWorksheet('Rooms')!;
    const rows: Rows = [
      ['Space', 'Racks', 'Bags per rack', 'Holds', 'Lamps', 'Remarks'],
      ['Tent', 4, 40, 160, 77, 'warm'],
      ['Long room', 10, 40, 400, 313, null],
      [],
    ];
    for (const row of rows) sheet.addRow([...row]);
    const sum = (result: number): unknown => (isFormula ? { formula: 'SUM(D2:D3)', result } : result);
    sheet.addRow([label, null, null, sum(560), sum(390)]);
    return new Uint8Array(await workbook.xlsx.writeBuffer());
  };

  test.each([
    ['all', true],
    ['all', false],
    ['alle', false],
    ['farm', true],
    ['Both houses', true],
    ['Gesamt', false],
  ])('called %s, calculated by the sheet: %s, is no room', async (label, isFormula) => {
    const { asked, unread, rooms } = roomsIn(await withSums(label, isFormula));
    expect([asked, unread, rooms]).toEqual([
      [],
      [],
      [
        ['Tent', 4, 40],
        ['Long room', 10, 40],
      ],
    ]);
  });

  test('typed under any other word it stays a room, and what it lacks is told', async () => {
    const { unread } = roomsIn(await withSums('Cellar', false));
    expect(unread).toEqual(['Rooms!B5', 'Rooms!C5']);
  });
});
