import type { Words } from '../words';
import { CALENDAR, exampleStrains } from './examples';

const examplePicked = [
  ['strain', 'earliest', 'best', 'latest', 'first pick'],
  ['Alder-3', 63, 77, 98, 7],
  ['Birch-1', 12, 16, null, 6],
];

export const words: Words = {
  summary: 'Last day on which to inoculate for a first pick on a wanted date.',
  notes: [
    'Takes from the wanted date the strain’s days from loading to the first pick, then its days from inoculation to the point at which you open it.',
    'A part of a day counts as a whole one. For working days only, wrap it in the sheet’s own WORKDAY.',
  ],
  sources: [CALENDAR],
  questions: [
    'when to inoculate',
    'inoculate by which date',
    'latest day to start',
    'mushrooms for a market day',
  ],
  examples: [
    {
      title: 'First pick on 27 April 2026, opened after 77 days and picked 7 days later: 2 February',
      arguments: [46139, 'Alder-3', examplePicked],
      gives: 46055,
    },
    {
      title: 'A column of wanted dates, opened at the earliest',
      arguments: [[[46125], [null]], [['Alder-3'], ['Birch-1']], examplePicked, 'earliest'],
      gives: [[46055], ['']],
    },
  ],
  faults: [
    {
      arguments: [46139, 'Hazel-9', examplePicked],
      code: '#N/A',
      says: 'strain: "Hazel-9" is not in strains',
      remedy: 'Add the strain to the strains table, or correct its spelling.',
    },
    {
      arguments: [46139, 'Alder-3', exampleStrains],
      code: '#VALUE!',
      says: 'strains needs a column headed first pick; its headers are strain, earliest, best, latest',
      remedy: 'Add a column first pick to the strains table: days from loading to the first pick.',
    },
    {
      arguments: [46139, 'Birch-1', examplePicked, 'latest'],
      code: '#N/A',
      says: 'strain: "latest" in strains is blank',
      remedy: 'Fill in that column of the strains table for this strain.',
    },
  ],
};
