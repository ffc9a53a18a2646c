import { missing } from '../maths/shared/calcError';
import { linearSolver, loadLinearSolver } from '../maths/shared/linearProgram';
import { carbonToNitrogen } from '../maths/substrate/carbonToNitrogen';
import { cheapestMix, type Need } from '../maths/substrate/cheapestMix';
import { evenBatches } from '../maths/substrate/evenBatches';
import { mixCost } from '../maths/substrate/mixCost';
import { mixMoisture } from '../maths/substrate/mixMoisture';
import { waterToAdd } from '../maths/substrate/waterToAdd';
import { weighingList } from '../maths/substrate/weighingList';
import { column, keyColumn, optionalSetting, setting, table } from './cells/arguments';
import { Formatted, type Cell } from './cells/cell';
import { SheetFault } from './cells/fault';
import {
  anything,
  count,
  fraction,
  fractionBelowOne,
  mass,
  massOrNone,
  number,
  readCell,
  Refusal,
  text,
} from './cells/kinds';
import { headerKey, key, optional, others, type Table } from './cells/table';
import { defineFunction, resultColumn, row, tableResult, value, type Answer } from './define';
import { only, recipeColumns } from './tables';

const exampleRecipe = [
  ['ingredient', 'share', 'moisture'],
  ['oak sawdust', 0.8, 0.2],
  ['wheat bran', 0.2, 0.1],
];

