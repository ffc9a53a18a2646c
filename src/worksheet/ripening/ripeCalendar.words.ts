import type { Words } from '../words';
import { exampleStrains } from './examples';

const exampleLots = [
  ['lot', 'strain', 'blocks', 'inoculated'],
  ['L-1', 'Alder-3', 40, 46055],
];

const CALENDAR_HEADER = ['date', 'strain', 'coming ready', 'loaded', 'going over age', 'in hand'];

export const words: Words = {
  summary: 'Per strain and day or week: blocks coming ready, loaded, going over age, and in hand.',
  notes: [
    'In hand at the end of a step = in hand before + coming ready − loaded − going over age.',
    'A block comes ready on its lot’s earliest date. It goes over age if it is not loaded by the end of its latest date.',
    'Dates come from the lot’s own earliest and latest where it has them, otherwise from inoculated and the strain’s days. A lot with neither does not count yet; the last row says how many there are.',
    'What was loaded is taken off. A date in the lot’s own column loaded takes the whole lot; loads takes blocks row by row.',
    'A row of loads names a lot, or a strain: then it takes the ready blocks of that strain that are nearest to going over age.',
    'Blocks loaded after their latest date had gone over age and stay so. They are told under loaded over age, a column that is there only then.',
    'Write none as the blocks of a lot that has none.',
    'Name a strain to see that strain alone, as a chart needs it.',
    'Blocks loaded before they were due count as coming ready that day. Weeks are seven days from the first day shown, and the last week is shown whole.',
  ],
  sources: ['Stock-keeping: in hand before + in − out, on the days in your own tables'],
  questions: ['what comes ready each week', 'blocks in hand', 'ripe blocks next month', 'going over age'],
  examples: [
    {
      title:
        'Two lots in weeks: ready from 6 and 13 April 2026; 30 of the first are loaded, the rest goes over age',
      arguments: [
        [
          ['lot', 'strain', 'blocks', 'inoculated'],
          ['L-1', 'Alder-3', 40, 46055],
          ['L-2', 'Alder-3', 50, 46062],
        ],
        exampleStrains,
        46118,
        46159,
        'week',
        [
          ['loaded', 'lot', 'blocks'],
          [46130, 'L-1', 30],
        ],
      ],
      gives: [
        CALENDAR_HEADER,
        [46118, 'Alder-3', 40, 0, 0, 40],
        [46125, 'Alder-3', 50, 30, 0, 60],
        [46132, 'Alder-3', 0, 0, 0, 60],
        [46139, 'Alder-3', 0, 0, 0, 60],
        [46146, 'Alder-3', 0, 0, 0, 60],
        [46153, 'Alder-3', 0, 0, 10, 50],
      ],
    },
    {
      title: 'Lots with dates of their own, one loaded as a whole',
      arguments: [
        [
          ['lot', 'strain', 'blocks', 'earliest', 'latest', 'loaded'],
          ['L-1', 'Hazel-9', 40, 46055, 46056, null],
          ['L-2', 'Hazel-9', 50, 46055, 46070, 46056],
        ],
        exampleStrains,
        46055,
        46056,
      ],
      gives: [CALENDAR_HEADER, [46055, 'Hazel-9', 90, 0, 0, 90], [46056, 'Hazel-9', 0, 50, 40, 0]],
    },
    {
      title: 'Fifteen blocks loaded two days after the latest date, and a lot that has no dates yet',
      arguments: [
        [
          ['lot', 'strain', 'blocks', 'earliest', 'latest'],
          ['L-1', 'Hazel-9', 40, 46055, 46056],
          ['L-2', 'Hazel-9', 50, null, null],
        ],
        exampleStrains,
        46056,
        46058,
        'day',
        [
          ['loaded', 'lot', 'blocks'],
          [46058, 'L-1', 15],
        ],
      ],
      gives: [
        [...CALENDAR_HEADER, 'loaded over age'],
        [46056, 'Hazel-9', 0, 0, 40, 0, 0],
        [46057, 'Hazel-9', 0, 0, 0, 0, 0],
        [46058, 'Hazel-9', 0, 0, 0, 0, 15],
        ['', '1 lot without dates left out', '', '', '', '', ''],
      ],
    },
    {
      title: 'One strain of two, which has a lot without dates',
      arguments: [
        [
          ['lot', 'strain', 'blocks', 'earliest', 'latest'],
          ['L-1', 'Birch-1', 40, 46055, 46056],
          ['L-2', 'Alder-3', 50, 46055, 46070],
          ['L-3', 'Alder-3', 30, null, null],
          ['L-4', 'Birch-1', 20, null, null],
        ],
        exampleStrains,
        46055,
        46055,
        'day',
        null,
        'Alder-3',
      ],
      gives: [
        CALENDAR_HEADER,
        [46055, 'Alder-3', 50, 0, 0, 50],
        ['', '1 lot without dates left out', '', '', '', ''],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        exampleLots,
        exampleStrains,
        46118,
        46125,
        'day',
        [
          ['loaded', 'lot', 'strain', 'blocks'],
          [46120, 'L-1', 'Birch-1', 10],
        ],
      ],
      code: '#VALUE!',
      says: 'strain in loads: "L-1" is of "Alder-3" in lots; the load says "Birch-1" (row 2 of loads)',
      remedy: 'Correct the lot or the strain of the load, or leave the strain out.',
    },
    {
      arguments: [
        [
          ['lot', 'strain', 'blocks', 'inoculated'],
          ['L-1', 'Alder-3', null, 46055],
        ],
        exampleStrains,
        46118,
        46125,
      ],
      code: '#VALUE!',
      says: 'blocks in lots must be a whole number, 1 or more, or the word none; it is blank or 0 – for 0 write none',
      remedy: 'Give the number of blocks, or write none.',
    },
    {
      arguments: [
        [
          ['lot', 'strain', 'blocks', 'earliest', 'latest'],
          ['L-1', 'Alder-3', 40, 46055, 46060],
          ['L-2', 'Alder 3', 40, 46055, 46060],
        ],
        exampleStrains,
        46055,
        46056,
      ],
      code: '#VALUE!',
      says: 'strain in lots: "Alder-3" and "Alder 3" look like one strain: write it in one way (row 3 of lots)',
      remedy: 'Write the strain in the same way in every row.',
    },
    {
      arguments: [exampleLots, exampleStrains, 46118, 46117],
      code: '#VALUE!',
      says: 'to must not be before from (2026-04-06); it is 2026-04-05',
      remedy: 'Give the first day before the last.',
    },
    {
      arguments: [
        exampleLots,
        exampleStrains,
        46118,
        46125,
        'day',
        [
          ['loaded', 'lot', 'blocks'],
          [46120, 'L-1', 60],
        ],
      ],
      code: '#VALUE!',
      says: 'blocks in loads must be at most 40, what "L-1" has left on 2026-04-08; it is 60 (row 2 of loads)',
      remedy: 'More blocks were loaded than the lot has: correct the lot’s blocks or the load.',
    },
    {
      arguments: [[...exampleLots, ['L-3', 'Hazel-9', 10, 46060]], exampleStrains, 46118, 46125],
      code: '#N/A',
      says: 'strain in lots: "Hazel-9" is not in strains (row 3 of lots)',
      remedy: 'Add the strain to the strains table, or correct its spelling in the lot.',
    },
  ],
};
