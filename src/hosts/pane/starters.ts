import { KILOGRAMS_A_POUND, PREFIX } from '../../worksheet/constants';
import { listed } from '../../worksheet/wording/phrases';
import { leftOutWords, looksOf, planHeadlines, UNANSWERED, type AnswerTable } from '../fit/answerTables';
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
import type { Units } from './units';

// Starter sheets. The rows in them are invented.

/** Rows below a column of answers kept in its format, for rows to come. */
const growth = 500;

const starter = (
  name: string,
  title: string,
  notes: readonly string[],
  ...things: readonly Thing[]
): PlainSheet => ({ name, title, notes, things, gridLines: true });

const columns = (reads: Reads, ...headers: readonly string[]): Column[] =>
  headers.map((header) => column(header, reads));

/** What the cells of a column take, where neither their header nor their format says it. */
function takes({ header, reads }: Column, unit: string): string | undefined {
  const inHeader = / \((.+)\)$/.exec(header);
  if (inHeader) return `in ${inHeader[1]!}`;
  if (IN_DAYS.has(header)) return 'in days';
  return typeof reads === 'string' ? { ...TAKES, money: `in money for one ${unit}` }[reads] : undefined;
}
const TAKES: Partial<Record<Extract<Reads, string>, string>> = { percent: 'in per cent', date: 'as a date' };
const IN_DAYS = new Set(['earliest', 'best', 'latest', 'first pick', 'pick days', 'flush gap']);

/**
 * Says above a table what to fill in, and in what unit, for as long as it is empty, or for as long as those are that it
 * is read with.
 */
function filledIn(
  what: string,
  unit: string,
  given: SheetTable,
  others: Readonly<Record<string, string>> = {},
): readonly Thing[] {
  const groups = new Map<string, string[]>();
  for (const one of given.columns) {
    const how = takes(one, unit);
    if (how === undefined) continue;
    groups.set(how, [...(groups.get(how) ?? []), one.header.replace(/ \(.+\)$/, '')]);
  }
  const units = [...groups].map(([how, headers]) => `${listed(headers)} ${how}`);
  const words = [`Fill in a row for each ${what}`, ...units].join('; ');
  const [key] = given.columns;
  return [formula('A3', `=${told({ [`${given.name}[${key!.header}]`]: words, ...others })}`, 'text'), given];
}

/** The first of these words whose column is empty. */
const told = (words: Readonly<Record<string, string>>): string =>
  Object.entries(words).reduceRight(
    (rest, [column, say]) => `IF(COUNTA(${column})=0,"${say}",${rest})`,
    '""',
  );

const STRAINS_FIRST = { 'Strains[strain]': 'Fill in the strains first, on a sheet of their own' };

/** A call of Pinset that waits until a cell has nothing more to say. */
const once = (at: string, call: string): string => `=IF(${at}="",${PREFIX}${call},"")`;

