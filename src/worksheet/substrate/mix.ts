import { weighingList } from '../../maths/substrate/weighingList';
import { optionalSetting, table } from '../cells/arguments';
import { only } from '../cells/columns';
import { fractionBelowOne } from '../cells/kinds';
import { amount, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { recipeColumns } from '../tables';
import { blockMass, blocks, spare, wantedMoisture } from './arguments';

export const MIX = defineFunction({
  name: 'MIX',
  family: 'substrate',
  arguments: [
    table(
      'recipe',
      only(recipeColumns, 'ingredient', 'share', 'moisture', 'pack'),
      'table with ingredient, share of dry mass, moisture as received, and pack',
    ),
    blocks,
    blockMass,
    wantedMoisture,
    spare,
    optionalSetting('spawn rate', fractionBelowOne(), 0, 'spawn by wet mass of substrate; 0 if left out'),
  ],
  result: tableResult({
    ingredient: label(),
    'dry mass': amount(),
    'mass to weigh': amount(),
    packs: amount('whole bags to fetch'),
  }),
  whole: ({ rows }, blockCount, massOfBlock, moisture, spareShare, spawnRate) => {
    const list = weighingList(rows, {
      blocks: blockCount,
      blockMass: massOfBlock,
      moisture,
      spare: spareShare,
      spawnRate,
    });
    const line = (ingredient: string, dryMass: number | '', mass: number, packs: number | '' = '') => ({
      ingredient,
      'dry mass': dryMass,
      'mass to weigh': mass,
      packs,
    });
    return [
      ...list.ingredients.map(({ dryMass, mass, packs }, i) =>
        line(rows[i]!.ingredient, dryMass, mass, packs ?? ''),
      ),
      line('water', '', list.water),
      ...(spawnRate > 0 ? [line('spawn', '', list.spawn)] : []),
      line('total', list.dryMass, list.substrate + list.spawn),
      line('in one block', list.dryMassPerBlock, massOfBlock),
    ];
  },
});
