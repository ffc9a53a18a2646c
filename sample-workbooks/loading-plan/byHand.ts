import { column, formula, heading, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const byHand: Sheet = {
  name: 'By hand',
  title: 'A week planned by hand, checked',
  notes: [
    'Type the loads you have in mind on the right: the list says every rule they break. Two slips are left in on purpose.',
    'Only this week is typed, so orders of later weeks come out short as well.',
  ],
  things: [
    formula(
      'A5',
      '=PINSET.CHECKLOADS(MyLoads[#All], Lots[#All], Strains[#All], Rooms[#All], Orders[#All], Calendar[#All], Standing[#All], Settings[#All])',
      ['text', 'date', 'text', 'number', 'number', 'text'],
      { headed: true, growth: 20 },
    ),
    heading('H4', 'My loads'),
    table(
      'H5',
      'MyLoads',
      [
        column('Loaded', 'date'),
        column('Lot', 'text', 'Lots[Lot]'),
        column('Room', 'text', 'Rooms[Room]'),
        column('Blocks', 'count'),
      ],
      [
        ['2026-05-04', 'A-061', 'North', 72],
        ['2026-05-05', 'B-107', 'Vault', 40],
        ['2026-05-06', 'A-062', 'South', 60],
        ['2026-05-07', 'H-021', 'Vault', 30],
        ['2026-05-08', 'A-062', 'North', 24],
      ],
    ),
  ],
  freeze: 'A6',
};
