import type { Words } from '../words';
import { BASES, basisFault, exampleCosts, unknownBasis } from './examples';

export const words: Words = {
  summary: 'Cost of one block: what is spent per block plus its part of what is spent for the whole batch.',
  notes: [
    BASES,
    'Amounts per mass and per shelf day are not part of a block’s cost: COSTPERMASS and BREAKEVEN count them.',
  ],
  sources: ['Definition: 1.50 + 0.50 + 300/150 = 4.00 a block in the example'],
  questions: ['what does a block cost', 'cost of a bag', 'labour and power per block'],
  examples: [
    {
      title: '150 blocks: 1.50 + 0.50 + 300/150',
      arguments: [exampleCosts, 150],
      gives: 4,
    },
  ],
  faults: [
    { arguments: [unknownBasis, 150], ...basisFault },
    {
      arguments: [exampleCosts, null],
      code: '#VALUE!',
      says: 'blocks must be a whole number, 1 or more; it is blank or 0',
      remedy: 'Say how many blocks the batch has.',
    },
  ],
};
