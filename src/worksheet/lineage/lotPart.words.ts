import type { Words } from '../words';
import { CHECK_CHARACTER } from './examples';

export const words: Words = {
  summary: 'One part of a lot label made by LOTCODE; a mistyped label is caught by its check character.',
  notes: [
    'Case, spaces and hyphens do not count.',
    'Where one look-alike put right (O for 0, I for 1, …) would make the check fit, the error says which. It is not put right unasked.',
    'The part label gives the label as it should be written.',
  ],
  sources: [CHECK_CHARACTER],
  questions: ['read a label', 'which strain is on the label', 'mistyped label', 'check a lot number'],
  examples: [
    { title: 'The day made', arguments: ['SHI-7-G2-260302-01-N', 'made'], gives: 46083 },
    {
      title: 'The strain, in whatever way the label was typed',
      arguments: [[['shi-7-g2-260302-01-n'], ['SHI 7 G2 260302 01 N'], ['']], 'strain'],
      gives: [['7'], ['7'], ['']],
    },
  ],
  faults: [
    {
      arguments: ['SHI-7-G2-26O302-01-N', 'made'],
      code: '#VALUE!',
      says: 'it fits if character 9, not counting hyphens, is the digit 0, not the letter O',
      remedy: 'Compare the label with the bag and type it again.',
    },
    {
      arguments: ['SHI-7-G2-260320-01-N', 'made'],
      code: '#VALUE!',
      says: 'code: a character is mistyped in "SHI-7-G2-260320-01-N"; its check character at the end does not fit',
      remedy: 'Compare the label with the bag and type it again.',
    },
    {
      arguments: ['Block 12', 'made'],
      code: '#VALUE!',
      says: 'code must be a label such as SHI-ALDER3-G2-260302-01-7; it is "Block 12"',
      remedy: 'Only labels made by LOTCODE can be taken apart.',
    },
  ],
};
