import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { Browser, Page, Request } from 'playwright-core';
import type { AddInMetadata } from '../../src/hosts/excel/metadata';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { described } from '../../src/worksheet/described';
import type { DescribedFunction, ExampleArgument } from '../../src/worksheet/words';
import { plainValues } from '../../src/worksheet/cells/cell';
import { exampleGrid } from '../../src/worksheet/examples';
import { evaluate, prepared } from '../worksheet/prepared';
import { call, DAY_IN_1904_SYSTEM, openAddIn, replies, send, type Call, type Reply } from './excelHost';
import { BUILT, openBrowser, serveBuilt, watch, type Watch } from './site';

// The built add-in in a real browser, its functions called through the vendor's own runtime (custom-functions-runtime.js
// of @microsoft/office-js). Only Excel itself is played.

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;
/** Everything the page asked any address for once it was open and functions were called. */
const asked: Request[] = [];
/** Replies to the examples and to the faults of each function. The runtime hands over twice a second: ask at once. */
const exampleReplies = new Map<string, Reply[]>();
const faultReplies = new Map<string, Reply[]>();

const named = (name: string): DescribedFunction => described.find((definition) => definition.name === name)!;

/** A call of a function as Excel makes it: arguments that are left out at the end are null. */
const callOf = (name: string, given: readonly unknown[], more: Partial<Call> = {}): Call => ({
  name,
  given: [
    ...given,
    ...named(name)
      .arguments.slice(given.length)
      .map(() => null),
  ],
  ...more,
});

const callsOf = (examples: readonly { arguments: readonly ExampleArgument[] }[], name: string): Call[] =>
  examples.map((example) => callOf(name, example.arguments.map(exampleGrid)));

beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await browser.newPage();
  seen = await watch(page);
  await openAddIn(page, server.url);
  page.on('request', (request) => asked.push(request));
  const sent = await send(
    page,
    described.flatMap(({ name, examples, faults }) => callsOf([...examples, ...faults], name)),
  );
  const answers = await replies(page, sent);
  for (const f of described) {
    const { name, examples, faults } = f;
    exampleReplies.set(name, answers.splice(0, examples.length));
    faultReplies.set(name, answers.splice(0, faults.length));
    await prepared(f);
  }
});

afterAll(async () => {
  await browser.close();
  await server.close();
});

const functionsJson = async (): Promise<AddInMetadata> =>
  JSON.parse(await readFile(path.join(BUILT, 'functions.json'), 'utf8')) as AddInMetadata;

/** Numbers agree where only their last digit may differ between two builds of the browser's engine. */
const near = (cells: unknown[][]): unknown[][] =>
  cells.map((row) => row.map((cell) => (typeof cell === 'number' ? expect.closeTo(cell, 9) : cell)));

test('every function of functions.json is associated, and no other', async () => {
  const associated = await page.evaluate(() => {
    const { CustomFunctions } = window as unknown as {
      CustomFunctions: { _association: { mappings: Record<string, unknown> } };
    };
    return Object.keys(CustomFunctions._association.mappings);
  });
  const { functions } = await functionsJson();
  expect(associated.sort()).toEqual(functions.map(({ id }) => id).sort());
});

describe('the examples give through the runtime what they give in a bare call:', () => {
  test.each(described.map((definition) => [definition.name, definition] as const))(
    '%s',
    (name, definition) => {
      definition.examples.forEach((example, position) => {
        const { ok, value } = exampleReplies.get(name)![position]!;
        const bare = plainValues(evaluate(definition, example.arguments.map(exampleGrid)));
        expect(ok).toBe(true);
        expect(value).toEqual(near(bare));
      });
    },
  );
});

const STRAINS = [
  ['strain', 'earliest', 'best', 'latest'],
  ['Alder-3', 60, 70, 90],
  ['Birch-1', 30, 35, 45],
];

/** One call of READYDATE, whose answer is the inoculation date and the strain's best days. */
const readyDate = (inoculated: unknown[][], strain: unknown[][], more: Partial<Call> = {}): Promise<Reply> =>
  call(page, callOf('READYDATE', [inoculated, strain, STRAINS], more));

const notAvailable = expect.objectContaining({ type: 'Error', basicValue: '#N/A' });

describe('what cells may hold', () => {
  test('a blank as null, as 0 and as empty text gives a blank, never a 0', async () => {
    const { value } = await readyDate([[null], [0], [''], [46000]], [['Alder-3']]);
    expect(value).toEqual([[''], [''], [''], [46070]]);
  });

  test('a left-out argument and a blank cell in its place are the same', async () => {
    const blank = callOf('READYDATE', [[[46000]], [['Alder-3']], STRAINS, [[null]]]);
    const zero = callOf('READYDATE', [[[46000]], [['Alder-3']], STRAINS, [[0]]]);
    expect((await readyDate([[46000]], [['Alder-3']])).value).toEqual([[46070]]);
    expect((await call(page, blank)).value).toEqual([[46070]]);
    expect((await call(page, zero)).value).toEqual([[46070]]);
  });

  test('an error in the earlier shape comes out as that error in its own row', async () => {
    const error = { type: 'CustomFunctionError', code: '#N/A' };
    const { value } = await readyDate([[46000], [error]], [['Alder-3']], { dataTypes: false });
    expect(value).toEqual([[46070], [notAvailable]]);
  });

  test('so does one that comes as a data type', async () => {
    const error = { type: 'Error', basicType: 'Error', basicValue: '#N/A', errorType: 'NotAvailable' };
    const { value } = await readyDate([[46000], [error]], [['Alder-3']]);
    expect(value).toEqual([[46070], [notAvailable]]);
  });

  test('a number with a format is that number', async () => {
    const date = { type: 'Double', basicValue: 46000, numberFormat: 'yyyy-mm-dd' };
    expect((await readyDate([[date]], [['Alder-3']])).value).toEqual([[46070]]);
  });
});

