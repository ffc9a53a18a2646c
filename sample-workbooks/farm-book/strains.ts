import { column, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const strains: Sheet = {
  name: 'Strains',
  title: 'Strains',
  notes: [
    'Every other sheet looks strains up here. All figures are invented: replace them by your own records.',
    'Earliest, best and latest: days from inoculation to ready, seen at the temperature under “Observed at”.',
    'Min, best and max temp: the temperatures at which the strain stops, grows fastest, and stops again.',
    'First pick: days from loading. Pick days: how long a flush is picked. Flush gap: days from one flush’s first pick to the next’s.',
    'Flush 1 to 3: shares of the whole yield. Efficiency: fresh mass over dry mass, all flushes. Loss: blocks lost before picking.',
  ],
  things: [
    table(
      'A8',
      'Strains',
      [
        column('Strain'),
        column('Species'),
        column('Earliest', 'count'),
        column('Best', 'count'),
        column('Latest', 'count'),
        column('Observed at (°C)', 'count'),
        column('Min temp (°C)', 'count'),
        column('Best temp (°C)', 'count'),
        column('Max temp (°C)', 'count'),
        column('First pick', 'count'),
        column('Pick days', 'count'),
        column('Flush gap', 'count'),
        column('Flushes', 'count'),
        column('Flush 1', { code: '0%' }),
        column('Flush 2', { code: '0%' }),
        column('Flush 3', { code: '0%' }),
        column('Efficiency', { code: '0%' }),
        column('Loss', { code: '0%' }),
      ],
      [
        ['Alder-3', 'shiitake', 70, 84, 105, 21, 5, 24, 32, 7, 4, 18, 3, 0.5, 0.3, 0.2, 0.8, 0.04],
        ['Hazel-6', 'shiitake, early', 60, 72, 90, 21, 4, 23, 31, 8, 4, 20, 2, 0.6, 0.4, null, 0.72, 0.05],
        ['Birch-1', 'grey oyster', 14, 18, 25, 22, 4, 25, 33, 5, 3, 12, 2, 0.65, 0.35, null, 0.95, 0.03],
        ['Willow-4', 'king oyster', 28, 35, 45, 21, 5, 24, 31, 10, 3, null, 1, 1, null, null, 0.6, 0.05],
        ['Rowan-2', 'lion’s mane', 18, 22, 30, 21, 6, 25, 32, 8, 3, 14, 2, 0.7, 0.3, null, 0.68, 0.06],
        ['Maple-5', 'maitake', 45, 56, 70, 20, 6, 23, 30, 14, 4, null, 1, 1, null, null, 0.45, 0.1],
      ],
    ),
  ],
  freeze: 'A9',
};
