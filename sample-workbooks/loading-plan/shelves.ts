import { chart, formula, heading, inputs, spilled, type Sheet } from '../../src/hosts/xlsx/describe';

/** The days of the chosen room. */
const useOf = (loads: string): string =>
  `=PINSET.SHELFUSE(${loads}, Rooms[#All], Strains[#All], Today, Today+PlanDays+20, I4)`;

export const shelves: Sheet = {
  name: 'Shelf use',
  title: 'Shelf use of one room',
  notes: ['What is on the shelves of a room now and what the plan adds, against its places.'],
  things: [
    heading('A4', 'On the shelves now'),
    formula('A5', useOf('Standing[#All]'), ['date', 'text', 'count', 'count', 'count', 'text'], {
      headed: true,
      growth: 10,
    }),
    heading('Q4', 'What the plan adds'),
    formula('Q5', useOf('Plan!A5#'), ['date', 'text', 'count', 'count', 'count', 'text'], {
      headed: true,
      growth: 10,
    }),
    formula('X5', '=IFERROR(INDEX(A5#, 0, 5)-INDEX(Q5#, 0, 3), "Free with both")', 'count', {
      headed: true,
      growth: 10,
    }),
    inputs('H4', {
      label: 'Room',
      value: 'North',
      reads: 'text',
      choices: 'Rooms[Room]',
      remark: 'Choose a room.',
    }),
    chart('H6:O24', 'stacked', 'Blocks on the shelves and places', {
      says: 'Blocks on the shelves of the chosen room each day, standing and from the plan on top of each other, under the places it has. No column should rise above its mark.',
      across: spilled('A5', 1),
      series: [
        { title: 'Standing', values: spilled('A5', 3) },
        { title: 'From the plan', values: spilled('Q5', 3) },
      ],
      limits: [{ title: 'Places', values: spilled('A5', 4) }],
      acrossReads: 'date',
      upReads: 'count',
    }),
  ],
  freeze: 'A6',
  prints: 'A:O',
  upright: true,
};
