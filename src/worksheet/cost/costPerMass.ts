import { costPerMass } from '../../maths/cost/cropCosts';
import { compensatedSum } from '../../maths/shared/numeric';
import { orFault } from '../cells/fault';
import { amount, label, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { optionalBlocksPerShelf } from './arguments';
import { costedLots, unpickedLines } from './costedLots';
import { costsTable, cropsTable } from './tables';

export const COSTPERMASS = defineFunction({
  name: 'COSTPERMASS',
  family: 'cost',
  arguments: [costsTable, cropsTable, optionalBlocksPerShelf],
  result: tableResult({
    lot: label(),
    blocks: amount(),
    'fresh mass': amount(),
    cost: amount(),
    'cost per mass': amount(),
  }),
  whole: (costs, crops, blocksPerShelf) => {
    const { lots, unpicked } = costedLots(costs, crops, blocksPerShelf);
    const fresh = compensatedSum(lots.map(({ mass }) => mass));
    const all = compensatedSum(lots.map(({ cost }) => cost));
    return [
      ...lots.map((lot) => ({
        lot: lot.lot,
        blocks: lot.blocks,
        'fresh mass': lot.mass,
        cost: lot.cost,
        'cost per mass': orFault(() => costPerMass(lot.cost, lot.mass, lot)),
      })),
      {
        lot: 'all lots picked',
        blocks: compensatedSum(lots.map(({ blocks }) => blocks)),
        'fresh mass': fresh,
        cost: all,
        'cost per mass': orFault(() => costPerMass(all, fresh)),
      },
      ...unpickedLines(unpicked).map((told) => ({
        lot: told,
        blocks: '' as const,
        'fresh mass': '' as const,
        cost: '' as const,
        'cost per mass': '' as const,
      })),
    ];
  },
});