/** Told beside an answer that is an error. */
const unanswered = (at: string, answer: string): Thing =>
  formula(at, `=IF(ISERROR(${answer}),${UNANSWERED},"")`, 'text');

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
      'Farm: today, and how far ahead you look',
      [
        'One row: every other sheet takes its day from here. Type =TODAY() under today once the rows are your own.',
      ],
      table('A4', 'Farm', [column('today', 'date'), column('days', 'count')], [['2026-03-30', 35]]),
    ),
    starter(
      'Strains',
      'Strains: what you know of each',
      [
        'Earliest, best and latest count from inoculation, first pick from loading. Your other sheets read these.',
      ],
      ...filledIn(
        'strain',
        unit,
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
      ['One row a lot. Beside it the days on which to open each, and the lots that are ready this week.'],
      ...filledIn(
        'lot',
        unit,
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
        STRAINS_FIRST,
      ),
      formula(
        'I5',
        once('A3', 'READYWINDOW(Lots[inoculated],Lots[strain],Strains[#All])'),
        ['date', 'date', 'date'],
        { headers: ['earliest', 'best', 'latest'], growth },
      ),
      // Lines below the lots say what is left out, in a column too narrow for them: here they are seen whole.
      formula('M3', `=IF(A3="",IF(ISERROR(M4),${UNANSWERED},${leftOutWords('M4')}),"")`, 'text', {
        spills: true,
      }),
      answer('M4', once('A3', 'READYLOTS(Lots[#All],Strains[#All],Farm[today],Farm[today]+7)'), 'READYLOTS'),
    ),
    starter(
      'Rooms',
      'Rooms: shelves and when they are closed',
      ['One row a room. The loading plan and the shelf use read it.'],
      ...filledIn(
        'room',
        unit,
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
      'Orders: who wants what, and when',
      [
        `One row per order, in ${unit}; the price is for one ${unit}. The blocks to load for each order are beside it.`,
      ],
      ...filledIn(
        'order',
        unit,
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
            ['Alder-3', mass(30), '2026-05-08', price(14), 'Mill Inn'],
            ['Birch-1', mass(30), '2026-05-08', price(9), 'Saturday market'],
          ],
        ),
      ),
      formula('G5', `=${PREFIX}BLOCKSFOR(Orders[mass (${unit})],J5,J6,J7)`, 'count', {
        headers: ['blocks'],
        growth,
      }),
      heading('I4', 'for such blocks'),
      inputs(
        'I5',
        { label: `block mass (${unit})`, value: mass(2.5), reads: 'number' },
        { label: 'moisture', value: 0.6, reads: 'percent' },
        { label: 'efficiency', value: 0.8, reads: 'percent' },
      ),
    ),
    starter(
      'Loads',
      'Loads: what was opened, and when it is picked',
      [
        'One row per load. Its first pick is beside it, and what the last 28 days should have given, against a limit.',
      ],
      ...filledIn(
        'load',
        unit,
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
          ],
        ),
        STRAINS_FIRST,
      ),
      formula('I5', once('A3', 'PICKDATE(Loads[loaded],Loads[strain],Strains[#All])'), 'date', {
        headers: ['first pick'],
        growth,
      }),
      unanswered('K2', 'K4'),
      inputs('K3', {
        label: `limit (${unit})`,
        value: mass(12),
        reads: 'mass',
        remark: 'the most to pick in a day',
      }),
      formula(
        'K4',
        once('A3', 'PICKCALENDAR(Loads[#All],Strains[#All],Farm[today]-28,Farm[today]-1)'),
        ['date', 'mass'],
        { headed: true, growth, widths: [12, 10] },
      ),
      formula('M5', '=SEQUENCE(28,1,L3,0)', 'mass', { headers: ['limit'] }),
      chart('A10:G26', 'column', 'Picks per day against the limit', {
        says: 'Picks of each day as a column, the most to pick that day as a mark. No column should rise above its mark.',
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
      [`One row per pick: lot, day, mass in ${unit}. The sums and efficiencies come from these rows.`],
      ...filledIn(
        'pick',
        unit,
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
      [
        'Type each ingredient’s share of the dry mass, its moisture as it comes, and the size of a pack. The list is beside it.',
      ],
      ...filledIn(
        'ingredient',
        unit,
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
      inputs(
        'F4',
        { label: 'blocks', value: 40, reads: 'count' },
        { label: `block mass (${unit})`, value: mass(2.5), reads: 'number' },
        { label: 'moisture of the blocks', value: 0.6, reads: 'percent' },
      ),
      unanswered('F7', 'F8'),
      answer('F8', once('A3', 'MIX(Recipe[#All],G4,G5,G6)'), 'MIX'),
    ),
    planStarter(unit, mass),
    starter(
      'Audit',
      'Audit: what came off, and what cannot be right',
      ['The surest findings first; row 1 of a table is its header row. To the right what each lot gave.'],
      formula(
        'A3',
        `=${told({
          'Picks[lot]': 'Fill in the picks first, on a sheet of their own',
          'Lots[lot]': 'Fill in the lots first, on a sheet of their own',
          ...STRAINS_FIRST,
        })}`,
        'text',
      ),
      unanswered('A4', 'A5'),
      answer('A5', once('A3', 'YIELDAUDIT(Picks[#All],Lots[#All],Strains[#All])'), 'YIELDAUDIT'),
      answer('L5', once('A3', 'CROPTABLE(Picks[#All],Lots[#All])'), 'CROPTABLE', [
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
      once(
        'A4',
        `LOADPLAN(Lots[#All],Strains[#All],Rooms[#All],Orders[#All],Farm[today],Farm[days],Calendar[#All],Loads[#All],,,"${name}")`,
      ),
      `LOADPLAN ${name}`,
    );
  const limit = mass(20);
  return starter(
    'Plan',
    'Plan: what to load when',
    [
      'Reads strains, lots, rooms, orders and what is loaded already; the first day is today on the sheet Farm.',
      `Type how much you can pick (${unit}) and load (blocks) on each day: none is no limit, off is no work.`,
    ],
    formula(
      'A4',
      `=${told({
        ...STRAINS_FIRST,
        'Lots[lot]': 'Fill in the lots first, on a sheet of their own',
        'Rooms[room]': 'Fill in the rooms first, on a sheet of their own',
      })}`,
      'text',
    ),
    table(
      'A5',
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
    chart('E4:J14', 'column', 'Picks per day against the limit', {
      says: 'Picks of each day as a column, the most to pick that day as a mark. No column should rise above its mark.',
      across: 'AM21:AM62',
      series: [{ title: 'picks per day', values: 'AN21:AN62' }],
      limits: [{ title: 'limit', values: 'AQ21:AQ62' }],
      acrossReads: 'date',
      upReads: 'mass',
    }),
    // What is wrong with the plan as a whole is in its last column: here it is seen at once, a line in each row.
    formula('A15', `=IF(A4="",IF(ISERROR(A20),${UNANSWERED},${planHeadlines('A20')}),"")`, 'text', {
      spills: true,
    }),
    heading('A19', 'what to load when'),
    view('A20', 'plan'),
    heading('M19', 'orders'),
    formula(
      'M21',
      '=IFERROR(VLOOKUP(N21:N320&"|"&P21:P320,IF({1,0},Orders[product]&"|"&Orders[due],Orders[customer]),2,FALSE),"")',
      'text',
      { headers: ['customer'], spills: true, growth, widths: [20] },
    ),
    view('N20', 'orders'),
    heading('X19', 'what is left of each lot'),
    view('X20', 'lots'),
    heading('AF19', 'shelves'),
    answer(
      'AF20',
      `=IF(COUNT(A21:A1020)=0,"",${PREFIX}SHELFUSE(A20:K1020,Rooms[#All],Strains[#All],Farm[today],Farm[today]+Farm[days]-1))`,
      'SHELFUSE',
    ),
    heading('AM19', `what is picked each day (${unit})`),
    view('AM20', 'picks'),
  );
}

type PlanView = 'plan' | 'orders' | 'lots' | 'picks';

/** The starters with masses in kilograms: names, titles and what each needs are the same in any unit. */
export const STARTERS = startersIn('metric');
