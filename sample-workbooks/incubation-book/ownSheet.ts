import { column, formula, heading, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const ownSheet: Sheet = {
  name: 'Own sheet',
  title: 'A sheet as it is kept: other headers, dates and weights as text',
  notes: ['Nothing in the log is changed: each call reads it in Pinset’s way. Figures are invented.'],
  things: [
    heading('A4', 'Log'),
    table(
      'A5',
      'Log',
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
    heading('A10', 'Names'),
    table(
      'A11',
      'Names',
      [column('Header'), column('Means')],
      [
        ['Bin', 'lot'],
        ['Kind', 'strain'],
        ['How many', 'blocks'],
        ['Made', 'inoculated'],
      ],
    ),
    formula('H6', '=PINSET.TODATES(Log[Made, as text], "month first")', 'date', { headers: ['Date'] }),
    formula('I6', '=PINSET.TONUMBERS(Log[Weight, as text], "kg")', 'mass', { headers: ['kg'] }),
    formula('J6', '=PINSET.MATCHLABELS(Log[Kind], Strains[Strain])', 'text', { headers: ['Strain'] }),
    heading('A18', 'The log with Pinset’s headers'),
    formula('A19', '=PINSET.MATCHCOLUMNS(Log[#All], Names[#All])', ['text', 'text', 'count', 'date'], {
      headed: true,
      growth: 4,
    }),
    heading('A26', 'Ready from 1 to 14 March 2026'),
    formula(
      'A27',
      '=PINSET.READYLOTS(PINSET.MATCHCOLUMNS(Log[#All], Names[#All]), Strains[#All], DATE(2026,3,1), DATE(2026,3,14))',
      ['text', 'text', 'count', 'date', 'date', 'date', 'date', 'count', 'text'],
      { headed: true, growth: 10 },
    ),
  ],
};
