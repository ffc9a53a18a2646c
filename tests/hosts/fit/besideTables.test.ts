import ExcelJS from 'exceljs';
import { describe, expect, test } from '@jest/globals';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { isTold } from '../../../src/hosts/fit/tellingWords';
import { readingWords, sourceWords } from '../../../src/hosts/fit/told';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// What a book says beside its tables, and tables that touch. What is expected is read off the cells by eye.

type Rows = readonly (readonly Held[])[];

const TODAY = { figures: { today: '2026-03-28' } };
const LOTS: Rows = [
  ['Lot', 'Bags', 'Inoculated'],
  ['A1', 20, '2026-02-20'],
  ['A2', 24, '2026-03-02'],
];
const STRAINS: Rows = [
  ['Strain', 'Min days', 'Best', 'Max days', '1st pick', 'Pick days', 'BE'],
  ['Blue larch', 18, 24, 45, 7, 4, 0.7],
];
const ROOMS: Rows = [
  ['Room', 'Racks', 'Bags per rack'],
  ['Shed', 4, 25],
  ['Tent', 3, 20],
];
const ORDERS: Rows = [
  ['Customer', 'Variety', 'kg', 'Due'],
  ['Inn', 'Blue larch', 2, '2026-04-10'],
  ['Box', 'Blue larch', 3, '2026-04-12'],
  ['Inn', 'Blue larch', 2, '2026-04-17'],
];

/** Tables side by side, without a column between them. */
const touching = (...tables: readonly Rows[]): Rows =>
  Array.from({ length: Math.max(...tables.map((rows) => rows.length)) }, (_, row) =>
    tables.flatMap((rows) => rows[0]!.map((__, column) => rows[row]?.[column] ?? null)),
  );

describe('what a book says beside its tables', () => {
  const NOTE = 'All our bags are 3 kg at 62 %';
  const sheets = {
    Lots: [[NOTE], [], ...LOTS],
    Strains: STRAINS,
    Space: [['room 1 – 6 shelves of 40, oysters only'], ['Shed: 4 racks, 25 bags each']],
    Orders: ORDERS,
  };

  test('is proposed as the answer, and nothing is taken before the grower says so', async () => {
    const bytes = await bookWith(sheets);
    const fit = fitted(opened(bytes), 'plan', TODAY);
    const asked = fit.questions.map(questionWords);
    expect(asked).toHaveLength(4);
    expect(asked.slice(1, 3).every((words) => words.includes(`Lots!A1 says “${NOTE}”.`))).toBe(true);
    const { figures, fill } = answersTemplate(fit);
    expect(figures).toEqual({
      today: '2026-03-28',
      'lots, strain': 'Blue larch',
      'lots, block mass': '3 kg',
      'lots, moisture': '62%',
    });
    expect(fill!['rooms']).toEqual([
      { room: 'room 1', shelves: 6, 'blocks per shelf': 40 },
      { room: 'Shed', shelves: 4, 'blocks per shelf': 25 },
    ]);
  });

  test.each<[string, Rows, Held]>([
    ['a label with the figure beside it', [['Block weight (kg)', 3.2]], '3.2 kg'],
    ['a label in German', [['Blockgewicht', '2,5 kg']], '2,5 kg'],
    ['two notes that say otherwise', [['bags are 3 kg'], ['new bags are 5 lb']], null],
    ['a note of what was picked', [['we pick 3 kg a day']], null],
  ])('%s', async (_, notes, expected) => {
    const fit = fitted(opened(await bookWith({ ...sheets, Lots: LOTS, Notes: notes })), 'plan', TODAY);
    expect(answersTemplate(fit).figures!['lots, block mass']).toBe(expected);
  });

  test('and what the grower says of all lots is in the formulas', async () => {
    const picks: Rows = [
      ['Date', 'Lot', 'kg'],
      ['2026-03-20', 'A1', 11.4],
    ];
    const bytes = await bookWith({ Lots: LOTS, Strains: STRAINS, Picks: picks });
    const said = { 'lots, strain': 'blue larch', 'lots, block mass': '3 kg', 'lots, moisture': '62%' };
    const [, prepared] = await laidOut(bytes, 'audit', { figures: { ...TODAY.figures, ...said } });
    const crops = valuesOf(prepared, 'CROPTABLE');
    // 20 bags of 3 kg at 62% have 22.8 kg of dry matter, of which 11.4 kg is half.
    expect(crops[1]!.slice(0, 2)).toEqual(['A1', 'Blue larch']);
    expect(crops[1]![crops[0]!.indexOf('efficiency')]).toBeCloseTo(0.5, 9);
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const { address } = prepared.calls.find(({ name }) => name === 'CROPTABLE')!;
    expect(workbook.result(prepared.answer, address).block).toEqual(crops);
  });

  test('a figure for all strains answers a column that no sheet has', async () => {
    const strains = STRAINS.map((row) => [...row.slice(0, 5), row[6]!]);
    const bytes = await bookWith({ ...sheets, Strains: strains });
    const open = fitted(opened(bytes), 'audit', TODAY).questions.map(questionWords);
    expect(open.filter((words) => words.includes('“pick days” of your strains'))).toEqual([]);
    const asked = fitted(opened(bytes), 'plan', { figures: { ...TODAY.figures, 'strains, pick days': '4' } });
    expect(asked.questions.map(questionWords).filter((words) => words.includes('pick days'))).toEqual([]);
    expect(asked.tables.get('strains')!.values.get('pick days')).toEqual([4]);
  });
});

