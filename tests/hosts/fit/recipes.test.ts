import { describe, expect, test } from '@jest/globals';
import { openWorkbook } from '../../../src/hosts/engine/openWorkbook';
import { answersTemplate } from '../../../src/hosts/fit/answersTemplate';
import { questionWords } from '../../../src/hosts/fit/questionTold';
import { sourceWords } from '../../../src/hosts/fit/told';
import { withSheets } from '../../../src/hosts/xlsx/newSheets';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { bookWith, fitted, laidOut, opened, valuesOf, type Held } from './laidOut';

// Recipes as they hang beside a mixer. 40 blocks of 2.5 kg at 60% are 40 kg dry and 100 kg wet.

type Rows = readonly (readonly Held[])[];
const FIGURES = { figures: { blocks: 40, 'block mass': 2.5, moisture: 0.6 } };

/** What is to be weighed, by its ingredient, as the sheet that is written calculates it. */
async function weighed(rows: Rows, answers = {}): Promise<Record<string, number>> {
  const bytes = await bookWith({ Recipe: rows });
  const [, prepared] = await laidOut(bytes, 'mix', { ...FIGURES, ...answers });
  const block = valuesOf(prepared, 'MIX');
  const workbook = await openWorkbook(readWorkbook(withSheets(bytes, prepared.sheets)));
  const { address } = prepared.calls.find(({ formula }) => formula.includes('MIX'))!;
  expect(workbook.result(prepared.answer, address).block).toEqual(block);
  const at = block[0]!.indexOf('mass to weigh');
  const own = block.slice(1).map((row): [string, number] => [row[0] as string, Number(row[at])]);
  return Object.fromEntries(own.map(([name, mass]) => [name, Number(mass.toFixed(6))]));
}

// 50 kg of sawdust at 40% are 30 kg dry, 10 kg of bran as they are 10 kg.
const OAK_AND_BRAN = { 'oak sawdust': 50, bran: 10, water: 40, total: 100 };

describe('a recipe', () => {
  test.each<[string, Rows]>([
    [
      'in kilograms, with water and a total',
      [
        ['Ingredient', 'kg per batch', 'Moisture'],
        ['oak sawdust', 100, '40%'],
        ['bran', 20, 0],
        ['Water', 80],
        ['Total', 200],
      ],
    ],
    [
      'in parts',
      [
        ['Ingredient', 'Parts', 'Moisture %'],
        ['oak sawdust', 5, 40],
        ['bran', 1, 0],
      ],
    ],
    [
      'in per cent as it is weighed',
      [
        ['Ingredient', '% as is', 'Moisture'],
        ['oak sawdust', 50, 0.4],
        ['bran', 10, '0%'],
        ['Tap water', 40, null],
      ],
    ],
    [
      'in per cent of all, as the water in it shows',
      [
        ['Ingredient', 'Percent', 'Moisture'],
        ['oak sawdust', 0.5, 0.4],
        ['bran', 0.1, 'none'],
        ['Water', 0.4],
      ],
    ],
    [
      'in kilograms dry beside those that were weighed once',
      [
        ['Ingredient', 'kg', 'Moisture', 'kg dry'],
        ['oak sawdust', 100, 0.4, 60],
        ['bran', 20, 0, 20],
        ['Water', 80, null, null],
      ],
    ],
    [
      'in texts with their unit',
      [
        ['Ingredient', 'Weight', 'Moisture'],
        ['oak sawdust', '100 kg', 0.4],
        ['bran', '20 kg', 0],
      ],
    ],
  ])('%s is weighed out', async (_, rows) => {
    expect(await weighed(rows)).toMatchObject(OAK_AND_BRAN);
  });

  test('in per cent by weight is of the dry mass where the grower says that it is the share', async () => {
    const rows: Rows = [
      ['Ingredient', '% by weight', 'Moisture'],
      ['oak sawdust', 75, 0.4],
      ['bran', 25, 'none'],
    ];
    const said = { columns: { recipe: { share: '% by weight' } } };
    expect(await weighed(rows, said)).toMatchObject(OAK_AND_BRAN);
  });

  test('of several side by side is the one that the grower names, without what is not in it', async () => {
    const rows: Rows = [
      ['Ingredient', 'Moisture', 'Oak mix', 'Straw mix'],
      ['oak sawdust', 0.4, 0.75, null],
      ['bran', 0, 0.25, 0.1],
      ['straw', 0.1, null, 0.9],
    ];
    const said = await weighed(rows, { columns: { recipe: { share: 'Oak mix' } } });
    expect(said).toMatchObject(OAK_AND_BRAN);
    expect(said).not.toHaveProperty('straw');
  });

  test('tells that its water is left out, and takes no mass that is weighed for that of a sack', async () => {
    const fit = fitted(
      opened(
        await bookWith({
          Recipe: [
            ['Ingredient', 'Parts', 'kg', 'Moisture'],
            ['oak sawdust', 5, 100, 0.4],
            ['bran', 1, 20, 0],
            ['Water', 4, 80],
          ],
        }),
      ),
      'mix',
      FIGURES,
    );
    const recipe = fit.tables.get('recipe')!;
    expect(sourceWords(recipe)).toBe('2 records in Recipe!A1:D4; 1 row left out by “Ingredient”');
    expect(recipe.readings.map(({ name }) => name)).toEqual(['ingredient', 'share', 'moisture']);
  });

  test('has no 0 for a moisture that the sheet itself works out: that may be a blank', async () => {
    const book = opened(
      await bookWith({
        Recipe: [
          ['Ingredient', 'Parts', 'Moisture'],
          ['oak sawdust', 5, 0.4],
          ['bran', 1, 0],
        ],
      }),
    );
    const [sheet] = book.sheets;
    const calculated = { ...sheet!, isFormula: (row: number, column: number) => row === 2 && column === 2 };
    const { unread } = fitted({ ...book, sheets: [calculated] }, 'mix', FIGURES);
    expect(unread.map(({ why }) => why)).toEqual(['is 0: for 0 write none']);
  });

  test('in buckets is asked about', async () => {
    const book = opened(
      await bookWith({
        Recipe: [
          ['Ingredient', 'Parts by volume', 'Moisture'],
          ['oak sawdust', 5, 0.4],
          ['bran', 1, 0.1],
        ],
      }),
    );
    expect(fitted(book, 'mix', FIGURES).questions).toEqual([
      expect.objectContaining({ kind: 'column', column: 'share' }),
    ]);
  });
});

