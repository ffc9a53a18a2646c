import { expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import type { Answers } from '../../../src/hosts/fit/answers';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { keptAnswers } from '../../../src/hosts/fit/kept';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

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
const book = bookWith({
  Lots: LOTS,
  Strains: STRAINS,
  Rooms: [
    ['Room', 'Shelves', 'Blocks per shelf'],
    ['North', 10, 6],
  ],
  Orders: [
    ['Product', 'lb', 'Due'],
    ['Blue larch', 12, '2026-04-20'],
    ['Fen grey', 9, '2026-04-24'],
  ],
});
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
