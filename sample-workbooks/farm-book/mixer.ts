import { column, figures, inputs, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const mixer: Sheet = {
  name: 'Mixer',
  title: 'Mixer: the water to add',
  notes: ['For what is in the mixer now, weighed and measured as it came. Figures are invented.'],
  things: [
    figures('A4', {
      label: 'Water to add (kg)',
      formula: '=PINSET.MIXWATER(Mixer[Mass (kg)], Mixer[Moisture now], B6)',
      reads: 'mass',
      remark: 'a kilogram of water is a litre',
    }),
    inputs('A6', { label: 'Moisture wanted', value: 0.6, reads: 'percent' }),
    table(
      'E4',
      'Mixer',
      [column('Loaded'), column('Mass (kg)', 'mass'), column('Moisture now', 'percent')],
      [
        ['oak sawdust, new pile', 110, 0.34],
        ['oak sawdust, old pile', 40, 0.47],
        ['wheat bran', 24, 0.12],
      ],
    ),
  ],
  widths: { C: 26 },
};
