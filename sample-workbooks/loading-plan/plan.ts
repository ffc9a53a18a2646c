import { formula, heading, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

export const plan: Sheet = {
  name: 'Plan',
  title: 'The plan: what to open when, in which room',
  notes: ['One row a load. Once it is done, its row can go below those of “On the shelves now” in Blocks.'],
  things: [
    formula('A4', '=IF(ISNUMBER(A6), "", K6)', 'text'),
    formula(
      'A5',
      view('plan'),
      ['date', 'text', 'text', 'text', 'count', 'count', 'date', 'mass', { code: '0%' }, 'text', 'text'],
      { headed: true, growth: 40 },
    ),
    heading('M4', 'In short'),
    formula('M5', view('summary'), ['text', 'number', 'text'], { headed: true, growth: 8 }),
  ],
  highlights: [{ range: 'A6:K80', when: '=AND($A6<>"",$A6=Today)', tint: 'soon' }],
  widths: { A: 12, K: 80 },
  freeze: 'A6',
  prints: 'A:J',
  upright: true,
};

export const checked: Sheet = {
  name: 'Plan checked',
  title: 'The plan, checked rule by rule',
  notes: [
    'Written apart from the plan: it takes the loads as they stand there and asks of each rule whether they keep it.',
  ],
  things: [
    formula(
      'A4',
      '=PINSET.CHECKLOADS(Plan!A5#, Lots[#All], Strains[#All], Rooms[#All], Orders[#All], Calendar[#All], Standing[#All], Settings[#All])',
      ['text', 'date', 'text', 'number', 'number', 'text'],
      { headed: true, growth: 12 },
    ),
  ],
  freeze: 'A5',
};
