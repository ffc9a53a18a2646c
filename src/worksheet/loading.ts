import { blocksFor } from '../maths/loading/blocksFor';
import { pickDate } from '../maths/loading/pickDate';
import { column, keyColumn, optionalColumn, table } from './cells/arguments';
import { count, massOrNone, serial, text } from './cells/kinds';
import { defineFunction, value } from './define';
import { cropArguments } from './harvest';
import { only, strainColumns } from './tables';

const exampleStrains = [
  ['strain', 'first pick', 'flush gap', 'flushes'],
  ['Alder-3', 7, 18, 3],
  ['Birch-1', 6, null, 1],
];

export const loading = [
  defineFunction({
    name: 'BLOCKSFOR',
    family: 'loading',
    summary: 'Blocks to load for a wanted mass of fresh mushrooms, rounded up to whole blocks.',
    notes:
      'The wanted mass over what one block is expected to give: block mass × (1 − moisture) × efficiency × (1 − loss) × ' +
      'share. Give a share to count only some flushes: 70% where only the first is sold.',
    arguments: [
      keyColumn('mass', massOrNone(), 'fresh mass wanted, in the unit of block mass'),
      ...cropArguments,
    ],
    result: value('blocks to load'),
    sources: [
      'Biological efficiency: Royse, D. J. (1985) Mycologia 77(5):756–762, solved for the number of blocks',
    ],
    examples: [
      {
        title: '40 kg from blocks of 2.5 kg at 60% moisture and 80% efficiency: 0.8 kg a block, 50 blocks',
        arguments: [40, 2.5, 0.6, 0.8],
        gives: 50,
      },
      {
        title:
          'With 5% of blocks lost and only the first flush, 70%, counted: 0.532 kg a block, 75.2 rounded up',
        arguments: [40, 2.5, 0.6, 0.8, 0.05, 0.7],
        gives: 76,
      },
    ],
    faults: [
      {
        arguments: [40, 2.5, 62, 0.8],
        code: '#VALUE!',
        says: 'write 62% or 0.62',
        remedy: 'Give the moisture as a percentage or as a fraction of 1.',
      },
      {
        arguments: [40, null, 0.62, 0.8],
        code: '#VALUE!',
        says: 'block mass: a mass above 0 needed, got a blank cell or 0',
        remedy: 'Fill in the wet mass of a block.',
      },
    ],
    eachRow: (wanted, blockMass, moisture, efficiency, loss, share) =>
      blocksFor(wanted, { blockMass, moisture, efficiency, loss, share }),
  }),

  defineFunction({
    name: 'PICKDATE',
    family: 'loading',
    summary: 'Date of the first pick of a flush, from the day the blocks were opened and set on the shelf.',
    notes:
      'Load date + the strain’s days to first pick + (flush − 1) × its flush gap. About 7 days from opening to the ' +
      'first pick is usual for shiitake (common practice, no source); use your own records.',
    arguments: [
      keyColumn('loaded', serial(), 'date the blocks were opened and set on the shelf'),
      column('strain', text('strain'), 'strain of each load, as in strains'),
      table(
        'strains',
        only(strainColumns, 'strain', 'first pick', 'flush gap', 'flushes'),
        'table with strain, first pick, flush gap and flushes',
      ),
      optionalColumn('flush', count(), 1, 'which flush; 1 if left out'),
    ],
    result: value('first pick', 'date'),
    sources: ['Calendar arithmetic on the days in your own strains table'],
    examples: [
      { title: 'Loaded on 4 May 2026', arguments: [46146, 'Alder-3', exampleStrains], gives: 46153 },
      {
        title: 'Its three flushes',
        arguments: [46146, 'Alder-3', exampleStrains, [[1], [2], [3]]],
        gives: [[46153], [46171], [46189]],
      },
    ],
    faults: [
      {
        arguments: [46146, 'Hazel-9', exampleStrains],
        code: '#N/A',
        says: 'strain: "Hazel-9" is not in strains',
        remedy: 'Add the strain to the strains table, or mend its spelling.',
      },
      {
        arguments: [46146, 'Alder-3', exampleStrains, 4],
        code: '#N/A',
        says: 'flush: the strain is kept for 3 in strains, flush 4 was asked for',
        remedy: 'Ask for an earlier flush, or raise the flushes of the strain.',
      },
      {
        arguments: [
          46146,
          'Birch-1',
          [
            ['strain', 'first pick', 'flushes'],
            ['Birch-1', 6, 2],
          ],
          2,
        ],
        code: '#N/A',
        says: 'flush: the strain has no flush gap in strains',
        remedy: 'Fill in the flush gap of the strain.',
      },
    ],
    eachRow: (loadedSerial, strainName, strains, flush) => {
      const times = strains.find(strainName, 'strain');
      return pickDate(
        loadedSerial,
        { firstPick: times['first pick'], flushGap: times['flush gap'], flushes: times.flushes },
        flush,
      );
    },
  }),
];
