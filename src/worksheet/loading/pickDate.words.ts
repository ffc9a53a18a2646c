import type { Words } from '../words';
import { exampleStrains, unknownStrain } from './examples';

export const words: Words = {
  summary: 'Date of the first pick of a flush, from the day the blocks were opened and set on the shelf.',
  notes: [
    'Load day + the strain’s days to first pick + (flush − 1) × its flush gap. ' +
      'Days that are not whole are added up, then rounded, as PICKCALENDAR does.',
    'About 7 days from opening to the first pick is usual for shiitake (common practice, no source). Use your own records.',
  ],
  sources: ['Calendar arithmetic on the days in your own strains table'],
  questions: ['when will I pick', 'first pick', 'when is the second flush picked', 'harvest day'],
  examples: [
    { title: 'Loaded on 4 May 2026', arguments: [46146, 'Alder-3', exampleStrains], gives: 46153 },
    {
      title: 'Its three flushes',
      arguments: [46146, 'Alder-3', exampleStrains, [[1], [2], [3]]],
      gives: [[46153], [46171], [46189]],
    },
  ],
  faults: [
    unknownStrain('strain', [46146, 'Hazel-9', exampleStrains]),
    {
      arguments: [46146, 'Alder-3', exampleStrains, 4],
      code: '#N/A',
      says: 'flush must be at most 3, the flushes the strain is kept for in strains; it is 4',
      remedy: 'Ask for an earlier flush, or raise the flushes of the strain.',
    },
    {
      arguments: [
        46146,
        'Birch-1',
        [
          ['strain', 'first pick', 'flushes'],
          ['Birch-1', 6, 2],
        ],
        2,
      ],
      code: '#N/A',
      says: 'flush: "flush gap" in strains is blank',
      remedy: 'Fill in the flush gap of the strain.',
    },
  ],
};
