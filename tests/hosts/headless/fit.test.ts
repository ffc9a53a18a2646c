import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { readAnswers } from '../../../src/hosts/fit/readAnswers';
import { run } from '../../../src/hosts/headless/command';
import { readWorkbook } from '../../../src/hosts/xlsx/read';
import { europeanBook, scriptedBook, usBook } from '../fit/messyBooks';

const folder = mkdtempSync(join(tmpdir(), 'pinset-fit-'));
afterAll(() => rmSync(folder, { recursive: true }));
const at = (name: string): string => join(folder, name);

beforeAll(async () => {
  writeFileSync(at('us.xlsx'), await usBook());
  writeFileSync(at('eu.xlsx'), await europeanBook());
  writeFileSync(at('scripted.xlsx'), scriptedBook());
});

async function pinset(...words: string[]) {
  const [out, error]: [string[], string[]] = [[], []];
  const status = await run(words, {
    out: (line) => void out.push(line),
    error: (line) => void error.push(line),
  });
  return { status, out, error };
}

function answersIn(name: string, answers: object): string {
  writeFileSync(at(name), JSON.stringify(answers));
  return at(name);
}

interface Line {
  readonly cell?: string;
  readonly formula?: string;
  readonly values?: (string | number | null)[][];
  readonly unread?: string;
  readonly about?: string;
  readonly asked?: string;
  readonly kind?: string;
  readonly summary?: object;
}

async function fitted(book: string, job: string, answers: object, ...more: string[]) {
  const file = answersIn(`${job}-answers.json`, answers);
  const { status, out, error } = await pinset(
    'fit',
    at(book),
    '--job',
    job,
    '--answers',
    file,
    '--json',
    ...more,
  );
  const lines = out.map((line) => JSON.parse(line) as Line);
  const given = (call: string) => lines.find(({ formula }) => formula?.includes(call))?.values ?? [];
  return { status, lines, error, given };
}

/** Days of strains of the US book, as its grower would type them. */
const STRAINS = [
  {
    ...{ strain: 'Fernbank-7', earliest: 60, best: 75, latest: 95, 'first pick': 7, 'pick days': 4 },
    ...{ 'flush gap': 16, flushes: 2, 'flush 1': '65%', 'flush 2': '35%', efficiency: '80%' },
  },
  {
    ...{ strain: 'Marsh-2', earliest: 14, best: 18, latest: 40, 'first pick': 6, 'pick days': 3 },
    ...{ 'flush gap': 12, flushes: 2, 'flush 1': '70%', 'flush 2': '30%', efficiency: '90%' },
  },
];
const NO_LIMIT = [{ day: 'every day', 'pick limit': 'none', 'load limit': 'none' }];
const ROOMS = [
  { room: 'North', shelves: 10, 'blocks per shelf': 12 },
  { room: 'South', shelves: 8, 'blocks per shelf': 12 },
];

describe('the sample book of a farm, whose tables have notes below and formulas beside them', () => {
  const book = join(__dirname, '../../../sample-workbooks/farm-book.xlsx');
  const answers = async (job: string) => {
    const { out } = await pinset('fit', book, '--job', job, '--json');
    return out.map((line) => JSON.parse(line) as Line).flatMap(({ values }) => (values ? [values] : []));
  };

  test('gives a state of every lot but the one that has no date', async () => {
    const [ready] = await answers('ready');
    const told = ready!.map(([first]) => String(first));
    const lots = /^(\d+) lots? (?:is|are|may|without)/;
    const counted = told.reduce((sum, line) => sum + Number(lots.exec(line)?.[1] ?? 0), 0);
    const listed = ready!.slice(1).filter(([, strain]) => typeof strain === 'string' && strain !== '').length;
    expect(told).toContain('1 lot without dates left out: D166');
    expect(counted + listed).toBe(66);
  });

  test('finds nothing wrong in its picks: no column is taken from the table beside them', async () => {
    const [audit] = await answers('audit');
    expect(audit![1]).toContain('nothing found in 165 picks and 66 lots');
  });
});

