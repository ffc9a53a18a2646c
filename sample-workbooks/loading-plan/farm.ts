import {
  asTyped,
  column,
  formula,
  heading,
  inputs,
  remark,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';

export const farm: Sheet = {
  name: 'Farm',
  title: 'Rooms, working days and settings',
  notes: [
    'What the plan must keep to: places, what the crew can pick and load in a day, and what matters how much.',
  ],
  things: [
    heading('A4', 'Rooms'),
    table(
      'A5',
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
    remark('A10', 'South is emptied and cleaned in June: nothing is loaded that would still be there then.'),

    heading('A12', 'What a shelf holds'),
    table(
      'A13',
      'Shelves',
      [
        column('Room'),
        column('Shelf length (cm)', 'count'),
        column('Shelf depth (cm)', 'count'),
        column('Block length (cm)', 'count'),
        column('Block width (cm)', 'count'),
        column('Gap (cm)', 'count'),
      ],
      [
        ['North', 200, 60, 28, 14, 5],
        ['Vault', 180, 55, 33, 20, 8],
      ],
    ),
    formula(
      'G14',
      '=PINSET.SHELFBLOCKS(Shelves[Shelf length (cm)], Shelves[Shelf depth (cm)], Shelves[Block length (cm)], Shelves[Block width (cm)], Shelves[Gap (cm)])',
      ['count', 'text', 'count', 'count'],
      { headers: ['Blocks', 'Set', 'Along', 'Across'], growth: 1 },
    ),

    heading('A18', 'Working days'),
    table(
      'A19',
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
    remark(
      'A29',
      'A date goes before its weekday: on 14 May half the crew is away.',
      'Write off for no work that day, none for no limit.',
    ),

    heading('E18', 'Settings'),
    table(
      'E19',
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
    remark(
      'E26',
      'Margin: orders are filled as if yields were 5% lower.',
      'A setting that is not in the list has its usual value.',
    ),

    heading('H18', 'One load, or several?'),
    inputs(
      'H20',
      { label: 'Blocks', value: 120, reads: 'count' },
      { label: 'Yield of a block (kg)', value: 0.66, reads: 'number' },
      { label: 'Picked in a day at most (kg)', value: 8, reads: 'mass' },
      { label: 'Strain', value: 'Alder-3', reads: 'text', choices: 'Strains[Strain]' },
      { label: 'First day', value: '2026-05-04', reads: 'date' },
    ),
    formula(
      'H26',
      '=PINSET.SPLITLOAD(I20, I21, I22, I23, Strains[#All], I24)',
      ['count', 'date', 'count', 'date', 'date'],
      { headed: true, growth: 6 },
    ),
  ],
  widths: { H: 26 },
};
