import { parseStructRef, stringifyStructRef, stringifyTokens, tokenize } from '@borgar/fx';
import { KILOGRAMS_A_POUND } from '../../worksheet/constants';
import { looksOf, type AnswerTable } from '../fit/answerTables';
import {
  chart,
  column,
  formula,
  heading,
  inputs,
  table,
  type Column,
  type PlainSheet,
  type Reads,
  type SheetTable,
  type Thing,
} from '../xlsx/describe';
import { freeName, type Book } from './book';
import type { Units } from './units';

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

/** What the cells of a column take, where their header does not say it. */
const TAKES: Partial<Record<Extract<Reads, string>, string>> = { percent: 'in per cent', date: 'a date' };

/** Says above a table what to fill in, and in what unit, for as long as it is empty. */
function filledIn(what: string, given: SheetTable): readonly Thing[] {
  const headers = given.columns.map(({ header, reads }) => {
    const takes = typeof reads === 'string' ? TAKES[reads] : undefined;
    return takes === undefined ? header : `${header} (${takes})`;
  });
  const words = `Fill in a row for each ${what}: ${headers.join(', ')}.`;
  const text = `=IF(COUNTA(${given.name}[${given.columns[0]!.header}])=0,"${words}","")`;
  return [formula('A3', text, 'text'), given];
}

/** A call whose answer has headers of its own, as wide as its words. */
const answer = (at: string, text: string, table: AnswerTable, headers?: readonly string[]): Thing =>
  formula(at, text, looksOf(table, headers).reads, {
    headed: true,
    growth,
    widths: looksOf(table, headers).widths,
  });