/** The serial of a day of 2026: 1 January 2026 is 46023. */
const day = (month: number, date: number): number =>
  46023 + (Date.UTC(2026, month - 1, date) - Date.UTC(2026, 0, 1)) / 86_400_000;

describe('which lots are ready, in one command', () => {
  test('a US book of text dates, two spellings and month rows gives the right list', async () => {
    const { status, given, lines } = await fitted('us.xlsx', 'ready', {
      fill: { strains: STRAINS },
      figures: { today: '2026-04-01' },
    });
    expect(lines.filter(({ unread }) => unread)).toEqual([]);
    expect(status).toBe(0);
    // By hand: B-102 was inoculated on 12 January, and 60, 75 and 95 days later is 13 and 28 March and 17 April.
    // B-103 (26 January + 40) and B-105 (19 February + 40) are too old by 1 April; B-101 is open already.
    const [, ...rows] = given('READYLOTS');
    expect(rows.slice(0, 3).map((row) => row.slice(0, 7))).toEqual([
      ['B-102', 'Fernbank-7', 36, day(1, 12), day(3, 13), day(3, 28), day(4, 17)],
      ['B-106', 'Marsh-2', 50, day(3, 14), day(3, 28), day(4, 1), day(4, 23)],
      ['B-104', 'Fernbank-7', 44, day(2, 2), day(4, 3), day(4, 18), day(5, 8)],
    ]);
    expect(rows.slice(3).map(([words]) => words)).toEqual([
      '2 lots are past the latest day: B-103, B-105',
      '1 lot is loaded already',
    ]);
  });

  test('a European book needs no answer, and its one cell that cannot be read is listed', async () => {
    const { status, given, lines } = await fitted('eu.xlsx', 'ready', {
      figures: { today: '2026-03-30', days: 14 },
    });
    expect(status).toBe(1);
    expect(lines.flatMap(({ unread, about }) => (unread ? [[unread, about]] : []))).toEqual([
      ['Incubation!D9', 'lots, inoculated'],
    ]);
    expect(lines.filter(({ asked }) => asked)).toEqual([]);
    // 2026-03: 14 March + 12, 16 and 26 days; 2026-06 is a real date, 17 February + 50, 60 and 80.
    expect(
      given('READYLOTS')
        .slice(1, 6)
        .map(([lot, , , from]) => [lot, from]),
    ).toEqual([
      ['2026-03', day(3, 14)],
      ['2026-04', day(3, 21)],
      ['2026-01', day(2, 3)],
      ['2026-02', day(2, 10)],
      ['2026-06', day(2, 17)],
    ]);
  });

  test('dates that prove no order are asked about, and nothing is written before they are told', async () => {
    const open = await fitted('scripted.xlsx', 'ready', {}, '--out', at('never.xlsx'));
    expect(open.status).toBe(2);
    expect(open.lines.flatMap(({ kind }) => kind ?? [])).toEqual(['dates']);
    expect(open.error).toEqual(['pinset: 1 question is open, so nothing was written']);
    expect(() => readFileSync(at('never.xlsx'))).toThrow('no such file');
    const answers = { dates: { 'lots, inoculated': 'day first' }, figures: { today: '2026-03-25' } };
    const told = await fitted('scripted.xlsx', 'ready', answers);
    expect(told.lines.find(({ formula }) => formula)!.formula).toContain('READYLOTS(');
    // 2 March + 20 days is 22 March; read the other way it would be 3 February.
    expect(told.given('READYLOTS')[1]!.slice(0, 5)).toEqual(['K1', 'Elm-4', 30, day(3, 2), day(3, 22)]);
  });
});

