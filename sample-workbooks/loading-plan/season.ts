import { column, formula, heading, inputs, remark, table, type Sheet } from '../../src/hosts/xlsx/describe';

const played = (rooms: string): string =>
  `=PINSET.SEASON(Lots[#All], Strains[#All], ${rooms}[#All], Orders[#All], Today, N5, Calendar[#All], Standing[#All], Settings[#All], N6, N7)`;

export const season: Sheet = {
  name: 'Season',
  title: 'The season played: with the rooms there are, and with one more',
  notes: [
    'Each week is planned again and its first days are done. Both lists play the same season, so they differ by the room alone.',
  ],
  things: [
    heading('A4', 'With the rooms there are'),
    formula('A5', played('Rooms'), ['text', 'number', 'number', 'number', 'text'], {
      headed: true,
      growth: 2,
    }),
    heading('G4', 'With a fourth room'),
    formula('G5', played('MoreRooms'), ['text', 'number', 'number', 'number', 'text'], {
      headed: true,
      growth: 2,
    }),
    inputs(
      'M5',
      { label: 'Weeks', value: 5, reads: 'count' },
      { label: 'Rule', value: 'plan', reads: 'text' },
      { label: 'Seasons', value: 1, reads: 'count' },
    ),
    remark(
      'M9',
      'Rule: plan, certain, thumb, or blocks a week.',
      'No strain has a spread here: all seasons would go alike.',
      'Annex is not built yet: change its shelves',
      'and see what they are worth.',
    ),
    heading('T4', 'Rooms, with one more'),
    table(
      'T5',
      'MoreRooms',
      [
        column('Room'),
        column('Shelves', 'count'),
        column('Blocks per shelf', 'count'),
        column('Closed from', 'date'),
        column('Closed to', 'date'),
        column('Strains'),
      ],
      [
        ['North', 30, 12, null, null, 'Alder-3, Hazel-6'],
        ['South', 20, 12, '2026-06-15', '2026-06-19', 'Alder-3, Hazel-6'],
        ['Vault', 18, 8, null, null, 'Birch-1'],
        ['Annex', 10, 12, null, null, null],
      ],
    ),
  ],
  prints: 'A:K',
};
