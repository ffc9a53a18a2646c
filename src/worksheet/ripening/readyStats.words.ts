import type { Words } from '../words';

const STATS_HEADER = [
  'strain',
  'lots',
  'waiting',
  ...['median', '10% ready', '90% ready'].flatMap((which) => [
    `${which} (days)`,
    `${which} from`,
    `${which} to`,
  ]),
  'ready spread',
];

export const words: Words = {
  summary: 'Days each strain takes to be ready, from your own records; lots still waiting count.',
  notes: [
    'Gives for each strain its lots and those still waiting on the date. Then come the days by which half, 10% and 90% of the lots are ready, each with a 95% interval.',
    'A lot still waiting shows that it takes longer than it has waited so far. Leaving it out would make every strain look faster (Kaplan–Meier).',
    'The answer is "not reached" where too many lots still wait to tell, and "open" for an end of an interval that the records do not reach.',
    'Ready spread is the standard deviation between lots; LOADPLAN plans for it. Where the longest lots still wait it is told from the 10% and 90% points, ' +
      'and it is blank where the records end before.',
    'The interval uses Greenwood’s variance on the log(−log) scale. With few lots it is wide, as it should be.',
    'A lot without a strain or without a date of inoculation is left out; the last rows say how many there are. A cell that cannot be read spoils only its strain.',
    'Lots inoculated on or after the date do not count yet. A lot ready after the date counts as waiting.',
  ],
  sources: [
    'Kaplan, E. L., Meier, P. (1958) J. American Statistical Association 53:457–481',
    'Greenwood, M. (1926) Reports on Public Health and Medical Subjects 33',
    'Brookmeyer, R., Crowley, J. (1982) Biometrics 38:29–41: interval of a median',
    'Check: 6-MP arm of Freireich, E. J. et al. (1963) Blood 21:699–716',
  ],
  questions: ['how many days does a strain take', 'incubation times from my records', 'colonisation time'],
  examples: [
    {
      title: 'The times of Freireich et al. (1963) as days: 9 ready, 12 waiting, median 23 as published',
      arguments: [
        'Alder-3',
        [6, 6, 6, 7, 10, 13, 16, 22, 23, 6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35].map((days) => [
          46100 - days,
        ]),
        [6, 6, 6, 7, 10, 13, 16, 22, 23].map(() => [46100]).concat(new Array(12).fill([null])),
        46100,
      ],
      gives: [STATS_HEADER, ['Alder-3', 21, 12, 23, 13, 'open', 6, 6, 10, 'not reached', 'open', 'open', '']],
    },
    {
      title: 'Two strains; the second only waits, so no median is invented',
      arguments: [
        [['Alder-3'], ['Birch-1'], ['Alder-3'], ['Birch-1']],
        [[46000], [46040], [46010], [46042]],
        [[46070], [null], [46082], [null]],
        46090,
      ],
      gives: [
        STATS_HEADER,
        ['Alder-3', 2, 0, 71, 70, 'open', 70, 70, 'open', 72, 70, 'open', Math.SQRT2],
        [
          'Birch-1',
          2,
          2,
          'not reached',
          'open',
          'open',
          'not reached',
          'open',
          'open',
          'not reached',
          'open',
          'open',
          '',
        ],
      ],
    },
    {
      title: 'A lot without a strain and one without a date are left out, and told',
      arguments: [
        [['Alder-3'], [null], ['Alder-3'], ['Birch-1']],
        [[46000], [46040], [null], [46042]],
        [[46070], [46080], [null], [46060]],
        46090,
      ],
      gives: [
        STATS_HEADER,
        ['Alder-3', 1, 0, 70, 'open', 'open', 70, 'open', 'open', 70, 'open', 'open', ''],
        ['Birch-1', 1, 0, 18, 'open', 'open', 18, 'open', 'open', 18, 'open', 'open', ''],
        ['1 lot without a strain left out', ...new Array<string>(12).fill('')],
        ['1 lot without a date left out', ...new Array<string>(12).fill('')],
      ],
    },
  ],
  faults: [
    {
      arguments: [[['Alder-3'], ['Alder 3']], [[46000], [46010]], [[46070], [46081]], 46090],
      code: '#VALUE!',
      says: 'strain: "Alder 3" and "Alder-3" look like one strain: write it in one way',
      remedy: 'Write the strain in the same way in every row.',
    },
    {
      arguments: ['Alder-3', [[46000], [46010]], [[46070], [46001]], 46090],
      code: '#VALUE!',
      says: 'ready must be after inoculated (2025-12-19); it is 2025-12-10 (row 2 of the column)',
      remedy: 'Correct the two dates of that row. The figures of other strains are not affected.',
    },
    {
      arguments: ['Alder-3', [[46000], ['10 December']], null, 46090],
      code: '#VALUE!',
      says: 'inoculated must be a date; it is "10 December" – it is text',
      remedy: 'The date was typed or pasted as text: type it again.',
    },
  ],
};
