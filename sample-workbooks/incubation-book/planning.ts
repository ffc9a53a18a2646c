import {
  chart,
  column,
  formula,
  heading,
  inputs,
  spilled,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';

const calendarOf = (strain = ''): string =>
  `=PINSET.RIPECALENDAR(Shelves[#All], Strains[#All], U5, U6, "week", Openings[#All]${strain})`;

export const weeks: Sheet = {
  name: 'Weeks ahead',
  title: 'Blocks coming ready and going over age, week by week',
  notes: [
    'From the lots of Ripening and the openings on the right. A load that names only a strain takes its ready blocks nearest to going over age.',
  ],
  things: [
    formula('A4', calendarOf(), ['date', 'text', 'count'], { headed: true, growth: 40 }),
    chart('I5:Q21', 'column', 'Blocks in hand and going over age', {
      says: 'Blocks in hand of the chosen strain, and those of them going over age, side by side.',
      across: spilled('Y4', 1),
      series: [
        { title: 'In hand', values: spilled('Y4', 6) },
        { title: 'Going over age', values: spilled('Y4', 5) },
      ],
      acrossReads: 'date',
      upReads: 'count',
    }),
    inputs(
      'T5',
      { label: 'Weeks from', value: '2026-03-16', reads: 'date' },
      { label: 'Weeks to', value: '2026-06-07', reads: 'date' },
      { label: 'Strain in the chart', value: 'Alder-3', reads: 'text', choices: 'Strains[Strain]' },
    ),
    heading('T9', 'Openings, beside the dates in Ripening'),
    table(
      'T10',
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
    heading('Y3', 'The strain in the chart'),
    formula('Y4', calendarOf(', U7'), ['date', 'text', 'count'], { headed: true, growth: 20 }),
  ],
  freeze: 'A5',
  prints: 'A:Q',
  upright: true,
};

export const inoculateBy: Sheet = {
  name: 'Inoculate by',
  title: 'Inoculate by',
  notes: [
    'The last day on which to inoculate, so that the first picks of the list on the right come on their day.',
  ],
  things: [
    formula('A5', '=Wanted[Strain]', 'text', { headers: ['Strain'], spills: true, growth: 8 }),
    formula('B5', '=PINSET.INOCULATEBY(Wanted[First pick], Wanted[Strain], Strains[#All])', 'date', {
      headers: ['Inoculate by'],
      growth: 8,
    }),
    table(
      'E4',
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
  ],
};

export const spawn: Sheet = {
  name: 'Spawn',
  title: 'Spawn, worked backwards',
  notes: [
    'What to start when, so that so many good blocks are ready on a day.',
    'Makes: good units of the next step from one. Losses are averages: plan over for a bad run.',
  ],
  things: [
    formula(
      'A5',
      '=PINSET.SPAWNCHAIN(L5, L6, SpawnSteps[#All], L7)',
      ['text', 'count', 'count', 'count', 'date', 'date', 'mass', 'text'],
      { headed: true, growth: 4 },
    ),
    inputs(
      'K5',
      { label: 'Good blocks wanted', value: 400, reads: 'count' },
      { label: 'Ready on', value: '2026-09-14', reads: 'date' },
      { label: 'Planned over', value: 0.05, reads: 'percent' },
    ),
    table(
      'N5',
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
  ],
  prints: 'A:I',
};
