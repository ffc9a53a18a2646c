import { figures, heading, inputs, remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'Dapplewick Barn – farm book',
  notes: [
    'An invented farm: no such place, and every strain, lot and weight in this book is made up.',
    'It shows what Pinset’s functions do in a working book. Copy the sheets you like and type your own figures over them.',
  ],
  things: [
    heading('A5', 'This morning'),
    figures(
      'A6',
      {
        label: 'Lots to open',
        formula: '=Ready!L6',
        reads: 'count',
        remark: 'ready by today and not loaded yet: the green dates in Lots',
      },
      { label: 'Blocks in them', formula: '=Ready!L7', reads: 'count' },
      {
        label: 'Picked in the last 7 days (kg)',
        formula: '=SUMIFS(Picks[Mass (kg)], Picks[Date], ">"&Today-7, Picks[Date], "<="&Today)',
        reads: 'mass',
        remark: 'from Picks',
      },
      {
        label: 'Rows to correct in Lots',
        formula: '=Ready!L10',
        reads: 'count',
        remark: 'rows whose ready date is an error: two, on purpose',
      },
    ),
    inputs(
      'A11',
      {
        label: 'Today',
        value: '2026-03-16',
        reads: 'date',
        name: 'Today',
        remark: 'Every sheet counts from this one cell: type the day’s date.',
      },
      {
        label: 'Open at',
        value: 'best',
        reads: 'text',
        name: 'OpenAt',
        choices: ['earliest', 'best', 'latest'],
        remark: 'earliest, best or latest: the point that the column Ready of Lots gives',
      },
    ),

    heading('A14', 'The sheets'),
    remark(
      'A15',
      'Ready – the lots to open in the next four weeks.',
      'Lots – what was inoculated when; ready dates, windows and first picks for the whole column in one call each.',
      'Mix and Mixer – the weighing list for a batch, and the water for what is in the mixer.',
      'Orders – a week’s orders and the blocks to load for them.',
      'Crops and Picked – what each lot has given so far beside what was expected, and all lots by week and by strain.',
      'Picks – every pick. Strains – days to ready, picks and flushes of each strain. Both are only typed in.',
    ),

    heading('A22', 'What to try'),
    remark(
      'A23',
      'Lots: change an inoculation date and see its ready date move; add a row under the last and the results grow with it.',
      'Choose earliest or latest beside Open at, and the dates in Lots and the lots to open change.',
      'Mix: change the share of bran (shares must sum to 100%) or the number of blocks, and read the new weighing list.',
      'Orders: raise an order and see how many blocks it takes.',
    ),

    heading('A28', 'Which cells are yours'),
    remark(
      'A29',
      'Straw-yellow cells, and the linen tables under green headers, are typed in. White cells under pale headers are calculated:',
      'one formula in the top cell fills the whole column. Type nothing under it, or it shows #SPILL!',
    ),

    heading('A32', 'How to read a fault'),
    remark(
      'A33',
      'A cell that shows #VALUE! or #N/A has a reason: select it and click the sign beside it. The reason names what is wrong,',
      'what was expected, what was given, and in which row. A bad row faults on its own; the rest of the column goes on.',
      'Four rows are wrong on purpose. In Lots: D138’s date is text, D143’s strain is written “Alder 3”, which is not in',
      'Strains, D141’s moisture is 62 and not 62% (its fault shows in Crops), and D166 has no date yet: blank is no fault.',
    ),
  ],
  upright: true,
  widths: { A: 30, B: 14 },
};
