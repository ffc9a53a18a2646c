import { blockCost } from '../maths/cost/blockCost';
import { breakEvenEfficiency } from '../maths/cost/breakEvenEfficiency';
import { costPerMass, cropCosts, type CostedCrop } from '../maths/cost/cropCosts';
import { shelfDayMargin } from '../maths/cost/shelfDayMargin';
import { CalcError, invalid, missing } from '../maths/shared/calcError';
import { loadDistributions } from '../maths/shared/distributions';
import { labelKey } from '../maths/shared/labels';
import { compensatedSum } from '../maths/shared/numeric';
import { column, keyColumn, optionalSetting, setting, table } from './cells/arguments';
import {
  choice,
  confidence,
  count,
  days,
  fractionBelowOne,
  mass,
  massOrNone,
  number,
  text,
} from './cells/kinds';
import { key, optional, type RowOf, type Table } from './cells/table';
import { defineFunction, resultColumn, tableResult, value, type Answer } from './define';

const costColumns = {
  item: key(text('item')),
  amount: number({ word: 'money', above: 0 }),
  /** What the amount is spent for; blank is the whole batch. */
  per: optional(choice(['block', 'batch', 'mass', 'shelf day']), 'batch'),
};
const costs = table(
  'costs',
  costColumns,
  'table with item, amount and per: block, batch, mass or shelf day; blank is batch',
);

const cropColumns = {
  lot: key(text('lot')),
  strain: optional(text('strain')),
  blocks: count(),
  /** Fresh mass picked; blank where the lot is not picked yet. */
  total: optional(massOrNone()),
  days: optional(days()),
  /** Days the shelves were really taken, where they differ from those until the last pick. */
  'shelf days': optional(days()),
};
const crops = table(
  'crops',
  cropColumns,
  'a CROPTABLE result, or any table with lot, blocks, total and days',
);

const price = number({ word: 'money', above: 0 });
const blocksPerShelf = count();

const PER =
  'per: block = once for each block; batch = once for all blocks of the call; mass = for each unit of fresh mass, in the ' +
  'unit of your masses; shelf day = for each shelf and day.';

const exampleCosts = [
  ['item', 'amount', 'per'],
  ['substrate', 1.5, 'block'],
  ['spawn', 0.5, 'block'],
  ['labour to fill', 300, 'batch'],
  ['picking and packing', 2, 'mass'],
];
const exampleCrops = [
  ['lot', 'strain', 'blocks', 'total', 'days'],
  ['A-101', 'Alder-3', 100, 80, 40],
  ['B-201', 'Birch-1', 50, 25, 20],
];
const badBasis = [
  ['item', 'amount', 'per'],
  ['substrate', 1.5, 'bag'],
];
const basisFault = {
  code: '#VALUE!' as const,
  says: 'costs, per: one of block, batch, mass, shelf day needed, got "bag" (row 2)',
  remedy: 'Write one of the words, or leave it blank for the whole batch.',
};

/** The lots that were picked, with what they gave and took. */
function pickedCrops(table: Table<RowOf<typeof cropColumns>>): {
  row: RowOf<typeof cropColumns>;
  entry: number;
  crop: CostedCrop;
}[] {
  const picked = table.rows.flatMap((row, entry) =>
    row.total === undefined
      ? []
      : [
          {
            row,
            entry,
            crop: { blocks: row.blocks, mass: row.total, shelfDays: row['shelf days'] ?? row.days },
          },
        ],
  );
  if (picked.length === 0) throw missing('crops', 'no lot with a total');
  return picked;
}

/** Costs of the picked lots; faults name the row of the table. */
function costsOf(
  items: Table<RowOf<typeof costColumns>>,
  picked: ReturnType<typeof pickedCrops>,
  perShelf: number | undefined,
): number[] {
  if (items.rows.length === 0) throw missing('costs', 'no item in it');
  try {
    return cropCosts(
      items.rows,
      picked.map(({ crop }) => crop),
      perShelf,
    );
  } catch (thrown) {
    if (
      thrown instanceof CalcError &&
      thrown.place.argument?.startsWith('crops') &&
      thrown.place.index !== undefined
    ) {
      throw new CalcError(thrown.kind, thrown.message, {
        ...thrown.place,
        index: picked[thrown.place.index]!.entry,
      });
    }
    throw thrown;
  }
}

