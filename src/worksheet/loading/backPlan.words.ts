import type { Words } from '../words';
import { examplePlan } from './examples';

const strains = [
  ['strain', 'best', 'first pick', 'pick days', 'efficiency', 'loss', 'block mass', 'moisture'],
  ['Birch-1', 70, 6, 2, 0.5, 0.1, 2.5, 0.6],
];
const steps = [
  ['step', 'makes', 'days', 'loss'],
  ['mother culture', 10, 'none', null],
  ['first spawn', 10, 16, 0.1],
  ['second spawn', 10, 18, 0.05],
  ['third spawn', 12, 21, 0.03],
  ['block', null, 70, 0.04],
];
const HEADER = ['date', 'task', 'step', 'strain', 'units', 'good', 'from stock', 'ready', 'note'];

export const words: Words = {
  summary: 'From orders back to spawn: what to load, inoculate and start, and when, as one list by date.',
  notes: [
    'Blocks are loaded on the work day that puts most of their picking inside the order’s days. ' +
      'What later flushes of loads already planned give is used first. ' +
      'Where a part of the picking falls outside those days, more blocks are loaded, and the note says what part.',
    'Loads keep to the pick limits and load limits of the calendar; no load is picked on a day that is off. ' +
      'What is on the shelves already is not counted. What one day cannot take goes to the next best days.',
    'An order that cannot be filled has a line of its own, “order short”. ' +
      'One that cannot be read, or whose product no strain is sold as, has “order left out”. The others are planned. ' +
      '“Cannot start” says that no work day is left on which to start a step in time.',
    'An order names a strain, or the product that one strain is sold as in the column product of strains. ' +
      'A product of several strains is left out and told: order one of the strains.',
    'Then the list goes back step by step. Stock that is still good is taken, earliest end first. ' +
      'Where stock is all that is needed, it has a line of its own, “use stock”.',
    'Needs of one strain, step and day are added up. ' +
      'They are rounded up once for the loss and once for the units that one makes. ' +
      'Rounding at every step costs units; a cadence joins starts that lie close.',
    'Rows of steps with a strain hold for that strain only, rows without for all others. ' +
      'The days of the last step, the block, are the strain’s best.',
    'Units to start leave enough good ones on average. With a setting confidence (say 90%) each start gives enough ' +
      'with that chance. With four steps that is about 66% for the load at the end of them.',
    'A setting chain confidence holds for the load: every start behind it gives enough with that chance. ' +
      'Each unit is taken to be lost by itself. Contamination comes in batches, so the true chance is lower.',
    'With a date for today the list says what is overdue.',
  ],
  sources: ['Arithmetic on your own tables, in whole units; binomial chances for the confidence'],
  questions: ['to-do list from orders', 'work back from orders', 'what to start this week'],
  examples: [
    {
      // 144/0.45 = 320; 320/0.96 = 333.3 → 334; 334/12 → 28, 28/0.97 → 29; 29/10 → 3, 3/0.95 → 4; 4/10 → 1, 1/0.9 → 2
      title: '144 kg on 12 and 13 May 2026 are 320 blocks, worked back by hand',
      arguments: [examplePlan.orders(144), strains, steps],
      gives: [
        HEADER,
        [46023, 'start', 'mother culture', 'Birch-1', 1, 1, 0, 46023, ''],
        [46023, 'start', 'first spawn', 'Birch-1', 2, 1, 0, 46039, ''],
        [46039, 'start', 'second spawn', 'Birch-1', 4, 3, 0, 46057, ''],
        [46057, 'start', 'third spawn', 'Birch-1', 29, 28, 0, 46078, ''],
        [46078, 'start', 'block', 'Birch-1', 334, 320, 0, 46148, ''],
        [46148, 'load', 'block', 'Birch-1', 320, 320, 0, 46154, ''],
      ],
    },
    {
      title: 'With 20 good blocks in stock, seen on 1 April 2026: the other 300 should have been inoculated',
      arguments: [
        examplePlan.orders(144),
        strains,
        [
          ['step', 'makes', 'days', 'loss'],
          ['block', null, 70, 0.04],
        ],
        [
          ['strain', 'step', 'units', 'ready', 'good until'],
          ['Birch-1', 'block', 20, 46140, 46160],
        ],
        null,
        null,
        46113,
      ],
      gives: [
        HEADER,
        [46078, 'start', 'block', 'Birch-1', 313, 300, 20, 46148, 'overdue by 35 days'],
        [46148, 'load', 'block', 'Birch-1', 320, 320, 0, 46154, ''],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        [
          ['product', 'mass', 'due'],
          ['box', 20, 46155],
        ],
        strains,
        steps,
      ],
      code: '#N/A',
      says: 'product in orders: "box" is not in strains (row 2 of orders)',
      remedy: 'Order a strain, or give its row in strains the product under the header product.',
    },
    {
      arguments: [
        examplePlan.orders(144),
        strains,
        [
          ['step', 'makes', 'days'],
          ['spawn', null, 20],
          ['block', null, 70],
        ],
      ],
      code: '#N/A',
      says: 'makes in steps is blank for spawn: fill in how many units of the next step one unit makes (row 2 of steps)',
      remedy: 'Fill in how many units of the next step one unit makes.',
    },
  ],
};
