import { figures, heading, inputs, remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'Dapplewick Barn – farm book',
  notes: [
    'An invented farm: no such place, and every strain, lot and weight in this book is made up.',
    'It shows what Pinset’s functions do in a working book. Copy the sheets you like and type your own figures over them.',
  ],
  things: [
    inputs('A5', {
      label: 'Today',
      value: '2026-03-16',
      reads: 'date',
      name: 'Today',
      remark: 'Every sheet counts from this one cell: type the day’s date.',
    }),

    heading('A7', 'This morning'),
    figures(
      'A8',
      {
        label: 'Lots to open',
        formula: '=Lots!Z9',
        reads: 'count',
        remark: 'ready by today and not loaded yet: the green dates in Lots',
      },
      { label: 'Blocks in them', formula: '=Lots!Z10', reads: 'count' },
      {
        label: 'Picked in the last 7 days (kg)',
        formula: '=SUMIFS(Picks[Mass (kg)], Picks[Date], ">"&Today-7, Picks[Date], "<="&Today)',
        reads: 'mass',
        remark: 'from Picks',
      },
      {
        label: 'Rows to correct in Lots',
        formula: '=Lots!Z13',
        reads: 'count',
        remark: 'rows whose ready date is an error: two, on purpose',
      },
    ),

    heading('A13', 'The sheets'),
    remark(
      'A14',
      'Strains – days to ready, picks and flushes of each strain; every other sheet looks strains up here.',
      'Lots – what was inoculated when; ready dates, windows and first picks for the whole column in one call each.',
      'Mix – a recipe, the weighing list for a batch, and the water for what is in the mixer.',
      'Picks – every pick; efficiency of each lot so far, beside what was expected.',
      'Orders – a week’s orders and the blocks to load for them.',
    ),

    heading('A20', 'What to try'),
    remark(
      'A21',
      'Lots: change an inoculation date and see its ready date move; add a row under the last and the results grow with it.',
      'Lots: choose earliest or latest in the yellow cell and the list of lots to open changes.',
      'Mix: change the share of bran (shares must sum to 100%) or the number of blocks, and read the new weighing list.',
      'Orders: raise an order and see how many blocks it takes.',
    ),

    heading('A26', 'Which cells are yours'),
    remark(
      'A27',
      'Straw-yellow cells, and the linen tables under green headers, are typed in. White cells under pale headers are calculated:',
      'one formula in the top cell fills the whole column. Type nothing under it, or it shows #SPILL!',
    ),

    heading('A30', 'How to read a fault'),
    remark(
      'A31',
      'A cell that shows #VALUE! or #N/A has a reason: select it and click the sign beside it. The reason names what is wrong,',
      'what was expected, what was given, and in which row. A bad row faults on its own; the rest of the column goes on.',
      'Four rows are wrong on purpose. In Lots: D138’s date is text, D143’s strain is written “Alder 3”, which is not in',
      'Strains, D141’s moisture is 62 and not 62% (its fault shows in Picks), and D166 has no date yet: blank is no fault.',
    ),
  ],
  widths: { A: 30, B: 14 },
};
