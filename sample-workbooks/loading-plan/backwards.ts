import { column, formula, heading, table, type Sheet } from '../../src/hosts/xlsx/describe';

export const backwards: Sheet = {
  name: 'Backwards',
  title: 'From autumn’s orders back to spawn: what to do, by date',
  notes: [
    'What to load, inoculate and start, and when, so that the orders on the right can be filled. Confidence: enough units are good with',
    'this chance, each lost by itself. A bad batch takes many at once: the true chance is lower.',
  ],
  things: [
    formula(
      'A5',
      '=PINSET.BACKPLAN(AutumnOrders[#All], Strains[#All], Steps[#All], Stock[#All], Calendar[#All], Certainty[#All], Today)',
      ['date', 'text', 'text', 'text', 'count', 'count', 'count', 'date', 'text'],
      { headed: true, growth: 20 },
    ),
    heading('K4', 'Orders of the autumn'),
    table(
      'K5',
      'AutumnOrders',
      [
        column('Product', 'text', 'Strains[Strain]'),
        column('Mass (kg)', 'mass'),
        column('Due', 'date'),
        column('Keep days', 'count'),
      ],
      [
        ['Alder-3', 60, '2026-10-10', 4],
        ['Alder-3', 60, '2026-10-17', 4],
        ['Alder-3', 75, '2026-10-24', 4],
        ['Birch-1', 30, '2026-10-10', 3],
        ['Birch-1', 30, '2026-10-17', 3],
      ],
    ),
    heading('P4', 'Steps'),
    table(
      'P5',
      'Steps',
      [
        column('Step'),
        column('Makes', 'count'),
        column('Days', 'count'),
        column('Loss', 'percent'),
        column('Store days', 'count'),
        column('Cadence', 'count'),
        column('Strain', 'text', 'Strains[Strain]'),
      ],
      [
        ['mother culture', 6, 12, 0.1, 60, null, null],
        ['grain jar', 10, 16, 0.06, 21, 7, null],
        ['grain bag', 20, 18, 0.04, 14, null, null],
        ['block', null, 84, 0.04, null, null, null],
        ['mother culture', 6, 10, 0.1, 60, null, 'Birch-1'],
        ['grain bag', 24, 14, 0.04, 14, null, 'Birch-1'],
        ['block', null, 18, 0.03, null, null, 'Birch-1'],
      ],
    ),
    heading('X4', 'In stock'),
    table(
      'X5',
      'Stock',
      [
        column('Strain', 'text', 'Strains[Strain]'),
        column('Step'),
        column('Units', 'count'),
        column('Ready', 'date'),
        column('Good until', 'date'),
      ],
      [['Alder-3', 'grain jar', 2, '2026-06-01', '2026-07-10']],
    ),
    heading('AD4', 'How sure'),
    table('AD5', 'Certainty', [column('Name'), column('Value', { code: '0%' })], [['confidence', 0.9]]),
  ],
  highlights: [{ range: 'A6:I60', when: '=LEFT($I6,7)="overdue"', tint: 'late' }],
  freeze: 'A6',
  prints: 'A:I',
  widths: { I: 64 },
};
