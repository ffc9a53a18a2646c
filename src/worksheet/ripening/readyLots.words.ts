import type { Words } from '../words';
import { exampleStrains } from './examples';

const exampleLots = [
  ['lot', 'strain', 'blocks', 'inoculated', 'loaded'],
  ['L-1', 'Birch-1', 40, 46055, null],
  ['L-2', 'Birch-1', 50, 46062, 20],
  ['L-3', 'Birch-1', 30, 46040, null],
  ['L-4', 'Alder-3', 60, 46062, null],
  ['L-5', 'Birch-1', 60, 46058, 46070],
  ['L-6', 'Birch-1', 25, '3/2/26', null],
];

const HEADER = ['lot', 'strain', 'blocks', 'inoculated', 'ready', 'best', 'latest', 'age', 'state'];

export const words: Words = {
  summary:
    'The lots that are ready in a week: ready date, last day, age and blocks left, the most urgent first.',
  notes: [
    'A lot is in the list if it may be opened on any day from the first to the last. Those that go over age first come first.',
    'Dates are the lot’s own earliest, best and latest where it has them, otherwise inoculated and the strain’s days.',
    'loaded in lots is a date or a number of blocks: a figure below 30,000 is blocks. A lot loaded by the last day is left out; of one loaded in part the blocks left are listed.',
    'The last rows tell in words what was left out: lots past their latest day, loaded lots, lots without dates, and rows that cannot be read, with their lots and the first reason.',
    'Leave as many rows free below the formula as you have lots, and ten more.',
  ],
  sources: ['Calendar arithmetic on the days in your own strains table'],
  questions: ['which lots are ready this week', 'what can I open now', 'what is ripe', 'list of ready lots'],
  examples: [
    {
      title: 'Week from 16 February 2026: Birch-1 takes 12 to 24 days, Alder-3 from 63',
      arguments: [exampleLots, exampleStrains, 46069, 46075],
      gives: [
        HEADER,
        ['L-1', 'Birch-1', 40, 46055, 46067, 46071, 46079, 14, 'ready'],
        ['L-2', 'Birch-1', 30, 46062, 46074, 46078, 46086, 7, 'comes ready'],
        ['1 lot is past the latest day: L-3', '', '', '', '', '', '', '', ''],
        ['1 lot is loaded already', '', '', '', '', '', '', '', ''],
        [
          '1 lot left out, L-6: inoculated in lots must be a date; it is "3/2/26" – it is text: type it again so that the sheet takes it as a date (row 7 of lots)',
          '',
          '',
          '',
          '',
          '',
          '',
          '',
          '',
        ],
      ],
    },
  ],
  faults: [
    {
      arguments: [exampleLots, exampleStrains, 46075, 46069],
      code: '#VALUE!',
      says: 'to must not be before from (2026-02-22); it is 2026-02-16',
      remedy: 'Give the first day before the last.',
    },
    {
      arguments: [[['lot', 'strain', 'inoculated']], exampleStrains, 46069, 46075],
      code: '#VALUE!',
      says: 'lots needs a column headed blocks; its headers are lot, strain, inoculated',
      remedy: 'Add a column with the number of blocks, or call MATCHCOLUMNS to rename yours.',
    },
  ],
};
