import type { Words } from '../words';
import { exampleLots, unknownLot, unknownPick } from './examples';

const exampleStrains = [
  ['strain', 'first pick', 'pick days', 'flush gap'],
  ['Alder-3', 7, 6, 18],
];

export const words: Words = {
  summary: 'Flush of each pick, found from the dates and the strain’s usual times where none was recorded.',
  notes: [
    'Comes with a header and one line per row of harvests: put it right beside that table. A range over both then has the ' +
      'flush column that CROPTABLE and STRAINTABLE read.',
    'A recorded flush stays as it is. Each lot’s days of picking are cut where that agrees best with the strain’s first ' +
      'pick, pick days and flush gap. A lost flush is recognised by its date.',
    'Where two flushes of a lot overlap, no date can tell them apart.',
  ],
  sources: [
    'Own method: least squared deviation from the strain’s times by dynamic programming; tested on synthetic lots',
  ],
  questions: ['which flush was this pick', 'first or second flush', 'flush not written down'],
  examples: [
    {
      title: 'First flush around day 7, second around day 25; a blank row stays blank',
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 46007, 4],
          ['A-101', 46009, 3],
          [null, null, null],
          ['A-101', 46026, 2],
          ['A-101', 46031, 1],
        ],
        exampleLots,
        exampleStrains,
      ],
      gives: [['flush'], [1], [1], [''], [2], [2]],
    },
  ],
  faults: [
    { arguments: [unknownPick, exampleLots, exampleStrains], ...unknownLot },
    {
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['B-201', 46007, 4],
        ],
        exampleLots,
        exampleStrains,
      ],
      code: '#N/A',
      says: 'strain in lots: "Birch-1" is not in strains (row 4 of lots)',
      remedy: 'Add the strain to the strains table.',
    },
  ],
};
