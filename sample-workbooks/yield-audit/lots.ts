import { column, table, type Sheet } from '../../src/hosts/xlsx/describe';
import { lotRows, strains as strainFacts } from './records';

export const strains: Sheet = {
  name: 'Strains',
  title: 'Strains',
  notes: ['Days from inoculation to ready, then days from load; efficiency over all flushes. Invented.'],
  things: [
    table(
      'A5',
      'Strains',
      [
        column('Strain'),
        column('Earliest', 'days'),
        column('First pick', 'days'),
        column('Pick days', 'days'),
        column('Flush gap', 'days'),
        column('Flushes', 'count'),
        column('Efficiency', 'percent'),
      ],
      strainFacts.map(({ strain, earliest, first, days, gap, shares, efficiency }) => [
        strain,
        earliest,
        first,
        days,
        gap,
        shares.length,
        efficiency,
      ]),
    ),
  ],
};

export const lots: Sheet = {
  name: 'Lots',
  title: 'Lots',
  notes: [
    'Each lot as it was loaded; the total is what the grower summed on paper. Two slips are planted here.',
  ],
  things: [
    table(
      'A5',
      'Lots',
      [
        column('Lot'),
        column('Strain', 'text', 'Strains[Strain]'),
        column('Blocks', 'count'),
        column('Block mass (kg)', 'mass'),
        column('Moisture', 'percent'),
        column('Inoculated', 'date'),
        column('Loaded', 'date'),
        column('Total (kg)', 'mass'),
      ],
      lotRows,
    ),
  ],
  freeze: 'A6',
  upright: true,
};