describe('plan my loading, in one command', () => {
  test('orders by product word, pounds as text and strains without a sheet give a plan that fills every order', async () => {
    const { status, given } = await fitted('us.xlsx', 'plan', {
      fill: { strains: STRAINS, rooms: ROOMS, calendar: NO_LIMIT },
      products: { Shiitake: ['Fernbank-7'], Oyster: ['Marsh-2'] },
      figures: { today: '2026-04-01', days: 21 },
    });
    expect(status).toBe(0);
    const orders = given('"orders"').slice(1);
    expect(orders.map(([product, , due, mass]) => [product, due, mass])).toEqual([
      ['Oyster', day(4, 10), 25],
      ['Shiitake', day(4, 17), 30],
      ['Shiitake', day(4, 24), 20],
    ]);
    for (const [, , , mass, planned] of orders) expect(planned).toBeGreaterThan(0.99 * Number(mass));
    // A block of 10 lb at 62%: 3.8 lb dry, 80% of it over two flushes.
    // Rows without a lot are words on what is wrong. B-101 is open already.
    const loads = given('LOADPLAN(')
      .slice(1)
      .filter(([, lot]) => lot !== '');
    expect(loads.map(([, lot]) => lot)).not.toContain('B-101');
    expect(loads.length).toBeGreaterThan(0);
    for (const [, lot, strain, , , , , blockMass, moisture, product] of loads) {
      expect([lot, blockMass]).toEqual([lot, 10]);
      expect(moisture).toBeLessThan(0.64);
      expect(product).toBe(strain === 'Marsh-2' ? 'Oyster' : 'Shiitake');
    }
  });

  test('what only the grower knows is asked in one go, and the template asks for just that and the day', async () => {
    const { out, status } = await pinset('fit', at('us.xlsx'), '--job', 'plan', '--template');
    expect(status).toBe(0);
    const template = JSON.parse(out.join('\n')) as Record<string, Record<string, unknown>>;
    expect(Object.keys(template)).toEqual(['tables', 'products', 'fill', 'figures']);
    // Left as it is, the day is the computer's own.
    expect(template['figures']).toEqual({ today: null });
    expect(template['products']).toEqual({ Shiitake: [], Oyster: [] });
    expect(Object.keys(template['fill']!)).toEqual(['strains', 'rooms', 'calendar']);
    expect((template['fill']!['strains'] as { strain: string }[]).map(({ strain }) => strain)).toEqual([
      'Fernbank-7',
      'Marsh-2',
    ]);
  });

  test('a lot that cannot be read is left out only when the grower says so, and is counted', async () => {
    const said = { figures: { today: '2026-03-30' }, fill: { calendar: NO_LIMIT } };
    const refused = await fitted('eu.xlsx', 'plan', said);
    expect(refused.status).toBe(1);
    expect(refused.given('LOADPLAN(')).toHaveLength(1);
    const left = await fitted(
      'eu.xlsx',
      'plan',
      { ...said, leaveOut: { lots: true } },
      '--out',
      at('plan.xlsx'),
    );
    expect(left.given('LOADPLAN(').length).toBeGreaterThan(2);
    for (const [, , , mass, planned] of left.given('"orders"').slice(1)) {
      expect(planned).toBeGreaterThan(0.99 * Number(mass));
    }
    const plan = readWorkbook(readFileSync(at('plan.xlsx'))).sheets.find(
      ({ name }) => name === 'Loading plan',
    )!;
    const shown = (address: string) => plan.cells.find((cell) => cell.address === address)?.value;
    expect([shown('E3'), shown('F3')]).toEqual([1, 'lots left out, as they cannot be read']);
  });
});

