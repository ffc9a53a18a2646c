import { chart, column, formula, spilled, table, type Sheet } from '../../src/hosts/xlsx/describe';
import { view } from './view';

export const orders: Sheet = {
  name: 'Orders',
  title: 'Orders: what the plan fills',
  notes: [
    'Why an order falls short where it does, and what would close the gap. On the right what is wanted: type there.',
    'Product: one of the lots’ products, a strain, or any. Keep days: how long before the due day it may be picked.',
  ],
  things: [
    formula('A5', view('orders'), ['text', 'date', 'date', 'mass', 'mass', 'mass', 'mass', 'text', 'text'], {
      headed: true,
      growth: 16,
    }),
    chart('K6:R22', 'stacked', 'Orders by due day (kg)', {
      says: 'Kilograms ordered for each due day: what the plan fills and, on top, what it falls short of.',
      across: spilled('A5', 3),
      series: [
        { title: 'Planned', values: spilled('A5', 5) },
        { title: 'Short', values: spilled('A5', 6) },
      ],
      acrossReads: 'date',
      upReads: 'mass',
    }),
    table(
      'T5',
      'Orders',
      [
        column('Customer'),
        column('Product'),
        column('Mass (kg)', 'mass'),
        column('Due', 'date'),
        column('Keep days', 'count'),
        column('Price', 'money'),
      ],
      [
        ['Saturday market', 'shiitake', 24, '2026-05-09', 4, 13],
        ['Saturday market', 'oyster', 24, '2026-05-09', 3, 10],
        ['Box scheme', 'shiitake', 22, '2026-05-14', 4, 12],
        ['Bridge kitchen', 'oyster', 9, '2026-05-13', 3, 11],
        ['Saturday market', 'shiitake', 28, '2026-05-16', 4, 13],
        ['Saturday market', 'oyster', 14, '2026-05-16', 3, 10],
        ['Box scheme', 'shiitake', 24, '2026-05-21', 4, 12],
        ['Bridge kitchen', 'oyster', 9, '2026-05-20', 3, 11],
        ['Bridge kitchen', 'Hazel-6', 20, '2026-05-22', 4, 15],
        ['Saturday market', 'shiitake', 28, '2026-05-23', 4, 13],
        ['Saturday market', 'oyster', 16, '2026-05-23', 3, 10],
        ['Box scheme', 'shiitake', 24, '2026-05-28', 4, 12],
        ['Bridge kitchen', 'oyster', 9, '2026-05-27', 3, 11],
        ['Saturday market', 'shiitake', 30, '2026-05-30', 4, 13],
        ['Saturday market', 'oyster', 16, '2026-05-30', 3, 10],
        ['Village fair', 'any', 60, '2026-06-06', 4, 9],
        ['Box scheme', 'shiitake', 24, '2026-06-11', 4, 12],
      ],
    ),
  ],
  highlights: [{ range: 'A6:I30', when: '=AND(ISNUMBER($F6),$F6>0)', tint: 'late' }],
  freeze: 'A6',
  prints: 'A:I',
};
