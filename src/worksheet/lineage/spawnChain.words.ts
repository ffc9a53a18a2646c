import type { Words } from '../words';
import { CHAIN_HEADER, exampleSteps } from './examples';

export const words: Words = {
  summary: 'What to start when, from mother culture to block, for the good units you need on a date.',
  notes: [
    'Worked backwards: each step starts the fewest whole batches that leave, after its loss, enough whole units for the next. Each unit is started its days before the next step needs it.',
    'Losses are what you expect on average. Plan over with the allowance where too few would hurt.',
    'Generation counts from the first row of the table as 0. About ten units of the next step from one is common for sawdust to sawdust (common practice, no source).',
    'A step that takes no day or loses nothing says so with the word none; a blank would be a guess.',
    'Vigour falls with generations, so give your own limit under max generation. The column makes of the last step is not used.',
  ],
  sources: ['Arithmetic on your own table of steps, in whole units'],
  questions: ['when to start spawn', 'how much spawn to make', 'grain jars from a culture', 'petri plates'],
  examples: [
    {
      // 525/0.96 = 546.9, in dozens 552; 552/10 → 56, 56/0.98 → 58; 58/10 → 6, 6/0.95 → 7, in sixes 12; 12/8 → 2, 2/0.9 → 3
      title: '500 good blocks on 27 June 2026 with 5% over, worked out by hand',
      arguments: [500, 46200, exampleSteps, 0.05],
      gives: [
        CHAIN_HEADER,
        ['mother culture', 0, 3, 2, 46078, 46088, '', ''],
        ['grain jar', 1, 12, 11, 46088, 46102, 14.4, ''],
        ['sawdust bag', 2, 58, 56, 46102, 46123, 145, ''],
        ['block', 3, 552, 529, 46123, 46200, 1380, ''],
      ],
    },
    {
      title: 'A step past its max generation is told of',
      arguments: [
        10,
        46200,
        [
          ['step', 'makes', 'days', 'max generation'],
          ['culture', 10, 10, 1],
          ['first grain', 10, 14, 1],
          ['second grain', null, 14, 1],
        ],
      ],
      gives: [
        CHAIN_HEADER,
        ['culture', 0, 1, 1, 46162, 46172, '', ''],
        ['first grain', 1, 1, 1, 46172, 46186, '', ''],
        ['second grain', 2, 10, 10, 46186, 46200, '', 'generation 2 is past max generation'],
      ],
    },
  ],
  faults: [
    {
      arguments: [500, 46200, exampleSteps, 5],
      code: '#VALUE!',
      says: 'for 5% write 5% or 0.05',
      remedy: 'Give the allowance as a percentage or as a fraction of 1.',
    },
    {
      arguments: [
        500,
        46200,
        exampleSteps.map((cells, i) => (i === 2 ? ['grain jar', 10, null, 0.05, 1.2, 6, null] : cells)),
      ],
      code: '#VALUE!',
      says: 'days in steps must be a number of days above 0, or the word none; it is blank or 0',
      remedy: 'Fill in the days, or write none for a step that takes no day.',
    },
    {
      arguments: [
        500,
        46200,
        exampleSteps.map((cells, i) => (i === 2 ? ['grain jar', null, 14, 0.05, 1.2, 6, null] : cells)),
      ],
      code: '#VALUE!',
      says: 'makes in steps is blank for "grain jar": fill in how many units of the next step one unit makes (row 3 of steps)',
      remedy: 'Fill in how many units of the next step one unit makes.',
    },
    {
      arguments: [
        500,
        46200,
        exampleSteps.map((cells, i) => (i === 2 ? ['grain jar', 10, 14, 5, 1.2, 6, null] : cells)),
      ],
      code: '#VALUE!',
      says: 'for 5% write 5% or 0.05',
      remedy: 'Give the loss as a percentage or as a fraction of 1.',
    },
    {
      arguments: [2_000_000, 46200, exampleSteps],
      code: '#VALUE!',
      says: 'units must be fewer, so that no step starts more than 1000000; it is 2000000',
      remedy: 'Plan in smaller portions.',
    },
  ],
};