describe('an audit, in one command', () => {
  test('finds the planted slips, each with the cell of the grower’s own sheet', async () => {
    const answers = { fill: { strains: STRAINS } };
    const { given } = await fitted('us.xlsx', 'audit', answers, '--out', at('audit.xlsx'));
    const [header, ...rows] = given('YIELDAUDIT');
    const found = rows.map((row) => row[header!.indexOf('what is wrong')]);
    expect(found).toEqual(['the date does not fit the lot', 'the mass does not fit the lot’s other picks']);
    expect(rows[1]![header!.indexOf('if corrected')]).toBe(21);
    const audit = readWorkbook(readFileSync(at('audit.xlsx'))).sheets.find(({ name }) => name === 'Audit')!;
    const shown = (address: string) => audit.cells.find((cell) => cell.address === address)?.value;
    const { out } = await pinset(
      'fit',
      at('us.xlsx'),
      '--job',
      'audit',
      '--answers',
      at('audit-answers.json'),
    );
    // In words the preview names the grower's cells too.
    expect(
      out.filter((line) => /^ {2}(?:on your sheet|Picks!)/.test(line)).map((line) => line.split('\t')[0]),
    ).toEqual(['  on your sheet', '  Picks!A8', '  Picks!C7']);
    // 19 March is before the load of 20 March; 210 stands among picks of about 20.
    expect([shown('A5'), shown('A6')]).toEqual(['Picks!A8', 'Picks!C7']);
  });
});

describe('a mix, in one command', () => {
  test('shares and moistures in per cent and a totals row give the weighing list', async () => {
    const { given, status } = await fitted('eu.xlsx', 'mix', {
      figures: { blocks: 40, 'block mass': '2,5', moisture: '62%' },
    });
    expect(status).toBe(0);
    // 40 blocks of 2.5 at 62% are 38 dry; sawdust is 78% of it at 20% moisture: 29.64 / 0.8.
    const byName = new Map(given('MIX(').map(([name, dry, mass]) => [name, [dry, mass]]));
    expect(byName.get('oak sawdust')![0]).toBeCloseTo(29.64, 9);
    expect(byName.get('oak sawdust')![1]).toBeCloseTo(37.05, 9);
    expect(byName.get('gypsum')![1]).toBeCloseTo(0.76, 9);
  });
});

