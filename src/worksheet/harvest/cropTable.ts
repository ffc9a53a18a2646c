import { amount, label, mixed, numberedIn, percentOrWord, sometimes, tableResult } from '../cells/results';
import { defineFunction } from '../define';
import { croppedLotsTable, harvestsTable } from './arguments';
import { cropsOf, isCrop } from './lotCrops';

const NONE = '' as const;

/** 0 would read as not picked yet in the tables that take these figures. */
const orWord = (figure: number): number | 'none' => (figure === 0 ? 'none' : figure);

export const CROPTABLE = defineFunction({
  name: 'CROPTABLE',
  family: 'harvest',
  arguments: [harvestsTable, croppedLotsTable],
  result: tableResult({
    lot: label(),
    strain: label(),
    blocks: amount(),
    flush: numberedIn(amount('mass of each flush')),
    'no flush': sometimes(amount('mass of picks without a flush number')),
    total: mixed('mass of all picks; none for a crop that failed'),
    'per block': mixed('mass per block'),
    efficiency: percentOrWord('biological efficiency'),
    days: amount('days from loading to the last pick'),
    'efficiency per day': percentOrWord(),
  }),
  whole: (harvests, lots) => {
    const crops = cropsOf(harvests, lots);
    const own = crops.map(({ crop }) => crop).filter(isCrop);
    const flushes = Math.max(0, ...own.map(({ byFlush }) => byFlush.length));
    const mixed = flushes > 0 && own.some(({ unassigned }) => unassigned > 0);
    return crops.map(({ label: written, lot, crop }) => {
      const known = lot && { lot: lot.lot, strain: lot.strain, blocks: lot.blocks };
      if (known && isCrop(crop)) {
        return {
          ...known,
          flush: Array.from({ length: flushes }, (_, i) => crop.byFlush[i] ?? 0),
          'no flush': mixed ? crop.unassigned : undefined,
          total: orWord(crop.total),
          'per block': orWord(crop.perBlock),
          efficiency: orWord(crop.efficiency),
          days: crop.days ?? NONE,
          'efficiency per day': crop.efficiencyPerDay === undefined ? NONE : orWord(crop.efficiencyPerDay),
        };
      }
      const rest = isCrop(crop) ? NONE : (crop ?? NONE);
      return {
        ...(known && crop === undefined ? known : { lot: written, strain: rest, blocks: rest }),
        flush: rest === NONE ? [] : rest,
        'no flush': mixed ? rest : undefined,
        total: rest,
        'per block': rest,
        efficiency: rest,
        days: rest,
        'efficiency per day': rest,
      };
    });
  },
});
