import { parseStructRef, stringifyStructRef, stringifyTokens, tokenize } from '@borgar/fx';
import {
  chart,
  column,
  formula,
  inputs,
  table,
  type Column,
  type PlainSheet,
  type Reads,
  type SheetTable,
  type Thing,
} from '../xlsx/describe';
import { freeName, type Book } from './book';

// Starter sheets. The rows in them are invented.

/** Rows below a column of answers kept in its format, for rows to come. */
const growth = 500;

const starter = (name: string, title: string, note: string, ...things: readonly Thing[]): PlainSheet => ({
  name,
  title,
  notes: [note],
  things,
  gridLines: true,
});

const columns = (reads: Reads, ...headers: readonly string[]): Column[] =>
  headers.map((header) => column(header, reads));

/** The sheets a farm begins with, in the order in which one refers to another. */
export const STARTERS: readonly PlainSheet[] = [
  starter(
    'Strains',
    'Strains: what you know of each',
    'Days from inoculation to ready, days to the first pick, flushes and the efficiency to expect. Everything else looks strains up here.',
    table(
      'A4',
      'Strains',
      [
        column('strain'),
        ...columns('count', 'earliest', 'best', 'latest', 'first pick', 'pick days', 'flush gap', 'flushes'),
        ...columns('percent', 'flush 1', 'flush 2', 'efficiency', 'loss'),
      ],
      [
        ['Alder-3', 63, 77, 98, 7, 4, 18, 2, 0.7, 0.3, 0.8, 0.03],
        ['Birch-1', 12, 16, 24, 6, 3, 12, 2, 0.65, 0.35, 0.9, 0.05],
      ],
    ),
  ),
  starter(
    'Lots',
    'Lots: ready when?',
    'One row a lot. Beside it, in one call each: the window in which to open it.',
    table(
      'A4',
      'Lots',
      [
        column('lot'),
        column('strain', 'text', 'Strains[strain]'),
        column('blocks', 'count'),
        column('block mass', 'number'),
        column('moisture', 'percent'),
        column('inoculated', 'date'),
      ],
      [
        ['L-001', 'Alder-3', 60, 2.5, 0.6, '2026-02-02'],
        ['L-002', 'Birch-1', 80, 2.5, 0.62, '2026-02-07'],
        ['L-003', 'Alder-3', 45, 2.5, 0.6, '2026-02-16'],
      ],
    ),
    formula(
      'H5',
      '=PINSET.READYWINDOW(Lots[inoculated],Lots[strain],Strains[#All])',
      ['date', 'date', 'date'],
      {
        headers: ['earliest', 'best', 'latest'],
        growth,
      },
    ),
  ),
  starter(
    'Rooms',
    'Rooms: shelves and when they are closed',
    'One row a room. The loading plan and the shelf use read it.',
    table(
      'A4',
      'Rooms',
      [
        column('room'),
        ...columns('count', 'shelves', 'blocks per shelf'),
        ...columns('date', 'closed from', 'closed to'),
      ],
      [
        ['Room A', 12, 10, null, null],
        ['Room B', 8, 10, null, null],
      ],
    ),
  ),
  starter(
    'Orders',
    'Orders: what is wanted when',
    'One row an order, with the blocks to load for it beside it.',
    table(
      'A4',
      'Orders',
      [
        column('product', 'text', 'Strains[strain]'),
        column('mass', 'mass'),
        column('due', 'date'),
        column('price', 'money'),
      ],
      [
        ['Alder-3', 40, '2026-05-08', 14],
        ['Birch-1', 30, '2026-05-08', 9],
      ],
    ),
    formula('F5', '=PINSET.BLOCKSFOR(Orders[mass],2.5,60%,80%)', 'count', {
      headers: ['blocks at 2.5, 60% moisture, 80%'],
      growth,
    }),
  ),
  starter(
    'Loads',
    'Loads: what was opened, and when it is picked',
    'One row a load: lot, strain, room, day and blocks. Beside it the first pick, and what each day brings against a limit.',
    table(
      'A4',
      'Loads',
      [
        column('lot'),
        column('strain', 'text', 'Strains[strain]'),
        column('room', 'text', 'Rooms[room]'),
        column('loaded', 'date'),
        column('blocks', 'count'),
        column('block mass', 'number'),
        column('moisture', 'percent'),
      ],
      [
        ['L-002', 'Birch-1', 'Room A', '2026-02-24', 40, 2.5, 0.62],
        ['L-002', 'Birch-1', 'Room B', '2026-02-26', 40, 2.5, 0.62],
        ['L-001', 'Alder-3', 'Room A', '2026-04-20', 60, 2.5, 0.6],
      ],
    ),
    formula('I5', '=PINSET.PICKDATE(Loads[loaded],Loads[strain],Strains[#All])', 'date', {
      headers: ['first pick'],
      growth,
    }),
    inputs('K3', { label: 'limit', value: 12, reads: 'mass', remark: 'the most to pick in a day' }),
    formula(
      'K4',
      '=PINSET.PICKCALENDAR(Loads[#All],Strains[#All],DATE(2026,3,2),DATE(2026,3,29))',
      ['date', 'mass'],
      { headed: true, growth },
    ),
    formula('M5', '=SEQUENCE(28,1,L3,0)', 'mass', { headers: ['limit'] }),
    chart('A10:G26', 'column', 'Picks per day against the limit', {
      across: 'K5:K32',
      series: [{ title: 'picks per day', values: 'L5:L32' }],
      limits: [{ title: 'limit', values: 'M5:M32' }],
      acrossReads: 'date',
      upReads: 'mass',
    }),
  ),
  starter(
    'Picks',
    'Picks: what came off',
    'One row a pick: lot, day, mass. Sums and efficiencies are drawn from these rows.',
    table(
      'A4',
      'Picks',
      [
        column('lot', 'text', 'Lots[lot]'),
        column('date', 'date'),
        column('mass', 'number'),
        column('flush', 'count'),
        column('grade', 'text', ['first', 'second', 'seconds for drying']),
      ],
      [
        ['L-002', '2026-03-02', 6.8, 1, 'first'],
        ['L-002', '2026-03-03', 7.9, 1, 'first'],
        ['L-002', '2026-03-04', 13.1, 1, 'second'],
      ],
    ),
  ),
  starter(
    'Mix',
    'Mix: a recipe and its weighing list',
    'Shares of dry mass and the moisture of each ingredient as it comes. Beside it the weighing list for 40 blocks of 2.5 at 60%: change the figures in the call.',
    table(
      'A4',
      'Recipe',
      [column('ingredient'), ...columns('percent', 'share', 'moisture'), column('pack', 'mass')],
      [
        ['oak sawdust', 0.78, 0.2, null],
        ['wheat bran', 0.2, 0.1, 20],
        ['gypsum', 0.02, 'none', 25],
      ],
    ),
    formula('F4', '=PINSET.MIX(Recipe[#All],40,2.5,60%)', ['text', 'number', 'number', 'number'], {
      headed: true,
    }),
  ),
  starter(
    'Plan',
    'Plan: what to load when',
    'One call over your lots, strains, rooms and orders: what to load, what becomes of each order, what is left, what is picked. Type the first day; the limit is the most to pick in a day.',
    inputs(
      'A4',
      { label: 'first day', value: '2026-04-06', reads: 'date', remark: 'or =TODAY()' },
      { label: 'days', value: 35, reads: 'count' },
    ),
    table(
      'E4',
      'Calendar',
      [column('day'), ...columns('mass', 'pick limit'), ...columns('count', 'load limit')],
      [
        ['Monday', 20, 'none'],
        ['Tuesday', 20, 'none'],
        ['Wednesday', 20, 'none'],
        ['Thursday', 20, 'none'],
        ['Friday', 20, 'none'],
        ['Saturday', 20, 'off'],
        ['Sunday', 20, 'off'],
      ],
    ),
    ...(
      [
        [
          'plan',
          'A',
          ['date', 'text', 'text', 'text', 'count', 'count', 'date', 'number', 'percent', 'text'],
        ],
        ['orders', 'L', ['text', 'date', 'date', 'mass', 'mass', 'mass', 'mass', 'text', 'text']],
        ['lots', 'V', ['text', 'text', 'count', 'count', 'count', 'count', 'date']],
        ['picks', 'AD', ['date', 'mass']],
      ] as const
    ).map(([view, letter, reads]) =>
      formula(
        `${letter}14`,
        `=PINSET.LOADPLAN(Lots[#All],Strains[#All],Rooms[#All],Orders[#All],B4,B5,Calendar[#All],,,,"${view}")`,
        reads,
        { headed: true, growth },
      ),
    ),
  ),
  starter(
    'Audit',
    'Audit: what came off, and what cannot be right',
    'Reads your picks, lots and strains. The surest findings first; beside them what each lot gave.',
    formula(
      'A4',
      '=PINSET.YIELDAUDIT(Picks[#All],Lots[#All],Strains[#All])',
      ['text', 'count', 'text', 'text', 'text', 'number', 'number', 'number', 'text', 'text'],
      { headed: true, growth },
    ),
    formula('L4', '=PINSET.CROPTABLE(Picks[#All],Lots[#All])', ['text', 'text', 'count', 'mass'], {
      headed: true,
      growth,
    }),
  ),
];

