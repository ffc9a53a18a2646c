import { describe, expect, test } from '@jest/globals';
import type { Answers } from '../../../src/hosts/fit/answers';
import { readingWords } from '../../../src/hosts/fit/told';
import { plainValues } from '../../../src/worksheet/cells/cell';
import { bookWith, doAllAgree, fitted, laidOut, opened, type Held } from './laidOut';

// Figures of strains as farm books keep them: what each flush gives of a block, what a block weighs, how long it can be held.
// Every figure is worked out by hand beside it.

type Rows = readonly (readonly Held[])[];

const LOTS: Rows = [
  ['Lot', 'Strain', 'Bags', 'Inoculated'],
  ['A1', 'Blue larch', 20, '2026-02-10'],
  ['A2', 'Grey fen ', 24, '2026-03-02'],
];
const ROOMS: Rows = [
  ['Room', 'Shelves', 'Blocks per shelf'],
  ['Tent', 5, 20],
];
const PLAN: Answers = {
  figures: { today: '2026-03-30', days: 28, 'strains, pick days': 2 },
};
const WAIT = ['Strain', 'Min days', 'Best', 'Max days', 'First pick', 'Flush gap'];
const bookOf = (strains: Rows, unit = 'lb', lots = LOTS): Promise<Uint8Array> =>
  bookWith({
    Lots: lots,
    Kinds: strains.map((row, i) => [
      ...(i === 0 ? WAIT : [row[0]!, i === 1 ? 18 : 60, i === 1 ? 20 : 70, 120, 7, 12]),
      ...row.slice(1),
    ]),
    Rooms: ROOMS,
    Orders: [
      ['Product', unit, 'Due'],
      ['Blue larch', 10, '2026-04-20'],
    ],
  });

describe('what each flush gives', () => {
  test.each<[string, Rows, string]>([
    [
      // 2 lb of a block of 2.5 kg, of which 38% are dry: 0.907185 of 0.95 kg; 1.3 lb of 0.95 kg.
      'pounds a block in columns, the second and third by their number alone',
      [
        ['Strain', 'lb / block 1st', '2nd', '3rd', 'Block kg', 'Water in block'],
        ['Blue larch', 1.1, 0.6, 0.3, 2.5, 0.62],
        ['Grey fen', 0.9, 0.4, null, 2.5, 0.62],
      ],
      'the sum of lb / block 1st, 2nd, 3rd over the dry mass of a block, by Block kg and Water in block',
    ],
    [
      'pounds a block in one cell, the block by its dry mass',
      [
        ['Strain', 'lb per block, wave 1/2/3', 'Dry mass of a block (g)'],
        ['Blue larch', '1.1 / 0.6 / 0.3', 950],
        ['Grey fen', '0.9 / 0.4', 950],
      ],
      'the sum of lb per block, wave 1/2/3 over the dry mass of a block, by Dry mass of a block (g)',
    ],
  ])('as %s is its share, and all of it the efficiency', async (_, strains, words) => {
    const own = {
      ...PLAN,
      figures: { ...PLAN.figures, 'lots, block mass': '2.5 kg', 'lots, moisture': '62%' },
    };
    const bytes = await bookOf(strains);
    const [fit, prepared] = await laidOut(bytes, 'plan', own);
    const { values } = fit.tables.get('strains')!;
    const close = (...wanted: number[]) => wanted.map((one) => expect.closeTo(one, 9) as unknown);
    expect(values.get('flush 1')).toEqual(close(1.1 / 2, 0.9 / 1.3));
    expect(values.get('flush 2')).toEqual(close(0.6 / 2, 0.4 / 1.3));
    expect(values.get('flush 3')).toEqual([...close(0.3 / 2), null]);
    expect(values.get('efficiency')).toEqual(close((2 * 0.45359237) / 0.95, (1.3 * 0.45359237) / 0.95));
    expect(readingWords(fit.tables.get('strains')!, 'efficiency')).toBe(words);
    await doAllAgree(bytes, prepared);
  });

  test('as parts of the biological efficiency adds up to it', async () => {
    const bytes = await bookOf([
      ['Strain', 'BE by flush (%)', 'Block kg', 'Moisture'],
      ['Blue larch', '52/26/12', 2.5, 0.62],
      ['Grey fen', '45/22', 2.5, 0.62],
    ]);
    const [fit, prepared] = await laidOut(bytes, 'plan', PLAN);
    const { values } = fit.tables.get('strains')!;
    expect(values.get('efficiency')).toEqual([expect.closeTo(0.9, 9), expect.closeTo(0.67, 9)]);
    expect(values.get('flush 2')).toEqual([expect.closeTo(26 / 90, 9), expect.closeTo(22 / 67, 9)]);
    await doAllAgree(bytes, prepared);
  });

  test('as shares that add up to a whole stays a share', async () => {
    const strains: Rows = [
      ['Strain', 'BE', 'Flush split'],
      ['Blue larch', 0.9, '60/30/10'],
      ['Grey fen', 0.7, '65/35'],
    ];
    const fit = fitted(opened(await bookOf(strains)), 'plan', PLAN);
    expect(fit.tables.get('strains')!.values.get('flush 1')).toEqual([0.6, 0.65]);
    expect(fit.tables.get('strains')!.values.get('efficiency')).toEqual([0.9, 0.7]);
  });
});