test('tables that touch are read each for itself', async () => {
  const lots = LOTS.map((row, i) => [
    ...row,
    ...(i === 0 ? ['Variety', 'Bag weight', 'MC'] : ['Blue larch', '3 kg', '62%']),
  ]);
  const bytes = await bookWith({ Lots: lots, Farm: touching(STRAINS, ROOMS, ORDERS) });
  const fit = fitted(opened(bytes), 'plan', TODAY);
  expect(fit.questions.map(questionWords)).toEqual([]);
  expect(fit.unread).toEqual([]);
  expect([...fit.tables].map(([name, table]) => [name, sourceWords(table).split(';')[0]])).toEqual([
    ['lots', '2 records in Lots!A1:F3'],
    ['strains', '1 record in Farm!A1:G2'],
    ['rooms', expect.stringMatching(/^2 records in Farm!H1/)],
    ['orders', expect.stringMatching(/^3 records in Farm!.*N4$/)],
  ]);
});

test('an audit without the mass of blocks leaves out what came off each lot, and says what it would need', async () => {
  const picks: Rows = [
    ['Date', 'Lot', 'kg'],
    ['2026-03-20', 'A1', 4],
    ['2026-03-21', 'A1', 3],
  ];
  const lots = LOTS.map((row, i) => [...row, i === 0 ? 'Strain' : 'Blue larch']);
  const [, prepared] = await laidOut(
    await bookWith({ Lots: lots, Strains: STRAINS, Picks: picks }),
    'audit',
    TODAY,
  );
  expect(prepared.calls.map(({ name }) => name)).toEqual(['YIELDAUDIT']);
  expect(prepared.sheets.at(-1)!.notes).toEqual([
    'The surest findings first. “On your sheet” is the cell to look at; correct it there. ' +
      'What came off each lot is left out: your lots have no block mass and no moisture.',
  ]);
});