/** The sheets a farm begins with, in the order in which one refers to another, with masses in the unit of the grower. */
export function startersIn(units: Units): readonly PlainSheet[] {
  const unit = units === 'us' ? 'lb' : 'kg';
  const perUnit = units === 'us' ? KILOGRAMS_A_POUND : 1;
  const mass = (kilograms: number): number => Number((kilograms / perUnit).toPrecision(2));
  const price = (perKilogram: number): number => Number((perKilogram * perUnit).toPrecision(2));
  return [
    starter(
      'Farm',
      'Farm: the day, and how far ahead you look',
      'One row: every other sheet takes its day from here. Type =TODAY() under today once the rows are your own.',
      table('A4', 'Farm', [column('today', 'date'), column('days', 'count')], [['2026-03-30', 35]]),
    ),
    starter(
      'Strains',
      'Strains: what you know of each',
      'Days from inoculation to ready, days from loading to the first pick, flushes and the efficiency to expect. All other sheets look strains up here.',
      ...filledIn(
        'strain',
        table(
          'A4',
          'Strains',
          [
            column('strain'),
            ...columns(
              'count',
              'earliest',
              'best',
              'latest',
              'first pick',
              'pick days',
              'flush gap',
              'flushes',
            ),
            ...columns('percent', 'flush 1', 'flush 2', 'efficiency', 'loss'),
          ],
          [
            ['Alder-3', 63, 77, 98, 7, 4, 18, 2, 0.7, 0.3, 0.8, 0.03],
            ['Birch-1', 12, 16, 24, 6, 3, 12, 2, 0.65, 0.35, 0.9, 0.05],
          ],
        ),
      ),
    ),
    starter(
      'Lots',
      'Lots: ready when?',
      `One row a lot, its blocks in ${unit}, moistures in per cent. Beside it the window in which to open each, and the lots that are ready this week.`,
      ...filledIn(
        'lot',
        table(
          'A4',
          'Lots',
          [
            column('lot'),
            column('strain', 'text', 'Strains[strain]'),
            column('blocks', 'count'),
            column(`block mass (${unit})`, 'number'),
            column('moisture', 'percent'),
            column('inoculated', 'date'),
            column('loaded', 'date'),
          ],
          [
            ['L-001', 'Alder-3', 60, mass(2.5), 0.6, '2026-02-02', null],
            ['L-002', 'Birch-1', 80, mass(2.5), 0.62, '2026-02-07', '2026-02-24'],
            ['L-003', 'Alder-3', 45, mass(2.5), 0.6, '2026-02-16', null],
            ['L-004', 'Birch-1', 70, mass(2.5), 0.62, '2026-03-24', null],
          ],
        ),
      ),
      formula(
        'I5',
        '=PINSET.READYWINDOW(Lots[inoculated],Lots[strain],Strains[#All])',
        ['date', 'date', 'date'],
        { headers: ['earliest', 'best', 'latest'], growth },
      ),
      formula('M3', '=IFERROR(TEXTJOIN(". ",TRUE,IF(INDEX(M4#,,2)="",INDEX(M4#,,1),"")),"")', 'text', {
        spills: true,
      }),
      answer('M4', '=PINSET.READYLOTS(Lots[#All],Strains[#All],Farm[today],Farm[today]+7)', 'READYLOTS'),
    ),
    starter(
      'Rooms',
      'Rooms: shelves and when they are closed',
      'One row a room. The loading plan and the shelf use read it.',
      ...filledIn(
        'room',
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
    ),
    starter(
      'Orders',
      'Orders: what is wanted when',
      `One row an order, in ${unit}; the price is for one ${unit}. Beside it the blocks to load for each.`,
      ...filledIn(
        'order',
        table(
          'A4',
          'Orders',
          [
            column('product', 'text', 'Strains[strain]'),
            column(`mass (${unit})`, 'mass'),
            column('due', 'date'),
            column('price', 'money'),
            column('customer'),
          ],
          [
            ['Alder-3', mass(40), '2026-05-08', price(14), 'Mill Inn'],
            ['Birch-1', mass(30), '2026-05-08', price(9), 'Saturday market'],
          ],
        ),
      ),
      formula('G5', `=PINSET.BLOCKSFOR(Orders[mass (${unit})],${mass(2.5)},60%,80%)`, 'count', {
        headers: [`blocks at ${mass(2.5)} ${unit}, 60% moisture, 80%`],
        growth,
      }),
    ),
    starter(
      'Loads',
      'Loads: what was opened, and when it is picked',
      'One row a load: lot, strain, room, day and blocks. Beside it the first pick, and what each of the last 28 days brought against a limit.',
      ...filledIn(
        'load',
        table(
          'A4',
          'Loads',
          [
            column('lot'),
            column('strain', 'text', 'Strains[strain]'),
            column('room', 'text', 'Rooms[room]'),
            column('loaded', 'date'),
            column('blocks', 'count'),
            column(`block mass (${unit})`, 'number'),
            column('moisture', 'percent'),
          ],
          [
            ['L-002', 'Birch-1', 'Room A', '2026-02-24', 40, mass(2.5), 0.62],
            ['L-002', 'Birch-1', 'Room B', '2026-02-26', 40, mass(2.5), 0.62],
            ['L-001', 'Alder-3', 'Room A', '2026-04-20', 60, mass(2.5), 0.6],
          ],
        ),
      ),
      formula('I5', '=PINSET.PICKDATE(Loads[loaded],Loads[strain],Strains[#All])', 'date', {
        headers: ['first pick'],
        growth,
      }),
      inputs('K3', {
        label: `limit (${unit})`,
        value: mass(12),
        reads: 'mass',
        remark: 'the most to pick in a day',
      }),
      formula(
        'K4',
        '=PINSET.PICKCALENDAR(Loads[#All],Strains[#All],Farm[today]-28,Farm[today]-1)',
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
      `One row a pick: lot, day, mass in ${unit}. Sums and efficiencies are drawn from these rows.`,
      ...filledIn(
        'pick',
        table(
          'A4',
          'Picks',
          [
            column('lot', 'text', 'Lots[lot]'),
            column('date', 'date'),
            column(`mass (${unit})`, 'number'),
            column('flush', 'count'),
            column('grade', 'text', ['first', 'second', 'seconds for drying']),
          ],
          [
            ['L-002', '2026-03-02', mass(6.8), 1, 'first'],
            ['L-002', '2026-03-03', mass(7.9), 1, 'first'],
            ['L-002', '2026-03-04', mass(13.1), 1, 'second'],
          ],
        ),
      ),
    ),
    starter(
      'Mix',
      'Mix: a recipe and its weighing list',
      `Shares of dry mass, the moisture of each ingredient as it comes, and a pack in ${unit}. Beside it the weighing list for 40 blocks of ${mass(2.5)} ${unit} at 60%: change the figures in the call.`,
      ...filledIn(
        'ingredient',
        table(
          'A4',
          'Recipe',
          [
            column('ingredient'),
            ...columns('percent', 'share', 'moisture'),
            column(`pack (${unit})`, 'mass'),
          ],
          [
            ['oak sawdust', 0.78, 0.2, null],
            ['wheat bran', 0.2, 0.1, mass(20)],
            ['gypsum', 0.02, 'none', mass(25)],
          ],
        ),
      ),
      answer('F4', `=PINSET.MIX(Recipe[#All],40,${mass(2.5)},60%)`, 'MIX'),
    ),
    planStarter(unit, mass),
    starter(
      'Audit',
      'Audit: what came off, and what cannot be right',
      'Reads your picks, lots and strains. The surest findings first; row 1 of a table is its header row. Beside them what each lot gave.',
      formula(
        'A3',
        '=IF(COUNTA(Picks[lot])=0,"Fill in the sheets Picks, Lots and Strains first.","")',
        'text',
      ),
      answer('A4', '=PINSET.YIELDAUDIT(Picks[#All],Lots[#All],Strains[#All])', 'YIELDAUDIT'),
      answer('L4', '=PINSET.CROPTABLE(Picks[#All],Lots[#All])', 'CROPTABLE', [
        ...['lot', 'strain', 'blocks', 'flush 1', 'total', 'per block'],
        ...['efficiency', 'days', 'efficiency per day'],
      ]),
    ),
  ];
}

/** The plan whole: what to load, what becomes of each order, what is left, the shelves, the picks against the limit. */
function planStarter(unit: string, mass: (kilograms: number) => number): PlainSheet {
  const view = (at: string, name: PlanView): Thing =>
    answer(
      at,
      `=PINSET.LOADPLAN(Lots[#All],Strains[#All],Rooms[#All],Orders[#All],Farm[today],Farm[days],Calendar[#All],,,,"${name}")`,
      `LOADPLAN ${name}`,
    );
  const limit = mass(20);
  return starter(
    'Plan',
    'Plan: what to load when',
    `Reads your lots, strains, rooms and orders; the first day is today on the sheet Farm. Type below how much you can pick (${unit}) and load (blocks) on each day: none is no limit, off is no work.`,
    table(
      'A4',
      'Calendar',
      [column('day'), column(`pick limit (${unit})`, 'mass'), column('load limit', 'count')],
      [
        ['Monday', limit, 'none'],
        ['Tuesday', limit, 'none'],
        ['Wednesday', limit, 'none'],
        ['Thursday', limit, 'none'],
        ['Friday', limit, 'none'],
        ['Saturday', limit, 'off'],
        ['Sunday', limit, 'off'],
      ],
    ),
    chart('E4:J12', 'column', 'Picks per day against the limit', {
      across: 'AM16:AM57',
      series: [{ title: 'picks per day', values: 'AN16:AN57' }],
      limits: [{ title: 'limit', values: 'AQ16:AQ57' }],
      acrossReads: 'date',
      upReads: 'mass',
    }),
    // What is wrong with the plan as a whole is in the last column of its first row: here it is seen at once.
    formula('A13', '=IFERROR(IF(INDEX(A15#,2,2)="",INDEX(A15#,2,11),""),"")', 'text'),
    formula(
      'A3',
      '=IF(COUNTA(Lots[lot])=0,"Fill in the sheets Strains, Lots, Rooms and Orders first: this one reads them.","")',
      'text',
    ),
    heading('A14', 'what to load when'),
    view('A15', 'plan'),
    heading('M14', 'orders'),
    formula(
      'M16',
      '=IFERROR(XLOOKUP(INDEX(DROP(N15#,1),,1)&"|"&INDEX(DROP(N15#,1),,3),Orders[product]&"|"&Orders[due],Orders[customer],""),"")',
      'text',
      { headers: ['customer'], spills: true, growth, widths: [20] },
    ),
    view('N15', 'orders'),
    heading('X14', 'what is left of each lot'),
    view('X15', 'lots'),
    heading('AF14', 'shelves'),
    answer(
      'AF15',
      '=PINSET.SHELFUSE(A15#,Rooms[#All],Strains[#All],Farm[today],Farm[today]+Farm[days]-1)',
      'SHELFUSE',
    ),
    heading('AM14', `what is picked each day (${unit})`),
    view('AM15', 'picks'),
  );
}

type PlanView = 'plan' | 'orders' | 'lots' | 'picks';

/** The starters with masses in kilograms: names, titles and what each needs are the same in any unit. */
export const STARTERS = startersIn('metric');

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
function withWhatItNeeds(
  sheet: PlainSheet,
  tableNames: readonly string[],
  starters: readonly PlainSheet[],
): readonly PlainSheet[] {
  const taken = new Set(tableNames.map((name) => name.toLowerCase()));
  const missing = starters.filter((other) =>
    tablesOf(other).some((name) => tablesWanted(sheet).includes(name) && !taken.has(name.toLowerCase())),
  );
  return [...new Set([...missing.flatMap((other) => withWhatItNeeds(other, tableNames, starters)), sheet])];
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
export async function layDownStarter(
  name: string,
  book: Book,
  units: Units = 'metric',
): Promise<readonly string[]> {
  const starters = startersIn(units);
  const sheet = starters.find((one) => one.name === name)!;
  const added: string[] = [];
  for (const wanted of withWhatItNeeds(sheet, await book.tableNames(), starters)) {
    added.push(await book.layDown(fitted(wanted, await book.tableNames())));
  }
  return added;
}
