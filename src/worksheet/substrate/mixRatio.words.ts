import type { Words } from '../words';

export const words: Words = {
  summary: 'C:N of a mix: carbon over nitrogen, each by its mass in the dry matter of all ingredients.',
  notes: [
    'Carbon and nitrogen are shares of dry matter. Nitrogen from a feed label is protein / 6.25.',
    'Take both from one table: an averaged C:N times an averaged nitrogen may give more carbon than there is dry matter.',
    'A row that is blank does not count. Write none where an ingredient holds no carbon, no nitrogen or no water: a blank is refused.',
  ],
  sources: ['Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54, chapter 3: C:N ratio of a mixture'],
  questions: ['carbon to nitrogen', 'nitrogen of a mix', 'too much bran'],
  examples: [
    {
      // 10 kg grass at 77%: 2.3 dry, 1.035 C, 0.0552 N; 4 kg leaves at 35%: 2.6 dry, 1.3 C, 0.0195 N.
      title: '10 kg of grass and 4 kg of leaves',
      arguments: [
        [[10], [4]],
        [[0.77], [0.35]],
        [[0.45], [0.5]],
        [[0.024], [0.0075]],
      ],
      gives: 2.335 / 0.0747,
    },
  ],
  faults: [
    {
      arguments: [[[10]], 0.1, 'none', 'none'],
      code: '#DIV/0!',
      says: 'nitrogen: the mix holds none',
      remedy: 'Give the nitrogen of at least one ingredient.',
    },
    {
      arguments: [[[10], [1]], 0.1, [[0.45], ['none']], [[0.024], [null]]],
      code: '#VALUE!',
      says: 'it is blank or 0 – for 0 write none (row 2 of the column)',
      remedy: 'Give the nitrogen of the ingredient, or write none.',
    },
    {
      arguments: [[[10]], 0.1, 0.45, 2.4],
      code: '#VALUE!',
      says: 'write 2.4% or 0.024',
      remedy: 'Give nitrogen as a percentage or as a fraction of 1.',
    },
  ],
};
