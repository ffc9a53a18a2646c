import type { Words } from '../words';
import { exampleRecipe, NRAES } from './examples';

export const words: Words = {
  summary: 'What the ingredients of a mix cost: to a block, and to a unit of dry matter.',
  notes: [
    'Costs are per unit of mass as received, in the unit of the block mass. Spare mixes more and costs more.',
    'Water, spawn and what stays in opened bags are not counted.',
  ],
  sources: ['Masses by MIX: ' + NRAES],
  questions: ['what does the substrate cost', 'price of a mix', 'ingredient cost'],
  examples: [
    {
      // MIX weighs out 40 kg oak and 80/9 kg bran for 40 kg dry: 40 × 0.08 + 80/9 × 0.36 = 6.40.
      title: '40 blocks of 2.5 kg at 60%, oak at 0.08 and bran at 0.36 a kilogram',
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'cost'],
          ['oak sawdust', 0.8, 0.2, 0.08],
          ['wheat bran', 0.2, 0.1, 0.36],
        ],
        40,
        2.5,
        0.6,
      ],
      gives: [[0.16, 0.16]],
    },
  ],
  faults: [
    {
      arguments: [exampleRecipe, 40, 2.5, 0.6],
      code: '#VALUE!',
      says: 'recipe needs a column headed cost; its headers are ingredient, share, moisture',
      remedy: 'Add a column headed cost to the recipe.',
    },
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'cost'],
          ['oak sawdust', 1, 0.2, -1],
        ],
        40,
        2.5,
        0.6,
      ],
      code: '#VALUE!',
      says: 'cost in recipe must be a number, 0 or more; it is -1 (row 2 of recipe)',
      remedy: 'Give the cost of a unit of mass as received.',
    },
  ],
};
