import type { Words } from '../words';

export const words: Words = {
  summary: 'Fresh mass per shelf and day: what a shelf brings in when shelves are what you are short of.',
  notes: [
    'Fresh mass ÷ (blocks ÷ blocks per shelf) ÷ days. A blank or 0 fresh mass gives a blank.',
    'Count the days the shelf was really taken, from loading until it was cleared and clean.',
  ],
  sources: ['Definition: mass over shelves and days'],
  questions: ['which strain uses the shelves best', 'short of space', 'harvest per shelf'],
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
      says: 'days must be a number of days above 0; it is blank or 0',
      remedy: 'Fill in how many days the shelf was taken.',
    },
  ],
};
