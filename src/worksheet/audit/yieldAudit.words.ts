import type { Words } from '../words';

const exampleStrains = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flushes', 'efficiency'],
  ['Alder-3', 7, 6, 18, 3, 0.8],
];

const HEADERS = [
  'table',
  'row',
  'lot',
  'code',
  'finding',
  'value',
  'expected',
  'if mended',
  'suspected slip',
  'how sure',
];

export const words: Words = {
  summary:
    'Finds what cannot be right in picks and lots: slips of unit, decimal, date, lot, flush, and says why.',
  notes: [
    'One line per finding, the surest first: cannot be, unlikely, look again. Each has a short code, what the cell holds, what was ' +
      'expected, and what it would be without the suspected slip. The row is counted from the header row of the table.',
    'Nothing is changed: look at the scales’ sheet before you correct.',
    'Masses are judged against the lot’s other picks and the strain’s other lots, in standard deviations of your own book. A book ' +
      'that spreads widely is not flooded with findings.',
    'A slip of pounds for kilograms (2.2 times) is found where picks of a lot are alike: about 6 in 10 at a spread of 15–20%. ' +
      'At a spread of 35% it is mostly missed.',
    'It was tried on synthetic books of 500 to 50,000 picks with planted slips and spreads of 15 to 35%. It found every slip that ' +
      'cannot be and 85% or more of slips of unit and decimal, and called 1 clean row in 350 or fewer.',
    'Settings: deviations (3), lowest efficiency (10%), highest efficiency (200%).',
  ],
  sources: [
    'Own rules; masses by medians and median absolute deviations: Iglewicz, B., Hoaglin, D. C. (1993) How to Detect and ' +
      'Handle Outliers',
    'Units: international avoirdupois pound of 0.45359237 kg exactly',
  ],
  questions: [
    'mistakes in my records',
    'check my picks for typing errors',
    'wrong weights',
    'more than possible',
  ],
  examples: [
    {
      title: 'A mass as text, a pick before the load, and 4.2 kg typed as 4200 g',
      arguments: [
        [
          ['lot', 'date', 'mass', 'flush'],
          ['A-101', 46007, 4.1, 1],
          ['A-101', 46008, '4,3', 1],
          ['A-101', 46009, 4200, 1],
          ['A-101', 46010, 4.2, 1],
          ['A-101', 45645, 4.2, 1],
          ['A-101', 46012, 4, 1],
        ],
        [
          ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'loaded'],
          ['A-101', 'Alder-3', 30, 2.5, 0.6, 46000],
        ],
        exampleStrains,
      ],
      gives: [
        HEADERS,
        [
          'harvests',
          3,
          'A-101',
          'figure-text',
          'text or an error where a number should be',
          '4,3',
          'mass as a number',
          4.3,
          'typed or pasted as text',
          'cannot be',
        ],
        [
          'harvests',
          6,
          'A-101',
          'date-before-load',
          'picked on or before the day of load',
          '2024-12-19',
          '2025-12-16',
          '2025-12-19',
          'another year',
          'cannot be',
        ],
        [
          'harvests',
          4,
          'A-101',
          'mass-unit',
          'off by a change of unit',
          4200,
          4.2,
          4.2,
          'grams typed for kilograms',
          'unlikely',
        ],
      ],
    },
    {
      title: 'Nothing to find',
      arguments: [
        [
          ['lot', 'date', 'mass'],
          ['A-101', 46007, 4.1],
        ],
        [
          ['lot', 'strain', 'loaded'],
          ['A-101', 'Alder-3', 46000],
        ],
        exampleStrains,
      ],
      gives: [HEADERS, ['', '', '', '', 'nothing found in 1 picks and 1 lots', '', '', '', '', '']],
    },
  ],
  faults: [
    {
      arguments: [
        [
          ['lot', 'when', 'mass'],
          ['A-101', 46007, 4.1],
        ],
        [
          ['lot', 'strain'],
          ['A-101', 'Alder-3'],
        ],
        exampleStrains,
      ],
      code: '#VALUE!',
      says: 'harvests needs a column headed date; its headers are lot, when, mass',
      remedy: 'Head the column of pick dates “date”.',
    },
  ],
};