const DUST = 'Fine dust of bran and sawdust harms lungs and can burn: mix with dust extraction or a mask.';
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
    cautions: [DUST],
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

  defineFunction({
    name: 'MIXMOISTURE',
    family: 'substrate',
    summary: 'Moisture of what is in the mixer, with the water added so far.',
    notes: 'Wet basis: water over the whole mass. A row without a mass does not count.',
    arguments: [
      keyColumn('masses', mass(), 'mass of each ingredient in the mixer'),
      column('moistures', fractionBelowOne(), 'water share of each ingredient as received'),
      optionalSetting('water', massOrNone(), 0, 'mass of water added; 0 if left out'),
    ],
    result: value('moisture', 'percent'),
    sources: [NRAES],
    examples: [
      {
        // Dry 100 × 0.88 + 20 × 0.9 = 106 in 265.
        title: '100 kg of sawdust at 12%, 20 kg of bran at 10% and 145 kg of water',
        arguments: [[[100], [20]], [[0.12], [0.1]], 145],
        gives: 0.6,
      },
      {
        // Water 88 + 2 of 120 kg.
        title: 'Two ingredients without water added',
        arguments: [
          [[100], [20]],
          [[0.88], [0.1]],
        ],
        gives: 0.75,
      },
    ],
    faults: [
      {
        arguments: [null, 0.65],
        code: '#N/A',
        says: 'masses: nothing in the mixer',
        remedy: 'Give the mass of at least one ingredient.',
      },
    ],
    whole: mixMoisture,
  }),

  defineFunction({
    name: 'MIXRATIO',
    family: 'substrate',
    summary: 'C:N of a mix: carbon over nitrogen, each by its mass in the dry matter of all ingredients.',
    notes:
      'Carbon and nitrogen are shares of dry matter. Nitrogen from a feed label is protein / 6.25. Take both from one ' +
      'table: an averaged C:N times an averaged nitrogen may give more carbon than there is dry matter. A row without a mass does not count.',
    arguments: [
      keyColumn('masses', mass(), 'mass of each ingredient as received'),
      column('moistures', fractionBelowOne(), 'water share of each ingredient as received'),
      column('carbon', fraction(), "share of carbon in each one's dry matter"),
      column('nitrogen', fraction(), "share of nitrogen in each one's dry matter"),
    ],
    result: value('C:N'),
    sources: [
      'Rynk, R. (ed., 1992) On-Farm Composting Handbook, NRAES-54, chapter 3: C:N ratio of a mixture',
    ],
    examples: [
      {
        // 10 kg grass at 77%: 2.3 dry, 1.035 C, 0.0552 N; 4 kg leaves at 35%: 2.6 dry, 1.3 C, 0.0195 N.
        title: '10 kg of grass and 4 kg of leaves',
        arguments: [
          [[10], [4]],
          [[0.77], [0.35]],
          [[0.45], [0.5]],
          [[0.024], [0.0075]],
        ],
        gives: 2.335 / 0.0747,
      },
    ],
    faults: [
      {
        arguments: [[[10]], 0.1, 0, 0],
        code: '#DIV/0!',
        says: 'nitrogen: the mix holds none',
        remedy: 'Give the nitrogen of at least one ingredient.',
      },
      {
        arguments: [[[10]], 0.1, 0.45, 2.4],
        code: '#VALUE!',
        says: 'write 2.4% or 0.024',
        remedy: 'Give nitrogen as a percentage or as a fraction of 1.',
      },
    ],
    whole: carbonToNitrogen,
  }),

  defineFunction({
    name: 'MIXCOST',
    family: 'substrate',
    summary: 'What the ingredients of a mix cost: to a block, and to a unit of dry matter.',
    notes:
      'Costs are per unit of mass as received, in the unit of the block mass. Spare mixes more and costs more. Water, ' +
      'spawn and what stays in opened bags are not counted.',
    arguments: [
      table(
        'recipe',
        {
          ...only(recipeColumns, 'ingredient', 'share', 'moisture', 'pack'),
          cost: number({ word: 'cost', from: 0 }),
        },
        'table with ingredient, share of dry mass, moisture as received, and cost per unit mass',
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
    ],
    result: row(resultColumn('cost of a block'), resultColumn('cost of a unit of dry matter')),
    sources: ['Masses by MIX: ' + NRAES],
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
        says: 'recipe: a column headed cost needed, found ingredient, share, moisture',
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
        says: 'recipe, cost: a number of 0 or more needed, got -1 (row 2)',
        remedy: 'Give the cost of a unit of mass as received.',
      },
    ],
    whole: (recipe, blocks, blockMass, moisture, spare) => {
      const cost = mixCost(recipe.rows, { blocks, blockMass, moisture, spare, spawnRate: 0 });
      return [cost.perBlock, cost.perDryMass];
    },
  }),

  defineFunction({
    name: 'CHEAPESTMIX',
    family: 'substrate',
    summary:
      'Least-cost dry shares of a mix that keeps to your needs, with the limits that bind and what they cost.',
    notes:
      'Needs name a column of the ingredients (nitrogen, ash, …, per unit of dry matter), or C:N, or moisture: that of the ' +
      'mix before water. A blank or 0 lowest or highest is no limit. Nitrogen that is blank is taken as protein / 6.25. An ' +
      'ingredient that is not used would enter below the cost shown. The worth of a limit is what the dry matter would ' +
      'cost more if it were raised by one, as long as the same limits bind. Where no mix keeps to all needs, the reason ' +
      'names a smallest set of limits that clash.',
    cautions: [DUST, 'The cheapest mix on paper may grow worse: try it on a few blocks first.'],
    arguments: [
      table(
        'ingredients',
        {
          ingredient: key(text('ingredient')),
          cost: number({ word: 'cost', from: 0 }),
          moisture: fractionBelowOne(),
          lowest: optional(fraction(), 0),
          highest: optional(fraction(), 1),
          contents: others(anything()),
        },
        'table with ingredient, cost, moisture, lowest and highest share, and what each holds',
      ),
      table(
        'needs',
        {
          need: key(text('need')),
          lowest: optional(number({ word: 'limit', from: 0 })),
          highest: optional(number({ word: 'limit', from: 0 })),
        },
        'table with need (nitrogen, C:N, moisture, ash …), lowest and highest',
      ),
    ],
    result: tableResult(
      resultColumn('what'),
      resultColumn('share or level'),
      resultColumn('limit reached'),
      resultColumn('enters below'),
      resultColumn('worth of the limit'),
    ),
    sources: [
      'Dantzig, G. B. (1963) Linear Programming and Extensions, §3.4, the blending problem',
      'HiGHS: Huangfu, Q. & Hall, J. A. J. (2018) Math. Program. Comput. 10:119–142',
    ],
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
          ['what', 'share or level', 'limit reached', 'enters below', 'worth of the limit'],
          ['oak sawdust', 0.8, '', '', ''],
          ['wheat bran', 0.2, '', '', ''],
          ['soy hulls', 0, '', 0.2844, ''],
          ['nitrogen', 0.007, 'lowest', '', 12],
          ['cost of dry matter', 0.16, '', '', ''],
          ['cost as received', 0.16 / (1 + 0.2 / 0.9), '', '', ''],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          [
            ['ingredient', 'cost', 'moisture', 'highest', 'nitrogen'],
            ['oak sawdust', 0.08, 0.2, null, 0.002],
            ['wheat bran', 0.36, 0.1, 0.3, 0.027],
          ],
          [
            ['need', 'lowest', 'highest'],
            ['nitrogen', 0.012, null],
            ['moisture', null, 0.6],
          ],
        ],
        code: '#N/A',
        says: 'needs: no mix keeps to all of nitrogen lowest 0.012, wheat bran highest 0.3',
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
        says: 'needs: ingredients has no column headed nitrogen (row 2)',
        remedy: 'Add the column to the ingredients, or mend the name of the need.',
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
        says: 'write 2.7% or 0.027 (row 2)',
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
        says: 'needs: a lowest or a highest needed (row 2)',
        remedy: 'Give the need a limit, or delete its row.',
      },
    ],
    prepare: loadLinearSolver,
    takesLong: true,
    whole: (ingredients, needs) => {
      const candidates = ingredients.rows.map((row) => ({ ...row, name: row.ingredient }));
      const mix = cheapestMix(
        candidates,
        needs.rows.map((row, n) => ({ ...row, name: row.need, ...contentOf(row.need, n, ingredients) })),
        linearSolver(),
      );
      const rows: Answer[][] = [
        ...mix.ingredients.map(({ level, limit, entersAt }, i) => [
          candidates[i]!.name,
          new Formatted(level, 'percent'),
          limit ?? '',
          entersAt ?? '',
          '',
        ]),
        ...mix.needs.map(({ level, limit, worth }, n) => [
          needs.rows[n]!.need,
          level,
          limit ?? '',
          '',
          limit === undefined ? '' : worth,
        ]),
        ['cost of dry matter', mix.costOfDry, '', '', ''],
        ['cost as received', mix.costAsReceived, '', '', ''],
      ];
      return rows;
    },
  }),

  defineFunction({
    name: 'BATCHES',
    family: 'substrate',
    summary: 'Blocks in each run of a mixer or steriliser: the fewest runs, as even as can be.',
    notes: 'No two runs differ by more than one block, so that loads heat alike.',
    cautions: [
      'A steriliser load that was tried and logged at one size heats differently at another: log the core again.',
    ],
    arguments: [
      setting('blocks', count(), 'blocks to run'),
      setting('capacity', count(), 'blocks one run holds'),
    ],
    result: tableResult(resultColumn('run'), resultColumn('blocks')),
    sources: ['Whole-number division with the remainder spread over the first runs'],
    examples: [
      {
        title: '100 blocks in a steriliser that holds 48',
        arguments: [100, 48],
        gives: [
          ['run', 'blocks'],
          [1, 34],
          [2, 33],
          [3, 33],
        ],
      },
    ],
    faults: [
      {
        arguments: [100, 0],
        code: '#VALUE!',
        says: 'capacity: a whole number of 1 or more needed, got a blank cell or 0',
        remedy: 'Give the number of blocks one run holds.',
      },
    ],
    whole: (blocks, capacity) => evenBatches(blocks, capacity).map((inRun, run) => [run + 1, inRun]),
  }),
];

