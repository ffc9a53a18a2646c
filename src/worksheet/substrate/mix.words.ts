import type { Words } from '../words';
import { DUST, exampleRecipe, NRAES } from './examples';

export const words: Words = {
  summary: 'Weighing list of a mix: what to weigh out of each ingredient, packs, and the water to add.',
  notes: [
    'Shares are of dry mass and add up to 100%. Gypsum counts as dry, since its crystal water is not free water: write none as its moisture.',
    'With a spawn rate (spawn by wet mass of substrate) the block mass is that of the finished block, spawn included. The last line says what to fill into a bag before spawning.',
    'A recipe with nitrogen or protein gives the nitrogen of the mix, and with carbon its C:N. Write none for an ingredient that holds none.',
    'Spare mixes more, for what sticks to the mixer. Packs are rounded up to whole bags.',
  ],
  cautions: [DUST],
  sources: [NRAES],
  questions: ['recipe', 'weighing list', 'how much sawdust and bran', 'what to weigh out', 'bags of pellets'],
  examples: [
    {
      // 100 kg at 60%: 40 kg dry; 32 kg oak dry at 20% is 40 kg; 8 kg bran dry at 10% is 8.888… kg.
      title: '40 blocks of 2.5 kg at 60% moisture',
      arguments: [exampleRecipe, 40, 2.5, 0.6],
      gives: [
        ['ingredient', 'dry mass', 'mass to weigh', 'packs'],
        ['oak sawdust', 32, 40, ''],
        ['wheat bran', 8, 80 / 9, ''],
        ['water', '', 100 - 40 - 80 / 9, ''],
        ['total', 40, 100, ''],
        ['in one block', 1, 2.5, ''],
      ],
    },
    {
      // 110 kg wanted, of which substrate 110 / 1.1 = 100 kg: the list above again, and 10 kg of spawn.
      title: '10% mixed over and spawn at 10%, bran in bags of 5 kg',
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'pack'],
          ['oak sawdust', 0.8, 0.2, null],
          ['wheat bran', 0.2, 0.1, 5],
        ],
        40,
        2.5,
        0.6,
        0.1,
        0.1,
      ],
      gives: [
        ['ingredient', 'dry mass', 'mass to weigh', 'packs'],
        ['oak sawdust', 32, 40, ''],
        ['wheat bran', 8, 80 / 9, 2],
        ['water', '', 100 - 40 - 80 / 9, ''],
        ['spawn', '', 10, ''],
        ['total', 40, 110, ''],
        ['in one block', 40 / 44, 2.5, ''],
        ['to fill a bag before spawning', 40 / 44, 2.5 / 1.1, ''],
      ],
    },
    {
      // As above 32 kg oak, 7.6 kg bran and 0.4 kg gypsum dry: N 0.0512 + 0.2052 = 0.2564, C 15.616 + 3.42 = 19.036 kg.
      title: 'A recipe with carbon and nitrogen, gypsum, which holds neither',
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'carbon', 'nitrogen'],
          ['oak sawdust', 0.8, 0.2, 0.488, 0.0016],
          ['wheat bran', 0.19, 0.05, 0.45, 0.027],
          ['gypsum', 0.01, 'none', 'none', 'none'],
        ],
        40,
        2.5,
        0.6,
      ],
      gives: [
        ['ingredient', 'dry mass', 'mass to weigh', 'packs', 'nitrogen', 'C:N'],
        ['oak sawdust', 32, 40, '', 0.0016, 305],
        ['wheat bran', 7.6, 8, '', 0.027, 0.45 / 0.027],
        ['gypsum', 0.4, 0.4, '', 0, ''],
        ['water', '', 51.6, '', '', ''],
        ['total', 40, 100, '', 0.2564 / 40, 19.036 / 0.2564],
        ['in one block', 1, 2.5, '', '', ''],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture'],
          ['oak sawdust', 0.8, 0.2],
        ],
        40,
        2.5,
        0.6,
      ],
      code: '#VALUE!',
      says: 'share in recipe must add up to 100%; it adds up to 80%',
      remedy: 'Correct the shares so that they add up to 100%.',
    },
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture'],
          ['fresh oak sawdust', 1, 0.5],
        ],
        40,
        2.5,
        0.45,
      ],
      code: '#VALUE!',
      says: 'moisture: the mix is already at 50% moisture, above the 45% you want: 10 too much water in 110',
      remedy: 'Use drier ingredients, dry the wettest, or aim for a higher moisture.',
    },
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture'],
          ['oak sawdust', 0.8, 0.2],
          ['bran', 20, 0.1],
        ],
        40,
        2.5,
        0.6,
      ],
      code: '#VALUE!',
      says: 'share in recipe must be a percentage above 0% and at most 100%; it is 20 – for 20% write 20% or 0.2',
      remedy: 'Give the shares as percentages or fractions of 1.',
    },
    {
      arguments: [
        [
          ['ingredient', 'moisture'],
          ['oak sawdust', 0.2],
        ],
        40,
        2.5,
        0.6,
      ],
      code: '#VALUE!',
      says: 'recipe needs a column headed share; its headers are ingredient, moisture',
      remedy: 'Add a column headed share to the recipe.',
    },
    {
      arguments: [
        [
          ['ingredient', 'share', 'moisture', 'nitrogen'],
          ['oak sawdust', 0.99, 0.2, 0.002],
          ['gypsum', 0.01, 'none', null],
        ],
        40,
        2.5,
        0.6,
      ],
      code: '#VALUE!',
      says:
        'nitrogen in recipe must be a percentage above 0% and at most 100%, or the word none; it is blank or 0 – ' +
        'for 0 write none (row 3 of recipe)',
      remedy:
        'Give the nitrogen of each ingredient, or take the column out. The masses are right without it.',
    },
  ],
};