/** The runtime's own numbers for the codes of faults that were thrown. */
const CODE_NUMBERS = { '#N/A': 1, '#DIV/0!': 5, '#NUM!': 6, '#VALUE!': 7 } as const;

interface ErrorCell {
  readonly basicValue?: string;
  readonly message?: string;
}

describe('faults', () => {
  test('of one row stand in that row with their reason', async () => {
    const { value } = await readyDate([[46000], ['2026-01-05']], [['Birch-1'], ['Birch-1']]);
    const [[good], [bad]] = value as [[number], [ErrorCell]];
    expect(good).toBe(46035);
    expect(bad.basicValue).toBe('#VALUE!');
    expect(bad.message).toMatch(/^inoculated must be a date; it is "2026-01-05".*\(row 2 of the column\)$/);
  });

  test('of a single cell are thrown, with code and reason as the runtime passes them on', async () => {
    const { ok, value, code } = await readyDate([[46000]], [['Oak-9']]);
    expect(ok).toBe(false);
    expect(value).toMatch(/"Oak-9" is not in strains/);
    expect(code).toBe(CODE_NUMBERS['#N/A']);
  });

  const faults = described.flatMap((definition) =>
    definition.faults.map((fault, position) => [definition.name, fault.says, fault.code, position] as const),
  );

  test.each(faults)('%s: %s', (name, says, code, position) => {
    const { ok, value, code: number } = faultReplies.get(name)![position]!;
    const cells = (ok ? (value as ErrorCell[][]).flat() : []).filter(({ basicValue }) => basicValue === code);
    expect(ok ? cells.length > 0 : number === CODE_NUMBERS[code]).toBe(true);
    const reasons = ok ? cells.map(({ message }) => message ?? '').join('\n') : (value as string);
    // Excel takes a reason with these two codes only.
    expect(reasons).toContain(code === '#VALUE!' || code === '#N/A' ? says : '');
  });
});

test('a cancelled call disturbs no other', async () => {
  const given = callOf('READYDATE', [[[46000]], [['Alder-3']], STRAINS]);
  const [, later] = await send(page, [{ ...given, cancelled: true }, given]);
  expect((await replies(page, [later!]))[0]!.value).toEqual([[46070]]);
});

test('an Excel that takes formats gets dates as dates and shares as percentages', async () => {
  const other = await browser.newPage();
  await openAddIn(other, server.url, { takesFormats: true });
  const sent = await send(other, [
    callOf('READYDATE', [[[46000]], [['Alder-3']], STRAINS]),
    callOf('BIOEFFICIENCY', [[[1.8]], [[4.5]], [[0.6]]]),
  ]);
  const [date, share] = await replies(other, sent);
  expect(date!.value).toEqual([[{ type: 'Double', basicValue: 46070, numberFormat: 'yyyy-mm-dd' }]]);
  expect(share!.value).toEqual([
    [{ type: 'Double', basicValue: expect.closeTo(1, 12), numberFormat: '0.0%' }],
  ]);
  await other.close();
});

test('a workbook that counts from 1904 gets its own dates in messages', async () => {
  const other = await browser.newPage();
  await openAddIn(other, server.url, { dayOf2000: DAY_IN_1904_SYSTEM });
  const stages = [
    ['strain', 'stage', 'from day'],
    ['Alder-3', 'spawn run', 0],
  ];
  // 2 February 2026 in that system, and the day before it.
  const { value } = await call(other, callOf('STAGE', [[[44593]], [[44592]], [['Alder-3']], stages]));
  expect(value).toBe('on must not be before inoculated (2026-02-02); it is 2026-02-01');
  await other.close();
});

test('a column of 20,000 rows comes back whole', async () => {
  const dates = Array.from({ length: 20_000 }, (_, row) => [40_000 + row]);
  expect((await readyDate(dates, [['Birch-1']])).value).toEqual(dates.map(([day]) => [day! + 35]));
});

test('no call of any function asked for anything but a file of the add-in itself', () => {
  const strange = asked.filter(
    (request) =>
      request.method() !== 'GET' ||
      !request.url().startsWith(server.url) ||
      !/^(\d+-)?[0-9a-f]+\.(js|wasm)$/.test(request.url().slice(server.url.length)),
  );
  expect(strange.map((request) => `${request.method()} ${request.url()}`)).toEqual([]);
});

test('none of this asked anything of another machine or wrote an error', () => {
  // The vendor's runtime tries a telemetry frame, which the page's own policy stops before any request.
  const errors = seen.errors.filter(
    (error) => !/^Framing 'https:\/\/telemetryservice\..*Content Security/.test(error),
  );
  expect({ ...seen, errors }).toEqual({ errors: [], strayed: [] });
});
