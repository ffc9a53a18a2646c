import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import type { Prepared } from '../../../src/hosts/fit/prepare';
import { readingWords, sourceWords } from '../../../src/hosts/fit/told';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { plainValues } from '../../../src/worksheet/cells/cell';
import { bookWith, doAllAgree, day, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Lots of which some blocks are set out and the others wait, as farm books say it. Every figure is counted by hand.

type Rows = readonly (readonly Held[])[];

const TODAY: Answers = { figures: { today: '2026-03-30', days: 7 } };
const STRAINS: Rows = [
  ['Strain', 'Min days', 'Best', 'Max days'],
  ['Blue larch', 18, 24, 90],
];

/** The lots that are listed as ready, with their blocks. */
const readyIn = (prepared: Prepared): unknown[] =>
  valuesOf(prepared, 'READYLOTS(')
    .slice(1)
    .filter(([, strain]) => strain === 'Blue larch')
    .map(([lot, , blocks]) => [lot, blocks]);

describe('blocks that were set out, counted beside the day', () => {
  test.each<[string, Rows]>([
    [
      'with those that were lost',
      [
        ['Batch', 'Strain', "Inoc'd", '# made', '# lost', 'Went out', '# out'],
        ['A1', 'Blue larch', '2026-02-16', 38, null, '2026-03-20', 38],
        ['A2', 'Blue larch', '2026-02-20', 40, 3, '2026-03-25', 37],
        ['A3', 'Blue larch', '2026-02-26', 26, 2, '2026-03-28', 12],
        ['A4', 'Blue larch', '2026-03-02', 24, null, null, null],
      ],
    ],
    [
      'under headers that no list has',
      [
        ['Batch', 'Strain', "Inoc'd", 'Bags', 'Lost', 'Day to FC', 'Moving'],
        ['A1', 'Blue larch', '2026-02-16', 38, null, '2026-03-20', 38],
        ['A2', 'Blue larch', '2026-02-20', 40, 3, '2026-03-25', 37],
        ['A3', 'Blue larch', '2026-02-26', 26, 2, '2026-03-28', 12],
        ['A4', 'Blue larch', '2026-03-02', 24, null, null, null],
      ],
    ],
    [
      'where no column says the day',
      [
        ['Batch', 'Strain', "Inoc'd", 'Made', 'Lost', 'Used'],
        ['A1', 'Blue larch', '2026-02-16', 38, null, 38],
        ['A2', 'Blue larch', '2026-02-20', 40, 3, 37],
        ['A3', 'Blue larch', '2026-02-26', 26, 2, 12],
        ['A4', 'Blue larch', '2026-03-02', 24, null, 0],
      ],
    ],
    [
      'beside what is left: so much as differs is lost, and a lot with neither is gone otherwise',
      [
        ['Batch', 'Strain', "Inoc'd", 'Blocks', 'Schwund', 'Set out on', 'Set out', 'Rest'],
        ['A1', 'Blue larch', '16.02.2026', 38, null, '20.03.2026', 38, 0],
        ['A2', 'Blue larch', '20.02.2026', 40, 3, '25.03.2026', 37, 0],
        ['A3', 'Blue larch', '26.02.2026', 26, 2, '28.03.2026', 12, 12],
        ['A4', 'Blue larch', '02.03.2026', 24, null, null, null, 24],
        ['A5', 'Blue larch', '03.03.2026', 30, 4, null, null, 0],
      ],
    ],
  ])('%s: the others of the lot are ready', async (_, lots) => {
    const bytes = await bookWith({ Lots: lots, Strains: STRAINS });
    const [, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(readyIn(prepared)).toEqual([
      ['A3', 12],
      ['A4', 24],
    ]);
    await doAllAgree(bytes, prepared);
  });

  test.each<[string, readonly Held[]]>([
    ['the age at which it was set out', ['Age', 27, 33, 30, null]],
    ['a day’s temperature', ['Temp out', 18, 19, 18, null]],
    ['more than was made', ['Moving', 38, 45, 12, null]],
  ])('%s is no count of them', async (_, [header, ...figures]) => {
    const lots: Rows = [
      ['Batch', 'Strain', "Inoc'd", 'Made', 'Opened', header!],
      ['A1', 'Blue larch', '2026-02-16', 38, '2026-03-20', figures[0]!],
      ['A2', 'Blue larch', '2026-02-20', 40, '2026-03-25', figures[1]!],
      ['A3', 'Blue larch', '2026-02-26', 26, '2026-03-28', figures[2]!],
      ['A4', 'Blue larch', '2026-03-02', 24, null, figures[3]!],
    ];
    const fit = fitted(opened(await bookWith({ Lots: lots, Strains: STRAINS })), 'ready', TODAY);
    expect(fit.tables.get('lots')!.readings.find(({ name }) => name === 'loaded')?.match.header).toBe(
      'Opened',
    );
  });
});

describe('blocks that were set out stand where the lot says', () => {
  const lots: Rows = [
    ['Batch', 'Strain', "Inoc'd", 'Blocks', 'Went out', '# out', 'Where now'],
    ['A0', 'Blue larch', '2026-01-10', 20, '2026-02-20', 20, 'done'],
    ['A1', 'Blue larch', '2026-02-16', 38, '2026-03-27', 38, 'Tent'],
    ['A2', 'Blue larch', '2026-02-20', 26, '2026-03-28', 12, 'tent'],
    ['A3', 'Blue larch', '2026-03-02', 24, null, null, 'shelf in the barn'],
    ['A4', 'Blue larch', '2026-03-03', 24, null, null, 'shelf in the barn'],
  ];
  const book = (): Promise<Uint8Array> =>
    bookWith({
      Lots: lots,
      Strains: [
        [
          'Strain',
          'Min days',
          'Best',
          'Max days',
          'First pick',
          'Pick days',
          'Flush gap',
          'Flush 1',
          'Flush 2',
          'BE',
        ],
        ['Blue larch', 18, 24, 90, 7, 2, 12, 0.6, 0.4, 0.9],
      ],
      Rooms: [
        ['Room', 'Shelves', 'Blocks per shelf'],
        ['Tent', 3, 20],
        ['Attic', 1, 10],
      ],
      Orders: [
        ['Product', 'Mass kg', 'Due'],
        ['Blue larch', 60, '2026-04-12'],
      ],
    });
  const PLAN: Answers = {
    figures: { today: '2026-03-30', days: 28, 'lots, block mass': '2.5 kg', 'lots, moisture': '62%' },
    rows: { lots: { 'Where now': ['Tent', 'shelf in the barn'] } },
  };

  test('so that their shelves are taken, and what is not set out is planned', async () => {
    const bytes = await book();
    const [fit, prepared] = await laidOut(bytes, 'plan', PLAN);
    expect(fit.unread).toEqual([]);
    expect(sourceWords(fit.tables.get('lots')!)).toContain('1 row left out by “Where now”');
    expect(readingWords(fit.tables.get('lots')!, 'room')).toBe('as it is; no room: shelf in the barn');
    // 60 places, of which 38 and 12 are taken while these are picked; A2 has 14 left.
    const early = valuesOf(prepared, 'LOADPLAN(').filter(
      ([date, , , room]) => typeof date === 'number' && date < day(4, 10) && room === 'Tent',
    );
    const loaded = early.reduce((sum, [, , , , blocks]) => sum + Number(blocks), 0);
    expect([loaded > 0, loaded <= 10]).toEqual([true, true]);
    const left = valuesOf(prepared, '"lots"').filter(([lot]) => lot === 'A2');
    expect(left[0]![2]).toBe(14);
    // First picked seven days after they went out.
    const standing = valuesOf(prepared, '"picks"').filter(
      ([, , mass]) => typeof mass === 'number' && mass > 0,
    );
    expect(standing[0]![0]).toBe(day(4, 3));
    await doAllAgree(bytes, prepared);
  });

  test('and a book that keeps its answers gives the same again', async () => {
    const bytes = await book();
    const [, first] = await laidOut(bytes, 'plan', PLAN);
    const kept = withSheets(bytes, first.sheets);
    const [, later] = await laidOut(kept, 'plan', {
      ...keptAnswers(opened(kept), 'plan'),
      figures: PLAN.figures!,
    });
    expect(later.calls.map(({ block }) => plainValues(block))).toEqual(
      first.calls.map(({ block }) => plainValues(block)),
    );
  });
});

describe('rooms that count what stands in them', () => {
  const book = (header: string, north: number, south: number): Promise<Uint8Array> =>
    bookWith({
      Lots: [
        ['Batch', 'Strain', "Inoc'd", 'Blocks', 'Block kg', 'Moisture'],
        ['A1', 'Blue larch', '2026-02-16', 38, 2.5, 0.62],
        ['A2', 'Blue larch', '2026-02-20', 26, 2.5, 0.62],
      ],
      Strains: [
        ['Strain', 'Min days', 'Best', 'Max days', 'First pick', 'Pick days', 'BE'],
        ['Blue larch', 18, 24, 90, 7, 2, 0.9],
      ],
      Rooms: [
        ['Room', 'Shelves', 'Blocks per shelf', header],
        ['North', 3, 20, north],
        ['South', 2, 10, south],
      ],
      Orders: [
        ['Product', 'Mass kg', 'Due'],
        ['Blue larch', 5, '2026-04-20'],
      ],
    });
  const PLAN: Answers = {
    figures: { today: '2026-03-30', days: 28, 'strains, flushes': 1 },
    fill: { calendar: [{ day: 'every day', 'pick limit': 'none', 'load limit': 'none' }] },
  };

  test.each<[string, number, number, unknown[]]>([
    ['Occupied', 25, 0, [1, 2]],
    ['In it now', 0, 11, [3, 0]],
    ['Free', 59, 20, [2, 2]],
    ['Free places (2 March)', 60, 0, [3, 0]],
  ])('under %s have their free shelves proposed where no lot says what stands', async (...given) => {
    const [header, north, south, [first, second]] = given;
    const bytes = await book(header, north, south);
    const { questions } = fitted(opened(bytes), 'plan', PLAN);
    const [asked, ...more] = questions;
    expect(more).toEqual([]);
    expect(asked).toMatchObject({ kind: 'fill', table: 'rooms' });
    const rows = asked?.kind === 'fill' ? asked.rows : [];
    expect(rows).toEqual(
      [
        { room: 'North', shelves: first, 'blocks per shelf': 20 },
        { room: 'South', shelves: second, 'blocks per shelf': 10 },
      ].filter(({ shelves }) => shelves !== 0),
    );
    const [fit] = await laidOut(bytes, 'plan', { ...PLAN, fill: { ...PLAN.fill, rooms: rows } });
    expect(fit.filled.get('rooms')).toEqual(rows);
  });

  test.each(['Occupied', 'Temp now'])('ask nothing under %s where none stand there', async (header) => {
    const { questions } = fitted(opened(await book(header, 0, 0)), 'plan', PLAN);
    expect(questions).toEqual([]);
  });
});

test.each(['Good blocks', 'Good', 'Blocks OK', 'Sound blocks'])(
  'blocks under %s are the lot, beside those that were started',
  async (header) => {
    const lots: Rows = [
      ['Batch', 'Strain', "Inoc'd", 'Blocks started', header],
      ['A1', 'Blue larch', '2026-02-16', 30, 28],
      ['A2', 'Blue larch', '2026-02-20', 24, 24],
    ];
    const fit = fitted(opened(await bookWith({ Lots: lots, Strains: STRAINS })), 'ready', TODAY);
    expect(fit.tables.get('lots')!.values.get('blocks')).toEqual([28, 24]);
  },
);

test('a lot of no good blocks keeps no other from being loaded', async () => {
  const lots: Rows = [
    ['Batch', 'Strain', "Inoc'd", 'Good bags', 'To room'],
    ['A1', 'Blue larch', '2026-02-16', 28, '2026-03-20'],
    ['A2', 'Blue larch', '2026-02-20', 0, null],
    ['A3', 'Blue larch', '2026-02-24', 24, null],
  ];
  const named: Answers = { ...TODAY, columns: { lots: { blocks: 'Good bags', loaded: 'To room' } } };
  const bytes = await bookWith({ Lots: lots, Strains: STRAINS });
  const [, prepared] = await laidOut(bytes, 'ready', named);
  expect(readyIn(prepared)).toEqual([['A3', 24]]);
  await doAllAgree(bytes, prepared);
});

test('an audit takes no count of loaded blocks for a day', async () => {
  const fit = fitted(
    opened(
      await bookWith({
        Lots: [
          ['Batch', 'Strain', 'Blocks', 'Loaded', 'Day out'],
          ['A1', 'Blue larch', 30, 30, '2026-03-20'],
          ['A2', 'Blue larch', 24, 12, '2026-03-21'],
        ],
        Strains: [
          ['Strain', 'First pick', 'Pick days', 'BE'],
          ['Blue larch', 7, 2, 0.9],
        ],
        Picks: [
          ['Date', 'Lot', 'kg'],
          ['2026-03-27', 'A1', 10],
        ],
      }),
    ),
    'audit',
    {},
  );
  expect(fit.tables.get('lots')!.readings.find(({ name }) => name === 'loaded')?.match.header).toBe(
    'Day out',
  );
});

describe('lots that two people list under headers of their own', () => {
  const book = (): Promise<Uint8Array> =>
    bookWith({
      Ann: [
        ['Lot', 'Inoculated', 'Strain', 'Blocks', 'Lost'],
        ['A1', '2026-02-16', 'Blue larch', 38, 2],
        ['A2', '2026-02-20', 'Blue larch', 24, null],
        ['A3', '2026-03-20', 'Blue larch', 24, null],
      ],
      Ben: [
        ['Ben’s list'],
        ['lot no.', 'strain', 'date', 'qty', 'remark'],
        ['B1', 'Blue larch', '2026-02-18', 30, null],
        ['B2', 'blue larch', '2026-03-21', 12, 'slow'],
        ['B3', 'Blue larch', '2026-02-28', 16, null],
      ],
      Strains: STRAINS,
    });

  test('are asked about, and read together where both are the grower’s', async () => {
    const bytes = await book();
    const { questions } = fitted(opened(bytes), 'ready', TODAY);
    const [asked] = questions;
    expect(asked).toMatchObject({ kind: 'table', table: 'lots' });
    const both = 'Ann!A1:E4; Ben!A2:E5';
    expect(asked?.kind === 'table' ? asked.choices : []).toEqual([both, 'Ann!A1:E4', 'Ben!A2:E5']);
    const [fit, prepared] = await laidOut(bytes, 'ready', { ...TODAY, tables: { lots: both } });
    expect(readyIn(prepared)).toEqual([
      ['A1', 36],
      ['B1', 30],
      ['A2', 24],
      ['B3', 16],
    ]);
    expect(fit.unread).toEqual([]);
    await doAllAgree(bytes, prepared);
    const kept = withSheets(bytes, prepared.sheets);
    const again = { ...keptAnswers(opened(kept), 'ready'), figures: TODAY.figures! };
    const [, later] = await laidOut(kept, 'ready', again);
    expect(readyIn(later)).toEqual(readyIn(prepared));
  });

  test('may be read one alone', async () => {
    const [, prepared] = await laidOut(await book(), 'ready', { ...TODAY, tables: { lots: 'Ben' } });
    expect(readyIn(prepared)).toEqual([
      ['B1', 30],
      ['B3', 16],
    ]);
  });
});

test.each(['only 30 in, 10 still on the trolley', '10 left', 'half went in', '10 bags not in yet'])(
  'a remark that not all of a lot was loaded is told at its cell: %s',
  async (remark) => {
    const lots: Rows = [
      ['Batch', 'Strain', "Inoc'd", 'Blocks', 'Opened', 'Remarks'],
      ['A1', 'Blue larch', '2026-02-16', 40, '2026-03-20', remark],
      ['A2', 'Blue larch', '2026-02-20', 24, null, 'slow'],
    ];
    const { unread } = fitted(opened(await bookWith({ Lots: lots, Strains: STRAINS })), 'ready', TODAY);
    expect(unread.map(({ about, held }) => [about, held])).toEqual([['lots, loaded', remark]]);
  },
);

test.each(['Pertes', 'Zzz'])(
  'what is left beside the day of loading, and %s, says nothing of loading',
  async (lost) => {
    const lots: Rows = [
      ['Lot #', 'Strain', 'Nb blocs', lost, 'Reste', 'Inoc.', 'Entrée salle'],
      ['L1', 'Blue larch', 40, 2, 38, '2026-02-20', null],
      ['L2', 'Blue larch', 40, 0, 40, '2026-02-22', '2026-03-20'],
      ['L3', 'Blue larch', 30, 1, 29, '2026-02-24', '2026-03-25'],
    ];
    const bytes = await bookWith({ Lots: lots, Strains: STRAINS });
    const [, prepared] = await laidOut(bytes, 'ready', TODAY);
    expect(readyIn(prepared)).toEqual([['L1', 38]]);
    const plan = fitted(opened(bytes), 'plan', TODAY).tables.get('lots')!;
    expect(plan.readings.map(({ name }) => name)).not.toContain('block mass');
  },
);

test('weeks are read under their short names', async () => {
  const bytes = await bookWith({
    Lots: [
      ['Lot', 'Strain', 'Blocks', 'Inoculated'],
      ['L1', 'Blue larch', 40, '2026-02-20'],
    ],
    Souches: [
      ['Strain', 'Incubation (sem.)', 'Latest'],
      ['Blue larch', 3, 60],
    ],
  });
  const fit = fitted(opened(bytes), 'ready', TODAY);
  expect(fit.tables.get('strains')!.readings.find(({ name }) => name === 'best')?.unit).toBe('weeks');
});
