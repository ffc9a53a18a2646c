import { breakEvenEfficiency } from '../../maths/cost/breakEvenEfficiency';
import { shelfDaysOf } from '../../maths/cost/costItem';
import { column, keyColumn, optionalSetting, setting } from '../cells/arguments';
import { count, days, mass, moisture, number } from '../cells/kinds';
import { percent, value } from '../cells/results';
import { defineFunction } from '../define';
import { optionalBlocksPerShelf } from './arguments';
import { itemsOf } from './costedLots';
import { costsTable } from './tables';

export const BREAKEVEN = defineFunction({
  name: 'BREAKEVEN',
  family: 'cost',
  arguments: [
    costsTable,
    setting('blocks', count(), 'blocks that the amounts per batch are for'),
    column('block mass', mass(), 'wet mass of one block'),
    column('moisture', moisture(), 'water share of the wet block: 62% or 0.62'),
    keyColumn('price', number({ above: 0 }), 'what a unit of fresh mass sells for'),
    optionalBlocksPerShelf,
    optionalSetting('days', days(), undefined, 'days a block stays on the shelf, for costs per shelf day'),
  ],
  result: value('break-even efficiency', percent()),
  eachRow: (costs, blocks, blockMass, water, soldAt, blocksPerShelf, onShelf) => {
    const items = itemsOf(costs);
    const shelfDays = shelfDaysOf(items, blocksPerShelf, onShelf);
    return breakEvenEfficiency(items, blocks, { blockMass, moisture: water, price: soldAt, shelfDays });
  },
});
