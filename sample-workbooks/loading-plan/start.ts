import { figures, heading, inputs, remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'Dapplewick Barn – loading plan',
  notes: [
    'An invented farm: no such place, and every strain, lot, order, price and date in this book is made up.',
    'It answers one question: what to open when, in which room, so that no day swamps the crew and every order is met.',
  ],
  things: [
    heading('A5', 'This week'),
    figures(
      'A6',
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
        formula: '=COUNTIF(Orders!F6:F40, ">0")',
        reads: 'count',
        remark: 'causes and remedies are in Orders',
      },
    ),
    inputs(
      'A12',
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
    heading('A15', 'The sheets'),
    remark(
      'A16',
      'Plan – the loads, and a summary. Plan checked – a check of them, written apart from the plan.',
      'Orders – what the plan fills, what it falls short of and why. Picks – each day’s picking against the crew’s limit.',
      'Shelf use and Board – each room’s blocks against its places. Blocks – what becomes of each lot.',
      'By hand – type a week of your own and read which rules it breaks.',
      'Backwards – from orders of the autumn back to blocks, spawn and mother cultures. Season – what another room would bring.',
      'Shelf blocks and Split – what a shelf holds, and whether a load must be split.',
      'What you know goes into the straw cells of Orders and Blocks, and into Farm and Strains, which are only typed in.',
    ),
    heading('A24', 'Each week'),
    remark(
      'A25',
      'Move today’s finished loads from Plan below “On the shelves now” in Blocks, and take their blocks off the lots.',
      'Add new lots and orders, take off what is delivered, set Today, and read Plan again.',
    ),
    heading('A28', 'What to try'),
    remark(
      'A29',
      'Farm: lower Saturday’s pick limit and see the loads move to other days; write yes beside whole shelves.',
      'Orders: double the village fair and read what would close the gap.',
    ),
  ],
  upright: true,
  widths: { A: 30, B: 14 },
};
