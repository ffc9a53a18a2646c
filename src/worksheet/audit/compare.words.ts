import type { Words } from '../words';

export const words: Words = {
  summary: 'Compares groups (strains, rooms, recipes): means with intervals, and which pairs truly differ.',
  notes: [
    'First comes one line per group: count, mean and its interval.',
    'Then come tests that all means are equal. Read Welch’s, which lets spreads differ. The classical one-way analysis is there ' +
      'for comparison with papers.',
    'Then comes one line per pair by Games and Howell: the difference, an interval that holds for all pairs together, t, and ' +
      'whether they differ. “No difference shown” is not “equal”: few lots show little.',
    'Use one value per lot, not one per pick: picks of one lot are not independent. For a crop that failed write ' +
      'none.',
    'Totals rows, and rows whose value is blank or 0, are left out. Last lines say how many.',
  ],
  sources: [
    'Welch, B. L. (1951) Biometrika 38:330–336',
    'Games, P. A., Howell, J. F. (1976) Journal of Educational Statistics 1:113–125',
    'NIST/SEMATECH e-Handbook of Statistical Methods, 7.4.3.3 (classical analysis)',
  ],
  questions: ['is one strain really better', 'did the trial work', 'two recipes side by side', 'significant'],
  examples: [
    {
      title: 'Efficiencies of four lots of one strain and three of another; figures of scipy 1.17.1',
      arguments: [
        [['Alder-3'], ['Alder-3'], ['Alder-3'], ['Alder-3'], ['Birch-1'], ['Birch-1'], ['Birch-1']],
        [[0.82], [0.76], [0.91], [0.85], [0.64], [0.71], [0.58]],
      ],
      gives: [
        ['compared', 'n', 'mean', 'from', 'to', 't or F', 'degrees of freedom', 'p', 'finding'],
        ['Alder-3', 4, 0.835, 0.7356281459674644, 0.9343718540325358, '', '', '', ''],
        ['Birch-1', 3, 0.6433333333333333, 0.4817052209158251, 0.8049614457508417, '', '', '', ''],
        [
          'all equal? (Welch)',
          7,
          '',
          '',
          '',
          3.9237493651259068 ** 2,
          4.337950252500014,
          0.014703221170347504,
          'means differ',
        ],
        [
          'all equal? (classical)',
          7,
          '',
          '',
          '',
          15.613931523022437,
          5,
          0.010835056270871809,
          'means differ',
        ],
        [
          'Alder-3 − Birch-1',
          7,
          0.835 - 1.93 / 3,
          0.06011035529054509,
          0.3232229780427882,
          3.9237493651259068,
          4.337950252500014,
          0.014703221170347504,
          'differ',
        ],
      ],
      digits: 8,
    },
  ],
  faults: [
    {
      arguments: [
        [['Alder-3'], ['Birch-1']],
        [[null], [null]],
      ],
      code: '#N/A',
      says: 'values must hold at least 1 value with its group; there are 0',
      remedy: 'Fill in groups and values in the same rows.',
    },
    {
      arguments: [
        [['Alder-3'], ['Birch-1']],
        [[0.8], ['0.7']],
      ],
      code: '#VALUE!',
      says: 'it is text that looks like a number: type it again as a number (row 2 of the column)',
      remedy: 'Type the value again as a number.',
    },
  ],
};
