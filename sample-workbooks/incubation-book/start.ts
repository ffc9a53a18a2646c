import { figures, heading, inputs, remark, type Sheet } from '../../src/hosts/xlsx/describe';

export const start: Sheet = {
  name: 'Start',
  title: 'Dapplewick Barn – incubation book',
  notes: [
    'An invented farm: no such place, and every strain, lot, reading and date in this book is made up.',
    'It answers four questions: what is ready, what to start when, how fast it ripens, and what came from what.',
  ],
  things: [
    heading('A5', 'This morning'),
    figures(
      'A6',
      {
        label: 'Lots ready by their stage',
        formula: '=SUMPRODUCT(--(Ripening!B6:B80&""="ready"))',
        reads: 'count',
        remark: 'not loaded yet: the green stages in Ripening',
      },
      {
        label: 'Lots over age',
        formula: '=SUMPRODUCT(--(Ripening!B6:B80&""="over age"))',
        reads: 'count',
      },
      {
        label: 'The logged lot is along by',
        formula: '=Logger!A6',
        reads: 'percent',
        remark: 'see Logger',
      },
      {
        label: 'Blocks to hold back',
        formula: '=Recall!G7',
        reads: 'count',
        remark: 'they share the bad lot named in Recall',
      },
    ),
    inputs('A11', {
      label: 'Today',
      value: '2026-03-16',
      reads: 'date',
      name: 'Today',
      remark: 'Every sheet counts from this one cell. Type a date; =TODAY() works too.',
    }),

    heading('A13', 'The sheets'),
    remark(
      'A14',
      'Ripening – each lot’s stage, and its best date in a room at another temperature. Records – what the records say.',
      'Weeks ahead – blocks coming ready and going over age by week. Inoculate by and Spawn – what to start when.',
      'Logger – a room’s readings for twelve weeks, and how far a lot in it has come. Growth – by temperature.',
      'Recall and Origin – the list after a bad bag, and where a lot came from. Labels – they give a slip away.',
      'Own sheet – the same answers from a log with other headers and dates as text.',
      'Strains, Stages and Family are only typed in: what is known of each strain, and which lot was made from which.',
    ),

    heading('A21', 'What to try'),
    remark(
      'A22',
      'Ripening: make the room two degrees cooler and see the best dates move.',
      'Weeks ahead: choose another strain for the chart. Spawn: raise the blocks wanted and read what it takes.',
      'Logger: type an earlier date for Today and watch the ready date being forecast from fewer readings.',
      'Recall: name S-112 as the bad lot. Labels: mistype a label and select the cell to read the reason.',
    ),
  ],
  upright: true,
  widths: { A: 30, B: 14 },
};
