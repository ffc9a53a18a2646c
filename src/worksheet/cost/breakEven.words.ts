import type { Words } from '../words';
import { BASES, exampleCosts, heatingCosts } from './examples';

export const words: Words = {
  summary: 'Biological efficiency at which a block pays for itself at a price.',
  notes: [
    BASES,
    'Cost of a block, its shelf time included, ÷ ((price − cost per mass) × block mass × (1 − moisture)).',
    'Give blocks per shelf and days where something is spent per shelf day.',
    'Lost blocks yield nothing: divide the result by the share of blocks that survives.',
  ],
  sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency; solved for income = cost'],
  questions: ['when does a block pay', 'do I earn anything', 'lowest yield to make money'],
  examples: [
    {
      title: '4.00 a block, price 12 less 2 per kg, 1 kg dry matter a block: 4/10',
      arguments: [exampleCosts, 150, 2.5, 0.6, 12],
      gives: 0.4,
    },
    {
      title: 'Two prices',
      arguments: [exampleCosts, 150, 2.5, 0.6, [[12], [18]]],
      gives: [[0.4], [0.25]],
    },
  ],
  faults: [
    {
      arguments: [exampleCosts, 150, 2.5, 0.6, 1.5],
      code: '#VALUE!',
      says: 'price must be above 2, the cost of each unit of mass; it is 1.5',
      remedy: 'At such a price every kilogram picked loses money: no efficiency pays for the block.',
    },
    {
      arguments: [heatingCosts, 150, 2.5, 0.6, 12],
      code: '#VALUE!',
      says: 'blocks per shelf is needed for the costs per shelf day',
      remedy: 'Give blocks per shelf and days.',
    },
  ],
};
