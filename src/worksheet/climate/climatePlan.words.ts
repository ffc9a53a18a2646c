import type { Words } from '../words';
import { CO2, SPORES } from './examples';

export const words: Words = {
  summary: 'Set points of rooms on a date, read off your own programme by days since loading.',
  notes: [
    'One row of set points for each loaded room, under a row of headers.',
    'Numbers run straight between the days of the programme. Before its first day and after its last they stay as on that day.',
    'Words (lights on, lights off) hold until the next. A blank among numbers is refused: for 0 write none.',
    'Common practice, no source: humidity of 90 to 95% at pinning, coming down to the low 80s at harvest.',
  ],
  cautions: [CO2, SPORES],
  sources: ['Linear interpolation; the programme is your own'],
  questions: ['what to set the room to today', 'set points', 'temperature and humidity by day'],
  examples: [
    {
      title: 'Half-way between days 4 and 12 of the programme, and on day 0',
      arguments: [
        [[46000], [46008]],
        46008,
        [
          ['day', 'temperature', 'humidity', 'light'],
          [0, 18, 0.95, 'off'],
          [4, 16, 0.95, 'on'],
          [12, 14, 0.83, null],
        ],
      ],
      gives: [
        ['day', 'temperature', 'humidity', 'light'],
        [8, 15, 0.89, 'on'],
        [0, 18, 0.95, 'off'],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        46008,
        46000,
        [
          ['day', 'humidity'],
          [0, 0.95],
        ],
      ],
      code: '#VALUE!',
      says: 'on must not be before loaded (2025-12-17); it is 2025-12-09',
      remedy: 'Check the two dates.',
    },
    {
      arguments: [
        46000,
        46008,
        [
          ['day', 'humidity'],
          [4, 0.95],
          [4, 0.9],
        ],
      ],
      code: '#VALUE!',
      says: 'day in programme must have each day in one row; 4 is in two (row 3 of programme)',
      remedy: 'For a jump give two days close together, such as 4 and 4.01.',
    },
    {
      arguments: [
        46000,
        46008,
        [
          ['day', 'humidity'],
          [4, 0.95],
          [12, '90%'],
        ],
      ],
      code: '#VALUE!',
      says: 'humidity in programme must be a number in every row or a word in every row; it is "90%" (row 3 of programme)',
      remedy: 'Type numbers that are stored as text again.',
    },
    {
      arguments: [
        46000,
        46008,
        [
          ['day', 'humidity'],
          [4, 0.95],
          [12, null],
        ],
      ],
      code: '#VALUE!',
      says: 'humidity in programme must have a number in every row; it is blank or 0 – for 0 write none (row 3 of programme)',
      remedy: 'Fill in the set point of that day.',
    },
    {
      arguments: [46000, 46008, [['day', 'humidity']]],
      code: '#N/A',
      says: 'programme has no row with a day',
      remedy: 'Give at least one day of the programme.',
    },
  ],
};