describe('headers that no list holds', () => {
  test.each<[string, string]>([
    ['Batch ref', 'lot'],
    ['Genetics', 'strain'],
    ['Substrate bags', 'blocks'],
    ['Aantal gemaakt', 'blocks'],
    ['Colonization min', 'earliest'],
    ['Open vanaf dag', 'earliest'],
    ['First day', 'earliest'],
    ['Wks to ready', 'earliest'],
    ['Ideal age', 'best'],
    ['Weggooien na', 'latest'],
    ['Eerste oogst na', 'first pick'],
    ['1ère récolte après', 'first pick'],
    ['Fruiting start', 'loaded'],
    ['Tiers', 'shelves'],
    ['Capacity/tier', 'blocks per shelf'],
    ['Blocs par étage', 'blocks per shelf'],
  ])('%s tells that it is %s', (header, property) => {
    expect(isTold(header, property)).toBe(true);
  });

  test.each<[string, string]>([
    ['Min temp', 'earliest'],
    ['Max CO2', 'latest'],
    ['Fruiting temp', 'loaded'],
    ['First flush', 'first pick'],
    ['Last inspection', 'latest'],
    ['Bag weight', 'blocks'],
    ['Batch notes', 'lot'],
  ])('%s is not told to be %s', (header, property) => {
    expect(isTold(header, property)).toBe(false);
  });
});

describe('lots', () => {
  const rows: Rows = [
    ['Lot', 'Strain', 'Bags', 'Contam', 'Inoculated'],
    ['A1', 'Blue larch', 20, 3, '2026-02-26'],
    ['A2', 'Blue larch', 24, null, '2026-03-02'],
    ['A3', 'Blue larch', 20, 20, '2026-03-02'],
  ];
  const strains: Rows = [
    ['Strain', 'Incubation (days)', 'Ideal'],
    ['Blue larch', '18 – 45 days', 24],
  ];

  test('are less by the blocks that were lost, and a strain’s first and last day may be in one cell', async () => {
    const bytes = await bookWith({ Lots: rows, Strains: strains });
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(fit.unread).toEqual([]);
    expect(readingWords(fit.tables.get('lots')!, 'blocks')).toBe('without those under Contam');
    expect(fit.tables.get('lots')!.evidence.map((row) => row['blocks'])).toEqual(['20 − 3', '24']);
    const ready = valuesOf(prepared, 'READYLOTS(');
    expect(ready.slice(1).map(([lot, , blocks]) => [lot, blocks])).toEqual([
      ['A1', 17],
      ['A2', 24],
    ]);
    // 45 days from 26 February are 12 April.
    expect(ready[1]![ready[0]!.indexOf('latest')]).toBe(day(4, 12));
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const { address } = prepared.calls[0]!;
    expect(workbook.result(prepared.answer, address).block).toEqual(ready);
  });

  test.each<[string, Held]>([
    ['a share', 'Contam %'],
    ['a word', 'Contam? (reason)'],
  ])('are not less by %s', async (_, header) => {
    const lots = rows.map((row, i) =>
      i === 0 ? row.map((cell) => (cell === 'Contam' ? header : cell)) : row,
    );
    const fit = fitted(opened(await bookWith({ Lots: lots, Strains: strains })), 'ready', TODAY);
    expect(fit.tables.get('lots')!.values.get('blocks')).toEqual([20, 24, 20]);
  });
});

test('a title over a table says what it holds, where one sheet has them all', async () => {
  const below = [[], ['STANDING ORDERS'], ['Account', 'Item', 'lb', 'Day'], ['Inn', 'Blue larch', 6, 'Thu']];
  const lots = [
    ['BATCHES'],
    ['Batch', 'Species', 'Bags', 'Made on', 'lb/bag', 'MC'],
    ['B1', 'Blue larch', 20, '2026-03-02', 5, '60%'],
    ['B2', 'Blue larch', 20, '2026-03-09', 5, '60%'],
  ];
  const bytes = await bookWith({
    Farm: [...lots, ...below, ['Box', 'Blue larch', 4, 'Sat']],
    Strains: STRAINS,
    Rooms: ROOMS,
  });
  const fit = fitted(opened(bytes), 'plan', TODAY);
  expect(fit.questions.map(questionWords)).toEqual([]);
  expect(sourceWords(fit.tables.get('lots')!)).toBe('2 records in Farm!A2:F4');
});

