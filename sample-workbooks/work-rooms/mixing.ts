import {
  column,
  figures,
  formula,
  heading,
  inputs,
  table,
  type Sheet,
  type Typed,
} from '../../src/hosts/xlsx/describe';

const DUST = 'Bran and sawdust dust harms lungs and can burn: mix with extraction or a mask.';

const recipeColumns = [
  column('Ingredient'),
  column('Share', 'percent'),
  column('Moisture', 'percent'),
  column('Cost (a kg)', 'money'),
  column('Carbon', { code: '0.0%' }),
  column('Nitrogen', { code: '0.00%' }),
  column('Pack (kg)', 'mass'),
];

/** One recipe: the weighing list, what the mix comes to, the batch and the recipe itself. */
function recipe(
  name: string,
  tableName: string,
  rows: readonly (readonly Typed[])[],
  batch: readonly [blocks: number, blockMass: number, moisture: number, spare: number, spawnRate: number],
): Sheet {
  const last = 6 + rows.length;
  const masses = `C7:C${last}`;
  const batchCells = 'I6, I7, I8, I9, I10';
  return {
    name,
    title: `${name}: the weighing list`,
    notes: ['For a batch, its size and recipe on the right. Figures are invented.', DUST],
    things: [
      heading('A5', 'Weighing list (kg)'),
      formula(
        'A6',
        `=PINSET.MIX(${tableName}[#All], ${batchCells})`,
        ['text', 'mass', 'mass', 'count', { code: '0.00%' }, { code: '0.0' }],
        { headed: true, growth: 4 },
      ),
      heading('H5', 'Batch'),
      inputs(
        'H6',
        { label: 'Blocks', value: batch[0], reads: 'count' },
        { label: 'Block mass (kg)', value: batch[1], reads: 'mass' },
        { label: 'Moisture wanted', value: batch[2], reads: 'percent' },
        { label: 'Spare', value: batch[3], reads: 'percent' },
        { label: 'Spawn rate', value: batch[4], reads: 'percent' },
        { label: 'Spawn price (a kg)', value: 3.2, reads: 'money' },
      ),
      formula('H14', `=PINSET.MIXCOST(${tableName}[#All], ${batchCells}, I11)`, 'money', {
        headers: ['Cost of a block', 'of a kg dry'],
      }),
      figures(
        'H16',
        {
          label: 'C:N',
          formula: `=PINSET.MIXRATIO(${masses}, ${tableName}[Moisture], ${tableName}[Carbon], ${tableName}[Nitrogen])`,
          reads: { code: '0.0' },
        },
        {
          label: 'Moisture as weighed',
          formula: `=PINSET.MIXMOISTURE(${masses}, ${tableName}[Moisture], C${last + 1})`,
          reads: 'percent',
        },
      ),
      heading('K5', 'Recipe'),
      table('K6', tableName, recipeColumns, rows),
    ],
    prints: 'A:I',
  };
}

export const recipes: readonly Sheet[] = [
  recipe(
    'Oak and bran',
    'OakBran',
    [
      ['oak sawdust', 0.78, 0.36, 0.06, 0.488, 0.0016, null],
      ['wheat bran', 0.2, 0.11, 0.34, 0.45, 0.027, 20],
      ['gypsum', 0.02, 'none', 0.4, 'none', 'none', 25],
    ],
    [120, 2.4, 0.6, 0.03, 0.05],
  ),
  recipe(
    'Beech and soy hulls',
    'BeechHulls',
    [
      ['beech chips', 0.5, 0.3, 0.08, 0.485, 0.002, null],
      ['soy hulls', 0.48, 0.1, 0.3, 0.43, 0.019, 15],
      ['gypsum', 0.02, 'none', 0.4, 'none', 'none', 25],
    ],
    [80, 3.2, 0.62, 0.03, 0.04],
  ),
  recipe(
    'Oak and millet',
    'OakMillet',
    [
      ['oak sawdust', 0.85, 0.36, 0.06, 0.488, 0.0016, null],
      ['millet', 0.1, 0.12, 0.62, 0.44, 0.02, 25],
      ['wheat bran', 0.05, 0.11, 0.34, 0.45, 0.027, 20],
    ],
    [40, 2.2, 0.58, 0.05, 0.05],
  ),
];

export const cheapest: Sheet = {
  name: 'Cheapest mix',
  title: 'Cheapest mix by dry shares',
  notes: [
    'From what is on hand, within the needs on the right. Figures are invented.',
    'The cheapest mix on paper may grow worse: try it on a few blocks first.',
  ],
  things: [
    heading('A5', 'Shares'),
    formula(
      'A6',
      '=PINSET.CHEAPESTMIX(OnHand[#All], MixNeeds[#All])',
      ['text', { code: '0.0000' }, 'text', { code: '0.0000' }, { code: '0.0000' }, 'text'],
      { headed: true, growth: 4 },
    ),
    heading('H5', 'On hand, with prices'),
    table(
      'H6',
      'OnHand',
      [
        column('Ingredient'),
        column('Cost (a kg)', 'money'),
        column('Moisture', 'percent'),
        column('Lowest', 'percent'),
        column('Highest', 'percent'),
        column('Carbon', { code: '0.0%' }),
        column('Nitrogen', { code: '0.00%' }),
      ],
      [
        ['oak sawdust', 0.06, 0.36, null, 1, 0.488, 0.0016],
        ['beech chips', 0.08, 0.3, null, 1, 0.485, 0.002],
        ['wheat bran', 0.34, 0.11, null, 0.15, 0.45, 0.027],
        ['soy hulls', 0.3, 0.1, null, 1, 0.43, 0.019],
        ['millet', 0.62, 0.12, null, 1, 0.44, 0.02],
        ['gypsum', 0.4, 'none', 0.01, 0.02, 'none', 'none'],
      ],
    ),
    heading('P5', 'Needs'),
    table(
      'P6',
      'MixNeeds',
      [column('Need'), column('Lowest', { code: 'General' }), column('Highest', { code: 'General' })],
      [
        ['nitrogen', 0.008, null],
        ['C:N', 40, 60],
        ['moisture', null, 0.5],
      ],
    ),
  ],
};

export const runs: Sheet = {
  name: 'Runs',
  title: 'Runs of the steriliser',
  notes: ['How the blocks of a day go into it, as even as can be.'],
  things: [
    formula('A4', '=PINSET.BATCHES(E4, E5)', 'count', { headed: true, growth: 6 }),
    inputs(
      'D4',
      { label: 'Blocks today', value: 240, reads: 'count' },
      { label: 'Blocks a run', value: 96, reads: 'count' },
    ),
  ],
};
