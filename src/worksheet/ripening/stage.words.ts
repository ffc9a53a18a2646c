import type { Words } from '../words';

const exampleStages = [
  ['strain', 'stage', 'from day'],
  ['Alder-3', 'spawn run', 0],
  ['Alder-3', 'browning', 21],
  ['Alder-3', 'ready', 48],
];

export const words: Words = {
  summary: 'Name of the stage each lot is in on a date, by your own table of stages.',
  notes: [
    'The day of inoculation is day 0. Of the strain’s stages that have begun by the date, the answer is the one that began last.',
    'To ask about today, put today’s date in a cell of its own and point to it.',
  ],
  sources: ['Calendar arithmetic on your own table of stages'],
  questions: ['what stage is a lot in', 'browning yet', 'how far along'],
  examples: [
    {
      title: 'Inoculated on 2 February 2026, on 1 March (day 27) and 22 March (day 48)',
      arguments: [[[46055], [46055]], [[46082], [46103]], 'Alder-3', exampleStages],
      gives: [['browning'], ['ready']],
    },
  ],
  faults: [
    {
      arguments: [46055, 46082, 'Birch-1', exampleStages],
      code: '#N/A',
      says: 'strain: "Birch-1" is not in stages',
      remedy: 'Add the stages of the strain to the table of stages.',
    },
    {
      arguments: [46055, 46054, 'Alder-3', exampleStages],
      code: '#VALUE!',
      says: 'on must not be before inoculated (2026-02-02); it is 2026-02-01',
      remedy: 'The lot was not inoculated by that date: correct one of the two.',
    },
    {
      arguments: [46055, 46055, 'Alder-3', [...exampleStages.slice(0, 1), ...exampleStages.slice(2)]],
      code: '#N/A',
      says: 'stages: no stage of this strain has begun on day 0; the first begins on day 21',
      remedy: 'Give the strain a stage from day 0.',
    },
    {
      arguments: [46055, 46082, 'Alder-3', [...exampleStages, ['Alder-3', 'resting', 21]]],
      code: '#VALUE!',
      says: 'stages must have one stage from day 21; it has "browning" and "resting"',
      remedy: 'Two stages of the strain begin on the same day: correct or remove one.',
    },
  ],
};
