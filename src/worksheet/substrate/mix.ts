import { weighingList } from '../../maths/substrate/weighingList';
import { table } from '../cells/arguments';
import { only } from '../cells/columns';
import { amount, label, percent, sometimes, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { recipeColumns } from './tables';
import { blockMass, blocks, spare, spawnRate, wantedMoisture } from './arguments';
import { nutrientsOf, type Nutrients } from './nutrients';

export const MIX = defineFunction({
  name: 'MIX',
  family: 'substrate',
  arguments: [
    table(
      'recipe',
      only(recipeColumns, 'ingredient', 'share', 'moisture', 'pack', 'carbon', 'nitrogen', 'protein'),
      'table with ingredient, share of dry mass, moisture as received, and pack',
    ),
    blocks,
    blockMass,
    wantedMoisture,
    spare,
    spawnRate,
  ],
  result: tableResult({
    ingredient: label(),
    'dry mass': amount(),
    'mass to weigh': amount(),
    packs: amount('whole bags to fetch'),
    nitrogen: sometimes(percent('of the dry matter, where the recipe has it')),
    'C:N': sometimes(amount('where the recipe has carbon and nitrogen')),
  }),
  whole: ({ rows }, blockCount, massOfBlock, moisture, spareShare, rate) => {
    const list = weighingList(rows, {
      blocks: blockCount,
      blockMass: massOfBlock,
      moisture,
      spare: spareShare,
      spawnRate: rate,
    });
    const { ofEach, ofMix } = nutrientsOf(rows, list.ingredients);
    const line = (
      ingredient: string,
      dryMass: number | '',
      mass: number,
      packs: number | '' = '',
      nutrients: Nutrients = { nitrogen: undefined, 'C:N': undefined },
    ) => ({ ingredient, 'dry mass': dryMass, 'mass to weigh': mass, packs, ...nutrients });
    const withSpawn = rate > 0;
    return [
      ...list.ingredients.map(({ dryMass, mass, packs }, i) =>
        line(rows[i]!.ingredient, dryMass, mass, packs ?? '', ofEach[i]),
      ),
      line('water', '', list.water),
      ...(withSpawn ? [line('spawn', '', list.spawn)] : []),
      line('total', list.dryMass, list.substrate + list.spawn, '', ofMix),
      line('in one block', list.dryMassPerBlock, massOfBlock),
      ...(withSpawn
        ? [line('to fill a bag before spawning', list.dryMassPerBlock, massOfBlock / (1 + rate))]
        : []),
    ];
  },
});
