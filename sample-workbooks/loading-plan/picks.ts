import { chart, formula, heading, spilled, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

export const picks: Sheet = {
  name: 'Picks',
  title: 'Picking, day by day',
  notes: [
    'What is expected from what is on the shelves now and from the plan, against what the crew can pick in a day.',
  ],
  things: [
    formula('A4', view('picks'), ['date', 'mass'], { headed: true, growth: 30 }),
    chart('K5:T21', 'stacked', 'Expected picks and the day’s limit (kg)', {
      says: 'Kilograms expected each day, from the shelves and from the plan on top of each other, under the most that can be picked that day. No column should rise above its mark.',
      across: spilled('A4', 1),
      series: [
        { title: 'From the shelves', values: spilled('A4', 3) },
        { title: 'From the plan', values: spilled('A4', 4) },
      ],
      limits: [{ title: 'Limit', values: spilled('A4', 5) }],
      acrossReads: 'date',
      upReads: 'mass',
    }),
    heading('K23', 'If nothing more were loaded, by room'),
    formula(
      'K24',
      '=PINSET.PICKCALENDAR(Standing[#All], Strains[#All], Today, Today+27, "room")',
      ['date', 'mass'],
      {
        headed: true,
        growth: 10,
      },
    ),
    chart('R24:Y40', 'line', 'On the shelves already (kg)', {
      says: 'Kilograms a day from what is on the shelves already. The line falls to nothing where only new loads bring picks.',
      across: spilled('K24', 1),
      series: [{ title: 'All rooms', values: spilled('K24', 2) }],
      acrossReads: 'date',
      upReads: 'mass',
    }),
  ],
  highlights: [{ range: 'A5:I80', when: '=AND(ISNUMBER($F5),$F5<0)', tint: 'late' }],
  freeze: 'A5',
  prints: 'A:I',
  upright: true,
};
