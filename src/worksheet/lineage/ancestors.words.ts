import type { Words } from '../words';
import { exampleLots, exampleParents, FAMILY_HEADER, familyFaults, familyNotes } from './examples';

export const words: Words = {
  summary: 'Every lot that a lot was made from, directly or through others: where a fault may come from.',
  notes: familyNotes,
  sources: ['Breadth-first search of the lots’ own records'],
  questions: [
    'trace back',
    'where did the mould come from',
    'which spawn was used',
    'traceability',
    'mother culture of a block',
  ],
  examples: [
    {
      title: 'Where block B-2 came from: two bags, two jars, one culture',
      arguments: ['B-2', exampleLots, exampleParents],
      gives: [
        FAMILY_HEADER,
        ['S-1', 1, 'B-2 → S-1', ''],
        ['S-2', 1, 'B-2 → S-2', ''],
        ['G-1', 2, 'B-2 → S-1 → G-1', ''],
        ['G-2', 2, 'B-2 → S-2 → G-2', ''],
        ['M-1', 3, 'B-2 → S-1 → G-1 → M-1', ''],
        ['', '', '', 'parent X-9 is not in lots (row 8)'],
      ],
    },
    {
      title: 'An unknown parent is listed, not dropped',
      arguments: ['B-3', exampleLots, exampleParents],
      gives: [
        FAMILY_HEADER,
        ['X-9', 1, 'B-3 → X-9', 'not in lots'],
        ['', '', '', 'parent X-9 is not in lots (row 8)'],
      ],
    },
  ],
  faults: familyFaults,
};
