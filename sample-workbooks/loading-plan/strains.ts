import { column, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const strains: Sheet = {
  name: 'Strains',
  title: 'Strains',
  notes: [
    'When blocks may be opened, when and how much they are picked, and what a new block is made of. All figures are invented.',
    'Earliest, best, latest: days from inoculation. First pick: days from loading. Flush gap: from one flush’s first pick to the next’s.',
    'Flush 1 and 2: shares of the whole yield. Efficiency: fresh mass over dry mass, all flushes. Loss: blocks lost before picking.',
  ],
  things: [
    table(
      'A6',
      'Strains',
      [
        column('Strain'),
        column('Earliest', 'count'),
        column('Best', 'count'),
        column('Latest', 'count'),
        column('First pick', 'count'),
        column('Pick days', 'count'),
        column('Flush gap', 'count'),
        column('Flushes', 'count'),
        column('Flush 1', { code: '0%' }),
        column('Flush 2', { code: '0%' }),
        column('Efficiency', { code: '0%' }),
        column('Loss', { code: '0%' }),
        column('Block mass (kg)', 'mass'),
        column('Moisture', { code: '0%' }),
      ],
      [
        ['Alder-3', 70, 84, 105, 7, 4, 18, 2, 0.65, 0.35, 0.72, 0.04, 2.4, 0.6],
        ['Hazel-6', 60, 72, 90, 8, 4, 20, 2, 0.6, 0.4, 0.68, 0.05, 2.4, 0.59],
        ['Birch-1', 14, 18, 25, 5, 3, 12, 2, 0.65, 0.35, 0.95, 0.03, 3.2, 0.63],
      ],
    ),
  ],
  freeze: 'A7',
};
