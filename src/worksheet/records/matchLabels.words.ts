import type { Words } from '../words';

const exampleList = [['Fernbank-7'], ['Alder-3'], ['Alder-4'], ['Birchwood']];

export const words: Words = {
  summary:
    'Labels as your list spells them: case, spaces, hyphens and one slip of the pen corrected, never guessed.',
  notes: [
    'A label that the list has stays. Otherwise the one that looks the same to a reader is taken: Fernbank 7 for Fernbank-7. What stands in brackets at the end of a name may be left out.',
    'Otherwise the one that is a single letter off is taken: a letter more, less or other, or two neighbours exchanged. Figures must agree: Alder-5 is no slip of Alder-4. Words of fewer than four letters must look the same.',
    'Where two of the list are equally near the row is refused, and both are named. Where none is near it is refused too.',
    'The view changes says beside each changed row what it was, and how many rows changed in all. Look through it once.',
  ],
  sources: [
    'Damerau, F. J. (1964) Communications of the ACM 7(3):171–176: one letter more, less, other or exchanged is most misspellings',
  ],
  questions: [
    'same strain spelled differently',
    'correct spelling of strains',
    'Fernbank 7 and Fernbank-7',
    'clean up labels',
    'typos in lot names',
  ],
  examples: [
    {
      title: 'A space for a hyphen, a letter left out, and one that is right',
      arguments: [[['Fernbank 7'], ['Birchwod'], ['alder-3'], ['Alder-4'], [null]], exampleList],
      gives: [['Fernbank-7'], ['Birchwood'], ['Alder-3'], ['Alder-4'], ['']],
    },
    {
      title: 'What was changed',
      arguments: [[['Fernbank 7'], ['Alder-4'], ['Fernbank 7']], exampleList, 'changes'],
      gives: [
        ['“Fernbank 7” is now “Fernbank-7” in 2 rows; 2 of 3 rows changed'],
        [''],
        ['“Fernbank 7” is now “Fernbank-7” in 2 rows; 2 of 3 rows changed'],
      ],
    },
  ],
  faults: [
    {
      arguments: ['Alder-5', exampleList],
      code: '#N/A',
      says: 'labels: "Alder-5" is not in list',
      remedy: 'Add the label to the list, or correct it in your sheet.',
    },
    {
      arguments: ['Rowanbank', [['Rowanbark'], ['Rowantank']]],
      code: '#VALUE!',
      says: 'labels: "Rowanbank" is near to "Rowanbark" and "Rowantank" of the list: write it as one of them',
      remedy: 'Correct the label in your sheet.',
    },
  ],
};
