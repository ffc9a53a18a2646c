import type { Words } from '../words';
import { exampleCrops, unknownStrain } from './examples';

const LOAD_HEADER = ['loaded', 'strain', 'blocks', 'block mass', 'moisture'];

export const words: Words = {
  summary: 'Expected fresh mass on each day from a table of loads, all flushes, overlapping ones added up.',
  notes: [
    'Every load’s yield is blocks × block mass × (1 − moisture) × efficiency × (1 − loss). ' +
      'Each flush’s share of it is spread evenly over the strain’s pick days. Days of the strains table are rounded to whole days.',
    'With by, the table has a column for each product, strain or room beside the total. A load without a product counts under its strain.',
    'Real flushes come earlier and later than expected: read the days as a middle.',
  ],
  sources: [
    'Biological efficiency: Royse, D. J. (1985) Mycologia 77(5):756–762; spread over the days in your own strains table',
  ],
  questions: [
    'pounds I will pick each day of the week',
    'picking per day',
    'harvest forecast',
    'glut',
    'busy days',
  ],
  examples: [
    {
      title: '20 blocks of Birch-1, 2.5 kg at 60%: 0.45 kg a block, 9 kg over two days',
      arguments: [[LOAD_HEADER, [46146, 'Birch-1', 20, 2.5, 0.6]], exampleCrops],
      gives: [
        ['date', 'total'],
        [46152, 4.5],
        [46153, 4.5],
      ],
    },
    {
      title: 'Two loads that overlap on 12 May 2026, split by strain',
      arguments: [
        [LOAD_HEADER, [46146, 'Alder-3', 50, 2.5, 0.6], [46148, 'Birch-1', 20, 2.5, 0.6]],
        exampleCrops,
        46153,
        46155,
        'strain',
      ],
      gives: [
        ['date', 'total', 'Alder-3', 'Birch-1'],
        [46153, 6, 6, 0],
        [46154, 10.5, 6, 4.5],
        [46155, 10.5, 6, 4.5],
      ],
    },
  ],
  faults: [
    unknownStrain('strain in loads', [[LOAD_HEADER, [46146, 'Hazel-9', 20, 2.5, 0.6]], exampleCrops]),
    {
      arguments: [
        [LOAD_HEADER, [46146, 'Birch-1', 20, 2.5, 0.6]],
        [
          ['strain', 'first pick', 'pick days', 'flushes', 'flush gap', 'efficiency'],
          ['Birch-1', 6, 2, 2, 14, 0.5],
        ],
      ],
      code: '#N/A',
      says: 'strains: Birch-1 is kept for 2 flushes, but its share under flush 1 is blank (row 2 of strains)',
      remedy: 'Add columns flush 1, flush 2 … with each flush’s share of the yield.',
    },
    {
      arguments: [[LOAD_HEADER, [46146, 'Birch-1', 20, 2.5, 0.6]], exampleCrops, 46160, 46150],
      code: '#VALUE!',
      says: 'to must not be before from (2026-05-18); it is 2026-05-08',
      remedy: 'Give a last day that is not before the first.',
    },
  ],
};