describe('what growers count otherwise', () => {
  const LOTS_OF = (left: Held): Rows => [
    ['Run', 'Kind', 'Inoculated on', 'Bags', 'Remaining bags'],
    ['Run 1', 'Blue larch', '2026-02-26', '20 bags', left],
    ['Run 2', 'Blue larch', '2026-03-02', '24 bags', '24 bags'],
  ];
  const agrees = async (bytes: Uint8Array, prepared: Prepared) => {
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    for (const { address, name } of prepared.calls)
      expect(workbook.result(prepared.answer, address).block).toEqual(valuesOf(prepared, name));
  };

  test.each<[string, Rows]>([
    [
      'in the header',
      [
        ['Kind', 'Run min (weeks)', 'Optimum (weeks)', 'Max (weeks)'],
        ['Blue larch', 3, 4, 6],
      ],
    ],
    [
      'in the cells',
      [
        ['Kind', 'Min', 'Optimum', 'Max'],
        ['Blue larch', '3 weeks', '4 wks', '6 weeks'],
      ],
    ],
    [
      'of a range',
      [
        ['Kind', 'Incubation weeks', 'Ideal (days)'],
        ['Blue larch', '3-6', 28],
      ],
    ],
  ])('weeks %s are days, and none left in words is none', async (_, strains) => {
    const bytes = await bookWith({ Lots: LOTS_OF('0 bags'), Kinds: strains });
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    const [, run, ...others] = valuesOf(prepared, 'READYLOTS(');
    const made = day(3, 2);
    expect([fit.unread, others, run![0], ...run!.slice(4, 7)]).toEqual([
      [],
      [],
      'Run 2',
      ...[21, 28, 42].map((days) => made + days),
    ]);
    await agrees(bytes, prepared);
  });

  test('headers that differ in their brackets alone are told apart by these', async () => {
    const strains: Rows = [
      ['Kind', 'Ready (best day)', 'Ready (earliest day)', 'Ready (last day)'],
      ['Blue larch', 24, 18, 45],
    ];
    const fit = fitted(opened(await bookWith({ Lots: LOTS_OF('4 bags'), Kinds: strains })), 'ready', TODAY);
    const { values } = fit.tables.get('strains')!;
    expect(['earliest', 'best', 'latest'].map((name) => values.get(name))).toEqual([[18], [24], [45]]);
  });

  test.each<[string, string, number]>([
    ['Apr 6 - Apr 12', 'Apr 13 - Apr 19', day(4, 10)],
    ['6–12 Apr', '13–19 Apr', day(4, 10)],
    ['6.-12.4.', '13.-19.4.', day(4, 10)],
    // A week from Sunday: its Friday is five days later.
    ['5 Apr to 11 Apr', '12 Apr to 18 Apr', day(4, 10)],
  ])('%s is a week, of which the day is asked', async (first, second, friday) => {
    const picks: Rows = [
      ['Week', 'Lot', 'kg'],
      [first, 'A1', 4],
      [second, 'A1', 3],
    ];
    const lots = LOTS.map((row, i) => [...row, i === 0 ? 'Strain' : 'Blue larch']);
    const bytes = await bookWith({ Lots: lots, Strains: STRAINS, Picks: picks });
    const open = fitted(opened(bytes), 'audit', TODAY).questions.map(({ kind }) => kind);
    expect(open.slice(0, 2)).toEqual(['weekdays', 'years']);
    const about = 'harvests, date';
    const [fit, prepared] = await laidOut(bytes, 'audit', {
      ...TODAY,
      weekdays: { [about]: 'Friday' },
      years: { [about]: 2026 },
      dates: { [about]: 'day first' },
    });
    expect(fit.tables.get('harvests')!.values.get('date')).toEqual([friday, friday + 7]);
    const read = prepared.columns.find(({ table, header }) => table === 'harvests' && header === 'date')!;
    const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const sheet = prepared.sheets.find(({ name }) => name !== prepared.answer)!;
    const { at } = sheet.things.find((one) => one.kind === 'formula' && one.formula === read.formula) as {
      at: string;
    };
    const { block } = workbook.result(sheet.name, at);
    expect(block!.flat().filter((cell) => typeof cell === 'number')).toEqual([friday, friday + 7]);
  });
});

