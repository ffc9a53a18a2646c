import { catalogue } from '../../src/worksheet/catalogue';
import type { Grid } from '../../src/worksheet/cells/cell';
import { compare, seeded, type Measurement } from './measure';

// One call over a column of 100,000 rows against the same arithmetic in a plain loop over numbers that were read
// and checked beforehand. Both make the column of one-cell rows that a sheet takes.

const ROWS = 100_000;

const call = (name: string, given: readonly Grid[]): unknown =>
  catalogue.find((f) => f.name === name)!.evaluate(given);
const column = <T>(make: (row: number) => T): T[][] => Array.from({ length: ROWS }, (_, row) => [make(row)]);
const plain = (grid: readonly (readonly number[])[]): Float64Array =>
  Float64Array.from(grid, ([cell]) => cell!);

export function measurements(): Measurement[] {
  const random = seeded(1);

  const fresh = column(() => 10 + 30 * random());
  const blockMass = column(() => 2 + random());
  const moisture = column(() => 0.55 + 0.1 * random());
  const blocks = column(() => 20 + Math.floor(30 * random()));
  const prepared = [fresh, blockMass, moisture, blocks].map(plain) as [
    Float64Array,
    Float64Array,
    Float64Array,
    Float64Array,
  ];

  const strains: Grid = [
    ['strain', 'earliest', 'best', 'latest'],
    ...Array.from({ length: 12 }, (_, i) => [`Strain-${i}`, 50 + i, 60 + i, 80 + i]),
  ];
  const inoculated = column(() => 45_000 + Math.floor(900 * random()));
  const strain = column(() => `Strain-${Math.floor(12 * random())}`);
  const dates = plain(inoculated);
  const names = strain.map(([name]) => name!);
  const best = new Map(strains.slice(1).map(([name, , days]) => [name as string, days as number]));

  return [
    compare(
      'BIOEFFICIENCY, 100,000 rows in one call',
      () => call('BIOEFFICIENCY', [fresh, blockMass, moisture, blocks]),
      'plain loop over prepared numbers',
      () => {
        const [f, m, w, n] = prepared;
        const rows = new Array<number[]>(ROWS);
        for (let i = 0; i < ROWS; i++) rows[i] = [f[i]! / (n[i]! * m[i]! * (1 - w[i]!))];
        return rows;
      },
      6,
    ),
    compare(
      'READYDATE, 100,000 rows in one call',
      () => call('READYDATE', [inoculated, strain, strains]),
      'plain loop over prepared numbers and a map of strains',
      () => {
        const rows = new Array<number[]>(ROWS);
        for (let i = 0; i < ROWS; i++) rows[i] = [dates[i]! + best.get(names[i]!)!];
        return rows;
      },
      6,
    ),
  ];
}
