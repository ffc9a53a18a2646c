import { catalogue } from '../../src/worksheet/catalogue';
import type { Cell, Grid } from '../../src/worksheet/cells/cell';
import { cleanBook, plantSlips, STRAINS } from '../maths/audit/plantedBook';
import { compare, type Measurement } from './measure';

// One call of YIELDAUDIT over 100,000 picks against one over 10,000: linear time means a ratio near 10.

function sheets(picks: number): Grid[] {
  const clean = cleanBook({ picks, spread: 0.2, seed: picks });
  const { book } = plantSlips(clean, 0.01, 1);
  const cell = (entry: number | string | undefined): Cell => entry ?? null;
  return [
    [
      ['lot', 'date', 'mass', 'flush', 'blocks'],
      ...book.picks.map((pick) => [
        pick.lot,
        cell(pick.date),
        cell(pick.mass),
        cell(pick.flush),
        cell(pick.blocks),
      ]),
    ],
    [
      ['lot', 'strain', 'blocks', 'block mass', 'moisture', 'inoculated', 'loaded', 'total'],
      ...book.lots.map((lot) => [
        lot.lot,
        lot.strain,
        cell(lot.blocks),
        cell(lot.blockMass),
        cell(lot.moisture),
        cell(lot.inoculated),
        cell(lot.loaded),
        cell(lot.total),
      ]),
    ],
    [
      ['strain', 'earliest', 'first pick', 'pick days', 'flush gap', 'flushes', 'efficiency'],
      ...[...STRAINS.values()].map((strain) => [
        strain.label,
        cell(strain.earliest),
        cell(strain.firstPick),
        cell(strain.pickDays),
        cell(strain.flushGap),
        strain.flushes,
        cell(strain.efficiency),
      ]),
    ],
  ];
}

export function measurements(): Measurement[] {
  const audit = catalogue.find(({ name }) => name === 'YIELDAUDIT')!;
  const [many, few] = [sheets(100_000), sheets(10_000)];
  return [
    compare(
      'YIELDAUDIT, 100,000 picks in one call',
      () => audit.evaluate(many),
      'the same over 10,000 picks',
      () => audit.evaluate(few),
      13,
      10,
    ),
  ];
}
