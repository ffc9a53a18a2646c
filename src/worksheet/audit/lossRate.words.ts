import type { Words } from '../words';

export const words: Words = {
  summary: 'Share of blocks lost with the interval that holds the true rate (Wilson).',
  notes: [
    'Gives the rate, and the lower and upper end of its interval.',
    '0 lost of 20 does not show that nothing is ever lost: the true rate may be as high as 16%.',
    'Supposes that blocks are lost independently of each other.',
  ],
  sources: ['Newcombe, R. G. (1998) Statistics in Medicine 17:857–872, method 3'],
  questions: ['contamination rate', 'how many blocks do I lose', 'green mould percentage', 'spoiled blocks'],
  examples: [
    {
      title: '4 of 20, and none of 20; interval as scipy 1.17.1 gives it',
      arguments: [
        [[4], ['none']],
        [[20], [20]],
      ],
      gives: [
        [0.2, 0.08065766257979806, 0.4160174322518936],
        [0, 0, 0.16112515805281935],
      ],
    },
  ],
  faults: [
    {
      arguments: [21, 20],
      code: '#VALUE!',
      says: 'lost must be at most 20, the total; it is 21',
      remedy: 'Correct one of the two counts.',
    },
    {
      arguments: [1, 20, 95],
      code: '#VALUE!',
      says: 'for 95% write 95% or 0.95',
      remedy: 'Give the confidence as a percentage or as a fraction of 1.',
    },
  ],
};
