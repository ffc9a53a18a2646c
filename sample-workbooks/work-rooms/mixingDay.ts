import {
  column,
  figures,
  formula,
  heading,
  inputs,
  remark,
  table,
  type Sheet,
  type Thing,
  type Typed,
} from '../../src/hosts/xlsx/describe';

const recipeColumns = [
  column('Ingredient'),
  column('Share', 'percent'),
  column('Moisture', 'percent'),
  column('Cost (a kg)', 'money'),
  column('Carbon', { code: '0.0%' }),
  column('Nitrogen', { code: '0.00%' }),
  column('Pack (kg)', 'mass'),
];

/** One recipe: its table, the batch, the weighing list, and what the mix comes to. */
function recipe(
  row: number,
  title: string,
  name: string,
  rows: readonly (readonly Typed[])[],
  batch: readonly [blocks: number, blockMass: number, moisture: number, spare: number, spawnRate: number],
): Thing[] {
  const [first, last] = [row + 2, row + 1 + rows.length];
  const masses = `N${first}:N${last}`;
  const settings = [2, 3, 4].map((line) => `J${row + line}`).join(', ');
  return [
    heading(`A${row}`, title),
    table(`A${row + 1}`, name, recipeColumns, rows),
    heading(`I${row}`, 'Batch'),
    inputs(
      `I${row + 2}`,
      { label: 'Blocks', value: batch[0], reads: 'count' },
      { label: 'Block mass (kg)', value: batch[1], reads: 'mass' },
      { label: 'Moisture wanted', value: batch[2], reads: 'percent' },
      { label: 'Spare', value: batch[3], reads: 'percent' },
      { label: 'Spawn rate', value: batch[4], reads: 'percent' },
      { label: 'Spawn price (a kg)', value: 3.2, reads: 'money' },
    ),
    heading(`L${row}`, 'Weighing list (kg)'),
    formula(
      `L${row + 1}`,
      `=PINSET.MIX(${name}[#All], ${settings}, J${row + 5}, J${row + 6})`,
      ['text', 'mass', 'mass', 'count', { code: '0.00%' }, { code: '0.0' }],
      { headed: true },
    ),
    figures(
      `I${row + 8}`,
      {
        label: 'C:N',
        formula: `=PINSET.MIXRATIO(${masses}, ${name}[Moisture], ${name}[Carbon], ${name}[Nitrogen])`,
        reads: { code: '0.0' },
      },
      {
        label: 'Moisture as weighed',
        formula: `=PINSET.MIXMOISTURE(${masses}, ${name}[Moisture], N${last + 1})`,
        reads: 'percent',
      },
    ),
    formula(
      `I${row + 12}`,
      `=PINSET.MIXCOST(${name}[#All], ${settings}, J${row + 5}, J${row + 6}, J${row + 7})`,
      'money',
      {
        headers: ['Cost of a block', 'of a kg dry'],
      },
    ),
  ];
}

export const mixingDay: Sheet = {
  name: 'Mixing day',
  title: 'Mixing day',
  notes: [
    'Three recipes and their weighing lists, the cheapest mix for given needs, and the runs of the steriliser. Figures are invented.',
  ],
  things: [
    ...recipe(
      4,
      'Oak and bran',
      'OakBran',
      [
        ['oak sawdust', 0.78, 0.36, 0.06, 0.488, 0.0016, null],
        ['wheat bran', 0.2, 0.11, 0.34, 0.45, 0.027, 20],
        ['gypsum', 0.02, 'none', 0.4, 'none', 'none', 25],
      ],
      [120, 2.4, 0.6, 0.03, 0.05],
    ),
    ...recipe(
      18,
      'Beech and soy hulls',
      'BeechHulls',
      [
        ['beech chips', 0.5, 0.3, 0.08, 0.485, 0.002, null],
        ['soy hulls', 0.48, 0.1, 0.3, 0.43, 0.019, 15],
        ['gypsum', 0.02, 'none', 0.4, 'none', 'none', 25],
      ],
      [80, 3.2, 0.62, 0.03, 0.04],
    ),
    ...recipe(
      32,
      'Oak and millet',
      'OakMillet',
      [
        ['oak sawdust', 0.85, 0.36, 0.06, 0.488, 0.0016, null],
        ['millet', 0.1, 0.12, 0.62, 0.44, 0.02, 25],
        ['wheat bran', 0.05, 0.11, 0.34, 0.45, 0.027, 20],
      ],
      [40, 2.2, 0.58, 0.05, 0.05],
    ),

    heading('A46', 'On hand, with prices'),
    table(
      'A47',
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
    heading('I46', 'Needs'),
    table(
      'I47',
      'MixNeeds',
      [column('Need'), column('Lowest', { code: 'General' }), column('Highest', { code: 'General' })],
      [
        ['nitrogen', 0.008, null],
        ['C:N', 40, 60],
        ['moisture', null, 0.5],
      ],
    ),
    heading('M46', 'Cheapest mix by dry shares'),
    formula(
      'M47',
      '=PINSET.CHEAPESTMIX(OnHand[#All], MixNeeds[#All])',
      ['text', { code: '0.0000' }, 'text', { code: '0.0000' }, { code: '0.0000' }, 'text'],
      { headed: true },
    ),
    remark('A55', 'The cheapest mix on paper may grow worse: try it on a few blocks first.'),

    heading('A58', 'Steriliser runs'),
    inputs(
      'A59',
      { label: 'Blocks today', value: 240, reads: 'count' },
      { label: 'Blocks a run', value: 96, reads: 'count' },
    ),
    formula('D59', '=PINSET.BATCHES(B59, B60)', 'count', { headed: true, growth: 6 }),
    remark('A64', 'Bran and sawdust dust harms lungs and can burn: mix with extraction or a mask.'),
  ],
};