export const cost = [
  defineFunction({
    name: 'BLOCKCOST',
    family: 'cost',
    summary: 'Cost of one block: what is spent per block plus its part of what is spent for the whole batch.',
    notes: `${PER} Amounts per mass and per shelf day are not part of a block’s cost: COSTPERMASS and BREAKEVEN count them.`,
    arguments: [costs, setting('blocks', count(), 'blocks that the amounts per batch are for')],
    result: value('cost per block'),
    sources: ['Definition: 1.50 + 0.50 + 300/150 = 4.00 a block in the example'],
    examples: [
      {
        title: '150 blocks: 1.50 + 0.50 + 300/150',
        arguments: [exampleCosts, 150],
        gives: 4,
      },
    ],
    faults: [
      { arguments: [badBasis, 150], ...basisFault },
      {
        arguments: [exampleCosts, null],
        code: '#VALUE!',
        says: 'blocks: a whole number of 1 or more needed, got a blank cell or 0',
        remedy: 'Say how many blocks the batch has.',
      },
    ],
    whole: (items, blocks) => {
      if (items.rows.length === 0) throw missing('costs', 'no item in it');
      return blockCost(items.rows, blocks);
    },
  }),

  defineFunction({
    name: 'COSTPERMASS',
    family: 'cost',
    summary:
      'Cost of each unit of fresh mushrooms, lot by lot and together, from a cost table and a crop table.',
    notes:
      `${PER} Amounts per batch are shared by blocks over the lots picked. Lots without a total are left out: what they ` +
      'cost so far is not in the figures. Give blocks per shelf where something is spent per shelf day; days are the ' +
      'shelf days column of crops where there is one, else days.',
    arguments: [
      costs,
      crops,
      optionalSetting(
        'blocks per shelf',
        blocksPerShelf,
        undefined,
        'blocks a shelf holds, for costs per shelf day',
      ),
    ],
    result: tableResult(
      resultColumn('lot'),
      resultColumn('blocks'),
      resultColumn('fresh mass'),
      resultColumn('cost'),
      resultColumn('cost per mass'),
    ),
    sources: ['Definition: cost over fresh mass; worked by hand in the example'],
    examples: [
      {
        title: 'A-101: 100 × 2 + 300 × 100/150 + 80 × 2 = 560 for 80; B-201: 100 + 100 + 50 = 250 for 25',
        arguments: [exampleCosts, exampleCrops],
        gives: [
          ['lot', 'blocks', 'fresh mass', 'cost', 'cost per mass'],
          ['A-101', 100, 80, 560, 7],
          ['B-201', 50, 25, 250, 10],
          ['all lots picked', 150, 105, 810, 810 / 105],
        ],
      },
    ],
    faults: [
      { arguments: [badBasis, exampleCrops], ...basisFault },
      {
        arguments: [
          [
            ['item', 'amount', 'per'],
            ['heating', 0.2, 'shelf day'],
          ],
          exampleCrops,
        ],
        code: '#VALUE!',
        says: 'blocks per shelf: a number for the costs per shelf day needed',
        remedy: 'Say how many blocks a shelf holds.',
      },
      {
        arguments: [
          exampleCosts,
          [
            ['lot', 'blocks', 'total'],
            ['A-101', 100, null],
          ],
        ],
        code: '#N/A',
        says: 'crops: no lot with a total',
        remedy: 'Wait for the first pick.',
      },
    ],
    whole: (items, table, perShelf) => {
      const picked = pickedCrops(table);
      const spent = costsOf(items, picked, perShelf);
      const rows = picked.map(({ row, crop }, i): Answer[] => [
        row.lot,
        crop.blocks,
        crop.mass,
        spent[i]!,
        costPerMass(spent[i]!, crop.mass),
      ]);
      const blocks = compensatedSum(picked.map(({ crop }) => crop.blocks));
      const fresh = compensatedSum(picked.map(({ crop }) => crop.mass));
      const all = compensatedSum(spent);
      return [...rows, ['all lots picked', blocks, fresh, all, costPerMass(all, fresh)]];
    },
  }),

  defineFunction({
    name: 'BREAKEVEN',
    family: 'cost',
    summary: 'Biological efficiency at which a block pays for itself at a price.',
    notes:
      `${PER} Cost of a block, its shelf time included, ÷ ((price − cost per mass) × block mass × (1 − moisture)). Give ` +
      'blocks per shelf and days where something is spent per shelf day. Lost blocks bear nothing: divide the result by ' +
      'the share that survives.',
    arguments: [
      costs,
      setting('blocks', count(), 'blocks that the amounts per batch are for'),
      column('block mass', mass(), 'wet mass of one block'),
      column('moisture', fractionBelowOne(), 'water share of the wet block: 62% or 0.62'),
      keyColumn('price', price, 'what a unit of fresh mass sells for'),
      optionalSetting(
        'blocks per shelf',
        blocksPerShelf,
        undefined,
        'blocks a shelf holds, for costs per shelf day',
      ),
      optionalSetting('days', days(), undefined, 'days a block stays on the shelf, for costs per shelf day'),
    ],
    result: value('break-even efficiency', 'percent'),
    sources: ['Royse, D. J. (1985) Mycologia 77(5):756–762: biological efficiency; solved for income = cost'],
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
        says: 'price: more than the 2 that each unit of mass costs needed, got 1.5',
        remedy: 'At such a price every kilogram picked loses money: no efficiency pays for the block.',
      },
      {
        arguments: [
          [
            ['item', 'amount', 'per'],
            ['heating', 0.2, 'shelf day'],
          ],
          150,
          2.5,
          0.6,
          12,
        ],
        code: '#VALUE!',
        says: 'blocks per shelf: a number for the costs per shelf day needed',
        remedy: 'Give blocks per shelf and days.',
      },
    ],
    eachRow: (items, blocks, blockMass, moisture, sold, perShelf, onShelf) => {
      if (items.rows.length === 0) throw missing('costs', 'no item in it');
      if (items.rows.some(({ per }) => per === 'shelf day')) {
        if (perShelf === undefined)
          throw invalid('blocks per shelf', 'a number for the costs per shelf day', undefined);
        if (onShelf === undefined) throw invalid('days', 'days for the costs per shelf day', undefined);
      }
      const shelfDays = perShelf === undefined || onShelf === undefined ? 0 : onShelf / perShelf;
      return breakEvenEfficiency(items.rows, blocks, { blockMass, moisture, price: sold, shelfDays });
    },
  }),

  defineFunction({
    name: 'SHELFDAYMARGIN',
    family: 'cost',
    summary:
      'Margin per shelf and day by strain or lot: what to rank strains by when shelves are the bottleneck.',
    notes:
      `${PER} Income is total × price. Shelf days are shelves × the days they were really taken: the shelf days column of ` +
      'crops (from load until cleared) where there is one, else days to the last pick. All margins over all shelf days, ' +
      'with a confidence interval over lots (ratio estimate, rough below ten lots): strains whose intervals overlap ' +
      'widely are not told apart. Lots without a total are left out.',
    arguments: [
      costs,
      crops,
      setting('price', price, 'what a unit of fresh mass sells for'),
      setting('blocks per shelf', blocksPerShelf, 'blocks a shelf holds'),
      optionalSetting('by', choice(['strain', 'lot']), 'strain', 'strain or lot; strain if left out'),
      optionalSetting('confidence', confidence(), 0.95, 'how sure the interval is to hold; 95% if left out'),
    ],
    result: tableResult(
      resultColumn('of'),
      resultColumn('lots'),
      resultColumn('shelf days'),
      resultColumn('income'),
      resultColumn('cost'),
      resultColumn('margin'),
      resultColumn('margin per shelf and day'),
      resultColumn('from'),
      resultColumn('to'),
    ),
    sources: [
      'Cochran, W. G. (1977) Sampling Techniques, chapter 6 (from memory, unverified): ratio estimate and its variance',
    ],
    examples: [
      {
        title: '20 blocks a shelf: A-101 5 shelves × 40 days, 800 − 560 = 240; B-201 2.5 × 20, 250 − 250 = 0',
        arguments: [exampleCosts, exampleCrops, 10, 20, 'lot'],
        gives: [
          ['of', 'lots', 'shelf days', 'income', 'cost', 'margin', 'margin per shelf and day', 'from', 'to'],
          ['A-101', 1, 200, 800, 560, 240, 1.2, '', ''],
          ['B-201', 1, 50, 250, 250, 0, 0, '', ''],
        ],
      },
    ],
    faults: [
      {
        arguments: [
          exampleCosts,
          [
            ['lot', 'strain', 'blocks', 'total'],
            ['A-101', 'Alder-3', 100, 80],
          ],
          10,
          20,
        ],
        code: '#VALUE!',
        says: 'crops, days: the days that the shelves were taken needed',
        remedy: 'Add a days column: from load until the shelf was cleared.',
      },
      {
        arguments: [
          exampleCosts,
          [
            ['lot', 'blocks', 'total', 'days'],
            ['A-101', 100, 80, 40],
          ],
          10,
          20,
        ],
        code: '#VALUE!',
        says: 'crops, strain: a strain needed, got a blank cell (row 2)',
        remedy: 'Add the strain column, or ask by lot.',
      },
    ],
    prepare: loadDistributions,
    whole: (items, table, sold, perShelf, by, level) => {
      const picked = pickedCrops(table);
      const spent = costsOf(items, picked, perShelf);
      const groups = new Map<
        string,
        { name: string; lots: { income: number; cost: number; shelfDays: number }[] }
      >();
      picked.forEach(({ row, entry, crop }, i) => {
        if (crop.shelfDays === undefined) {
          throw invalid('crops, days', 'the days that the shelves were taken', undefined, entry);
        }
        const name = by === 'lot' ? row.lot : row.strain;
        if (name === undefined) throw invalid('crops, strain', 'a strain', undefined, entry);
        const same = labelKey(name);
        const group = groups.get(same) ?? { name, lots: [] };
        groups.set(same, group);
        group.lots.push({
          income: crop.mass * sold,
          cost: spent[i]!,
          shelfDays: (crop.blocks / perShelf) * crop.shelfDays,
        });
      });
      return [...groups.values()].map(({ name, lots }): Answer[] => {
        const sum = (of: (lot: (typeof lots)[number]) => number): number => compensatedSum(lots.map(of));
        const { perShelfDay, interval } = shelfDayMargin(
          lots.map((lot) => ({ margin: lot.income - lot.cost, shelfDays: lot.shelfDays })),
          level,
        );
        return [
          name,
          lots.length,
          sum((lot) => lot.shelfDays),
          sum((lot) => lot.income),
          sum((lot) => lot.cost),
          sum((lot) => lot.income - lot.cost),
          perShelfDay,
          interval?.[0] ?? '',
          interval?.[1] ?? '',
        ];
      });
    },
  }),
];