describe('what lies near what is wanted', () => {
  const picks = (...rows: Rows): Rows => [
    ['Date', 'Lot', ...rows[0]!],
    ['2026-03-20', 'A1', ...rows[1]!],
  ];
  const lots = LOTS.map((row, i) => [...row, i === 0 ? 'Strain' : 'Blue larch']);

  test('the whole of a pick is taken, not the best grade of it', async () => {
    const picked = picks(['Grade A lb', 'Grade B lb', 'Total lb'], [4, 1, 5]);
    const fit = fitted(
      opened(await bookWith({ Lots: lots, Strains: STRAINS, Picks: picked })),
      'audit',
      TODAY,
    );
    expect(fit.questions).toEqual([]);
    expect(fit.tables.get('harvests')!.values.get('mass')).toEqual([5]);
  });

  test('of two columns of one unit, neither of them the whole, the grower is asked', async () => {
    const picked = picks(['Grade A lb', 'Grade B lb'], [4, 1]);
    const fit = fitted(
      opened(await bookWith({ Lots: lots, Strains: STRAINS, Picks: picked })),
      'audit',
      TODAY,
    );
    expect(fit.questions).toMatchObject([
      { kind: 'column', column: 'mass', choices: ['Grade A lb', 'Grade B lb'] },
    ]);
  });

  test('the capacity of a room is not that of a shelf', async () => {
    const rooms = [
      ['Area', 'Racks', 'Capacity (blocks)', 'Per rack'],
      ['A', 6, 48, 8],
    ];
    const fit = fitted(opened(await bookWith({ Rooms: rooms, Strains: STRAINS, Lots: lots })), 'plan', TODAY);
    const { values } = fit.tables.get('rooms')!;
    expect([values.get('shelves'), values.get('blocks per shelf')]).toEqual([[6], [8]]);
  });

  test('a list with two headers for one column is read column by column', async () => {
    const list = [
      ['Lot', 'Strain', 'Blocks', 'Blocks opened', 'Inoculated', 'Opened on'],
      ['A1', 'Blue larch', 20, 5, '2026-02-26', '2026-03-20'],
      ['A2', 'Blue larch', 24, 0, '2026-03-02', null],
    ];
    const [, prepared] = await laidOut(await bookWith({ Lots: list, Strains: STRAINS }), 'ready', TODAY);
    expect(
      valuesOf(prepared, 'READYLOTS(')
        .slice(1)
        .map(([lot, , blocks]) => [lot, blocks]),
    ).toEqual([
      ['A1', 15],
      ['A2', 24],
    ]);
  });

  test('a card of the only strain lies on its side', async () => {
    const card = STRAINS[0]!.map((header, i) => [header, STRAINS[1]![i]!]);
    const fit = fitted(opened(await bookWith({ Lots: LOTS, Settings: card })), 'ready', TODAY);
    expect(fit.questions).toMatchObject([{ kind: 'column', column: 'strain', proposed: 'Blue larch' }]);
  });

  test('a cell that is merged over several rows says the same of all', async () => {
    const workbook = new ExcelJS.Workbook();
    await workbook.xlsx.load(
      (
        await bookWith({
          Lots: [
            ['Strain', 'Lot', 'Inoculated', 'Bags'],
            ['Blue larch', 'A1', '2026-02-20', 20],
            [null, 'A2', '2026-03-02', 24],
            [null, 'A3', '2026-03-03', 24],
          ],
          Strains: STRAINS,
        })
      ).buffer as ArrayBuffer,
    );
    workbook.getWorksheet('Lots')!.mergeCells('A2:A4');
    const bytes = new Uint8Array(await workbook.xlsx.writeBuffer());
    const [fit, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(fit.tables.get('lots')!.evidence.map((row) => row['strain'])).toEqual(Array(3).fill('Blue larch'));
    const calculated = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
    const { address } = prepared.calls[0]!;
    expect(calculated.result(prepared.answer, address).block).toEqual(valuesOf(prepared, 'READYLOTS('));
  });
});
