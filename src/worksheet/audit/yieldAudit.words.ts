import type { Words } from '../words';

const exampleStrains = [
  ['strain', 'first pick', 'pick days', 'flush gap', 'flushes', 'efficiency'],
  ['Alder-3', 7, 6, 18, 3, 0.8],
];

const exampleHarvests = [
  ['lot', 'date', 'mass (kg)', 'flush'],
  ['A-101', 46007, 4.1, 1],
  ['A-101', 46008, '4,3', 1],
  ['A-101', 46009, 4200, 1],
  ['A-101', 46010, 4.2, 1],
  ['A-101', 45645, 4.2, 1],
  ['A-101', 46012, 4, 1],
];

const exampleLots = [
  ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'loaded'],
  ['A-101', 'Alder-3', 30, 2.5, 0.6, 46000],
];

const HEADERS = [
  'table',
  'row',
  'lot',
  'what is wrong',
  'value',
  'expected',
  'if corrected',
  'suspected slip',
  'how sure',
  'sureness',
];

export const words: Words = {
  summary:
    'Finds slips in picks and lots: decimals, units, dates, lots, flushes, moistures; says what was meant.',
  notes: [
    'One line for one cause, the most surely wrong first, in the table where the cause is: a wrong load date is one line in lots. The row is ' +
      'counted from the header row of the table.',
    'Each figure is weighed: is it right, or does a slip of the hand explain it better? “How sure” is the share that ' +
      'the suspected slip has of all explanations; view “evidence” says which other slip it may be. All measures of what is usual come from your own book.',
    '“If corrected” is the value with the slip undone, never a guess from other picks; it stays blank where the slip is less sure ' +
      'than the sureness that is set. Nothing in your tables is changed: look ' +
      'at the scale’s sheet before you correct.',
    'View “evidence” says in a sentence what speaks for each finding. In the pane, “Use my sheet” goes through them lot by lot.',
    'View “harvests” gives your harvests with the findings corrected, “lots” your lots; each change is marked. Use them in place ' +
      'of your tables in CROPTABLE or STRAINTABLE to see the difference. Both apply findings from the sureness that is set.',
    'With a column picker, scale or crate, masses that are all off by one factor are found together: a picker who wrote pounds, ' +
      'even for a day, or who never took the crate off. Grades may have rows of their own.',
    'All masses in another unit than the header says are one line: blocks then yield more of their dry mass than blocks can. ' +
      'A book that looks like a poor farm is not told.',
    'The order of your rows counts where you keep one: a date that is out of order among its neighbours is a hint. So does a ' +
      'second grade without its first. How much each counts is learnt from your book.',
    'Name the unit in the header, as in mass (kg), or in the settings: only slips that the unit allows are weighed.',
    'What could not be judged, because a strain or a moisture is not known, is told too. Write none for a crop that failed.',
    'A single mass in pounds, or weighed with its crate, cannot be told from an honest one where picks vary by a quarter or more. ' +
      'A lot’s total in lots makes it possible.',
    'Settings: sureness (50%), unit, lowest efficiency, highest efficiency.',
  ],
  sources: [
    'Likelihood over explanations (Bayes) with own judgement of how often each slip happens',
    'Usual masses by median polish: Tukey, J. W. (1977) Exploratory Data Analysis; lots and flushes by best linear prediction: ' +
      'Robinson, G. K. (1991) That BLUP is a good thing, Statistical Science 6:15–32',
    'Units: international avoirdupois pound of 0.45359237 kg exactly',
  ],
  questions: [
    'mistakes in my records',
    'check my picks for typing errors',
    'wrong weights',
    'correct my harvest records',
    'day and month swapped',
  ],
  examples: [
    {
      title: 'A mass as text, a pick before the load, and 4.2 kg typed as 4200 g',
      arguments: [exampleHarvests, exampleLots, exampleStrains],
      gives: [
        HEADERS,
        [
          'harvests',
          3,
          'A-101',
          'text or an error where a number should be',
          '4,3',
          'mass as a number',
          4.3,
          'typed or pasted as text',
          'certain',
          1,
        ],
        [
          'harvests',
          6,
          'A-101',
          'the date does not fit the lot',
          '2024-12-19',
          '2025-12-18',
          '2025-12-19',
          'another year',
          'very likely',
          0.9094,
        ],
        [
          'harvests',
          4,
          'A-101',
          'the mass does not fit the lot’s other picks',
          4200,
          4.16,
          4.2,
          'grams typed for kilograms',
          'almost certain',
          0.9999,
        ],
      ],
    },
    {
      title: 'The same harvests, corrected',
      arguments: [exampleHarvests, exampleLots, exampleStrains, null, 'harvests'],
      gives: [
        ['lot', 'date', 'mass', 'flush', 'corrected', 'how sure'],
        ['A-101', 46007, 4.1, 1, '', ''],
        ['A-101', 46008, 4.3, 1, 'mass was 4,3, now 4.3: typed or pasted as text', 1],
        ['A-101', 46009, 4.2, 1, 'mass was 4200, now 4.2: grams typed for kilograms', 0.9999],
        ['A-101', 46010, 4.2, 1, '', ''],
        ['A-101', 46010, 4.2, 1, 'date was 2024-12-19, now 2025-12-19: another year', 0.9094],
        ['A-101', 46012, 4, 1, '', ''],
      ],
    },
    {
      title: 'What speaks for each finding',
      arguments: [exampleHarvests, exampleLots, exampleStrains, null, 'evidence'],
      gives: [
        ['table', 'row', 'lot', 'what is wrong', 'evidence', 'how sure'],
        ['harvests', 3, 'A-101', 'text or an error where a number should be', '', 'certain'],
        [
          'harvests',
          6,
          'A-101',
          'the date does not fit the lot',
          'The lot was loaded on 2025-12-09 and its picks of flush 1 are from 2025-12-16 to 2025-12-21.',
          'very likely',
        ],
        [
          'harvests',
          4,
          'A-101',
          'the mass does not fit the lot’s other picks',
          'The lot’s 4 other picks of flush 1 weigh 4 kg to 4.2 kg; about 4.16 kg was to be expected.',
          'almost certain',
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
        exampleLots,
        exampleStrains,
      ],
      gives: [HEADERS, ['', '', '', 'nothing found in 1 pick and 1 lot', '', '', '', '', '', '']],
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
    {
      arguments: [
        exampleHarvests,
        exampleLots,
        exampleStrains,
        [
          ['setting', 'value'],
          ['sureness', 80],
        ],
      ],
      code: '#VALUE!',
      says: 'sureness in settings must be a percentage above 0% and at most 100%; it is 80 – for 80% write 80% or 0.8 (row 2 of settings)',
      remedy: 'Write 80%, or 0.8.',
    },
  ],
};
