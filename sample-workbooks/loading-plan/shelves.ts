import { chart, formula, heading, inputs, spilled, type Sheet } from '../../src/hosts/xlsx/describe';

export const shelves: Sheet = {
  name: 'Shelf use',
  title: 'Shelf use of one room',
  notes: [
    'What is on the shelves now and what the plan adds, against the room’s places. The full lists of all rooms are to the right.',
  ],
  things: [
    inputs('A4', {
      label: 'Room',
      value: 'North',
      reads: 'text',
      choices: 'Rooms[Room]',
      remark: 'Choose a room.',
    }),
    formula('A7', '=FILTER(INDEX(I7#, 0, 1), INDEX(I7#, 0, 2) = B4)', 'date', {
      headers: ['Date'],
      growth: 10,
    }),
    formula('B7', '=FILTER(INDEX(I7#, 0, 3), INDEX(I7#, 0, 2) = B4)', 'count', {
      headers: ['Standing'],
      growth: 10,
    }),
    formula('C7', '=FILTER(INDEX(P7#, 0, 3), INDEX(P7#, 0, 2) = B4)', 'count', {
      headers: ['From the plan'],
      growth: 10,
    }),
    formula('D7', '=FILTER(INDEX(I7#, 0, 4), INDEX(I7#, 0, 2) = B4)', 'count', {
      headers: ['Places'],
      growth: 10,
    }),
    formula('E7', '=D7#-B7#-C7#', 'count', { headers: ['Free'], growth: 10 }),
    chart('A58:G76', 'stacked', 'Blocks on the shelves and places', {
      across: spilled('A7', 1),
      series: [
        { title: 'Standing', values: spilled('B7', 1) },
        { title: 'From the plan', values: spilled('C7', 1) },
      ],
      limits: [{ title: 'Places', values: spilled('D7', 1) }],
      acrossReads: 'date',
      upReads: 'count',
    }),
    heading('I5', 'On the shelves now'),
    formula(
      'I7',
      '=PINSET.SHELFUSE(Standing[#All], Rooms[#All], Strains[#All], Today, Today+PlanDays+20)',
      ['date', 'text', 'count', 'count', 'count', 'text'],
      { headed: true, growth: 30 },
    ),
    heading('P5', 'What the plan adds'),
    formula(
      'P7',
      '=PINSET.SHELFUSE(Plan!A5#, Rooms[#All], Strains[#All], Today, Today+PlanDays+20)',
      ['date', 'text', 'count', 'count', 'count', 'text'],
      { headed: true, growth: 30 },
    ),
  ],
  freeze: 'A7',
};
