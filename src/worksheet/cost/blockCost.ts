import { blockCost } from '../../maths/cost/blockCost';
import { setting } from '../cells/arguments';
import { count } from '../cells/kinds';
import { amount, value } from '../cells/results';
import { defineFunction } from '../define';
import { itemsOf } from './costedLots';
import { costsTable } from './tables';

export const BLOCKCOST = defineFunction({
  name: 'BLOCKCOST',
  family: 'cost',
  arguments: [costsTable, setting('blocks', count(), 'blocks that the amounts per batch are for')],
  result: value('cost per block', amount()),
  whole: (costs, blocks) => blockCost(itemsOf(costs), blocks),
});
