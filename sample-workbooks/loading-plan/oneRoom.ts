import { column, formula, inputs, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const shelfBlocks: Sheet = {
  name: 'Shelf blocks',
  title: 'What a shelf holds',
  notes: ['How many blocks go on one shelf, and how they are set, for the shelves and blocks on the right.'],
  things: [
    formula('A5', '=Shelves[Room]', 'text', { headers: ['Room'], spills: true, growth: 6 }),
    formula(
      'B5',
      '=PINSET.SHELFBLOCKS(Shelves[Shelf length (cm)], Shelves[Shelf depth (cm)], Shelves[Block length (cm)], Shelves[Block width (cm)], Shelves[Gap (cm)])',
      ['count', 'text', 'count', 'count'],
      { headers: ['Blocks', 'Set', 'Along', 'Across'], growth: 6 },
    ),
    table(
      'G4',
      'Shelves',
      [
        column('Room'),
        column('Shelf length (cm)', 'count'),
        column('Shelf depth (cm)', 'count'),
        column('Block length (cm)', 'count'),
        column('Block width (cm)', 'count'),
        column('Gap (cm)', 'count'),
      ],
      [
        ['North', 200, 60, 28, 14, 5],
        ['Vault', 180, 55, 33, 20, 8],
      ],
    ),
  ],
};

export const split: Sheet = {
  name: 'Split',
  title: 'One load, or several?',
  notes: ['The loads into which blocks must be split so that no day gives more than can be picked.'],
  things: [
    formula(
      'A4',
      '=PINSET.SPLITLOAD(H4, H5, H6, H7, Strains[#All], H8)',
      ['count', 'date', 'count', 'date', 'date'],
      { headed: true, growth: 6 },
    ),
    inputs(
      'G4',
      { label: 'Blocks', value: 120, reads: 'count' },
      { label: 'Yield of a block (kg)', value: 0.66, reads: 'number' },
      { label: 'Picked in a day at most (kg)', value: 8, reads: 'mass' },
      { label: 'Strain', value: 'Alder-3', reads: 'text', choices: 'Strains[Strain]' },
      { label: 'First day', value: '2026-05-04', reads: 'date' },
    ),
  ],
};
