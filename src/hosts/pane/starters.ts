import type { Book } from './book';
import { freeName, layOut, tablesWanted, type SheetPlan } from './layout';

// Starter sheets. The rows in them are invented. A date of 46055 is 2 February 2026.

const DATE = 'yyyy-mm-dd';
const PERCENT = '0%';

/** The sheets a farm begins with, in the order in which one refers to another. */
export const STARTERS: readonly SheetPlan[] = [
  {
    name: 'Strains',
    title: 'Strains: what you know of each',
    note: 'Days from inoculation to ready, days to the first pick, flushes and the efficiency to expect. Everything else looks strains up here.',
    table: {
      name: 'Strains',
      columns: [
        { header: 'strain' },
        { header: 'earliest' },
        { header: 'best' },
        { header: 'latest' },
        { header: 'first pick' },
        { header: 'pick days' },
        { header: 'flush gap' },
        { header: 'flushes' },
        { header: 'flush 1', numberFormat: PERCENT },
        { header: 'flush 2', numberFormat: PERCENT },
        { header: 'efficiency', numberFormat: PERCENT },
        { header: 'loss', numberFormat: PERCENT },
      ],
      rows: [
        ['Alder-3', 63, 77, 98, 7, 4, 18, 2, 0.7, 0.3, 0.8, 0.03],
        ['Birch-1', 12, 16, 24, 6, 3, 12, 2, 0.65, 0.35, 0.9, 0.05],
      ],
    },
    formulas: [],
  },
  {
    name: 'Lots',
    title: 'Lots: ready when?',
    note: 'One row a lot. Beside it, in one call each: the window in which to open it.',
    table: {
      name: 'Lots',
      columns: [
        { header: 'lot' },
        { header: 'strain', listFrom: 'Strains[strain]' },
        { header: 'blocks' },
        { header: 'block mass', numberFormat: '0.00' },
        { header: 'moisture', numberFormat: PERCENT },
        { header: 'inoculated', numberFormat: DATE },
      ],
      rows: [
        ['L-001', 'Alder-3', 60, 2.5, 0.6, 46055],
        ['L-002', 'Birch-1', 80, 2.5, 0.62, 46060],
        ['L-003', 'Alder-3', 45, 2.5, 0.6, 46069],
      ],
    },
    formulas: [
      {
        header: 'earliest',
        formula: '=PINSET.READYWINDOW(Lots[inoculated],Lots[strain],Strains[#All])',
        numberFormat: DATE,
        spans: ['earliest', 'best', 'latest'],
      },
    ],
  },
  {
    name: 'Rooms',
    title: 'Rooms: shelves and when they are closed',
    note: 'One row a room. The loading plan and the shelf use read it.',
    table: {
      name: 'Rooms',
      columns: [
        { header: 'room' },
        { header: 'shelves' },
        { header: 'blocks per shelf' },
        { header: 'closed from', numberFormat: DATE },
        { header: 'closed to', numberFormat: DATE },
      ],
      rows: [
        ['Room A', 12, 10, null, null],
        ['Room B', 8, 10, null, null],
      ],
    },
    formulas: [],
  },
  {
    name: 'Orders',
    title: 'Orders: what is wanted when',
    note: 'One row an order, with the blocks to load for it beside it.',
    table: {
      name: 'Orders',
      columns: [
        { header: 'product', listFrom: 'Strains[strain]' },
        { header: 'mass', numberFormat: '0.0' },
        { header: 'due', numberFormat: DATE },
        { header: 'price', numberFormat: '0.00' },
      ],
      rows: [
        ['Alder-3', 40, 46150, 14],
        ['Birch-1', 30, 46150, 9],
      ],
    },
    formulas: [
      {
        header: 'blocks at 2.5, 60% moisture, 80%',
        formula: '=PINSET.BLOCKSFOR(Orders[mass],2.5,60%,80%)',
      },
    ],
  },
  {
    name: 'Loads',
    title: 'Loads: what was opened, and when it is picked',
    note: 'One row a load: lot, strain, room, day and blocks. Beside it the first pick, and what each day brings against a limit.',
    table: {
      name: 'Loads',
      columns: [
        { header: 'lot' },
        { header: 'strain', listFrom: 'Strains[strain]' },
        { header: 'room', listFrom: 'Rooms[room]' },
        { header: 'loaded', numberFormat: DATE },
        { header: 'blocks' },
        { header: 'block mass', numberFormat: '0.00' },
        { header: 'moisture', numberFormat: PERCENT },
      ],
      rows: [
        ['L-002', 'Birch-1', 'Room A', 46077, 40, 2.5, 0.62],
        ['L-002', 'Birch-1', 'Room B', 46079, 40, 2.5, 0.62],
        ['L-001', 'Alder-3', 'Room A', 46132, 60, 2.5, 0.6],
      ],
    },
    formulas: [
      {
        header: 'first pick',
        formula: '=PINSET.PICKDATE(Loads[loaded],Loads[strain],Strains[#All])',
        numberFormat: DATE,
      },
      {
        header: 'picks per day',
        formula: '=PINSET.PICKCALENDAR(Loads[#All],Strains[#All],46083,46110)',
        numberFormat: '0.0',
        spans: ['date', 'total'],
        headed: true,
      },
    ],
    chart: { title: 'Picks per day against the limit', of: 'picks per day', rows: 28, limit: 12 },
  },
  {
    name: 'Picks',
    title: 'Picks: what came off',
    note: 'One row a pick: lot, day, mass. Sums and efficiencies are drawn from these rows.',
    table: {
      name: 'Picks',
      columns: [
        { header: 'lot', listFrom: 'Lots[lot]' },
        { header: 'date', numberFormat: DATE },
        { header: 'mass', numberFormat: '0.00' },
        { header: 'flush' },
        { header: 'grade', list: ['first', 'second', 'seconds for drying'] },
      ],
      rows: [
        ['L-002', 46083, 6.8, 1, 'first'],
        ['L-002', 46084, 7.9, 1, 'first'],
        ['L-002', 46085, 13.1, 1, 'second'],
      ],
    },
    formulas: [],
  },
  {
    name: 'Mix',
    title: 'Mix: a recipe and its weighing list',
    note: 'Shares of dry mass and the moisture of each ingredient as it comes. Beside it the weighing list for 40 blocks of 2.5 at 60%: change the figures in the call.',
    table: {
      name: 'Recipe',
      columns: [
        { header: 'ingredient' },
        { header: 'share', numberFormat: PERCENT },
        { header: 'moisture', numberFormat: PERCENT },
        { header: 'pack' },
      ],
      rows: [
        ['oak sawdust', 0.78, 0.2, null],
        ['wheat bran', 0.2, 0.1, 20],
        ['gypsum', 0.02, 0, 25],
      ],
    },
    formulas: [
      {
        header: 'weighing list',
        formula: '=PINSET.MIX(Recipe[#All],40,2.5,60%)',
        spans: ['ingredient', 'dry mass', 'mass to weigh', 'packs'],
        headed: true,
      },
    ],
  },
];

/** The sheets to lay down so that `plan` finds every table its calls refer to, that plan last. */
function withWhatItNeeds(plan: SheetPlan, tableNames: readonly string[]): readonly SheetPlan[] {
  const taken = new Set(tableNames.map((name) => name.toLowerCase()));
  const missing = STARTERS.filter(
    ({ table }) => tablesWanted(plan).includes(table.name) && !taken.has(table.name.toLowerCase()),
  );
  return [...new Set([...missing.flatMap((other) => withWhatItNeeds(other, tableNames)), plan])];
}

/** Lays a starter down, after the starters its calls refer to; gives the names of the new sheets, its own last. */
export async function layDownStarter(plan: SheetPlan, book: Book): Promise<readonly string[]> {
  const added: string[] = [];
  for (const wanted of withWhatItNeeds(plan, await book.tableNames())) {
    const layout = layOut(wanted, freeName(wanted.table.name, await book.tableNames()));
    added.push(await book.layDown(wanted.name, layout));
  }
  return added;
}
