import { mixCost } from '../../maths/substrate/mixCost';
import { optionalSetting, table } from '../cells/arguments';
import { only } from '../cells/columns';
import { price } from '../cells/kinds';
import { amount, row } from '../cells/results';
import { defineFunction } from '../define';
import { recipeColumns } from './tables';
import { blockMass, blocks, spare, spawnRate, wantedMoisture } from './arguments';

export const MIXCOST = defineFunction({
  name: 'MIXCOST',
  family: 'substrate',
  arguments: [
    table(
      'recipe',
      only(recipeColumns, 'ingredient', 'share', 'moisture', 'cost', 'pack'),
      'table with ingredient, share of dry mass, moisture as received, and cost per unit mass',
    ),
    blocks,
    blockMass,
    wantedMoisture,
    spare,
    spawnRate,
    optionalSetting(
      'spawn price',
      price(),
      undefined,
      'price of a unit of mass of spawn; needed with a spawn rate',
    ),
  ],
  result: row({ 'cost of a block': amount(), 'cost of a unit of dry matter': amount() }),
  whole: ({ rows }, blockCount, massOfBlock, moisture, spareShare, rate, spawnPrice) => {
    const batch = {
      blocks: blockCount,
      blockMass: massOfBlock,
      moisture,
      spare: spareShare,
      spawnRate: rate,
    };
    const { perBlock, perDryMass } = mixCost(rows, batch, spawnPrice);
    return { 'cost of a block': perBlock, 'cost of a unit of dry matter': perDryMass };
  },
});