describe('what a block weighs', () => {
  const strains: Rows = [
    ['Strain', 'BE', 'Block kg', 'Moisture'],
    ['Blue larch', 0.9, 2.5, 0.62],
    ['Grey fen', 0.7, 3.2, 0.6],
  ];

  test('by its strain is in the unit of the orders, whatever the spelling of the strain', async () => {
    const bytes = await bookOf(strains);
    const once = { ...PLAN, figures: { ...PLAN.figures, 'strains, flushes': 1 } };
    const [fit, prepared] = await laidOut(bytes, 'plan', once);
    expect(fit.tables.get('lots')!.values.get('block mass')).toEqual([2.5, 3.2]);
    const cells = plainValues(prepared.calls[0]!.block).flat();
    expect(cells.filter((cell) => typeof cell === 'object' && cell !== null)).toEqual([]);
    await doAllAgree(bytes, prepared);
  });

  test('follows from its dry mass and its moisture', async () => {
    const dry = strains.map((row, i) =>
      i === 0 ? ['Strain', 'BE', 'Bag dry mass (g)', 'Moisture'] : [row[0]!, row[1]!, 950, row[3]!],
    );
    const once = { ...PLAN, figures: { ...PLAN.figures, 'strains, flushes': 1 } };
    const bytes = await bookOf(dry, 'kg');
    const [fit, prepared] = await laidOut(bytes, 'plan', once);
    // 950 g are 38% of 2,500 g and 40% of 2,375 g.
    expect(fit.tables.get('lots')!.values.get('block mass')).toEqual([
      expect.closeTo(2500, 6),
      expect.closeTo(2375, 6),
    ]);
    expect(readingWords(fit.tables.get('lots')!, 'block mass')).toContain('the dry part of the block');
    await doAllAgree(bytes, prepared);
  });
});

describe('a wait', () => {
  const waits = (header: string, own: Held, other: Held, ...beside: Rows): Promise<Uint8Array> =>
    bookWith({
      Lots: LOTS,
      Kinds: [
        ['Strain', header, ...(beside[0] ?? [])],
        ['Blue larch', own, ...(beside[1] ?? [])],
        ['Grey fen', other, ...(beside[2] ?? [])],
      ],
    });
  const read = (bytes: Uint8Array, name: string, answers: Answers = {}): unknown =>
    fitted(opened(bytes), 'ready', { figures: { today: '2026-03-30' }, ...answers })
      .tables.get('strains')!
      .values.get(name);

  test('of which only some strains have a second figure is added up', async () => {
    expect(read(await waits('Spawn run / browning', 18, '45/28'), 'best')).toEqual([18, 73]);
    expect(read(await waits('Phases (grow through / ripen, d)', 18, '32 + 6'), 'best')).toEqual([18, 38]);
  });

  test('of two figures with a plus is added up under any header that the grower names', async () => {
    const named: Answers = { columns: { strains: { earliest: 'Wait (d)', best: 'Wait (d)' } } };
    const bytes = await waits('Wait (d)', 18, '45 + 28', ['Max days'], [40], [110]);
    expect(read(bytes, 'earliest', named)).toEqual([18, 73]);
    const { questions } = fitted(opened(bytes), 'ready', {});
    expect(questions.flatMap((one) => (one.kind === 'column' ? one.choices : []))).toContain('Wait (d)');
  });

  test('and the time a block can be held after it are its last day', async () => {
    const bytes = await waits(
      'Colonisation (wk)',
      3,
      6,
      ['Maturation (wk)', 'Can be held (wk)'],
      [null, 3],
      [4, 6],
    );
    expect([read(bytes, 'best'), read(bytes, 'latest')]).toEqual([
      [21, 70],
      [42, 112],
    ]);
    const [fit, prepared] = await laidOut(bytes, 'ready', { figures: { today: '2026-03-30' } });
    expect(readingWords(fit.tables.get('strains')!, 'latest')).toBe(
      'the sum of Colonisation (wk) + Maturation (wk) + Can be held (wk)',
    );
    await doAllAgree(bytes, prepared);
  });
});

