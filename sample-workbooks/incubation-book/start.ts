import { figures, heading, inputs, remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'Dapplewick Barn – incubation book',
  notes: [
    'An invented farm: no such place, and every strain, lot, reading and date in this book is made up.',
    'It answers four questions: what is ready, what to start when, how fast it ripens, and what came from what.',
  ],
  things: [
    inputs('A5', {
      label: 'Today',
      value: '2026-03-16',
      reads: 'date',
      name: 'Today',
      remark: 'Every sheet counts from this one cell. Type a date; =TODAY() works too.',
    }),

    heading('A7', 'This morning'),
    figures(
      'A8',
      {
        label: 'Lots ready by their stage',
        formula: '=SUMPRODUCT(--(Ripening!H9:H80&""="ready"))',
        reads: 'count',
        remark: 'not loaded yet: the green stages in Ripening',
      },
      {
        label: 'Lots over age',
        formula: '=SUMPRODUCT(--(Ripening!H9:H80&""="over age"))',
        reads: 'count',
      },
      {
        label: 'The logged lot is along by',
        formula: '=Logger!D10',
        reads: 'percent',
        remark: 'see Logger',
      },
      {
        label: 'Blocks to hold back',
        formula: '=Lineage!G5',
        reads: 'count',
        remark: 'they share the bad lot named in Lineage',
      },
    ),

    heading('A13', 'The sheets'),
    remark(
      'A14',
      'Strains – days to ready and growth temperatures of each strain; every other sheet looks strains up here.',
      'Ripening – each lot’s stage, its ready date in a room at another temperature, and what the records say.',
      'Planning – blocks coming ready and going over age by week, inoculation dates, and spawn worked backwards.',
      'Logger – a room’s readings for twelve weeks, and how far a lot in it has come.',
      'Lineage – the recall list after a bad bag, where a lot came from, and labels that give a slip away.',
    ),

    heading('A20', 'What to try'),
    remark(
      'A21',
      'Ripening: make the room two degrees cooler and see the ready dates move.',
      'Planning: choose another strain for the chart; raise the blocks wanted and read what spawn it takes.',
      'Logger: type an earlier date for Today and watch the ready date being forecast from fewer readings.',
      'Lineage: name S-112 as the bad lot; mistype a label and select the cell to read the reason.',
    ),
  ],
  upright: true,
  widths: { A: 30, B: 14 },
};
