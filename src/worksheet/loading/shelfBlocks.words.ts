import type { Words } from '../words';

export const words: Words = {
  summary: 'Blocks one shelf holds: the better of setting them along or across it, and both counts.',
  notes: [
    'Counts the blocks that fit in each direction, with the gap between neighbours. No gap is kept to the shelf’s edges.',
    '“Along” sets the block’s length along the shelf’s length. All blocks are turned the same way.',
    'Use one unit of length throughout. Leave room to reach the back row.',
  ],
  sources: ['Counting whole blocks and gaps that fit a length'],
  questions: ['how many blocks fit on a shelf', 'spacing on the rack', 'rack size'],
  examples: [
    {
      title: 'A shelf of 120 × 60 cm, blocks of 30 × 20 cm, 5 cm between: 3 × 2 along, 5 × 1 across',
      arguments: [120, 60, 30, 20, 5],
      gives: [[6, 'along', 6, 5]],
    },
    {
      title: 'No gap, blocks that fill the shelf exactly',
      arguments: [1.2, 0.6, 0.3, 0.2, 'none'],
      gives: [[12, 'along', 12, 12]],
    },
    {
      title: 'A narrow shelf holds more across',
      arguments: [100, 35, 30, 20, 2],
      gives: [[4, 'across', 3, 4]],
    },
  ],
  faults: [
    {
      arguments: [120, 60, 0, 20, 5],
      code: '#VALUE!',
      says: 'block length must be a number above 0; it is blank or 0',
      remedy: 'Measure the block as it sits on the shelf.',
    },
  ],
};
