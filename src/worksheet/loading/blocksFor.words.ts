import type { Words } from '../words';

export const words: Words = {
  summary: 'Blocks to load for a wanted mass of fresh mushrooms, rounded up to whole blocks.',
  notes: [
    'The wanted mass over what one block is expected to give: block mass × (1 − moisture) × efficiency × (1 − loss) × share.',
    'Give a share to count only some flushes: 70% where only the first is sold.',
  ],
  sources: [
    'Biological efficiency: Royse, D. J. (1985) Mycologia 77(5):756–762, solved for the number of blocks',
  ],
  questions: [
    'how many blocks for an order',
    'blocks to open for a wanted mass or order',
    'enough for my customers',
  ],
  examples: [
    {
      title: '40 kg from blocks of 2.5 kg at 60% moisture and 80% efficiency: 0.8 kg a block, 50 blocks',
      arguments: [40, 2.5, 0.6, 0.8],
      gives: 50,
    },
    {
      title:
        'With 5% of blocks lost and only the first flush, 70%, counted: 0.532 kg a block, 75.2 rounded up',
      arguments: [40, 2.5, 0.6, 0.8, 0.05, 0.7],
      gives: 76,
    },
  ],
  faults: [
    {
      arguments: [40, 2.5, 62, 0.8],
      code: '#VALUE!',
      says: 'for 62% write 62% or 0.62',
      remedy: 'Give the moisture as a percentage or as a fraction of 1.',
    },
    {
      arguments: [40, null, 0.62, 0.8],
      code: '#VALUE!',
      says: 'block mass must be a mass above 0; it is blank or 0',
      remedy: 'Fill in the wet mass of a block.',
    },
  ],
};
