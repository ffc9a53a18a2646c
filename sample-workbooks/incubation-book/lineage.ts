import {
  column,
  figures,
  formula,
  heading,
  inputs,
  table,
  type Sheet,
  type Typed,
} from '../../src/hosts/xlsx/describe';

/** Two cultures, grain from them, bags from the grain, blocks from the bags; one bag bought in. */
const rows: Typed[][] = [
  ['M-01', null, null, 'mother culture'],
  ['M-02', null, null, 'mother culture'],
  ['G-11', 'M-01', null, 'grain jar'],
  ['G-12', 'M-01', null, 'grain jar'],
  ['G-13', 'M-01', null, 'grain jar'],
  ['G-21', 'M-02', null, 'grain jar'],
  ['G-22', 'M-02', null, 'grain jar'],
  ['S-111', 'G-11', null, 'spawn bag'],
  ['S-112', 'G-11', null, 'spawn bag'],
  ['S-113', 'G-11', null, 'spawn bag'],
  ['S-121', 'G-12', null, 'spawn bag'],
  ['S-122', 'G-12, G-13', null, 'spawn bag'],
  ['S-131', 'G-13', null, 'spawn bag'],
  ['S-211', 'G-21', null, 'spawn bag'],
  ['S-212', 'G-21', null, 'spawn bag'],
  ['S-221', 'G-22', null, 'spawn bag'],
  ['K-301', 'S-111', 24, 'blocks'],
  ['K-302', 'S-111', 24, 'blocks'],
  ['K-303', 'S-112', 32, 'blocks'],
  ['K-304', 'S-112, S-121', 24, 'blocks'],
  ['K-305', 'S-113', 40, 'blocks'],
  ['K-306', 'S-121', 24, 'blocks'],
  ['K-307', 'S-122', 24, 'blocks'],
  ['K-308', 'S-131', 32, 'blocks'],
  ['K-309', 'S-211', 48, 'blocks'],
  ['K-310', 'S-212', 48, 'blocks'],
  ['K-311', 'S-221', 24, 'blocks'],
  ['K-312', 'V-77', 24, 'blocks'],
];

export const recall: Sheet = {
  name: 'Recall',
  title: 'Recall: what shares the bad lot',
  notes: [
    'Every lot that was made from it, step by step. Name the bad lot on the right.',
    'A recall list is only as good as its records. What must be recalled, and whom to tell, is for your local food-safety rules;',
    'when in doubt, hold the lots back.',
  ],
  things: [
    formula(
      'A6',
      '=PINSET.DESCENDANTS(G6, Family[Lot], Family[Made from])',
      ['text', 'count', 'text', 'text'],
      {
        headed: true,
        growth: 12,
      },
    ),
    inputs('F6', { label: 'Bad lot', value: 'G-11', reads: 'text', choices: 'Family[Lot]' }),
    figures('F7', {
      label: 'Blocks to hold back',
      formula: '=SUMPRODUCT(ISNUMBER(MATCH(Family[Lot], A6:A60&"", 0)) * Family[Blocks])',
      reads: 'count',
      remark: 'of the lots listed',
    }),
  ],
  prints: 'A:H',
  widths: { A: 16, D: 30, H: 18 },
};

export const origin: Sheet = {
  name: 'Origin',
  title: 'Origin: where a lot came from',
  notes: ['Every lot that it was made from, back to the mother cultures. Name the lot on the right.'],
  things: [
    formula(
      'A4',
      '=PINSET.ANCESTORS(G4, Family[Lot], Family[Made from])',
      ['text', 'count', 'text', 'text'],
      {
        headed: true,
        growth: 10,
      },
    ),
    inputs('F4', { label: 'Lot', value: 'K-304', reads: 'text', choices: 'Family[Lot]' }),
  ],
  prints: 'A:G',
};

export const labels: Sheet = {
  name: 'Labels',
  title: 'Labels with a check character',
  notes: ['A slip of one character, or two that changed places, is noticed when a label is read back.'],
  things: [
    formula(
      'A5',
      '=PINSET.LOTCODE(ToLabel[Species], ToLabel[Strain], ToLabel[Generation], ToLabel[Made], ToLabel[Nr])',
      'text',
      { headers: ['Label'], growth: 10 },
    ),
    table(
      'C4',
      'ToLabel',
      [
        column('Species'),
        column('Strain', 'text', 'Strains[Strain]'),
        column('Generation', 'count'),
        column('Made', 'date'),
        column('Nr', 'count'),
      ],
      [
        ['shiitake', 'Alder-3', 1, '2026-02-09', 1],
        ['shiitake', 'Alder-3', 2, '2026-02-25', 1],
        ['shiitake', 'Alder-3', 2, '2026-02-25', 2],
        ['shiitake', 'Hazel-6', 3, '2026-03-02', 1],
        ['grey oyster', 'Birch-1', 2, '2026-03-04', 1],
        ['lion’s mane', 'Rowan-2', 2, '2026-03-11', 1],
      ],
    ),
    heading('I4', 'Read a label back'),
    inputs('I5', { label: 'Label typed', value: 'shi alder3 g2 260225 01 k', reads: 'text' }),
    figures(
      'I6',
      { label: 'As it should be written', formula: '=PINSET.LOTPART(J5, "label")', reads: 'text' },
      { label: 'Made on', formula: '=PINSET.LOTPART(J5, "made")', reads: 'date' },
      { label: 'Strain', formula: '=PINSET.LOTPART(J5, "strain")', reads: 'text' },
    ),
    inputs('I10', {
      label: 'Label mistyped',
      value: 'SHI-ALDER3-G2-26O225-01-K',
      reads: 'text',
      remark: 'an O where a 0 belongs: a fault on purpose',
    }),
    figures('I11', { label: 'Made on', formula: '=PINSET.LOTPART(J10, "made")', reads: 'date' }),
  ],
  prints: 'A:G',
  faults: [{ cells: 'J11', code: '#VALUE!', says: 'is the digit 0, not the letter O' }],
};

export const family: Sheet = {
  name: 'Family',
  title: 'Family: which lot was made from which',
  notes: [
    'One row a lot, invented: cultures, grain from them, bags from the grain, blocks from the bags; one bag was bought in.',
  ],
  things: [
    table(
      'A4',
      'Family',
      [column('Lot'), column('Made from'), column('Blocks', 'count'), column('What')],
      rows,
    ),
  ],
  freeze: 'A5',
  upright: true,
};
