import { biologicalEfficiency } from '../maths/harvest/biologicalEfficiency';
import { expectedYield } from '../maths/harvest/expectedYield';
import { shelfDayYield } from '../maths/harvest/shelfDayYield';
import { yieldRange } from '../maths/harvest/yieldRange';
import { column, keyColumn, optionalColumn, optionalSetting, range } from './cells/arguments';
import { confidence, count, days, efficiency, fraction, fractionBelowOne, mass, number } from './cells/kinds';
import { defineFunction, resultColumn, row, value } from './define';

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

  defineFunction({
    name: 'YIELDRANGE',
    family: 'harvest',
    summary:
      'Range the next lot’s efficiency falls in, from past lots of the same kind (prediction interval).',
    notes:
      'Mean ± Student’s t × standard deviation × √(1 + 1/n): where one more lot will lie, not where the mean lies. Gives ' +
      'the lower end, the mean, the upper end and the number of lots. Past lots must be of one strain and recipe, and ' +
      'in no trend. Blank or 0 cells are left out. Masses work as well as efficiencies.',
    arguments: [
      range('past', number({ from: 0 }), 'efficiencies (or masses) of past lots, two or more'),
      optionalSetting(
        'coverage',
        confidence(),
        0.9,
        'how often the next lot shall fall inside; 90% if left out',
      ),
    ],
    result: row(
      resultColumn('from', 'percent'),
      resultColumn('mean', 'percent'),
      resultColumn('to', 'percent'),
      resultColumn('lots'),
    ),
    sources: ['Hahn, G. J., Meeker, W. Q. (1991) Statistical Intervals, Wiley, section 4.7'],
    examples: [
      {
        title: 'Four lots of 76% to 91%; t from scipy 1.17.1',
        arguments: [[[0.82], [0.76], [0.91], [0.85]]],
        gives: [[0.6706853404309937, 0.835, 0.9993146595690064, 4]],
      },
    ],
    faults: [
      {
        arguments: [[[0.82], [null]]],
        code: '#N/A',
        says: 'past: two lots or more needed to tell their spread, got 1',
        remedy: 'Give the efficiencies of at least two past lots, better ten.',
      },
      {
        arguments: [[[0.82], [0.76]], 90],
        code: '#VALUE!',
        says: 'write 90% or 0.9',
        remedy: 'Give the coverage as a percentage or as a fraction of 1.',
      },
    ],
    whole: (past, coverage) => {
      const { low, mean, high, lots } = yieldRange(past, coverage);
      return [low, mean, high, lots];
    },
  }),

  defineFunction({
    name: 'SHELFDAYYIELD',
    family: 'harvest',
    summary: 'Fresh mass per shelf and day: what a shelf brings in when shelves are what you are short of.',
    notes:
      'Fresh mass ÷ (blocks ÷ blocks per shelf) ÷ days. Count the days the shelf was really taken, from loading until it ' +
      'was cleared and clean. A blank or 0 fresh mass gives a blank.',
    arguments: [
      keyColumn('fresh', mass(), 'mass of fresh mushrooms picked from the lot'),
      column('blocks', count(), 'blocks in the lot'),
      column('blocks per shelf', count(), 'blocks that one shelf holds'),
      column('days', days(), 'days the shelf was taken, from loading until cleared'),
    ],
    result: value('fresh mass per shelf and day'),
    sources: ['Definition: mass over shelves and days'],
    examples: [
      {
        title: '96 kg from 120 blocks, 20 to a shelf, over 40 days: 96 / 6 / 40',
        arguments: [96, 120, 20, 40],
        gives: 0.4,
      },
    ],
    faults: [
      {
        arguments: [96, 120, 20, null],
        code: '#VALUE!',
        says: 'days: a number above 0 days needed, got a blank cell or 0',
        remedy: 'Fill in how many days the shelf was taken.',
      },
    ],
    eachRow: shelfDayYield,
  }),
];
