import type { Words } from '../words';

export const words: Words = {
  summary: 'Fresh mass to expect from a number of blocks at an expected biological efficiency.',
  notes: [
    'Blocks × block mass × (1 − moisture) × efficiency × (1 − loss) × share.',
    'It is an expectation, not a promise: lots give more or less than it.',
  ],
  sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency, solved for the fresh mass'],
  questions: ['how much will I get', 'what will my blocks give', 'expected harvest', 'kilos from my blocks'],
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
      says: 'efficiency must be a percentage above 0% and at most 500%; it is 80 – for 80% write 80% or 0.8',
      remedy: 'Give the efficiency as a percentage or as a fraction of 1.',
    },
    {
      arguments: [50.5, 2.5, 0.6, 0.8],
      code: '#VALUE!',
      says: 'blocks must be a whole number, 1 or more; it is 50.5',
      remedy: 'Count whole blocks.',
    },
  ],
};
