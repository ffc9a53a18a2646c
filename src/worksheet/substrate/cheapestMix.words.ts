import type { Words } from '../words';
import { DUST } from './examples';

export const words: Words = {
  summary:
    'Least-cost dry shares of a mix that keeps to your needs, with the limits that bind and what they cost.',
  notes: [
    'Needs name a column of the ingredients (nitrogen, ash, …, per unit of dry matter), or C:N, or moisture: that of the mix before water.',
    'A price, a moisture or a content is never taken as 0: write free or none. Nitrogen that is blank is protein / 6.25 where there is protein.',
    'A blank lowest is no limit, nor is a blank highest of a need. The highest of an ingredient is 100% for no limit, or none for none of it.',
    'An unused ingredient becomes worth buying below the price shown. It says never where no mix has room for it or where it would have to be cheaper than free.',
    'The worth of a limit is what a unit of dry matter costs more if the limit rises, as long as the same limits bind. Below 0 it becomes cheaper.',
    'The rise is 1 point (from 20% to 21%) for the share of an ingredient and for carbon, nitrogen, protein, ash and moisture; for other needs it is 1.',
    'It says no mix where no mix could follow the limit.',
    'Where no mix keeps to all needs, the reason names a smallest set of limits that clash.',
  ],
  cautions: [DUST, 'The cheapest mix on paper may grow worse: try it on a few blocks first.'],
  sources: [
    'Dantzig, G. B. (1963) Linear Programming and Extensions, §3.4, the blending problem',
    'HiGHS: Huangfu, Q. & Hall, J. A. J. (2018) Math. Program. Comput. 10:119–142',
  ],
  questions: ['cheapest recipe', 'cheaper substrate', 'replace an ingredient'],
  examples: [
    {
      // Dry matter costs 0.10, 0.40 and 0.50. Bran's share: (0.7 − 0.2) / (2.7 − 0.2) = 20%. 1% more nitrogen costs
      // (0.40 − 0.10) / 2.5% = 0.12, so hulls with 2% are worth 0.10 + 0.12 × 1.8 = 0.316 dry, 0.2844 at 10%.
      title: 'Sawdust and bran for 0.7% nitrogen; soy hulls are too dear',
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'nitrogen'],
          ['oak sawdust', 0.08, 0.2, 0.002],
          ['wheat bran', 0.36, 0.1, 0.027],
          ['soy hulls', 0.45, 0.1, 0.02],
        ],
        [
          ['need', 'lowest', 'highest'],
          ['nitrogen', 0.007, null],
        ],
      ],
      gives: [
        ['what', 'share or level', 'limit reached', 'enters below', 'worth of the limit', 'for a rise of'],
        ['oak sawdust', 0.8, '', '', '', ''],
        ['wheat bran', 0.2, '', '', '', ''],
        ['soy hulls', 0, '', 0.2844, '', ''],
        ['nitrogen', 0.007, 'lowest', '', 0.12, '1 point'],
        ['cost of dry matter', 0.16, '', '', '', ''],
        ['cost as received', 0.16 / (1 + 0.2 / 0.9), '', '', '', ''],
      ],
    },
  ],
  faults: [
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'nitrogen'],
          ['oak sawdust', 0.08, 0.2, 0.002],
          ['wheat bran', null, 0.1, 0.027],
        ],
        [
          ['need', 'lowest'],
          ['nitrogen', 0.007],
        ],
      ],
      code: '#VALUE!',
      says: 'it is blank or 0 – for 0 write free (row 3 of ingredients)',
      remedy: 'Give the price, or write free where the ingredient costs nothing.',
    },
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'nitrogen'],
          ['oak sawdust', 0.08, 0.2, 0.002],
          ['gypsum', 0.4, 'none', null],
        ],
        [
          ['need', 'lowest'],
          ['nitrogen', 0.001],
        ],
      ],
      code: '#VALUE!',
      says: 'it is blank or 0 – for 0 write none (row 3 of ingredients)',
      remedy: 'Give the nitrogen of the ingredient, or write none.',
    },
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'highest', 'nitrogen'],
          ['oak sawdust', 0.08, 0.2, 1, 0.002],
          ['wheat bran', 0.36, 0.1, 0, 0.027],
        ],
        [
          ['need', 'lowest'],
          ['nitrogen', 0.001],
        ],
      ],
      code: '#VALUE!',
      says:
        'highest in ingredients must be a percentage up to 100% (100% is no limit), or the word none; ' +
        'it is blank or 0 (row 3 of ingredients)',
      remedy: 'Write none to keep the ingredient out of the mix, or 100% for no limit.',
    },
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'highest', 'nitrogen'],
          ['oak sawdust', 0.08, 0.2, 1, 0.002],
          ['wheat bran', 0.36, 0.1, 0.3, 0.027],
        ],
        [
          ['need', 'lowest', 'highest'],
          ['nitrogen', 0.012, null],
          ['moisture', null, 0.6],
        ],
      ],
      code: '#N/A',
      says: 'needs: no mix keeps to all of nitrogen lowest 0.012 and wheat bran highest 0.3',
      remedy: 'Loosen one of the limits named, or add an ingredient.',
    },
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture'],
          ['oak sawdust', 0.08, 0.2],
        ],
        [
          ['need', 'lowest'],
          ['nitrogen', 0.012],
        ],
      ],
      code: '#N/A',
      says: 'needs: ingredients has no column headed nitrogen (row 2 of needs)',
      remedy: 'Add the column to the ingredients, or correct the name of the need.',
    },
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'nitrogen'],
          ['wheat bran', 0.36, 0.1, 2.7],
        ],
        [
          ['need', 'lowest'],
          ['nitrogen', 0.012],
        ],
      ],
      code: '#VALUE!',
      says: 'write 2.7% or 0.027 (row 2 of ingredients)',
      remedy: 'Give contents as percentages or fractions of the dry matter.',
    },
    {
      arguments: [
        [
          ['ingredient', 'cost', 'moisture', 'nitrogen'],
          ['wheat bran', 0.36, 0.1, 0.027],
        ],
        [
          ['need', 'lowest', 'highest'],
          ['nitrogen', null, null],
        ],
      ],
      code: '#VALUE!',
      says: 'needs must have a lowest or a highest in each row (row 2 of needs)',
      remedy: 'Give the need a limit, or delete its row.',
    },
  ],
};
