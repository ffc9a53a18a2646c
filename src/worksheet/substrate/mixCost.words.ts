import type { Words } from '../words';
import { exampleRecipe, NRAES } from './examples';

export const words: Words = {
  summary: 'What a mix costs: a block, with its spawn where you give its price, and a unit of dry matter.',
  notes: [
    'Write free for an ingredient that costs nothing: a blank price is refused.',
    'Costs are per unit of mass as received, in the unit of the block mass. Spare mixes more and costs more.',
    'With a spawn rate (spawn by wet mass of substrate) the block mass includes the spawn, as in MIX, and a block costs its spawn too. The cost of dry matter is that of the ingredients alone.',
    'Water and what stays in opened bags are not counted.',
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
    {
      // Substrate 110 / 1.1 = 100 kg costs 6.40 as above, 10 kg of spawn at 3 cost 30; 36.40 over 44 blocks.
      title: '44 blocks with spawn at 10% of substrate and 3 a kilogram',
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'cost'],
          ['oak sawdust', 0.8, 0.2, 0.08],
          ['wheat bran', 0.2, 0.1, 0.36],
        ],
        44,
        2.5,
        0.6,
        null,
        0.1,
        3,
      ],
      gives: [[36.4 / 44, 0.16]],
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
      says: 'cost in recipe must be a number above 0, or the word free; it is -1 (row 2 of recipe)',
      remedy: 'Give the cost of a unit of mass as received.',
    },
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'cost'],
          ['oak sawdust', 0.8, 0.2, 0.08],
          ['wheat bran', 0.2, 0.1, null],
        ],
        40,
        2.5,
        0.6,
      ],
      code: '#VALUE!',
      says:
        'cost in recipe must be a number above 0, or the word free; it is blank or 0 – for 0 write free ' +
        '(row 3 of recipe)',
      remedy: 'Give the price, or write free where the ingredient costs nothing.',
    },
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'cost'],
          ['oak sawdust', 1, 0.2, 0.08],
        ],
        40,
        2.5,
        0.6,
        null,
        0.03,
      ],
      code: '#VALUE!',
      says: 'spawn price is needed where there is a spawn rate; it is blank or 0',
      remedy: 'Give the price of a unit of mass of spawn, or write free to leave it out of the cost.',
    },
  ],
};
