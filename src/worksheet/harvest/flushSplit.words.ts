import type { Words } from '../words';
import { exampleLots, unknownLot, unknownPick } from './examples';

const exampleStrains = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flushes'],
  ['Alder-3', 7, 6, 18, 3],
];

export const words: Words = {
  summary: 'Flush of each pick, found from the dates and the strain’s usual times where none was recorded.',
  notes: [
    'Comes with a header and one line per row of harvests: put it right beside that table. A range over both then has the ' +
      'flush column that CROPTABLE and STRAINTABLE read.',
    'A recorded flush stays as it is, and its neighbours follow it. Each lot’s days of picking are cut and numbered in the ' +
      'likeliest way for the strain’s first pick, pick days, flush gap and flushes. A lot may be late as a whole, and a ' +
      'flush may be lost.',
    'A date on or before the loading, or months from the lot’s other picks, is an error in its own row and moves no other ' +
      'pick.',
    'A crop that failed, with the mass none, has no flush to find.',
    'Where two flushes of a lot overlap, no date can tell them apart. Without flushes in strains, a lot late by a whole ' +
      'flush gap looks like a lot that lost its first flush.',
  ],
  sources: [
    'Own method: likeliest cut, deviations by Student’s t, found by dynamic programming; scored on invented lots of two ' +
      'kinds',
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
    {
      title: 'Ten days late as a whole: still flushes 1, 2 and 3',
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 46017, 4],
          ['A-101', 46035, 3],
          ['A-101', 46053, 2],
        ],
        exampleLots,
        exampleStrains,
      ],
      gives: [['flush'], [1], [2], [3]],
    },
  ],
  faults: [
    { arguments: [unknownPick, exampleLots, exampleStrains], ...unknownLot },
    {
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 45990, 4],
          ['A-101', 46007, 4],
        ],
        exampleLots,
        exampleStrains,
      ],
      code: '#VALUE!',
      says: 'date in harvests must be after loaded (2025-12-09); it is 2025-11-29 (row 2 of harvests)',
      remedy: 'Correct the date of the pick or of the loading.',
    },
    {
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 46007, 4],
          ['A-101', 46009, 4],
          ['A-101', 46372, 3],
        ],
        exampleLots,
        exampleStrains,
      ],
      code: '#VALUE!',
      says: 'date in harvests must be near the lot’s other picks; it is 2026-12-16, 363 days from 2025-12-18 (row 4 of harvests)',
      remedy: 'Correct the year or the lot of the pick.',
    },
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
