import { column, figures, formula, heading, inputs, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const mix: Sheet = {
  name: 'Mix',
  title: 'Mix: the weighing list of a batch',
  notes: [
    'From a recipe by share of dry mass, moistures as the ingredients come, and the size of the batch. Figures are invented.',
    'Bran and sawdust dust harms lungs and can burn: mix with extraction or a mask.',
  ],
  things: [
    heading('A5', 'Weighing list (kg)'),
    formula('A6', '=PINSET.MIX(Recipe[#All], G6, G7, G8, G9, G10)', ['text', 'mass', 'mass', 'count'], {
      headed: true,
      growth: 4,
    }),
    heading('F5', 'Batch'),
    inputs(
      'F6',
      { label: 'Blocks', value: 120, reads: 'count' },
      { label: 'Block mass (kg)', value: 2.4, reads: 'mass' },
      { label: 'Moisture wanted', value: 0.6, reads: 'percent' },
      { label: 'Spare', value: 0.03, reads: 'percent', remark: 'for what sticks to the mixer' },
      { label: 'Spawn rate', value: 0.05, reads: 'percent', remark: 'of the wet mass' },
    ),
    figures('F12', {
      label: 'Sum of shares',
      formula: '=SUM(Recipe[Share])',
      reads: 'percent',
      remark: 'must be 100%',
    }),
    heading('J5', 'Recipe'),
    table(
      'J6',
      'Recipe',
      [
        column('Ingredient'),
        column('Share', 'percent'),
        column('Moisture', 'percent'),
        column('Pack (kg)', 'mass'),
      ],
      [
        ['oak sawdust', 0.7, 0.38, null],
        ['beech chips', 0.12, 0.3, null],
        ['wheat bran', 0.15, 0.12, 20],
        ['millet', 0.02, 0.11, 25],
        ['gypsum', 0.01, 'none', 25],
      ],
    ),
  ],
  prints: 'A:H',
  widths: { H: 28 },
};
