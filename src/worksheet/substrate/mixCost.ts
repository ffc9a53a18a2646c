import { mixCost } from '../../maths/substrate/mixCost';
import { table } from '../cells/arguments';
import { only, required } from '../cells/columns';
import { number } from '../cells/kinds';
import { amount, row } from '../cells/results';
import { defineFunction } from '../define';
import { recipeColumns } from '../tables';
import { blockMass, blocks, spare, wantedMoisture } from './arguments';

export const MIXCOST = defineFunction({
  name: 'MIXCOST',
  family: 'substrate',
  arguments: [
    table(
      'recipe',
      {
        ...only(recipeColumns, 'ingredient', 'share', 'moisture', 'pack'),
        cost: required(
          number({ from: 0 }),
          'price of a unit of mass as received',
          ...recipeColumns.cost.alsoCalled,
        ),
      },
      'table with ingredient, share of dry mass, moisture as received, and cost per unit mass',
    ),
    blocks,
    blockMass,
    wantedMoisture,
    spare,
  ],
  result: row({ 'cost of a block': amount(), 'cost of a unit of dry matter': amount() }),
  whole: ({ rows }, blockCount, massOfBlock, moisture, spareShare) => {
    const batch = { blocks: blockCount, blockMass: massOfBlock, moisture, spare: spareShare, spawnRate: 0 };
    const { perBlock, perDryMass } = mixCost(rows, batch);
    return { 'cost of a block': perBlock, 'cost of a unit of dry matter': perDryMass };
  },
});