test('lots and strains that share a code are joined by it, though a header speaks of species', async () => {
  const bytes = await bookWith({
    Runs: [
      ['Run', 'Isolate', 'Bags', 'Inoculated'],
      ['R1', 'FN-1', 20, '2026-02-10'],
      ['R2', 'FN-2', 24, '2026-03-02'],
    ],
    Isolates: [
      ['Isolate', 'Species', 'Min days', 'Best', 'Max days'],
      ['FN-1', 'Pleurotus ostreatus', 18, 20, 40],
      ['FN-2', 'Lentinula edodes', 60, 70, 110],
    ],
  });
  const { tables, questions } = fitted(opened(bytes), 'ready', { figures: { today: '2026-03-30' } });
  expect(questions).toEqual([]);
  expect(tables.get('lots')!.values.get('strain')).toEqual(['FN-1', 'FN-2']);
});

test('losses under a header that means nothing without its group come off', async () => {
  const bytes = await bookWith({
    Runs: [
      ['Run', 'Strain', 'Inoculated', 'Bags', 'Contam.', null],
      [null, null, null, null, 'd7', 'd14+'],
      ['R1', 'Blue larch', '2026-02-10', 20, 1, 2],
      ['R2', 'Blue larch', '2026-03-02', 24, 0, 1],
    ],
    Kinds: [
      ['Strain', 'Min days', 'Best', 'Max days'],
      ['Blue larch', 18, 20, 40],
    ],
  });
  const { tables } = fitted(opened(bytes), 'ready', { figures: { today: '2026-03-30' } });
  expect(tables.get('lots')!.values.get('blocks')).toEqual([17, 23]);
});

describe('shares that are typed', () => {
  const typed = (third: string | null): Answers => ({
    figures: {
      today: '2026-03-30',
      days: 28,
      'strains, pick days': 2,
      'strains, flushes': 3,
      'lots, block mass': '2.5 kg',
      'lots, moisture': '62%',
    },
    fill: {
      shares: [
        { strain: 'Blue larch', 'flush 1': '50%', 'flush 2': '30%', 'flush 3': '20%' },
        { strain: 'Grey fen', 'flush 1': '70%', 'flush 2': '30%', 'flush 3': third },
      ],
    },
  });
  const book = (): Promise<Uint8Array> =>
    bookOf([
      ['Strain', 'BE'],
      ['Blue larch', 0.9],
      ['Grey fen', 0.7],
    ]);

  test.each(['0%', '0', '–', 'none', null])(
    'of two flushes where another strain has three may end with %s',
    async (third) => {
      const bytes = await book();
      const [, prepared] = await laidOut(bytes, 'plan', typed(third));
      const cells = prepared.calls.flatMap(({ block }) => plainValues(block).flat());
      expect(cells.filter((cell) => typeof cell === 'object' && cell !== null)).toEqual([]);
      await doAllAgree(bytes, prepared);
    },
  );

  test('that do not add up to a whole are asked for again', async () => {
    const short = typed(null);
    const [first, second] = short.fill!.shares!;
    const open = { ...short, fill: { shares: [first!, { ...second!, 'flush 2': '20%' }] } };
    const { questions } = fitted(opened(await book()), 'plan', open);
    expect(questions.map(({ kind }) => kind)).toEqual(['fill']);
  });
});

test('the dry share of a block leaves its moisture', async () => {
  const bytes = await bookOf([
    ['Strain', 'BE', 'Block kg', 'Dry matter'],
    ['Blue larch', 0.9, 2.5, 0.42],
    ['Grey fen', 0.7, 2.5, 0.38],
  ]);
  const [fit, prepared] = await laidOut(bytes, 'plan', {
    figures: { ...PLAN.figures, 'strains, flushes': 1 },
  });
  expect(fit.tables.get('lots')!.values.get('moisture')).toEqual([
    expect.closeTo(0.58, 9),
    expect.closeTo(0.62, 9),
  ]);
  await doAllAgree(bytes, prepared);
});

