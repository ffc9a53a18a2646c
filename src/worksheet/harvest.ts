import { biologicalEfficiency } from '../maths/harvest/biologicalEfficiency';
import { column, keyColumn, optionalColumn } from './cells/arguments';
import { expectedYield } from '../maths/harvest/expectedYield';
import { count, efficiency, fraction, fractionBelowOne, mass } from './cells/kinds';
import { defineFunction, value } from './define';

/** What one block is and what is expected of it: shared by functions that go from blocks to mass and back. */
export const cropArguments = [
  column('block mass', mass(), 'wet mass of one block'),
  column('moisture', fractionBelowOne(), 'water share of the wet block: 62% or 0.62'),
  column('efficiency', efficiency(), 'biological efficiency expected over all flushes: 80%'),
  optionalColumn('loss', fractionBelowOne(), 0, 'share of blocks lost before picking; 0 if left out'),
  optionalColumn(
    'share',
    fraction(),
    1,
    'share of the yield counted, 70% for the first flush; 100% if left out',
  ),
] as const;

export const harvest = [
  defineFunction({
    name: 'BIOEFFICIENCY',
    family: 'harvest',
    summary: 'Biological efficiency: fresh mushrooms picked over the dry mass of the blocks they came from.',
    notes:
      'Fresh mass divided by blocks × block mass × (1 − moisture). 100% means a kilogram of mushrooms from a kilogram ' +
      'of dry substrate. Use one unit of mass for both masses. A blank or 0 fresh mass gives a blank.',
    arguments: [
      keyColumn('fresh', mass(), 'mass of fresh mushrooms picked, all flushes counted'),
      column('block mass', mass(), 'wet mass of one block, in the unit of fresh'),
      column('moisture', fractionBelowOne(), 'water share of the wet block: 62% or 0.62'),
      optionalColumn('blocks', count(), 1, 'number of blocks the mushrooms came from; 1 if left out'),
    ],
    result: value('biological efficiency', 'percent'),
    sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762, doi 10.1080/00275514.1985.12025163'],
    examples: [
      {
        title: 'One block of 4.5 kg at 60% moisture gave 1.2 kg',
        arguments: [1.2, 4.5, 0.6],
        gives: 1.2 / 1.8,
      },
      {
        title: 'Two lots at once, the second not picked yet',
        arguments: [[[24], [null]], [[2.5], [2.5]], 0.6, [[30], [40]]],
        gives: [[0.8], ['']],
      },
    ],
    faults: [
      {
        arguments: [1.2, 4.5, 60],
        code: '#VALUE!',
        says: 'write 60% or 0.6',
        remedy: 'Give the moisture as a percentage or as a fraction of 1.',
      },
    ],
    eachRow: biologicalEfficiency,
  }),

  defineFunction({
    name: 'EXPECTEDYIELD',
    family: 'harvest',
    summary: 'Fresh mass to expect from a number of blocks at an expected biological efficiency.',
    notes:
      'Blocks × block mass × (1 − moisture) × efficiency × (1 − loss) × share. An expectation, not a promise: lots ' +
      'spread around it.',
    arguments: [keyColumn('blocks', count(), 'number of blocks loaded'), ...cropArguments],
    result: value('fresh mass'),
    sources: [
      'Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency, solved for the fresh mass',
    ],
    examples: [
      {
        title: '50 blocks of 2.5 kg at 60% moisture and 80% efficiency',
        arguments: [50, 2.5, 0.6, 0.8],
        gives: 40,
      },
      {
        title: 'The first flush of two lots, 10% of the blocks lost',
        arguments: [[[50], [100]], 2.5, 0.6, 0.8, 0.1, 0.7],
        gives: [[25.2], [50.4]],
      },
    ],
    faults: [
      {
        arguments: [50, 2.5, 0.6, 80],
        code: '#VALUE!',
        says: 'efficiency: more than 0, at most 5 needed, got 80 – percentages are fractions: write 80% or 0.8',
        remedy: 'Give the efficiency as a percentage or as a fraction of 1.',
      },
      {
        arguments: [50.5, 2.5, 0.6, 0.8],
        code: '#VALUE!',
        says: 'blocks: a whole number of 1 or more needed, got 50.5',
        remedy: 'Count whole blocks.',
      },
    ],
    eachRow: (blocks, blockMass, moisture, expected, loss, share) =>
      expectedYield(blocks, { blockMass, moisture, efficiency: expected, loss, share }),
  }),
];
