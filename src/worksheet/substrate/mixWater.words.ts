import type { Words } from '../words';
import { NRAES } from './examples';

export const words: Words = {
  summary: 'Water to add to what is in the mixer so that it has the wanted moisture.',
  notes: [
    'Moistures are on a wet basis: water over the whole mass.',
    'A row that is blank does not count. Write none as the mass of what is not in the mixer, and as the moisture of gypsum.',
  ],
  sources: [NRAES],
  questions: ['how much water', 'water to add', 'too dry'],
  examples: [
    {
      // Dry 100 × 0.88 + 20 × 0.9 = 106; over 0.4 is 265; less the 120 there.
      title: '100 kg of sawdust at 12% and 20 kg of bran at 10%, to 60%',
      arguments: [[[100], [20]], [[0.12], [0.1]], 0.6],
      gives: 145,
    },
  ],
  faults: [
    {
      arguments: [100, 0.65, 0.6],
      code: '#VALUE!',
      says: 'target: the mix is already at 65% moisture, above the 60% you want: 12.5 too much water in 100',
      remedy: 'Add dry ingredients, or aim for a higher moisture.',
    },
    {
      arguments: [null, 0.65, 0.6],
      code: '#N/A',
      says: 'masses: there is nothing in the mixer',
      remedy: 'Give the mass of at least one ingredient.',
    },
    {
      arguments: [[[100], [20]], [[0.12], [10]], 0.6],
      code: '#VALUE!',
      says: 'write 10% or 0.1 (row 2 of the column)',
      remedy: 'Give the moisture as a percentage or as a fraction of 1.',
    },
  ],
};
