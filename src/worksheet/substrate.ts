import { waterToAdd } from '../maths/substrate/waterToAdd';
import { weighingList } from '../maths/substrate/weighingList';
import { column, keyColumn, optionalSetting, setting, table } from './cells/arguments';
import { count, fraction, fractionBelowOne, mass } from './cells/kinds';
import { defineFunction, resultColumn, tableResult, value } from './define';
import { only, recipeColumns } from './tables';

const exampleRecipe = [
  ['ingredient', 'share', 'moisture'],
  ['oak sawdust', 0.8, 0.2],
  ['wheat bran', 0.2, 0.1],
];

const NRAES = 'Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54: moisture of a mixture';

export const substrate = [
  defineFunction({
    name: 'MIX',
    family: 'substrate',
    summary: 'Weighing list of a mix: what to weigh out of each ingredient, packs, and the water to add.',
    notes:
      'Shares are of dry mass and sum to 100%. Gypsum counts as dry: its crystal water is not free water. With a spawn ' +
      'rate (spawn by wet mass of substrate) the block mass is that of the finished block, spawn included. Spare mixes ' +
      'more for what sticks to the mixer. Packs are rounded up to whole bags.',
    cautions: ['Fine dust of bran and sawdust harms lungs and can burn: mix with dust extraction or a mask.'],
    arguments: [
      table(
        'recipe',
        only(recipeColumns, 'ingredient', 'share', 'moisture', 'pack'),
        'table with ingredient, share of dry mass, moisture as received, and pack',
      ),
      setting('blocks', count(), 'number of blocks to fill'),
      setting('block mass', mass(), 'wet mass of a finished block'),
      setting('moisture', fractionBelowOne(), 'water share of the substrate wanted: 62%'),
      optionalSetting(
        'spare',
        fraction(),
        0,
        'share mixed over, for what sticks to the mixer; 0 if left out',
      ),
      optionalSetting('spawn rate', fractionBelowOne(), 0, 'spawn by wet mass of substrate; 0 if left out'),
    ],
    result: tableResult(
      resultColumn('ingredient'),
      resultColumn('dry mass'),
      resultColumn('mass to weigh'),
      resultColumn('packs'),
    ),
    sources: [NRAES],
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
        says: 'recipe, share: shares that sum to 100% needed, got 80%',
        remedy: 'Mend the shares so that they sum to 100%.',
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
        says: 'moisture: the ingredients already hold 50% water, more than the 45% wanted; 10 of water too many in 110',
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
        says: 'recipe, share: more than 0, at most 1 needed, got 20',
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
        says: 'recipe: a column headed share needed, found ingredient, moisture',
        remedy: 'Add a column headed share to the recipe.',
      },
    ],
    whole: (recipe, blocks, blockMass, moisture, spare, spawnRate) => {
      const rows = recipe.rows;
      const list = weighingList(rows, { blocks, blockMass, moisture, spare, spawnRate });
      return [
        ...list.ingredients.map(({ dryMass, mass, packs }, i) => [
          rows[i]!.ingredient,
          dryMass,
          mass,
          packs ?? '',
        ]),
        ['water', '', list.water, ''],
        ...(spawnRate > 0 ? [['spawn', '', list.spawn, '']] : []),
        ['total', list.dryMass, list.substrate + list.spawn, ''],
        ['in one block', list.dryMassPerBlock, blockMass, ''],
      ];
    },
  }),

  defineFunction({
    name: 'MIXWATER',
    family: 'substrate',
    summary: 'Water to add to what is in the mixer so that it has the wanted moisture.',
    notes: 'Moistures are on a wet basis: water over the whole mass. A row without a mass does not count.',
    arguments: [
      keyColumn('masses', mass(), 'mass of each ingredient in the mixer'),
      column('moistures', fractionBelowOne(), 'water share of each ingredient as received'),
      setting('target', fractionBelowOne(), 'water share wanted: 62%'),
    ],
    result: value('water to add'),
    sources: [NRAES],
    examples: [
      {
        // Dry 100 × 0.88 + 20 × 0.9 = 106; over 0.4 is 265; less the 120 there.
        title: '100 kg of sawdust at 12% and 20 kg of bran at 10%, to 60%',
        arguments: [[[100], [20]], [[0.12], [0.1]], 0.6],
        gives: 145,
      },
    ],
    faults: [
      {
        arguments: [100, 0.65, 0.6],
        code: '#VALUE!',
        says: 'target: the ingredients already hold 65% water, more than the 60% wanted; 12.5 of water too many in 100',
        remedy: 'Add dry ingredients, or aim for a higher moisture.',
      },
      {
        arguments: [null, 0.65, 0.6],
        code: '#N/A',
        says: 'masses: nothing in the mixer',
        remedy: 'Give the mass of at least one ingredient.',
      },
      {
        arguments: [[[100], [20]], [[0.12], [10]], 0.6],
        code: '#VALUE!',
        says: 'write 10% or 0.1 (row 2)',
        remedy: 'Give the moisture as a percentage or as a fraction of 1.',
      },
    ],
    whole: waterToAdd,
  }),
];
