import { chart, formula, heading, spilled, type Sheet } from '../../src/hosts/xlsx/describe';

export const picked: Sheet = {
  name: 'Picked',
  title: 'Picked: by week and by strain',
  notes: [
    'The ten whole weeks before today, and what each strain has given so far. From the sheets Picks and Crops.',
  ],
  things: [
    heading('A4', 'By week'),
    formula('A6', '=Today-WEEKDAY(Today, 2)-69+{0;7;14;21;28;35;42;49;56;63}', 'date', {
      headers: ['Week from'],
      spills: true,
      rows: 10,
    }),
    formula('B6', '=SUMIFS(Picks[Mass (kg)], Picks[Date], ">="&A6#, Picks[Date], "<"&A6#+7)', 'mass', {
      headers: ['Picked (kg)'],
      spills: true,
      rows: 10,
    }),
    chart('F4:M19', 'column', 'Picked by week (kg)', {
      says: 'Kilograms picked in each week, a column a week.',
      across: spilled('A6'),
      series: [{ title: 'Picked (kg)', values: spilled('B6') }],
      acrossReads: 'date',
      upReads: 'mass',
    }),

    heading('A21', 'By strain, so far'),
    formula('A23', '=Strains[Strain]', 'text', { headers: ['Strain'], spills: true, growth: 6 }),
    formula('B23', '=SUMIFS(Crops[Picked (kg)], Crops[Strain], A23#)', 'mass', {
      headers: ['Picked (kg)'],
      spills: true,
      growth: 6,
    }),
    formula('C23', '=IFERROR(AVERAGEIFS(Crops!B5#, Crops[Strain], A23#, Crops!B5#, ">0"), "")', 'percent', {
      headers: ['Mean efficiency'],
      spills: true,
      growth: 6,
    }),
    formula('D23', '=Strains[Efficiency]', 'percent', { headers: ['In Strains'], spills: true, growth: 6 }),
    chart('F21:M37', 'column', 'Mean efficiency so far', {
      says: 'Mean efficiency of each strain so far, as a column, against the efficiency written in Strains, as a mark over it.',
      across: spilled('A23'),
      series: [{ title: 'Mean efficiency so far', values: spilled('C23') }],
      limits: [{ title: 'Efficiency in Strains', values: spilled('D23') }],
      upReads: 'percent',
    }),
  ],
};
