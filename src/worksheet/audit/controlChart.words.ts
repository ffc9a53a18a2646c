import type { Words } from '../words';

const FLOW = [49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];

const SHARE_LIMITS = [0.15, 0.15 - 3 * Math.sqrt(0.001275), 0.15 + 3 * Math.sqrt(0.001275)];

export const words: Words = {
  summary: 'Control chart beside each value: centre, limits, and the run rules that a point breaks.',
  notes: [
    'individuals: the centre is the mean, the limits lie 3 × mean moving range ÷ 1.128 either side.',
    'moving range: distances between neighbours, with an upper limit of 3.267 × their mean.',
    'proportions: values are counts lost, sizes the counts they came from. The limits follow each size.',
    'Run rules are those of Western Electric, named at the point that completes them. All four together call about 1 point ' +
      'in 92 though nothing is wrong (1 in 370 for the 3-sigma rule alone).',
    'Rows must be in order of time. A row without value and size is left out. Write none where the value is 0.',
    'Draw a line chart of the first four columns.',
  ],
  sources: [
    'NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2, 6.3.2.2 and 6.3.3.2',
    'Western Electric (1956) Statistical Quality Control Handbook',
  ],
  questions: [
    'is something going wrong',
    'getting worse',
    'normal ups and downs',
    'contamination creeping up',
  ],
  examples: [
    {
      title: 'Flow rates of the e-Handbook: mean moving range 16.9/9, limits 50.81 ± 3 × 1.8778/1.128',
      arguments: [FLOW.map((value) => [value])],
      gives: FLOW.map((value) => [
        value,
        50.81,
        50.81 - (3 * 16.9) / 9 / 1.128,
        50.81 + (3 * 16.9) / 9 / 1.128,
        '',
      ]),
    },
    {
      title: 'Moving ranges of the same flow rates: mean 16.9/9, upper limit 3.267 times that',
      arguments: [FLOW.map((value) => [value]), 'moving range'],
      gives: FLOW.map((value, i) => [
        i === 0 ? '' : Math.abs(value - FLOW[i - 1]!),
        16.9 / 9,
        0,
        (3.267 * 16.9) / 9,
        '',
      ]),
    },
    {
      title:
        'Four batches of 100 blocks lost 10, 10, 10 and 30: centre 15%, limits 15% ± 3 × √(0.15 × 0.85/100)',
      arguments: [[[10], [10], [10], [30]], 'proportions', 100],
      gives: [
        [0.1, ...SHARE_LIMITS, ''],
        [0.1, ...SHARE_LIMITS, ''],
        [0.1, ...SHARE_LIMITS, ''],
        [0.3, ...SHARE_LIMITS, 'above +3 sigma'],
      ],
    },
  ],
  faults: [
    {
      arguments: [[[10], [12]], 'proportions'],
      code: '#VALUE!',
      says: 'sizes is needed for proportions: the counts that the losses came from',
      remedy: 'Give the counts that the losses came from.',
    },
    {
      arguments: [[[10], [12]], 'proportions', [[100], [11]]],
      code: '#VALUE!',
      says: 'values must be at most 11, the size of the sample; it is 12 (row 2 of values)',
      remedy: 'Correct the count lost or the count it came from.',
    },
    {
      arguments: [12],
      code: '#N/A',
      says: 'values must hold at least 2 readings; there is 1',
      remedy: 'Give at least two readings, better twenty.',
    },
  ],
};
