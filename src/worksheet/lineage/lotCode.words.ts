import type { Words } from '../words';
import { CHECK_CHARACTER } from './examples';

export const words: Words = {
  summary: 'A lot label with a check character that gives a mistyped label away: SHI-ALDER3-G2-260302-01-7.',
  notes: [
    'The pattern is Pinset’s own: first three letters of the species, letters and digits of the strain, G and the generation, year, month and day, the serial of the day, and a check character.',
    'Shiitake is SHI and shimeji SHM. Other species that begin alike, such as king oyster and king stropharia, need letters of their own in the last argument.',
    'Spaces, hyphens and apostrophes are left out of species and strain; any other sign is refused.',
    'In a call over several rows, species with the same three letters are errors, and so are Alder-3 and Alder 3, which would make the same label. A formula in each row sees its own row only.',
    'The mother culture itself has the generation none, written G0. A blank generation is refused.',
    'The check character (ISO/IEC 7064 MOD 37,36) covers all of it but the hyphens, which are for the eye.',
    'Every single mistyped character is caught, and every swap of two neighbours but about one in six hundred.',
    'With a strain of up to six letters and digits the label without its hyphens has at most 20 characters and fits a GS1 batch or lot number.',
    'What the law asks of a lot label is for your own food-safety authority to say.',
  ],
  sources: [
    CHECK_CHARACTER,
    'GS1 General Specifications: batch or lot number (AI 10), at most 20 characters',
  ],
  questions: ['label a lot or a new bag of spawn', 'name for a batch', 'write on the bag', 'lot number'],
  examples: [
    {
      // Carries by hand: 36, 19, 35, 34, 10, 15, 34, 35, 10, 20, 9, 18, 3, 6, 14; 37 − 14 = 23 is N.
      title: 'Strain 7 of shiitake, second generation, made on 2 March 2026',
      arguments: ['Shiitake', 7, 2, 46083],
      gives: 'SHI-7-G2-260302-01-N',
    },
    {
      // Computed with the ISO/IEC 7064 sum in a separate program.
      title: 'The same strain as a mother culture',
      arguments: ['Shiitake', 7, 'none', 46083],
      gives: 'SHI-7-G0-260302-01-S',
    },
    {
      // Check characters computed with the ISO/IEC 7064 sum in a separate program.
      title: 'Two species that begin alike, with letters of their own',
      arguments: [[['King oyster'], ['King stropharia']], 'Alder-3', 2, 46083, 1, [['KOY'], ['KST']]],
      gives: [['KOY-ALDER3-G2-260302-01-Z'], ['KST-ALDER3-G2-260302-01-5']],
    },
    {
      title: 'Two lots of a day, and a row not made yet',
      arguments: ['Shiitake', 'Alder-3', 2, [[46083], [46083], [null]], [[1], [2], [null]]],
      gives: [['SHI-ALDER3-G2-260302-01-7'], ['SHI-ALDER3-G2-260302-02-5'], ['']],
    },
  ],
  faults: [
    {
      arguments: [[['King oyster'], ['King stropharia']], 'Alder-3', 2, 46083],
      code: '#VALUE!',
      says: 'species: "King oyster" and "King stropharia" are both KIN on a label: give each species its own three letters (row 1 of the column)',
      remedy: 'Fill in the last argument for all rows, such as KIN and KST.',
    },
    {
      arguments: ['Shiitake', [['Alder-3'], ['Alder 3']], 2, 46083],
      code: '#VALUE!',
      says: 'strain: "Alder 3" and "Alder-3" make the same label: write the strain one way (row 1 of the column)',
      remedy: 'Write the strain the same way in each row.',
    },
    {
      arguments: ['Shiitake', 'Alder-3', null, 46083],
      code: '#VALUE!',
      says: 'generation must be a whole number from 1 to 9, or the word none; it is blank or 0',
      remedy: 'Fill in the generation; write none for the mother culture itself.',
    },
    {
      arguments: ['Shiitake', 'Alder/3', 2, 46083],
      code: '#VALUE!',
      says: 'strain may hold letters A to Z, digits, spaces and hyphens, and no other sign; it is "Alder/3"',
      remedy: 'Write the strain without the sign, the same way each time.',
    },
    {
      arguments: ['LE', 'Alder-3', 2, 46083],
      code: '#VALUE!',
      says: 'species must begin with at least 3 letters; it is "LE"',
      remedy: 'Write the species in words.',
    },
    {
      arguments: ['Shiitake', 'Alder-3 from the north', 2, 46083],
      code: '#VALUE!',
      says: 'strain must have 1 to 12 letters and digits; it is "Alder-3 from the north"',
      remedy: 'Give the strain a short name.',
    },
    {
      arguments: ['Shiitake', 'Alder-3', 12, 46083],
      code: '#VALUE!',
      says: 'generation must be a whole number from 1 to 9, or the word none; it is 12',
      remedy: 'Count generations from the mother culture, which is none.',
    },
  ],
};
