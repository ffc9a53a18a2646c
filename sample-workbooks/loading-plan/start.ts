import { figures, heading, inputs, remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'Dapplewick Barn – loading plan',
  notes: [
    'An invented farm: no such place, and every strain, lot, order, price and date in this book is made up.',
    'It answers one question: what to open when, in which room, so that no day swamps the crew and every order is met.',
  ],
  things: [
    inputs(
      'A5',
      {
        label: 'Today',
        value: '2026-05-04',
        reads: 'date',
        name: 'Today',
        remark: 'Every sheet plans from this one cell.',
      },
      {
        label: 'Days to plan',
        value: 35,
        reads: 'count',
        name: 'PlanDays',
        remark: 'days on which blocks may be loaded; picking runs on after them',
      },
    ),
    heading('A8', 'This week'),
    figures(
      'A9',
      {
        label: 'Blocks to open today',
        formula: '=SUMIFS(Plan!E6:E80, Plan!A6:A80, Today)',
        reads: 'count',
        remark: 'see Plan',
      },
      {
        label: 'Blocks to open this week',
        formula: '=SUMIFS(Plan!E6:E80, Plan!A6:A80, ">="&Today, Plan!A6:A80, "<"&Today+7)',
        reads: 'count',
      },
      {
        label: 'To be picked this week (kg)',
        formula: '=SUMIFS(Picks!B5:B80, Picks!A5:A80, ">="&Today, Picks!A5:A80, "<"&Today+7)',
        reads: 'mass',
        remark: 'see Picks',
      },
      {
        label: 'Days over the limit',
        formula: '=COUNTIF(Picks!F5:F80, "<0")',
        reads: 'count',
        remark: 'only what is on the shelves already can bring a day over',
      },
      {
        label: 'Orders short',
        formula: '=COUNTIF(Orders!M6:M40, ">0")',
        reads: 'count',
        remark: 'causes and remedies are in Orders',
      },
    ),
    heading('A15', 'The sheets'),
    remark(
      'A16',
      'Strains, Farm, Blocks and Orders – what you know: fill in the straw cells.',
      'Plan – the loads, a summary, and a check written apart from the plan.',
      'Picks – each day’s picking against the crew’s limit. Shelf use and Board – each room’s blocks against its places.',
      'By hand – type a week of your own and read which rules it breaks.',
      'Backwards – from orders of the autumn back to blocks, spawn and mother cultures.',
    ),
    heading('A22', 'Each week'),
    remark(
      'A23',
      'Move today’s finished loads from Plan below “On the shelves now” in Blocks, and take their blocks off the lots.',
      'Add new lots and orders, take off what is delivered, set Today, and read Plan again.',
    ),
    heading('A26', 'What to try'),
    remark(
      'A27',
      'Farm: lower Saturday’s pick limit and see the loads move to other days; write yes beside whole shelves.',
      'Orders: double the village fair and read what would close the gap.',
    ),
  ],
  upright: true,
  widths: { A: 30, B: 14 },
};
