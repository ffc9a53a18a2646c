import {
  chart,
  column,
  figures,
  formula,
  heading,
  inputs,
  spilled,
  table,
  type Sheet,
} from '../../src/hosts/xlsx/describe';
import { cropTable } from './crops';

export const costs: Sheet = {
  name: 'Costs',
  title: 'Costs: what a block costs, and what shelves earn',
  notes: [
    'Amounts are invented. Per block, per batch (all lots together), per kg picked, per shelf and day.',
  ],
  things: [
    figures(
      'A4',
      {
        label: 'Cost of a block',
        formula: '=PINSET.BLOCKCOST(Costs[#All], SUM(Lots[Blocks]))',
        reads: 'money',
      },
      {
        label: 'Efficiency that pays for it',
        formula: '=PINSET.BREAKEVEN(Costs[#All], SUM(Lots[Blocks]), 2.5, 60%, Price, PerShelf, 45)',
        reads: 'percent',
        remark: '2.5 kg at 60%, 45 days on the shelf',
      },
    ),
    heading('A7', 'Margin per shelf and day: what to rank strains by where shelves are short'),
    formula(
      'A8',
      `=PINSET.SHELFDAYMARGIN(Costs[#All], ${cropTable}, Price, PerShelf)`,
      ['text', 'count', 'number', 'money', 'money', 'money', 'money', 'money', 'money'],
      { headed: true, growth: 6 },
    ),
    heading('K7', 'Cost per kg, lot by lot'),
    formula(
      'K8',
      `=PINSET.COSTPERMASS(Costs[#All], ${cropTable}, PerShelf)`,
      ['text', 'count', 'mass', 'money', 'money'],
      { headed: true, growth: 10 },
    ),
    chart('Q7:X23', 'column', 'Cost per kg, lot by lot', {
      says: 'What a kilogram of each lot cost, a column a lot.',
      across: spilled('K8', 1),
      series: [{ title: 'Cost per kg', values: spilled('K8', 5) }],
      upReads: 'money',
    }),
    inputs('Z4', { label: 'Price per kg', value: 11.5, reads: 'money', name: 'Price' }),
    table(
      'Z6',
      'Costs',
      [
        column('Item'),
        column('Amount', 'money'),
        column('Per', 'text', ['block', 'batch', 'mass', 'shelf day']),
      ],
      [
        ['substrate', 1.1, 'block'],
        ['spawn', 0.45, 'block'],
        ['bag and label', 0.3, 'block'],
        ['filling and steaming, labour', 1900, 'batch'],
        ['steam and power', 650, 'batch'],
        ['picking and packing', 2.4, 'mass'],
        ['room, heating and air', 0.35, 'shelf day'],
      ],
    ),
  ],
  prints: 'A:I',
};

export const coldChain: Sheet = {
  name: 'Cold chain',
  title: 'Cold chain: the life that is left',
  notes: [
    'From a logger that rode with a delivery. Quality only: food safety is another matter, see your own plan and local rules.',
  ],
  things: [
    formula('A5', '=PINSET.SHELFLIFE(Log[Time], Log[Temperature (°C)], B8, B9, B10)', ['percent', 'number'], {
      headers: ['Life used', 'Days left'],
    }),
    inputs(
      'A8',
      { label: 'Days they keep', value: 11, reads: 'days', remark: 'at the reference; your own records' },
      { label: 'Reference (°C)', value: 4, reads: 'temperature' },
      { label: 'Q10', value: 1.9, reads: 'number', remark: 'shiitake 1.9, oyster 2.8, button 1.5 to 2.2' },
    ),
    table(
      'E4',
      'Log',
      [column('Time', 'dateTime'), column('Temperature (°C)', 'temperature')],
      [
        ['2026-03-16 06:00', 12],
        ['2026-03-16 07:00', 6],
        ['2026-03-16 09:00', 2.5],
        ['2026-03-16 18:00', 2],
        ['2026-03-17 06:00', 2.2],
        ['2026-03-17 08:30', 9],
        ['2026-03-17 11:00', 14],
        ['2026-03-17 12:00', 5],
        ['2026-03-18 08:00', 4],
      ],
    ),
  ],
  widths: { C: 36 },
};
