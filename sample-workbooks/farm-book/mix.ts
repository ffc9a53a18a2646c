import {
  column,
  figures,
  formula,
  heading,
  inputs,
  remark,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';

export const mix: Sheet = {
  name: 'Mix',
  title: 'Mix',
  notes: [
    'A recipe by share of dry mass, moistures as the ingredients come, and the weighing list for a batch. Figures are invented.',
  ],
  things: [
    heading('A4', 'Recipe'),
    table(
      'A5',
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
    figures('F10', {
      label: 'Sum of shares',
      formula: '=SUM(Recipe[Share])',
      reads: 'percent',
      remark: 'must be 100%',
    }),

    heading('F4', 'Batch'),
    inputs(
      'F5',
      { label: 'Blocks', value: 120, reads: 'count' },
      { label: 'Block mass (kg)', value: 2.4, reads: 'mass' },
      { label: 'Moisture wanted', value: 0.6, reads: 'percent' },
      { label: 'Spare', value: 0.03, reads: 'percent', remark: 'mixed over, for what sticks to the mixer' },
      { label: 'Spawn rate', value: 0.05, reads: 'percent', remark: 'spawn by wet mass of substrate' },
    ),

    heading('F12', 'Weighing list (kg)'),
    formula('F13', '=PINSET.MIX(Recipe[#All], G5, G6, G7, G8, G9)', ['text', 'mass', 'mass', 'count'], {
      headed: true,
      growth: 4,
    }),

    heading('A12', 'In the mixer now'),
    table(
      'A13',
      'Mixer',
      [column('Loaded'), column('Mass (kg)', 'mass'), column('Moisture now', 'percent')],
      [
        ['oak sawdust, new pile', 110, 0.34],
        ['oak sawdust, old pile', 40, 0.47],
        ['wheat bran', 24, 0.12],
      ],
    ),
    inputs('A18', { label: 'Moisture wanted', value: 0.6, reads: 'percent' }),
    figures('A19', {
      label: 'Water to add (kg)',
      formula: '=PINSET.MIXWATER(Mixer[Mass (kg)], Mixer[Moisture now], B18)',
      reads: 'mass',
      remark: 'a kilogram of water is a litre',
    }),
    remark('A21', 'Bran and sawdust dust harms lungs and can burn: mix with extraction or a mask.'),
  ],
};
