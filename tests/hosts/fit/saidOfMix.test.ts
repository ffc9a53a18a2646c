import { describe, expect, test } from '@jest/globals';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { bookWith, doAllAgree, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// What the sheet of a recipe says of the mix beside its ingredients: how much of it, and what these come in.

type Rows = readonly (readonly Held[])[];

const recipe = (...comesIn: readonly Held[]): Rows => [
  ['Ingredient', '% (dry)', 'Moisture', 'Comes in'],
  ['Oak sawdust', 78, '35%', comesIn[0] ?? null],
  ['Wheat bran', 20, 12, comesIn[1] ?? null],
  ['Gypsum', 2, '0.5%', comesIn[2] ?? null],
  ['Total', 100],
];
const bookOf = (title: Rows, rows: Rows, others: Readonly<Record<string, Rows>> = {}) =>
  bookWith({ Recipe: [...title, [], ...rows], ...others });

describe('the figures of a mix', () => {
  test.each<[string, Rows, readonly Held[], readonly Held[]]>([
    [
      'in one sentence',
      [['Standard mix'], ['target 62% wet. 60 blocks of 2.3 a batch']],
      [],
      ['60', '2.3', '62%'],
    ],
    [
      'in sentences of their own',
      [['Makes 48 bags'], ['bags of 2.5 kg'], ['aim for 60 % moisture']],
      [],
      ['48', '2.5', '60%'],
    ],
    [
      'beside labels',
      [
        ['Blocks', 60],
        ['Block weight', '2.5 kg'],
        ['Moisture', '61%'],
      ],
      [],
      ['60', '2.5', '61%'],
    ],
    ['not where two places differ', [['60 blocks of 2.3'], ['or 40 bags of 3.5']], [], [null, null, null]],
    [
      'not in another unit than the packs',
      [['40 bags of 5 lb at 60% water']],
      [null, '20 kg bag'],
      ['40', null, '60%'],
    ],
    ['not of what one shelf holds', [['12 blocks per shelf']], [], [null, null, null]],
  ])('are proposed as the sheet of the recipe says them: %s', async (_, title, comesIn, proposed) => {
    const fit = fitted(opened(await bookOf(title, recipe(...comesIn))), 'mix', {});
    const { figures } = answersTemplate(fit);
    expect(['blocks', 'block mass', 'moisture'].map((name) => figures![name])).toEqual(proposed);
  });

  test('are asked with the place that says them', async () => {
    const fit = fitted(
      opened(await bookOf([['60 blocks of 2.3 a batch']], recipe('kg', '20 kg sacks'))),
      'mix',
      {},
    );
    expect(fit.questions.map(questionWords)).toEqual([
      'blocks: number of blocks to fill. Recipe!A1 says “60 blocks of 2.3 a batch”',
      'block mass: wet mass of a finished block, in the unit of the scale. Recipe!A1 says “60 blocks of 2.3 a batch”. The packs of your recipe are in kg',
      'moisture: water share of the substrate wanted: 62% is written 62% or 0.62',
    ]);
  });

  test('are not those of another sheet, but for the moisture', async () => {
    const notes = { Notes: [['40 blocks of 3 kg at 63% moisture']] };
    const fit = fitted(opened(await bookOf([['Mix']], recipe(), notes)), 'mix', {});
    const { figures } = answersTemplate(fit);
    expect(figures).toMatchObject({ blocks: null, 'block mass': null, moisture: '63%' });
  });
});

describe('what ingredients come in', () => {
  const FIGURES = { figures: { blocks: 60, 'block mass': 2.3, moisture: '62%' } };

  // 60 blocks of 2.3 kg at 62% are 52.44 kg dry: 40.9 kg of sawdust are 62.9 kg moist, 10.5 kg of bran 11.9 kg.
  test.each<[string, readonly Held[], readonly Held[]]>([
    ['20 kg sacks', ['kg', '20 kg sacks'], ['', 1, '']],
    ['8kg bag', ['25kg bags', '8kg bag', 'loose'], [3, 2, '']],
    ['10 kg/bag', ['loose', '10 kg/bag', '1 kg/bag'], ['', 2, 2]],
    ['pounds beside kilograms', ['25 kg bale', '22 lb bag', null], [3, 2, '']],
  ])('is read as the mass of a pack, in the formulas too: %s', async (_, comesIn, packs) => {
    const bytes = await bookOf([['Mix']], recipe(...comesIn));
    const [fit, prepared] = await laidOut(bytes, 'mix', FIGURES);
    expect(fit.unread).toEqual([]);
    const rows = valuesOf(prepared, 'MIX(').slice(1, 4);
    expect(rows.map((row) => row[3])).toEqual(packs);
    await doAllAgree(bytes, prepared);
  });

  test.each<[string, readonly Held[]]>([
    ['words of something else', ['kg', '20 kg sacks', 'ask Wim']],
    ['units alone', ['kg', 'kg', 'g']],
  ])('is no pack in %s', async (_, comesIn) => {
    const fit = fitted(opened(await bookOf([['Mix']], recipe(...comesIn))), 'mix', FIGURES);
    expect(fit.tables.get('recipe')!.readings.map(({ name }) => name)).not.toContain('pack');
  });
});