describe('what a sheet says of the batch beside its recipe', () => {
  const RECIPE: Rows = [
    ['Ingredient', '% of dry', 'Moisture'],
    ['oak sawdust', 75, '40%'],
    ['bran', 25, 0],
  ];
  test.each<[string, Rows]>([
    ['below it', [...RECIPE, [], ['Blocks', 40], ['Block kg', 2.5], ['Target moisture', 0.6]]],
    [
      'below it in other words',
      [...RECIPE, [], ['Bags per run', '40'], ['Bag weight', '2.5 kg'], ['Aim for moisture', '60%']],
    ],
    ['over it, in a sentence', [['target 60% wet, 40 blocks of 2.5 a batch'], [], ...RECIPE]],
    [
      'at its side',
      [
        [...RECIPE[0]!, null, 'No. of bags', 40],
        [...RECIPE[1]!, null, 'Mass per bag (kg)', 2.5],
        [...RECIPE[2]!, null, 'Moisture wanted', '60 %'],
      ],
    ],
  ])('%s is no ingredient, and is proposed', async (_where, rows) => {
    const open = fitted(opened(await bookWith({ Recipe: rows })), 'mix', {});
    expect(open.tables.get('recipe')!.values.get('ingredient')).toEqual(['oak sawdust', 'bran']);
    const { figures } = answersTemplate(open);
    expect(figures).toEqual({ blocks: '40', 'block mass': '2.5', moisture: '60%' });
    expect(questionWords(open.questions[0]!)).toMatch(
      /^blocks: number of blocks to fill\. Recipe!.* says “.*40.*”$/,
    );
    expect(await weighed(rows, { figures })).toMatchObject(OAK_AND_BRAN);
  });

  test('is not proposed where it is said twice, otherwise', async () => {
    const rows = [...RECIPE, [], ['Blocks', 40], ['Bags', 60]];
    const { figures } = answersTemplate(fitted(opened(await bookWith({ Recipe: rows })), 'mix', {}));
    expect(figures!['blocks']).toBeNull();
  });

  test('an ingredient below a blank row stays one', async () => {
    const rows: Rows = [...RECIPE.slice(0, 2), [], ['bran', 25, 0]];
    expect(await weighed(rows)).toMatchObject(OAK_AND_BRAN);
  });
});