describe('what is written', () => {
  test('leaves every sheet of the grower as it was, and the next time needs no answer', async () => {
    await fitted('us.xlsx', 'ready', { fill: { strains: STRAINS } }, '--out', at('first.xlsx'));
    const cellsOf = (file: string, sheet: string) =>
      readWorkbook(readFileSync(at(file))).sheets.find(({ name }) => name === sheet)!.cells;
    for (const sheet of ['Grow log', 'Orders', 'Picks']) {
      expect(cellsOf('first.xlsx', sheet)).toEqual(cellsOf('us.xlsx', sheet));
    }
    const again = await pinset('fit', at('first.xlsx'), '--job', 'ready', '--json');
    expect(again.status).toBe(0);
    expect(again.out.filter((line) => line.includes('"asked"'))).toEqual([]);
  });

  test('a book without a job’s table says what the table needs', async () => {
    const { out, status } = await pinset('fit', at('us.xlsx'), '--job', 'mix');
    expect(status).toBe(1);
    expect(out.join('\n')).toContain('No table of this book has the headers of your recipe');
  });

  test.each([
    [['--job', 'brew'], 'there is no job brew, only ready, plan, audit, mix'],
    [['--template'], '--job needed: one of ready, plan, audit, mix'],
  ])('%p is refused', async (words, why) => {
    const { error, status } = await pinset('fit', at('us.xlsx'), ...words);
    expect(status).toBe(2);
    expect(error).toEqual([`pinset: ${why}`]);
  });

  test.each([
    ['not JSON', '{', 'the answers are not sound JSON'],
    ['another part', '{"strain":{}}', 'the answers have no part strain'],
    ['another order', '{"dates":{"lots, inoculated":"any"}}', 'day first, month first or year first needed'],
    ['a number for a part', '{"tables":{"lots":5}}', 'tables, lots: a part of the book needed'],
    ['nothing for a part', '{"tables":{"lots":null}}', 'tables, lots: a part of the book needed'],
    ['a number for a header', '{"columns":{"lots":{"lot":5}}}', 'columns, lots: an object needed'],
    ['a header for a table', '{"columns":{"lots":"Batch"}}', 'columns, lots: an object needed'],
    ['an object for a figure', '{"figures":{"today":{}}}', 'figures, today: a figure or a word needed'],
    ['no day', '{"figures":{"today":"2026-02-30"}}', 'figures, today: a day needed, written as 2026-03-30'],
    [
      'of another figure',
      '{"figures":{"todai":"2026-03-30"}}',
      'figures in the answers has no todai, only today',
    ],
    ['of another table', '{"columns":{"lotz":{}}}', 'columns in the answers has no table lotz, only lots'],
    ['of another column', '{"columns":{"lots":{"lott":"x"}}}', 'columns: lots has no column lott, only lot'],
    ['of no column', '{"blanks":{"orders, duee":"blank"}}', 'blanks: orders has no column duee, only'],
    ['a word for yes', '{"leaveOut":{"lots":"yes"}}', 'leaveOut, lots: true or false needed'],
    ['rows of objects', '{"fill":{"strains":[{"best":{}}]}}', 'fill, strains: a list of rows needed'],
    [
      'of a column that a row to fill in lacks',
      '{"fill":{"strains":[{"strain":"Alder-3"},{"strain":"Alder-4","bset":18}]}}',
      'fill: strains has no column bset, only strain',
    ],
    [
      'one figure twice',
      '{"figures":{"days":7,"d\\u0061ys":28}}',
      'the answers have days twice in one object',
    ],
    ['one part twice', '{"fill":{}, "figures":{}, "fill" :{}}', 'the answers have fill twice in one object'],
  ])('answers that are %s are refused', async (_, text, why) => {
    writeFileSync(at('wrong.json'), text);
    const { error, status } = await pinset(
      'fit',
      at('us.xlsx'),
      '--job',
      'ready',
      '--answers',
      at('wrong.json'),
    );
    expect(status).toBe(2);
    expect(error[0]).toContain(why);
  });

  test('answers as --help shows them are read, and so are the words that it names', async () => {
    const { out } = await pinset('fit', '--help');
    const parts = out.join('\n').match(/^ {6}"\w+": .*\}/gm)!;
    expect(parts.length).toBeGreaterThanOrEqual(10);
    const shown = readAnswers(`{${parts.join(',')}}`);
    expect(Object.keys(shown)).toHaveLength(parts.length);
    const words = {
      dates: { 'lots, inoculated': 'day first', 'orders, due': 'year first', 'orders, from': null },
      decimals: { 'lots, block mass': 'point', 'orders, mass': 'comma' },
      blanks: { 'orders, due': 'blank', 'lots, strain': 'as above' },
      weekdays: { 'orders, due': 'Sunday' },
      struck: { lots: 'counted', orders: 'left out' },
    };
    expect(readAnswers(JSON.stringify(words))).toEqual(words);
  });

  test('a name that comes again in another object, or as a value, is not one twice', () => {
    const answers = {
      tables: { lots: '{"lots":' },
      products: { '\\"': ['a:', '"b": {'], Oyster: ['Oyster'] },
      fill: { rooms: [{ room: 'rooms' }, { room: 'room' }] },
      leaveOut: { lots: true },
    };
    expect(readAnswers(JSON.stringify(answers))).toEqual(answers);
  });

  test('a folder in place of answers is told as what it is', async () => {
    const { error, status } = await pinset('fit', at('us.xlsx'), '--job', 'ready', '--answers', folder);
    expect([status, error]).toEqual([2, [`pinset: ${folder}: this is a folder, a .json file is needed`]]);
  });

  test('a template holds labels with signs of direction as they are written', async () => {
    const products = { '\u200fOyster': ['Alder-3'] };
    const file = answersIn('signs.json', { products });
    const words = ['--job', 'plan', '--answers', file, '--template'];
    const { out } = await pinset('fit', at('us.xlsx'), ...words);
    expect(JSON.parse(out.join('\n'))).toMatchObject({ products });
  });

  test('without a job it tells what the book has for each', async () => {
    const { out, status } = await pinset('fit', at('us.xlsx'));
    expect(status).toBe(0);
    expect(out.filter((line) => line.includes('--job'))).toHaveLength(4);
  });
});
