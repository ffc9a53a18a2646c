import type { Words } from '../words';
import { exampleLots, examplePicks, unknownLot, unknownPick } from './examples';

export const words: Words = {
  summary:
    'What each lot gave: mass by flush, total, per block, biological efficiency, days, efficiency per day.',
  notes: [
    'One line per lot, in the order of lots. A lot not picked yet shows blanks. Days run from loading to the last pick.',
    'A lot of harvests that is not in lots comes last, with an error that says so. A row that cannot be read spoils ' +
      'only the line of its own lot.',
    'For a crop that failed write one row in harvests with the mass none. Its line then reads none, which COMPARE and ' +
      'COSTPERMASS count as 0.',
    'Without flush numbers there are no flush columns: FLUSHSPLIT finds them.',
  ],
  sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency, production rate'],
  questions: [
    'sum up my picks',
    'what each lot gave in total and by flush',
    'first and second flush totals',
    'harvest summary',
  ],
  examples: [
    {
      title: 'Ten blocks of 2.5 kg at 60% moisture are 10 kg dry: 10 kg picked in 31 days',
      arguments: [examplePicks, exampleLots],
      gives: [
        [
          'lot',
          'strain',
          'blocks',
          'flush 1',
          'flush 2',
          'total',
          'per block',
          'efficiency',
          'days',
          'efficiency per day',
        ],
        ['A-101', 'Alder-3', 10, 7, 3, 10, 1, 1, 31, 1 / 31],
        ['A-102', 'Alder-3', 20, 12, 4, 16, 0.8, 0.8, 25, 0.8 / 25],
        ['B-201', 'Birch-1', 10, '', '', '', '', '', '', ''],
      ],
    },
  ],
  faults: [
    { arguments: [unknownPick, exampleLots], ...unknownLot },
    {
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 46007, '4,5'],
        ],
        exampleLots,
      ],
      code: '#VALUE!',
      says: 'mass in harvests must be a mass above 0, or the word none; it is "4,5" – it is text that looks like a number',
      remedy: 'Type the mass again as a number.',
    },
    {
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 45990, 4],
        ],
        exampleLots,
      ],
      code: '#VALUE!',
      says: 'date in harvests must be after loaded (2025-12-09); it is 2025-11-29 (row 2 of harvests)',
      remedy: 'Correct the date of the pick or of the loading.',
    },
  ],
};
