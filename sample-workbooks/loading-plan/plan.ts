import { formula, heading, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

export const plan: Sheet = {
  name: 'Plan',
  title: 'The plan: what to open when, in which room',
  notes: [
    'One row a load. Once a load is done its row can go below those of “On the shelves now” in Blocks: the columns are the same.',
  ],
  things: [
    heading('A4', 'Loads'),
    formula(
      'A5',
      view('plan'),
      ['date', 'text', 'text', 'text', 'count', 'count', 'date', 'mass', { code: '0%' }, 'text', 'text'],
      { headed: true, growth: 40 },
    ),
    heading('M4', 'In short'),
    formula('M5', view('summary'), ['text', 'number', 'text'], { headed: true, growth: 8 }),
    heading('M31', 'The plan, checked rule by rule'),
    formula(
      'M32',
      '=PINSET.CHECKLOADS(A5#, Lots[#All], Strains[#All], Rooms[#All], Orders[#All], Calendar[#All], Standing[#All], Settings[#All])',
      ['text', 'date', 'text', 'number', 'number', 'text'],
      { headed: true, growth: 12 },
    ),
  ],
  highlights: [{ range: 'A6:K80', when: '=AND($A6<>"",$A6=Today)', tint: 'soon' }],
  widths: { K: 80 },
  freeze: 'A6',
};
