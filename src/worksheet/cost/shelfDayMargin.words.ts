import type { Words } from '../words';
import { BASES, exampleCosts, exampleCrops } from './examples';

export const words: Words = {
  summary:
    'Margin per shelf and day by strain or lot: what to rank strains by when shelves are the bottleneck.',
  notes: [
    BASES,
    'Income is total × price. Shelf days are shelves × the days they were really taken: from the shelf days column of crops ' +
      '(from loading until cleared) where there is one, otherwise from days.',
    'The margin is all margins over all shelf days, with a confidence interval over lots (ratio estimate, rough below ten ' +
      'lots). Strains whose intervals overlap widely cannot be told apart.',
    'Lots without a total are left out; the last line says how many.',
  ],
  sources: [
    'Cochran, W. G. (1977) Sampling Techniques, chapter 6 (from memory, unverified): ratio estimate and its variance',
  ],
  questions: ['most profitable strain', 'what earns most', 'profit per shelf'],
  examples: [
    {
      title: '20 blocks a shelf: A-101 5 shelves × 40 days, 800 − 560 = 240; B-201 2.5 × 20, 250 − 250 = 0',
      arguments: [exampleCosts, exampleCrops, 10, 20, 'lot'],
      gives: [
        ['of', 'lots', 'shelf days', 'income', 'cost', 'margin', 'margin per shelf and day', 'from', 'to'],
        ['A-101', 1, 200, 800, 560, 240, 1.2, '', ''],
        ['B-201', 1, 50, 250, 250, 0, 0, '', ''],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        exampleCosts,
        [
          ['lot', 'strain', 'blocks', 'total'],
          ['A-101', 'Alder-3', 100, 80],
        ],
        10,
        20,
      ],
      code: '#VALUE!',
      says: 'days in crops is needed for the margin per shelf and day (row 2 of crops)',
      remedy: 'Add a days column: from loading until the shelf was cleared.',
    },
    {
      arguments: [
        exampleCosts,
        [
          ['lot', 'blocks', 'total', 'days'],
          ['A-101', 100, 80, 40],
        ],
        10,
        20,
      ],
      code: '#VALUE!',
      says: 'strain in crops is needed for margins by strain (row 2 of crops)',
      remedy: 'Add the strain column, or ask by lot.',
    },
  ],
};