test('a split of flushes is no day: the strains are no orders', async () => {
  const bytes = await bookWith({
    Lots: LOTS,
    Kinds: [
      [
        'Strain',
        'SKU',
        'Min days',
        'Best',
        'Max days',
        'First pick',
        'Breaks',
        'Std yield lb/unit',
        'Break split %',
      ],
      ['Blue larch', 'BL', 18, 20, 60, 7, 3, 1.9, '50/30/20'],
      ['Grey fen', 'GF', 60, 70, 120, 7, 2, 1.5, '65/35'],
    ],
    Rooms: ROOMS,
    'Sales Orders': [
      ['SO #', 'Customer', 'SKU', 'Qty lb', 'Ship date'],
      [6990, 'Inn', 'BL', 18, '2026-04-20'],
    ],
  });
  const fit = fitted(opened(bytes), 'plan', PLAN);
  expect(fit.tables.get('orders')!.candidate.sheet.name).toBe('Sales Orders');
  expect(fit.tables.get('strains')!.values.get('flush 2')).toEqual([0.3, 0.35]);
});

test.each(['HarvestID', 'Harvest no.', 'Pick #'])('numbers under %s are no masses', async (header) => {
  const bytes = await bookWith({
    Harvest: [
      [header, 'Date', 'Lot', 'Net lb'],
      [5001, '2026-03-27', 'A1', 10.5],
      [5002, '2026-03-28', 'A1', 8],
    ],
    Lots: LOTS,
  });
  const { tables } = fitted(opened(bytes), 'audit', {});
  expect(tables.get('harvests')!.values.get('mass')).toEqual([10.5, 8]);
});

test('tiers on racks hold no blocks: all three figures of a room are multiplied', async () => {
  const bytes = await bookWith({
    Lots: LOTS,
    Rooms: [
      ['RoomID', 'Racks', 'Tiers per rack', 'Units per tier', 'Capacity'],
      ['FR-1', 4, 4, 12, 192],
      ['FR-2', 2, 4, 12, 96],
    ],
  });
  const { tables } = fitted(opened(bytes), 'plan', PLAN);
  const { values } = tables.get('rooms')!;
  expect([values.get('shelves'), values.get('blocks per shelf')]).toEqual([
    [16, 8],
    [12, 12],
  ]);
});

test.each<[string, Rows]>([
  [
    'Std yield lb/unit',
    [
      ['Strain', 'Std yield lb/unit', 'Break split %'],
      ['Blue larch', 1.9, '50/50'],
      ['Grey fen', 1.5, '65/35'],
    ],
  ],
  [
    'g per block, all waves',
    [
      ['Strain', 'g per block, all waves', 'Break split %'],
      ['Blue larch', 861.825503, '50/50'],
      ['Grey fen', 680.388555, '65/35'],
    ],
  ],
])('%s over the dry mass of the lots’ blocks is the efficiency', async (_, strains) => {
  const own = {
    ...PLAN,
    figures: { ...PLAN.figures, 'lots, block mass': '2.5 kg', 'lots, moisture': '62%' },
  };
  const bytes = await bookOf(strains);
  const [fit, prepared] = await laidOut(bytes, 'plan', own);
  // 1.9 lb are 0.8618255 kg, 1.5 lb 0.680388555 kg, of 0.95 kg.
  expect(fit.tables.get('strains')!.values.get('efficiency')).toEqual([
    expect.closeTo((1.9 * 0.45359237) / 0.95, 7),
    expect.closeTo((1.5 * 0.45359237) / 0.95, 7),
  ]);
  await doAllAgree(bytes, prepared);
});

test('a misspelt strain has the block of the strain that it is read as, in the formulas too', async () => {
  const lots: Rows = [
    ['Lot', 'Strain', 'Bags', 'Inoculated'],
    ['A1', 'Blue larch', 20, '2026-02-10'],
    ['A2', 'Blue larh', 24, '2026-03-02'],
    ['A3', 'Gray fen', 24, '2026-01-02'],
    ['A4', 'Grey fen', 24, '2026-01-03'],
  ];
  const strains: Rows = [
    ['Strain', 'BE', 'Block kg', 'Moisture'],
    ['Blue larch', 0.9, 2.5, 0.62],
    ['Grey fen', 0.7, 3.2, 0.6],
  ];
  const bytes = await bookOf(strains, 'kg', lots);
  const once = { ...PLAN, figures: { ...PLAN.figures, 'strains, flushes': 1 } };
  const [fit, prepared] = await laidOut(bytes, 'plan', once);
  expect(fit.unread).toEqual([]);
  expect(fit.tables.get('lots')!.values.get('block mass')).toEqual([2.5, 2.5, 3.2, 3.2]);
  await doAllAgree(bytes, prepared);
});
