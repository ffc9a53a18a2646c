import {
  chart,
  column,
  formula,
  heading,
  inputs,
  remark,
  spilled,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';

export const planning: Sheet = {
  name: 'Planning',
  title: 'Planning',
  notes: [
    'What comes ready in the weeks ahead and what goes over age, what to inoculate for orders to come, and the spawn for it.',
  ],
  things: [
    heading('A3', 'Blocks week by week'),
    inputs(
      'A4',
      { label: 'Weeks from', value: '2026-03-16', reads: 'date' },
      { label: 'Weeks to', value: '2026-06-07', reads: 'date' },
      { label: 'Strain in the chart', value: 'Alder-3', reads: 'text', choices: 'Strains[Strain]' },
    ),
    heading('A9', 'Openings, beside the dates in Ripening'),
    table(
      'A10',
      'Openings',
      [
        column('Loaded', 'date'),
        column('Lot', 'text', 'Shelves[Lot]'),
        column('Strain', 'text', 'Strains[Strain]'),
        column('Blocks', 'count'),
      ],
      [
        ['2026-03-18', null, 'Birch-1', 40],
        ['2026-03-20', null, 'Alder-3', 60],
        ['2026-03-25', null, 'Birch-1', 24],
        ['2026-03-27', null, 'Alder-3', 40],
      ],
    ),
    remark('A16', 'A load that names only a strain takes', 'its ready blocks nearest to going over age.'),

    formula(
      'F3',
      '=PINSET.RIPECALENDAR(Shelves[#All], Strains[#All], B4, B5, "week", Openings[#All])',
      ['date', 'text', 'count'],
      { headed: true, growth: 40 },
    ),
    heading('M2', 'The strain in the chart'),
    formula(
      'M3',
      '=PINSET.RIPECALENDAR(Shelves[#All], Strains[#All], B4, B5, "week", Openings[#All], B6)',
      ['date', 'text', 'count'],
      { headed: true, growth: 20 },
    ),
    chart('M18:S34', 'column', 'Blocks in hand and going over age', {
      says: 'Blocks in hand of the chosen strain, and those of them going over age, side by side.',
      across: spilled('M3', 1),
      series: [
        { title: 'In hand', values: spilled('M3', 6) },
        { title: 'Going over age', values: spilled('M3', 5) },
      ],
      acrossReads: 'date',
      upReads: 'count',
    }),

    heading('A20', 'Inoculate by'),
    table(
      'A21',
      'Wanted',
      [column('First pick', 'date'), column('Strain', 'text', 'Strains[Strain]')],
      [
        ['2026-06-15', 'Alder-3'],
        ['2026-06-22', 'Alder-3'],
        ['2026-06-15', 'Hazel-6'],
        ['2026-04-27', 'Birch-1'],
        ['2026-05-11', 'Willow-4'],
        ['2026-04-27', 'Rowan-2'],
      ],
    ),
    formula('C22', '=PINSET.INOCULATEBY(Wanted[First pick], Wanted[Strain], Strains[#All])', 'date', {
      headers: ['Inoculate by'],
      growth: 8,
    }),

    heading('U2', 'Spawn, worked backwards'),
    inputs(
      'U3',
      { label: 'Good blocks wanted', value: 400, reads: 'count' },
      { label: 'Ready on', value: '2026-09-14', reads: 'date' },
      { label: 'Planned over', value: 0.05, reads: 'percent' },
    ),
    table(
      'U8',
      'SpawnSteps',
      [
        column('Step'),
        column('Makes', 'count'),
        column('Days', 'count'),
        column('Loss', 'percent'),
        column('Mass (kg)', 'mass'),
        column('Batch', 'count'),
        column('Max generation', 'count'),
      ],
      [
        ['mother culture', 6, 12, 0.1, null, 1, 1],
        ['grain jar', 10, 16, 0.06, 1.2, 6, 2],
        ['grain bag', 20, 18, 0.04, 2.5, 4, 3],
        ['block', null, 84, 0.04, 2.4, 24, 3],
      ],
    ),
    formula(
      'U15',
      '=PINSET.SPAWNCHAIN(V3, V4, SpawnSteps[#All], V5)',
      ['text', 'count', 'count', 'count', 'date', 'date', 'mass', 'text'],
      { headed: true, growth: 4 },
    ),
    remark(
      'U25',
      'Makes: good units of the next step from one. Losses are averages: plan over for a bad run.',
    ),
  ],
};
