import { expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Figures that strains lack, typed for each strain or once for all. The strains are invented.

type Rows = readonly (readonly Held[])[];
const LOTS: Rows = [
  ['Lot', 'Strain', 'Blocks', 'Block weight lb', 'Moisture', 'Inoculated'],
  ['A1', 'Blue larch', 30, 5, 0.6, '2026-03-02'],
  ['A2', 'Fen grey', 30, 5, 0.6, '2026-03-05'],
];
const STRAINS: Rows = [
  ['Strain', 'Earliest', 'Best'],
  ['Blue larch', 18, 24],
  ['Fen grey', 20, 28],
];
const REST: Readonly<Record<string, Rows>> = {
  Rooms: [
    ['Room', 'Shelves', 'Blocks per shelf'],
    ['North', 10, 6],
  ],
  Orders: [
    ['Product', 'lb', 'Due'],
    ['Blue larch', 12, '2026-04-20'],
    ['Fen grey', 9, '2026-04-24'],
  ],
};
const bookOf = (strains: Rows): Promise<Uint8Array> => bookWith({ Lots: LOTS, Strains: strains, ...REST });
const book = bookOf(STRAINS);
const LACKING = { latest: 60, 'first pick': 7, 'pick days': 3, efficiency: '70%' };
const TODAY = { today: '2026-04-01', days: 28 };
const ofAll = (figures: Readonly<Record<string, string | number>>): Record<string, string | number> =>
  Object.fromEntries(Object.entries(figures).map(([name, figure]) => [`strains, ${name}`, figure]));
const STRAIN_NAMES = ['Blue larch', 'Fen grey'];

test('figures that strains lack are asked for in the plural, for each strain or for all', async () => {
  const fit = fitted(opened(await book), 'plan', { figures: TODAY });
  const [question] = fit.questions;
  expect(questionWords(question!)).toMatch(
    /^Your strains do not say “latest”, .*; nor “efficiency”, .*\. Type these figures for each strain, or one figure of each for all strains$/,
  );
  const answers = { figures: { ...TODAY, ...ofAll({ latest: 60, 'first pick': 7, 'pick days': 3 }) } };
  const [only] = fitted(opened(await book), 'plan', answers).questions;
  expect(questionWords(only!)).toMatch(/\. Type it for each strain, or one figure for all strains$/);
  expect(answersTemplate(fit).figures).toMatchObject({
    'strains, latest': null,
    'strains, efficiency': null,
  });
});

test('one figure for all strains plans as the same figure typed for each, and is kept', async () => {
  const fill = { shares: STRAIN_NAMES.map((strain) => ({ strain, ...LACKING })) };
  const [, typed] = await laidOut(await book, 'plan', { fill, figures: TODAY });
  const said: Answers = { figures: { ...TODAY, ...ofAll(LACKING) } };
  const [, alike] = await laidOut(await book, 'plan', said);
  expect(valuesOf(alike, '"orders"')).toEqual(valuesOf(typed, '"orders"'));
  expect(
    valuesOf(alike, '"orders"')
      .slice(1)
      .map((row) => row[4]),
  ).toEqual([12, 9]);
  const written = withSheets(await book, alike.sheets);
  const workbook = await openWorkbook(readWorkbook(written));
  const { address } = alike.calls[0]!;
  expect(workbook.result(alike.answer, address).block).toEqual(valuesOf(alike, 'LOADPLAN('));
  const again = opened(written);
  expect(fitted(again, 'plan', keptAnswers(again, 'plan')).questions.map(questionWords)).toEqual([]);
});

test.each(Object.keys(LACKING))('%s of all strains may be said while the others are typed', async (name) => {
  const others = Object.fromEntries(Object.entries(LACKING).filter(([one]) => one !== name));
  const fill = { shares: STRAIN_NAMES.map((strain) => ({ strain, ...others })) };
  const one = ofAll({ [name]: LACKING[name as keyof typeof LACKING] });
  const [, prepared] = await laidOut(await book, 'plan', { fill, figures: { ...TODAY, ...one } });
  expect(
    valuesOf(prepared, '"orders"')
      .slice(1)
      .map((row) => row[4]),
  ).toEqual([12, 9]);
});

test('a figure typed for one strain goes before the one that was said of all', async () => {
  const figures = { ...TODAY, ...ofAll(LACKING) };
  const fill = { shares: [{ strain: 'Fen grey', latest: 50 }] };
  const fit = fitted(opened(await book), 'plan', { figures, fill });
  expect(fit.questions.map(questionWords)).toEqual([]);
  expect(fit.filled.get('shares')).toEqual([
    { strain: 'Blue larch', latest: '60' },
    { strain: 'Fen grey', latest: 50 },
  ]);
});

test('what the strains say themselves is not typed besides', async () => {
  const fill = {
    shares: STRAIN_NAMES.map((strain) => ({ strain, ...LACKING, best: 30 })),
  };
  const [fit, prepared] = await laidOut(await book, 'plan', { fill, figures: TODAY });
  expect(Object.keys(fit.filled.get('shares')![0]!)).toEqual([...Object.keys(LACKING), 'strain']);
  const bytes = await book;
  expect(() => withSheets(bytes, prepared.sheets)).not.toThrow();
});

test('strains of which a book says no more than the wait are read, and the rest is asked', async () => {
  const bytes = await bookWith({
    Lots: LOTS,
    Kinds: [
      ['Strain', 'Ready after'],
      ['Blue larch', 18],
      ['Fen grey', 20],
    ],
    Rooms: [
      ['Room', 'Shelves', 'Blocks per shelf'],
      ['North', 10, 6],
    ],
    Orders: [
      ['Product', 'lb', 'Due'],
      ['Blue larch', 12, '2026-04-20'],
    ],
  });
  const fit = fitted(opened(bytes), 'plan', { figures: TODAY });
  expect(fit.questions.map((one) => (one.kind === 'fill' ? [one.table, one.alike] : one.kind))).toEqual([
    ['shares', ['latest', 'first pick', 'pick days', 'efficiency']],
  ]);
  const [, prepared] = await laidOut(bytes, 'plan', { figures: { ...TODAY, ...ofAll(LACKING) } });
  expect(valuesOf(prepared, '"orders"')[1]![4]).toBe(12);
});

test('Early, Best and Late are the first, the best and the last day', async () => {
  const { tables } = fitted(
    opened(
      await bookOf([
        ['Strain', 'Early (days)', 'Best (days)', 'Late (days)'],
        ['Blue larch', 18, 24, 60],
        ['Fen grey', 20, 28, 60],
      ]),
    ),
    'ready',
    { figures: TODAY },
  );
  const { values } = tables.get('strains')!;
  expect(['earliest', 'best', 'latest'].map((name) => values.get(name)![0])).toEqual([18, 24, 60]);
});

test('a range under a header of the last day is from the first day to the last', async () => {
  const bytes = await bookOf([
    ['Strain', 'Ready - too old (days)'],
    ['Blue larch', '18-60'],
    ['Fen grey', '20-62'],
  ]);
  const [fit, prepared] = await laidOut(bytes, 'ready', { figures: TODAY });
  const { values } = fit.tables.get('strains')!;
  expect(['earliest', 'best', 'latest'].map((name) => values.get(name))).toEqual([
    [18, 20],
    [18, 20],
    [60, 62],
  ]);
  await doAllAgree(bytes, prepared);
});

test.each([
  ['plan', ['first pick', 'flush 1', 'flush 2', 'flush 3']],
  ['audit', ['first pick']],
] as const)('shares under Flushes are no number of flushes in %s', async (job, names) => {
  const bytes = await bookOf([
    ['Strain', 'Earliest', 'Latest', 'First pick', 'Flushes'],
    ['Blue larch', 18, 60, 7, '50/30/20'],
    ['Fen grey', 20, 62, 7, '60/40'],
  ]);
  const { tables } = fitted(opened(bytes), job, { figures: TODAY });
  const read = tables.get('strains')!.readings.map(({ name }) => name);
  expect(read.filter((name) => /pick|flush/.test(name))).toEqual(names);
});

test('shares that were typed without being asked count', async () => {
  const bytes = await bookOf([
    ['Strain', 'Earliest', 'Best', 'Latest', 'First pick', 'Pick days', 'Flush gap', 'Efficiency'],
    ['Blue larch', 18, 24, 60, 7, 2, 10, 0.7],
    ['Fen grey', 20, 28, 60, 7, 2, 10, 0.7],
  ]);
  const shares = STRAIN_NAMES.map((strain) => ({ strain, 'flush 1': '65%', 'flush 2': '35%' }));
  const columns = { strains: { flushes: null } };
  const [fit, prepared] = await laidOut(bytes, 'plan', { figures: TODAY, columns, fill: { shares } });
  expect(fit.filled.get('shares')).toEqual(shares);
  const firsts = valuesOf(prepared, '"picks"')
    .slice(1)
    .map((row) => Number(row[3]));
  // Two flushes of two days each.
  expect(firsts.filter((mass) => mass > 0).length).toBeGreaterThan(2);
  await doAllAgree(bytes, prepared);
});

test('a strain that is filled in with three flushes is asked for the share of each', async () => {
  const strains = {
    strain: 'Blue larch',
    earliest: 18,
    best: 24,
    latest: 60,
    'first pick': 7,
    'pick days': 2,
  };
  const rows = [
    { ...strains, 'flush gap': 10, flushes: 3, 'flush 1': '50%', efficiency: '70%' },
    { ...strains, strain: 'Fen grey', efficiency: '70%' },
  ];
  const bytes = await bookWith({ Lots: LOTS, ...REST });
  const kinds = (own: Record<string, string | number>[]): unknown =>
    fitted(opened(bytes), 'plan', { figures: TODAY, fill: { strains: own } }).questions.map(
      ({ kind }) => kind,
    );
  expect(kinds(rows)).toEqual(['fill']);
  expect(kinds([{ ...rows[0]!, 'flush 2': '30%', 'flush 3': '20%' }, rows[1]!])).toEqual([]);
  const open = answersTemplate(fitted(opened(bytes), 'plan', { figures: TODAY }));
  expect(Object.keys(open.fill!['strains']![0]!)).toEqual(
    expect.arrayContaining(['flush 1', 'flush 2', 'flush 3']),
  );
});
