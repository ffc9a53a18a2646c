import { catalogue } from '../../src/worksheet/catalogue';
import type { Cell, Grid } from '../../src/worksheet/cells/cell';
import { evaluate, prepared } from '../worksheet/prepared';
import { compare, seeded, type Measurement } from './measure';

// How the time grows from 10,000 rows to 100,000: ten times the rows should take about ten times as long.

const FEW = 10_000;
const MANY = 100_000;
const MOST_GROWTH = 13;

const columnOf = (cells: readonly Cell[]): Grid => cells.map((cell) => [cell]);

/** Lots of 40 strains; a third still waits. */
function records(rows: number): Grid[] {
  const random = seeded(2);
  const strains: Cell[] = [];
  const inoculated: Cell[] = [];
  const ready: Cell[] = [];
  for (let i = 0; i < rows; i++) {
    const day = 45_000 + Math.floor(800 * random());
    strains.push(`Strain-${Math.floor(40 * random())}`);
    inoculated.push(day);
    ready.push(random() < 1 / 3 ? null : day + 40 + Math.floor(60 * random()));
  }
  return [columnOf(strains), columnOf(inoculated), columnOf(ready), [[46_000]]];
}

/** A spawn family from one culture: each lot made from one of the lots before it, one in ten from two. */
function spawnFamily(rows: number): Grid[] {
  const random = seeded(3);
  const lots: Cell[] = ['L-0'];
  const parents: Cell[] = [null];
  for (let i = 1; i < rows; i++) {
    // Each lot has about ten made from it, as spawn does.
    const parent = (): string => `L-${Math.floor(i / 10 - (i / 20) * random())}`;
    lots.push(`L-${i}`);
    parents.push(random() < 0.1 ? `${parent()}, ${parent()}` : parent());
  }
  return [[['L-0']], columnOf(lots), columnOf(parents)];
}

export async function measurements(): Promise<Measurement[]> {
  const growth = async (name: string, data: (rows: number) => Grid[]): Promise<Measurement> => {
    const f = catalogue.find((one) => one.name === name)!;
    await prepared(f);
    const [few, many] = [data(FEW), data(MANY)];
    return compare(
      `${name}, 100,000 rows`,
      () => evaluate(f, many),
      '10,000 rows',
      () => evaluate(f, few),
      MOST_GROWTH,
      21,
    );
  };
  return [await growth('READYSTATS', records), await growth('DESCENDANTS', spawnFamily)];
}
