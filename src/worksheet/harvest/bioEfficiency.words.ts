import type { Words } from '../words';

export const words: Words = {
  summary: 'Biological efficiency: fresh mushrooms picked over the dry mass of the blocks they came from.',
  notes: [
    'Fresh mass divided by blocks × block mass × (1 − moisture). 100% means a kilogram of mushrooms from a kilogram of dry substrate.',
    'Use one unit of mass for both masses. A blank or 0 fresh mass gives a blank.',
  ],
  sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762, doi 10.1080/00275514.1985.12025163'],
  questions: ['how well did a block do', 'efficiency of a lot', 'kilos per block', 'good or bad harvest'],
  examples: [
    {
      title: 'One block of 4.5 kg at 60% moisture gave 1.2 kg',
      arguments: [1.2, 4.5, 0.6],
      gives: 1.2 / 1.8,
    },
    {
      title: 'Two lots at once, the second not picked yet',
      arguments: [[[24], [null]], [[2.5], [2.5]], 0.6, [[30], [40]]],
      gives: [[0.8], ['']],
    },
  ],
  faults: [
    {
      arguments: [1.2, 4.5, 60],
      code: '#VALUE!',
      says: 'moisture must be a percentage from 5% to below 100%; it is 60 – for 60% write 60% or 0.6',
      remedy: 'Give the moisture as a percentage or as a fraction of 1.',
    },
  ],
};
