import type { Words } from '../words';
import { exampleLots, exampleParents, FAMILY_HEADER, familyFaults, familyNotes } from './examples';

export const words: Words = {
  summary: 'Every lot made from a lot, directly or through others: the recall list for a bad spawn bag.',
  notes: familyNotes,
  cautions: [
    'A recall list is only as good as its records. What must be recalled, and whom to tell, is for your local food-safety rules; when in doubt, hold the lots back.',
  ],
  sources: ['Breadth-first search of the lots’ own records'],
  questions: ['recall', 'which lots share a bad bag of spawn', 'contaminated spawn where did it go'],
  examples: [
    {
      title: 'What came of grain jar G-1: bag S-1, and two blocks',
      arguments: ['G-1', exampleLots, exampleParents],
      gives: [
        FAMILY_HEADER,
        ['S-1', 1, 'G-1 → S-1', ''],
        ['B-1', 2, 'G-1 → S-1 → B-1', ''],
        ['B-2', 2, 'G-1 → S-1 → B-2', ''],
        ['', '', '', 'parent X-9 is not in lots (row 8)'],
      ],
    },
    {
      title: 'A bag nobody recorded, but named as a parent',
      arguments: ['x-9', exampleLots, exampleParents],
      gives: [FAMILY_HEADER, ['B-3', 1, 'X-9 → B-3', 'parent X-9 is not in lots']],
    },
  ],
  faults: familyFaults,
};
