import type { Words } from '../words';

export const words: Words = {
  summary: 'Blocks in each run of a mixer or steriliser: the fewest runs, as even as can be.',
  notes: ['No two runs differ by more than one block, so that loads heat alike.'],
  cautions: [
    'A steriliser load that was tried and logged at one size heats differently at another: log the core again.',
  ],
  sources: ['Whole-number division with the remainder spread over the first runs'],
  questions: ['how many steriliser runs', 'how many autoclave loads', 'mixer loads', 'fit in the steamer'],
  examples: [
    {
      title: '100 blocks in a steriliser that holds 48',
      arguments: [100, 48],
      gives: [
        ['run', 'blocks'],
        [1, 34],
        [2, 33],
        [3, 33],
      ],
    },
  ],
  faults: [
    {
      arguments: [100, 0],
      code: '#VALUE!',
      says: 'capacity must be a whole number, 1 or more; it is blank or 0',
      remedy: 'Give the number of blocks one run holds.',
    },
  ],
};