type IngredientTable = Table<{ readonly contents: ReadonlyMap<string, Cell | undefined> }>;

/** Protein holds 16% nitrogen, the convention of feed labels. */
const PROTEIN_TO_NITROGEN = 6.25;
const SHARES_OF_DRY = ['carbon', 'nitrogen', 'protein', 'ash'];

/** What each ingredient holds of a need, by the need's name. */
function contentOf(need: string, n: number, ingredients: IngredientTable): Pick<Need, 'content' | 'per'> {
  const wanted = headerKey(need);
  if (wanted === 'moisture') return { content: 'moisture' };
  const columnOf = (name: string): number[] | undefined => {
    const header = [...(ingredients.rows[0]?.contents.keys() ?? [])].find((one) => headerKey(one) === name);
    if (header === undefined) return undefined;
    const kind = SHARES_OF_DRY.includes(name) ? fraction() : number({ from: 0 });
    return ingredients.rows.map(({ contents }, i) => {
      const place = ` (row ${ingredients.rowNumbers[i]!})`;
      const read = readCell(kind, contents.get(header) ?? 0, `ingredients, ${header}`, place);
      if (read instanceof Refusal) throw new SheetFault(read.error);
      return read;
    });
  };
  const held = (name: string): number[] => {
    const content = columnOf(name);
    if (name === 'nitrogen') {
      const protein = columnOf('protein');
      const nitrogen = protein?.map((share, i) => content?.[i] || share / PROTEIN_TO_NITROGEN);
      if (nitrogen) return nitrogen;
    }
    if (!content) throw missing('needs', `ingredients has no column headed ${name}`, n);
    return content;
  };
  if (['c:n', 'c/n', 'cn'].includes(wanted)) return { content: held('carbon'), per: held('nitrogen') };
  return { content: held(wanted) };
}