const isTable = (thing: Thing): thing is SheetTable => thing.kind === 'table';
const tablesOf = ({ things }: PlainSheet): string[] => things.filter(isTable).map(({ name }) => name);

/** The thing with each of its formulas changed. */
function withFormulas(thing: Thing, change: (formula: string) => string): Thing {
  switch (thing.kind) {
    case 'formula':
      return { ...thing, formula: change(thing.formula) };
    case 'figures':
      return { ...thing, figures: thing.figures.map((one) => ({ ...one, formula: change(one.formula) })) };
    case 'table':
      return {
        ...thing,
        columns: thing.columns.map((one) =>
          one.formula === undefined ? one : { ...one, formula: change(one.formula) },
        ),
      };
    case 'inputs':
    case 'words':
    case 'chart':
      return thing;
  }
}

/** The formula with references to one table made to another: `Lots[strain]` to `Lots2[strain]`. */
export function withTableRenamed(formula: string, from: string, to: string): string {
  const tokens = tokenize(formula).map((token) => {
    if (token.type !== 'structured') return token;
    const reference = parseStructRef(token.value);
    return reference?.table === from
      ? { ...token, value: stringifyStructRef({ ...reference, table: to }) }
      : token;
  });
  return stringifyTokens(tokens);
}

/** Names of the tables that a sheet's formulas refer to, its own left out. */
function tablesWanted(sheet: PlainSheet): readonly string[] {
  const named = new Set<string>();
  const note = (formula: string): string => {
    for (const { type, value } of tokenize(formula)) {
      const wanted = type === 'structured' ? parseStructRef(value)?.table : undefined;
      if (wanted !== undefined) named.add(wanted);
    }
    return formula;
  };
  sheet.things.forEach((thing) => withFormulas(thing, note));
  return [...named].filter((name) => !tablesOf(sheet).includes(name));
}

