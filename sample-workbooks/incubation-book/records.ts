import { formula, type Sheet } from '../../src/hosts/xlsx/describe';

export const records: Sheet = {
  name: 'Records',
  title: 'What the records say: days until ready',
  notes: [
    'From the lots of Ripening, with 95% intervals. Lots still waiting count too: without them strains look faster.',
  ],
  things: [
    formula(
      'A4',
      '=PINSET.READYSTATS(Shelves[Strain], Shelves[Inoculated], Shelves[Ready], Today)',
      ['text', 'count', 'count', { code: '0.#' }],
      { headed: true, growth: 6 },
    ),
  ],
};
