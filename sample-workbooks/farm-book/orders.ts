import {
  calculatedColumn,
  chart,
  column,
  figures,
  formula,
  spilled,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';

const growth = 12;

export const orders: Sheet = {
  name: 'Orders',
  title: 'Orders of the week of 6 April 2026: the blocks to load',
  notes: [
    'Only first flushes are counted, so that an order does not wait for the second. Efficiency, loss and share come from Strains.',
  ],
  things: [
    formula('A5', '=Orders[Customer]', 'text', { headers: ['Customer'], spills: true, growth }),
    formula('B5', '=Orders[Strain]', 'text', { headers: ['Strain'], spills: true, growth }),
    formula(
      'C5',
      '=PINSET.BLOCKSFOR(Orders[Wanted (kg)], Orders[Block mass (kg)], Orders[Moisture], Orders[Efficiency], Orders[Loss], Orders[First flush])',
      'count',
      { headers: ['Blocks to load'], growth },
    ),
    formula(
      'D5',
      '=PINSET.EXPECTEDYIELD(C5#, Orders[Block mass (kg)], Orders[Moisture], Orders[Efficiency], Orders[Loss], Orders[First flush])',
      'mass',
      { headers: ['They give (kg)'], growth },
    ),
    figures(
      'F4',
      { label: 'Blocks in all', formula: '=SUM(C5#)', reads: 'count' },
      { label: 'Wanted (kg)', formula: '=SUM(Orders[Wanted (kg)])', reads: 'mass' },
      { label: 'First due', formula: '=MIN(Orders[Due])', reads: 'date' },
    ),
    chart('F8:M24', 'column', 'Wanted, and what whole blocks give (kg)', {
      says: 'For each order, the kilograms wanted beside the kilograms that whole blocks give.',
      across: 'Orders[Customer]',
      series: [
        { title: 'Wanted', values: 'Orders[Wanted (kg)]' },
        { title: 'Blocks give', values: spilled('D5') },
      ],
      upReads: 'mass',
    }),
    table(
      'O4',
      'Orders',
      [
        column('Customer'),
        column('Strain', 'text', 'Strains[Strain]'),
        column('Wanted (kg)', 'mass'),
        column('Due', 'date'),
        column('Block mass (kg)', 'mass'),
        column('Moisture', 'percent'),
        calculatedColumn(
          'Efficiency',
          'percent',
          '=INDEX(Strains[Efficiency], MATCH([@Strain], Strains[Strain], 0))',
        ),
        calculatedColumn('Loss', 'percent', '=INDEX(Strains[Loss], MATCH([@Strain], Strains[Strain], 0))'),
        calculatedColumn(
          'First flush',
          'percent',
          '=INDEX(Strains[Flush 1], MATCH([@Strain], Strains[Strain], 0))',
        ),
      ],
      [
        ['Saturday market', 'Birch-1', 42, '2026-04-11', 3.2, 0.63],
        ['Saturday market', 'Alder-3', 30, '2026-04-11', 2.4, 0.6],
        ['Bridge kitchen', 'Rowan-2', 12, '2026-04-08', 2.2, 0.61],
        ['Bridge kitchen', 'Willow-4', 9, '2026-04-08', 2, 0.62],
        ['Village shop', 'Birch-1', 15, '2026-04-07', 3.2, 0.63],
        ['Village shop', 'Hazel-6', 18, '2026-04-07', 2.4, 0.59],
        ['Box scheme', 'Alder-3', 48, '2026-04-09', 2.4, 0.6],
        ['Box scheme', 'Maple-5', 6, '2026-04-09', 2.6, 0.6],
      ],
    ),
  ],
  freeze: 'A5',
  prints: 'A:M',
};
