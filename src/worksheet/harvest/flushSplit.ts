import { MOST_FLUSHES } from '../../maths/harvest/flushTimes';
import { loadedDay } from '../../maths/shared/loadedBlocks';
import { table } from '../cells/arguments';
import { only, optional } from '../cells/columns';
import { orFault } from '../cells/fault';
import { count } from '../cells/kinds';
import { amount, tableResult, type Faulty } from '../cells/results';
import { defineFunction } from '../define';
import { croppedLotColumns, strainColumns } from '../tables';
import { harvestsTable } from './arguments';
import { lotsPicked } from './lotCrops';

const NONE = '' as const;

export const FLUSHSPLIT = defineFunction({
  name: 'FLUSHSPLIT',
  family: 'harvest',
  arguments: [
    harvestsTable,
    table('lots', only(croppedLotColumns, 'lot', 'strain', 'loaded'), 'table with lot, strain and loaded'),
    table(
      'strains',
      {
        ...only(strainColumns, 'strain', 'first pick', 'pick days', 'flush gap'),
        flushes: optional(
          count(1, MOST_FLUSHES),
          'number of flushes the blocks are kept for; any number where left out',
          ...strainColumns.flushes.alsoCalled,
        ),
      },
      'table with strain, first pick, pick days, flush gap and flushes',
    ),
  ],
  result: tableResult({ flush: amount('which flush, counted from 1') }),
  needs: ['statistics'],
  whole: (harvests, lots, strains, { tools: { statistics } }) => {
    // By the row of the harvests; its header row is row 1.
    const flushAt = new Map<number, number | Faulty | typeof NONE>();
    for (const { label, picks: rows, faults } of lotsPicked(harvests)) {
      for (const { at, flush } of rows) flushAt.set(at, flush ?? NONE);
      // A crop that failed has no flush to find.
      const picks = rows.filter(({ mass }) => mass > 0);
      for (const [at, fault] of faults) flushAt.set(at, fault);
      const flushes = orFault(() => {
        const lot = lots.find(label, 'harvests, lot');
        const strain = strains.find(lot.strain, 'lots, strain', lot.at);
        return statistics.flushesFromDates(picks, loadedDay(lot.loaded), {
          at: strain.at,
          firstPick: strain['first pick'],
          pickDays: strain['pick days'],
          flushGap: strain['flush gap'],
          flushes: strain.flushes,
        });
      });
      picks.forEach(({ at }, i) => flushAt.set(at, Array.isArray(flushes) ? flushes[i]! : flushes));
    }
    const lastRow = harvests.rowNumbers.at(-1) ?? 1;
    return Array.from({ length: lastRow - 1 }, (_, i) => ({ flush: flushAt.get(i + 2) ?? NONE }));
  },
});
