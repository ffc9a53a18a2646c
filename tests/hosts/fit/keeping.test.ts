import { expect, test } from '@jest/globals';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { bookWith, fitted, opened, valuesOf, laidOut, type Held } from './laidOut';

// How long a block keeps once it is ready is no age from its inoculation.

type Rows = readonly (readonly Held[])[];
const LOTS: Rows = [
  ['Lot', 'Strain', 'Bags', 'Bag kg', 'Moisture', 'Inoculated'],
  ['A1', 'Fen', 20, 2.5, 0.62, '2026-02-26'],
  ['B1', 'Heath', 20, 2.5, 0.62, '2026-02-26'],
];
const ORDERS: Rows = [
  ['Product', 'kg', 'Due'],
  ['Fen', 4, '2026-04-20'],
];
const strains = (wait: Rows, header: string, keeps: readonly Held[]): Rows => {
  const picking = [
    ['First pick', 'BE'],
    [7, 0.8],
    [9, 0.7],
  ];
  // Behind its wait it is read without a question.
  return wait.map((row, i) => [...row, ...picking[i]!, i === 0 ? header : keeps[i - 1]!]);
};
const PARTS: Rows = [
  ['Strain', 'Spawn run (days)', 'Browning (days)'],
  ['Fen', 70, 21],
  ['Heath', 16, null],
];
const WHOLE: Rows = [
  ['Strain', 'Min days', 'Best'],
  ['Fen', 85, 91],
  ['Heath', 14, 16],
];
const bookOf = (rows: Rows): Promise<Uint8Array> => bookWith({ Lots: LOTS, Strains: rows, Orders: ORDERS });
const ASKED = { columns: {}, figures: { 'strains, pick days': 4, today: '2026-03-30' } };

test.each<[string, Rows, string, readonly Held[], string | undefined]>([
  ['keeps', PARTS, 'Keeps (days)', [28, 12], 'Spawn run (days) + Browning (days)'],
  ['keeps, for some longer than they took', WHOLE, 'Keeps (days)', [28, 20], 'Best'],
  ['is good for', WHOLE, 'Good for (d)', [28, 20], 'Best'],
  [
    'has in a column without a word for it, always shorter than the wait',
    WHOLE,
    'Slack (days)',
    [28, 12],
    'Best',
  ],
  ['has in a column that is longer than the wait', WHOLE, 'Slack (days)', [120, 30], undefined],
])(
  'what a block %s is offered as its last day by the day from which it counts, and read so',
  async (_, wait, header, keeps, parts) => {
    const book = opened(await bookOf(strains(wait, header, keeps)));
    const { questions } = fitted(book, 'plan', ASKED);
    const [latest] = questions.filter((one) => one.kind === 'column' && one.column === 'latest');
    expect(latest).toMatchObject({ choices: [header] });
    const added = `“${header}” is counted from the day a block is ready: it is added to ${parts}.`;
    expect(questionWords(latest!).includes(added)).toBe(parts !== undefined);
    const answered = fitted(book, 'plan', { ...ASKED, columns: { strains: { latest: header } } });
    const sums = [91, 16].map((days, i) => (parts === undefined ? 0 : days) + Number(keeps[i]));
    expect(answered.tables.get('strains')!.values.get('latest')).toEqual(sums);
  },
);

test.each([['Keeps (days)'], ['Good for (d)']])('%s is no other figure of a strain', async (header) => {
  const book = opened(await bookOf(strains(WHOLE, header, [28, 20])));
  const { questions } = fitted(book, 'plan', { figures: { today: '2026-03-30' } });
  const offered = questions.flatMap((one) => (one.kind === 'column' ? [[one.column, one.choices]] : []));
  expect(offered).toEqual([['latest', [header]]]);
});

test('a plan opens no block after the days that it keeps', async () => {
  const bytes = await bookOf(strains(PARTS, 'Keeps (days)', [28, 12]));
  const [, prepared] = await laidOut(bytes, 'plan', {
    ...ASKED,
    columns: { strains: { latest: 'Keeps (days)' } },
    fill: { rooms: [{ room: 'Tent', shelves: 10, 'blocks per shelf': 20 }] },
  });
  // Heath of 26 February keeps until 26 March, 28 days on.
  const over = valuesOf(prepared, '"lots"').filter(([lot]) => lot === 'B1');
  expect(over.map((row) => row.slice(3, 6))).toEqual([[0, 0, 20]]);
});
