import type { Words } from '../words';

export const words: Words = {
  summary: 'Range the next lot’s efficiency falls in, from past lots of the same kind (prediction interval).',
  notes: [
    'Mean ± Student’s t × standard deviation × √(1 + 1/n): where one more lot will lie, not where the mean lies. ' +
      'It gives the lower end, the mean, the upper end and the number of lots.',
    'Past lots must be of one strain and recipe, with no trend over time. Blank or 0 cells are left out.',
    'Masses work as well as efficiencies.',
  ],
  sources: ['Hahn, G. J., Meeker, W. Q. (1991) Statistical Intervals, Wiley, section 4.7'],
  questions: ['worst and best harvest to expect', 'how sure is the forecast', 'next lot'],
  examples: [
    {
      title: 'Four lots of 76% to 91%; t from scipy 1.17.1',
      arguments: [[[0.82], [0.76], [0.91], [0.85]]],
      gives: [[0.6706853404309937, 0.835, 0.9993146595690064, 4]],
      digits: 8,
    },
  ],
  faults: [
    {
      arguments: [[[0.82], [null]]],
      code: '#N/A',
      says: 'past must hold at least 2 lots; there is 1',
      remedy: 'Give the efficiencies of at least two past lots, better ten.',
    },
    {
      arguments: [[[0.82], [0.76]], 90],
      code: '#VALUE!',
      says: 'for 90% write 90% or 0.9',
      remedy: 'Give the coverage as a percentage or as a fraction of 1.',
    },
  ],
};
