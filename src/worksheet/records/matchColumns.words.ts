import type { Words } from '../words';

const exampleBook = [
  ['Mushroom log', null, null, null],
  ['Batch', 'Strain #', 'Qty', 'Bag wt (lb)'],
  ['March 2026', null, null, null],
  ['B-101', 'Alder-3', 40, 5.5],
  ['B-102', 'Birch-1', 60, 5.5],
  ['Total', null, 100, null],
];

const exampleNames = [
  ['header', 'means'],
  ['Batch', 'lot'],
  ['Strain', 'strain'],
  ['Qty', 'blocks'],
  ['Bag wt', 'block mass'],
];

export const words: Words = {
  summary:
    'Your own table with Pinset’s headers: renamed by your list, titles, month rows and totals left out.',
  notes: [
    'Use it in place of a table in any other call: RIPECALENDAR(MATCHCOLUMNS(A1:H400, Names), …). Your sheet stays as it is.',
    'The header row is the first of the first 20 rows in which every header of your list is found. A header written the same wins; otherwise case, spaces, # . _ - and what is in brackets do not count.',
    'These rows are left out: those above the header row, blank rows, totals rows, the header row again, the names of months and weeks, and a row with one text and no figure outside the columns of your list. A lot with nothing but its name is kept.',
    'A totals row has the word total, subtotal, grand total or sum in a cell, with a month, week or year beside it if you like, or average as its first and only text. Total-1 is a lot.',
    'Columns that are not in the list keep their headers. A unit stays with its column: Bag wt (lb) becomes block mass (lb), and lbs becomes mass (lb).',
    'Many headers need no list: every table also reads the other names that growers use, and the guide lists them beside each column.',
    'Rows in messages of the call around it count from the header row of the new table.',
  ],
  sources: ['The rules above; nothing is measured'],
  questions: [
    'my headers are different',
    'rename columns',
    'use my own sheet',
    'match my columns',
    'skip title rows and month rows',
  ],
  examples: [
    {
      title: 'A book with a title, the name of a month and a totals row',
      arguments: [exampleBook, exampleNames],
      gives: [
        ['lot', 'strain', 'blocks', 'block mass (lb)'],
        ['B-101', 'Alder-3', 40, 5.5],
        ['B-102', 'Birch-1', 60, 5.5],
      ],
    },
    {
      title: 'Columns that the list does not name stay as they are',
      arguments: [
        [
          ['Batch', 'lbs', 'Picker'],
          ['B-101', 12.5, 'A.'],
          ['B-102', 9, 'B.'],
        ],
        [
          ['header', 'means'],
          ['Batch', 'lot'],
          ['lbs', 'mass'],
        ],
      ],
      gives: [
        ['lot', 'mass (lb)', 'Picker'],
        ['B-101', 12.5, 'A.'],
        ['B-102', 9, 'B.'],
      ],
    },
  ],
  faults: [
    {
      arguments: [exampleBook, [...exampleNames, ['Moist %', 'moisture'], ['Bach', 'product']]],
      code: '#VALUE!',
      says: 'table needs columns headed Moist % and Bach (is it "Batch"?); its headers are Batch, Strain #, Qty, Bag wt (lb)',
      remedy: 'Write each header in the list as it is in your sheet, or take it out of the list.',
    },
    {
      arguments: [
        [
          ['Batch', 'Lot', 'Qty'],
          ['B-101', 'L1', 40],
        ],
        [
          ['header', 'means'],
          ['Batch', 'lot'],
        ],
      ],
      code: '#VALUE!',
      says: 'table would have two columns headed "Lot": "Batch" and "Lot"',
      remedy: 'Give the other column a new name in the list too, such as old lot.',
    },
    {
      arguments: [
        [
          ['Weight (kg)', 'Weight (lb)'],
          [2, 4.4],
        ],
        [
          ['header', 'means'],
          ['weight', 'mass'],
        ],
      ],
      code: '#VALUE!',
      says: 'table must have one column for weight; it has "Weight (kg)" and "Weight (lb)"',
      remedy: 'Write the header in the list with its brackets.',
    },
    {
      arguments: [
        exampleBook,
        [
          ['header', 'means'],
          ['Batch', 'lot'],
          ['Qty', 'lot'],
        ],
      ],
      code: '#VALUE!',
      says: 'means in names: "lot" must be in one row; it is what "Batch" and "Qty" mean (row 3 of names)',
      remedy: 'Give each header a name of its own.',
    },
  ],
};
