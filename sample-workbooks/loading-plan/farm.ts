import { asTyped, column, heading, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const farm: Sheet = {
  name: 'Farm',
  title: 'Farm: rooms, working days and settings',
  notes: [
    'What the plan must keep to. South is emptied and cleaned in June: nothing is loaded that would still be there then.',
    'Working days: a date goes before its weekday, as on 14 May, when half the crew is away. Write off for no work that day, none for no limit.',
    'Margin: orders are filled as if yields were 5% lower. A setting that is not in the list has its usual value.',
  ],
  things: [
    heading('A6', 'Rooms'),
    table(
      'A7',
      'Rooms',
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
      ],
    ),
    heading('H6', 'Working days'),
    table(
      'H7',
      'Calendar',
      [column('Day', 'date'), column('Pick limit (kg)', 'mass'), column('Load limit', 'count')],
      [
        [asTyped('Monday'), 22, 90],
        [asTyped('Tuesday'), 22, 90],
        [asTyped('Wednesday'), 22, 90],
        [asTyped('Thursday'), 22, 90],
        [asTyped('Friday'), 22, 90],
        [asTyped('Saturday'), 14, asTyped('off')],
        [asTyped('Sunday'), 10, asTyped('off')],
        ['2026-05-14', 12, asTyped('off')],
      ],
    ),
    heading('L6', 'Settings'),
    table(
      'L7',
      'Settings',
      [column('Name'), column('Value', { code: 'General' })],
      [
        ['margin', 0.05],
        ['comfort days', 5],
        ['smallest load', 6],
        ['freeze days', asTyped('none')],
        ['whole shelves', asTyped('no')],
      ],
    ),
  ],
};
