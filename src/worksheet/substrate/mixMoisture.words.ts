import type { Words } from '../words';
import { NRAES } from './examples';

export const words: Words = {
  summary: 'Moisture of what is in the mixer, with the water added so far.',
  notes: [
    'Wet basis: water over the whole mass.',
    'A row that is blank does not count. Write none as the mass of what is not in the mixer, and as the moisture of gypsum.',
  ],
  sources: [NRAES],
  questions: ['how wet is the mix', 'moisture content', 'too wet'],
  examples: [
    {
      // Dry 100 × 0.88 + 20 × 0.9 = 106 in 265.
      title: '100 kg of sawdust at 12%, 20 kg of bran at 10% and 145 kg of water',
      arguments: [[[100], [20]], [[0.12], [0.1]], 145],
      gives: 0.6,
    },
    {
      // Water 88 + 2 of 120 kg.
      title: 'Two ingredients without water added',
      arguments: [
        [[100], [20]],
        [[0.88], [0.1]],
      ],
      gives: 0.75,
    },
  ],
  faults: [
    {
      arguments: [null, 0.65],
      code: '#N/A',
      says: 'masses: there is nothing in the mixer',
      remedy: 'Give the mass of at least one ingredient.',
    },
  ],
};
