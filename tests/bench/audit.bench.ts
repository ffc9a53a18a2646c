import { loadTools } from '../../src/worksheet/tools';
import { catalogue } from '../../src/worksheet/catalogue';
import type { Cell, Grid } from '../../src/worksheet/cells/cell';
import { audited } from '../maths/audit/books/audits';
import { barnFarm } from '../maths/audit/books/barnFarm';
import { containerFarm } from '../maths/audit/books/containerFarm';
import { tunnelFarm } from '../maths/audit/books/tunnelFarm';
import { crewFarm } from '../maths/audit/books/crewFarm';
import { glasshouseFarm } from '../maths/audit/books/glasshouseFarm';
import { oracleOfDecimals } from '../maths/audit/books/oracle';
import { bagFarm, marketFarm, shelfFarm, type Book } from '../maths/audit/books/farms';
import { cellarFarm, logFarm, roomFarm } from '../maths/audit/books/heldOutFarms';
import { scoredLines } from '../maths/audit/books/table';
import { plantSingles } from '../maths/audit/books/slips';
import { compare, type Measurement } from './measure';

// What an audit finds on books of eleven invented farms, as a table; and one call of YIELDAUDIT over 100,000 picks against
// one over 10,000: linear time means a ratio near 10. `FARMS=crew,barn BOOKS=4 SEED=9000 npm run bench -- audit` makes the
// table of some farms, of so many books each, of the seeds that follow; with `ORACLE=1` it says besides what could be had of
// slipped decimals at most.

const FARMS: Readonly<Record<string, (scatter: number, seed: number) => Book>> = {
  shelves: shelfFarm,
  bags: bagFarm,
  market: marketFarm,
  rooms: roomFarm,
  logs: logFarm,
  cellar: cellarFarm,
  crew: crewFarm,
  barn: barnFarm,
  containers: containerFarm,
  glasshouse: glasshouseFarm,
  tunnels: tunnelFarm,
};

/** One farm's book with slips, as often as it takes: labels and dates of each copy of their own. */
function bookOf(wanted: number): Book {
  const picks: Book['picks'] = [];
  const lots: Book['lots'] = [];
  let strains: Book['strains'] = new Map();
  for (let copy = 0; picks.length < wanted; copy++) {
    const { book } = plantSingles(shelfFarm(0.35, copy), 1, copy);
    strains = book.strains;
    const [rows, lotRows] = [picks.length, lots.length];
    const named = (lot: string): string => `${lot}-${copy}`;
    for (const pick of book.picks) picks.push({ ...pick, lot: named(pick.lot), row: pick.row + rows });
    for (const lot of book.lots) lots.push({ ...lot, lot: named(lot.lot), row: lot.row + lotRows });
  }
  return { picks: picks.slice(0, wanted), lots, strains, unit: 'kg', crate: 0 };
}

export function sheets(wanted: number): Grid[] {
  const book = bookOf(wanted);
  const cell = (entry: number | string | undefined): Cell => entry ?? null;
  return [
    [
      ['lot', 'date', 'mass (kg)', 'flush', 'picker'],
      ...book.picks.map((pick) => [
        pick.lot,
        cell(pick.date),
        cell(pick.mass),
        cell(pick.flush),
        cell(pick.picker),
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
      ...[...book.strains].map(([label, strain]) => [
        label,
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

export const figures = (): Promise<string[]> => {
  const { FARMS: some = Object.keys(FARMS).join(','), BOOKS = '20', SEED = '7000', ORACLE } = process.env;
  const farms = Object.fromEntries(some.split(',').map((farm) => [farm, FARMS[farm]!]));
  const atMost = Object.entries(ORACLE === undefined ? {} : farms).map(([name, farm]) => {
    const had = [0.25, 0.35, 0.45].map((scatter) => {
      const { right, left } = oracleOfDecimals(farm, scatter, Number(SEED));
      return `${right.toFixed(0)}/${left.toFixed(0)}`;
    });
    return `decimals × 10 / ÷ 10 that can be had at most, ${name}: ${had.join(' · ')}`;
  });
  const scores = scoredLines(farms, { YIELDAUDIT: audited }, Number(BOOKS), Number(SEED));
  return Promise.resolve([...atMost, ...scores]);
};

export async function measurements(): Promise<Measurement[]> {
  const options = { dateSystem: 1900, tools: await loadTools(['auditing']) } as const;
  const audit = catalogue.find(({ name }) => name === 'YIELDAUDIT')!;
  const [many, few] = [sheets(100_000), sheets(10_000)];
  return [
    compare(
      'YIELDAUDIT, 100,000 picks in one call',
      () => audit.evaluate(many, options),
      'the same over 10,000 picks',
      () => audit.evaluate(few, options),
      13,
      10,
    ),
  ];
}
