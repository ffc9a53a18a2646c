import { column, formula, heading, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const ownSheet: Sheet = {
  name: 'Own sheet',
  title: 'Ready from 1 to 14 March 2026, from a sheet as it is kept',
  notes: [
    'The log on the right has other headers, and dates and weights as text. Nothing in it is changed: each call reads it in Pinset’s way.',
  ],
  things: [
    heading('A4', 'Ready'),
    formula(
      'A5',
      '=PINSET.READYLOTS(PINSET.MATCHCOLUMNS(Bins[#All], Names[#All]), Strains[#All], DATE(2026,3,1), DATE(2026,3,14))',
      ['text', 'text', 'count', 'date', 'date', 'date', 'date', 'count', 'text'],
      { headed: true, growth: 10 },
    ),
    heading('K4', 'What its words say'),
    formula('K6', '=PINSET.TODATES(Bins[Made, as text], "month first")', 'date', { headers: ['Date'] }),
    formula('L6', '=PINSET.TONUMBERS(Bins[Weight, as text], "kg")', 'mass', { headers: ['kg'] }),
    formula('M6', '=PINSET.MATCHLABELS(Bins[Kind], Strains[Strain])', 'text', { headers: ['Strain'] }),
    heading('O4', 'The log as it is kept'),
    table(
      'O5',
      'Bins',
      [
        column('Bin'),
        column('Kind'),
        column('How many', 'count'),
        column('Made', 'date'),
        column('Made, as text'),
        column('Weight, as text'),
      ],
      [
        ['B-101', 'Birch 1', 40, '2026-02-02', '2/2/26', '5.5 lb'],
        ['B-102', 'Alder-3', 60, '2026-02-14', '2/14/26', '88 oz'],
        ['B-103', 'birch-1', 50, '2026-02-20', '2/20/26', '2.5 kg'],
      ],
    ),
    heading('V4', 'Names'),
    table(
      'V5',
      'Names',
      [column('Header'), column('Means')],
      [
        ['Bin', 'lot'],
        ['Kind', 'strain'],
        ['How many', 'blocks'],
        ['Made', 'inoculated'],
      ],
    ),
    heading('Y4', 'The log with Pinset’s headers'),
    formula('Y5', '=PINSET.MATCHCOLUMNS(Bins[#All], Names[#All])', ['text', 'text', 'count', 'date'], {
      headed: true,
      growth: 4,
    }),
  ],
  freeze: 'A6',
  prints: 'A:I',
};