/** The sheets to lay down so that `sheet` finds every table its formulas refer to, that sheet last. */
function withWhatItNeeds(sheet: PlainSheet, tableNames: readonly string[]): readonly PlainSheet[] {
  const taken = new Set(tableNames.map((name) => name.toLowerCase()));
  const missing = STARTERS.filter((other) =>
    tablesOf(other).some((name) => tablesWanted(sheet).includes(name) && !taken.has(name.toLowerCase())),
  );
  return [...new Set([...missing.flatMap((other) => withWhatItNeeds(other, tableNames)), sheet])];
}

/** The sheet as it fits a workbook: its tables under names that are free, and no list from a table that is not there. */
export function fitted(sheet: PlainSheet, tableNames: readonly string[]): PlainSheet {
  const isThere = (choices: string): boolean => tableNames.includes(choices.split('[')[0]!);
  const names = tablesOf(sheet).map((name) => [name, freeName(name, tableNames)] as const);
  const renamed = (text: string): string =>
    names.reduce((so, [from, to]) => withTableRenamed(so, from, to), text);
  const things = sheet.things.map((thing): Thing => {
    const one = withFormulas(thing, renamed);
    if (!isTable(one)) return one;
    const columns = one.columns.map(({ choices, ...rest }) =>
      choices === undefined || (typeof choices === 'string' && !isThere(choices))
        ? rest
        : { ...rest, choices },
    );
    return { ...one, name: freeName(one.name, tableNames), columns };
  });
  return { ...sheet, things };
}

/** Lays a starter down, after the starters its calls refer to; gives the names of the new sheets, its own last. */
export async function layDownStarter(sheet: PlainSheet, book: Book): Promise<readonly string[]> {
  const added: string[] = [];
  for (const wanted of withWhatItNeeds(sheet, await book.tableNames())) {
    added.push(await book.layDown(fitted(wanted, await book.tableNames())));
  }
  return added;
}
