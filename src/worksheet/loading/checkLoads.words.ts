import type { Words } from '../words';
import { examplePlan } from './examples';

const { lots, strains, rooms, orders } = examplePlan;
const PLAN_HEADER = ['loaded', 'lot', 'room', 'blocks'];
const HEADER = ['rule', 'date', 'where', 'found', 'allowed', 'in words'];

export const words: Words = {
  summary: 'Checks a plan of loads you typed or changed: one line for every rule it breaks.',
  notes: [
    'Rules: lot and room are known, blocks of a lot, its first and last day, rooms open, large enough and fit for the ' +
      'strain, blocks loaded and mass picked in a day, orders filled.',
    'Loads on the shelves already take their places and their picking.',
    'Give the settings of the plan too. Orders are then judged by yields with the margin off, as the plan does, ' +
      'and places stay taken for the turn-round days. Without them orders are judged by the full yield. ' +
      'The other settings are wishes, not rules.',
    'The check is written apart from LOADPLAN, so each tests the other.',
  ],
  sources: [
    'Counting blocks, days and masses; orders filled by the most that can be: Edmonds, J. (1970), Ford & Fulkerson (1956)',
  ],
  questions: ['is my plan right', 'double booked room', 'what is wrong with my schedule'],
  examples: [
    {
      title: 'All 20 blocks on 6 May 2026 fill the order',
      arguments: [[PLAN_HEADER, [46148, 'B-12', 'North', 20]], lots, strains, rooms, orders(9)],
      gives: [HEADER, ['none broken', '', '', '', '', '']],
    },
    {
      title: 'Five blocks too many, a day too late for half the picking',
      arguments: [[PLAN_HEADER, [46149, 'B-12', 'North', 25]], lots, strains, rooms, orders(9)],
      gives: [
        HEADER,
        ['more blocks than the lot has', '', 'B-12', 25, 20, 'B-12 has 20 blocks, 25 are loaded'],
        ['order short', 46155, 'Birch-1', 5.625, 9, '5.63 of 9 is filled, 3.38 short'],
      ],
    },
    {
      title: 'The same 20 blocks judged with the plan’s margin of 10%: 8.1 kg of the 9',
      arguments: [
        [PLAN_HEADER, [46148, 'B-12', 'North', 20]],
        lots,
        strains,
        rooms,
        orders(9),
        null,
        null,
        [
          ['name', 'value'],
          ['margin', 0.1],
        ],
      ],
      gives: [
        HEADER,
        [
          'order short',
          46155,
          'Birch-1',
          8.1,
          9,
          '8.1 of 9 is filled, 0.9 short with yields taken 10% lower',
        ],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        [
          ['loaded', 'lot', 'blocks'],
          [46148, 'B-12', 20],
        ],
        lots,
        strains,
        rooms,
        orders(9),
      ],
      code: '#VALUE!',
      says: 'loads needs a column headed room; its headers are loaded, lot, blocks',
      remedy: 'Head the columns of the plan loaded, lot, room and blocks.',
    },
  ],
};
