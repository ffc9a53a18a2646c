import type { Words } from '../words';
import { BASES, basisFault, exampleCosts, exampleCrops, heatingCosts, unknownBasis } from './examples';

export const words: Words = {
  summary:
    'Cost of each unit of fresh mushrooms, lot by lot and together, from a cost table and a crop table.',
  notes: [
    BASES,
    'Amounts per batch are shared by blocks over the lots picked. Lots without a total are left out, ' +
      'with what they cost so far; the last line says how many. A crop that failed has the total none: its cost is shared by the mass of the other lots.',
    'Give blocks per shelf where something is spent per shelf day. The days are those of the shelf days column of crops where ' +
      'there is one, otherwise those of days.',
  ],
  sources: ['Definition: cost over fresh mass; worked by hand in the example'],
  questions: ['what does a kilo cost me', 'cost per kilogram', 'cost per pound', 'cost to grow'],
  examples: [
    {
      title: 'A-101: 100 × 2 + 300 × 100/150 + 80 × 2 = 560 for 80; B-201: 100 + 100 + 50 = 250 for 25',
      arguments: [exampleCosts, exampleCrops],
      gives: [
        ['lot', 'blocks', 'fresh mass', 'cost', 'cost per mass'],
        ['A-101', 100, 80, 560, 7],
        ['B-201', 50, 25, 250, 10],
        ['all lots picked', 150, 105, 810, 810 / 105],
      ],
    },
  ],
  faults: [
    { arguments: [unknownBasis, exampleCrops], ...basisFault },
    {
      arguments: [heatingCosts, exampleCrops],
      code: '#VALUE!',
      says: 'blocks per shelf is needed for the costs per shelf day',
      remedy: 'Say how many blocks a shelf holds.',
    },
    {
      arguments: [
        exampleCosts,
        [
          ['lot', 'blocks', 'total'],
          ['A-101', 100, null],
        ],
      ],
      code: '#N/A',
      says: 'crops must hold at least 1 lot with a total; there are 0',
      remedy: 'Wait for the first pick.',
    },
  ],
};
