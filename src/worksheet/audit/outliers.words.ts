import type { Words } from '../words';

export const words: Words = {
  summary: 'How far each value lies from the rest: modified z-score from the median, and which are outliers.',
  notes: [
    '0.6745 × (value − median) ÷ median absolute deviation. Beyond the limit, 3.5 unless given, a value is called an outlier.',
    'Look at how an outlier came about before you drop it.',
    'A blank or 0 is left out. Values of strains that differ belong in separate calls.',
  ],
  sources: [
    'Iglewicz, B., Hoaglin, D. C. (1993) How to Detect and Handle Outliers, ASQC Quality Press',
    'NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17',
  ],
  questions: ['odd one out', 'strange value', 'typing mistake in weights'],
  examples: [
    {
      title: 'Median 5, median absolute deviation 1: 12 scores 0.6745 × 7',
      arguments: [[[4], [5], [6], [5], [12]]],
      gives: [
        [-0.6745, ''],
        [0, ''],
        [0.6745, ''],
        [0, ''],
        [4.7215, 'outlier'],
      ],
    },
  ],
  faults: [
    {
      arguments: [[[4], [5]]],
      code: '#N/A',
      says: 'values must hold at least 3 values; there are 2',
      remedy: 'Give at least three values.',
    },
    {
      arguments: [[[4], ['5'], [6], [7]]],
      code: '#VALUE!',
      says: 'it is text that looks like a number: type it again as a number (row 2 of the column)',
      remedy: 'Type the value again, or convert the column to numbers.',
    },
  ],
};
