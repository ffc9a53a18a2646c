import { readFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { described } from '../../src/worksheet/described';
import type { Grid } from '../../src/worksheet/cells/cell';
import { plainValues } from '../../src/worksheet/cells/cell';
import { exampleGrid } from '../../src/worksheet/examples';
import { evaluate, prepared } from '../worksheet/prepared';
import { calendar, largeFarm, lots, orders, rooms, standing, START, strains } from '../worksheet/loadingFarm';
import { call, cancel, hasReply, openAddIn, replies, send, type Reply } from './excelHost';
import { openBrowser, serveBuilt, watch, type Watch } from './site';

// The plan in a real browser, under the policy of the add-in's own page: the solver's WebAssembly is fetched, compiled
// and run in a worker there, and gives what it gives in Node.

const planner = described.find(({ name }) => name === 'LOADPLAN')!;

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;
/** The worker's own file. */
let workerScript: string;

beforeAll(async () => {
  await prepared(planner);
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
  page = await browser.newPage();
  seen = await watch(page);
  await openAddIn(page, server.url);
});

afterAll(async () => {
  await browser.close();
  await server.close();
});

const given = (view: string): (Grid | null)[] => [
  lots,
  strains,
  rooms,
  orders,
  [[START]],
  [[21]],
  calendar,
  standing,
  null,
  null,
  [[view]],
];

const planIn = async (where: Page, view: string): Promise<unknown[][]> =>
  (await call(where, { name: 'LOADPLAN', given: given(view) })).value as unknown[][];

/** The last digits of a number may differ between machines. */
const rounded = (rows: unknown[][]): unknown[][] =>
  rows.map((row) => row.map((cell) => (typeof cell === 'number' ? Math.round(cell * 1e6) / 1e6 : cell)));

test.each(['plan', 'picks', 'orders', 'lots'])(
  'the view %s is the same in the browser and in Node',
  async (view) => {
    const here = plainValues(evaluate(planner, given(view)));
    expect(here.length).toBeGreaterThan(4);
    expect(rounded(await planIn(page, view))).toEqual(rounded(here));
  },
);

test('it is solved by the WebAssembly solver, with no error on the page and no request elsewhere', async () => {
  const summary = await planIn(page, 'summary');
  expect(summary[1]).toEqual(['method', 'linear programme', 'solved with HiGHS']);
  // The vendor's runtime tries a telemetry frame, which the page's own policy stops before any request.
  const errors = seen.errors.filter(
    (error) => !/^Framing 'https:\/\/telemetryservice\..*Content Security/.test(error),
  );
  expect({ ...seen, errors }).toEqual({ errors: [], strayed: [] });
  expect(page.workers()).toHaveLength(1);
  workerScript = page.workers()[0]!.url();
});

test('the page goes on while a large plan is solved, once for all its views, and the plan is that of Node', async () => {
  const large = largeFarm(300, 180);
  // Gaps between the ticks of a timer tell for how long the page stood still.
  await page.evaluate(() => {
    const scope = window as unknown as { ticks: number[] };
    scope.ticks = [];
    setInterval(() => scope.ticks.push(performance.now()), 20);
  });
  const timed = async (cells: (Grid | null)[]): Promise<[unknown[][], number]> => {
    const start = performance.now();
    const { value } = await call(page, { name: 'LOADPLAN', given: cells });
    return [value as unknown[][], performance.now() - start];
  };
  const [plan, time] = await timed(large);
  const ticks = await page.evaluate(() => (window as unknown as { ticks: number[] }).ticks);
  expect(Math.max(...ticks.slice(1).map((tick, n) => tick - ticks[n]!))).toBeLessThan(time / 3);
  const [, timeOfNextView] = await timed([...large.slice(0, -1), [['lots']]]);
  expect(timeOfNextView).toBeLessThan(time / 2);
  expect(rounded(plan)).toEqual(rounded(plainValues(evaluate(planner, large))));
});

test('a long plan is stopped when Excel cancels it, and the next call answers', async () => {
  const [long] = await send(page, [{ name: 'LOADPLAN', given: largeFarm(400, 240), cancelable: true }]);
  const [waiting] = await send(page, [{ name: 'LOADPLAN', given: given('lots') }]);
  const [worker] = page.workers();
  const stopped = worker!.waitForEvent('close');
  await page.waitForTimeout(500);
  expect(await hasReply(page, waiting!)).toBe(false);
  await cancel(page, long!);
  await stopped;
  const [nothing, lotsView] = await replies(page, [long!, waiting!]);
  expect(nothing!.value).toEqual([['']]);
  expect((lotsView!.value as unknown[][])[0]![0]).toBe('lot');
  expect(page.workers()).toHaveLength(1);
});

describe('where no worker starts the page solves, with the same plan:', () => {
  const withoutWorkers = (html: string): string => html.replace("worker-src 'self'", "worker-src 'none'");

  test.each([
    [
      'the runtime has none',
      (other: Page) => other.addInitScript(() => delete (window as { Worker?: unknown }).Worker),
      undefined,
    ],
    ['the policy refuses it', () => Promise.resolve(), withoutWorkers],
    [
      'its script does not come',
      (other: Page) => other.route(workerScript, (route) => route.abort()),
      undefined,
    ],
  ])('%s', async (_why, hinder, edited) => {
    const other = await browser.newPage();
    await hinder(other);
    await openAddIn(other, server.url, { ...(edited && { edited }) });
    const here = plainValues(evaluate(planner, given('plan')));
    expect(rounded(await planIn(other, 'plan'))).toEqual(rounded(here));
    expect(other.workers()).toHaveLength(0);
    await other.close();
  });
});

/** The worker's script as a server might send it. */
const sentAs = (other: Page, { before = '', headers = {} }): Promise<unknown> =>
  other.route(workerScript, async (route) => {
    const response = await route.fetch();
    const body = before + (await response.text());
    await route.fulfill({ response, body, headers: { ...response.headers(), ...headers } });
  });

// A page's own policy does not hold for its workers: theirs comes with their script, where the server sends one.
test('with the header that README gives, a worker can reach no other machine, and solves as before', async () => {
  const readme = readFileSync(path.join(__dirname, '../../README.md'), 'utf8');
  const policies = new Set(readme.match(/default-src 'none'; script-src 'self'[^"\n]*/g));
  expect(policies.size).toBe(1);
  const strayedWith = async (headers: Record<string, string>): Promise<readonly string[]> => {
    const other = await browser.newPage();
    const { strayed } = await watch(other);
    await sentAs(other, { before: "fetch('https://elsewhere.example/').catch(() => 0);", headers });
    await openAddIn(other, server.url);
    expect((await planIn(other, 'summary'))[1]![2]).toBe('solved with HiGHS');
    expect(other.workers()).toHaveLength(1);
    await other.close();
    return strayed;
  };
  expect(await strayedWith({})).toEqual(['https://elsewhere.example/']);
  expect(await strayedWith({ 'Content-Security-Policy': [...policies][0]! })).toEqual([]);
});

test('where WebAssembly is missing a plan is given all the same, and the summary says how', async () => {
  const bare = await browser.newPage();
  await watch(bare);
  await sentAs(bare, { before: 'delete self.WebAssembly;' });
  await openAddIn(bare, server.url);
  expect((await planIn(bare, 'plan')).length).toBeGreaterThan(4);
  expect((await planIn(bare, 'summary'))[1]![2]).toMatch(/WebAssembly cannot run here/);
  await bare.close();
});

test('a worker that breaks down gives one explained fault, and the next call answers', async () => {
  const other = await browser.newPage();
  await sentAs(other, {
    before: "addEventListener('message', () => { throw new Error('out of memory'); });",
  });
  await openAddIn(other, server.url);
  const broken = await call(other, { name: 'LOADPLAN', given: given('plan') });
  expect(broken.ok).toBe(false);
  expect(broken.value).toMatch(/^LOADPLAN has a fault of its own .*out of memory/);
  await other.unroute(workerScript);
  expect((await planIn(other, 'plan')).length).toBeGreaterThan(4);
  await other.close();
});

test('a worker that ends without a word is told at once, and the next call answers', async () => {
  const other = await browser.newPage();
  await sentAs(other, {
    before:
      "addEventListener('message', (event) => { event.stopImmediatePropagation(); setTimeout(close, 300); });",
  });
  await openAddIn(other, server.url);
  const [ended, waiting] = await replies(
    other,
    await send(other, [
      { name: 'LOADPLAN', given: given('plan') },
      { name: 'LOADPLAN', given: given('lots') },
    ]),
  );
  for (const reply of [ended!, waiting!])
    expect(reply.value).toMatch(/^LOADPLAN has a fault of its own .*what works it out has stopped/);
  await other.unroute(workerScript);
  expect((await planIn(other, 'plan')).length).toBeGreaterThan(4);
  await other.close();
});

test('a part whose download fails once is told, and comes with the next call, in the page and in the worker', async () => {
  const other = await browser.newPage();
  await openAddIn(other, server.url);
  const lost = new Set<string>();
  await other.route(/\.(js|wasm)$/, (route) => {
    const url = route.request().url();
    if (url === workerScript || lost.has(url)) return route.fallback();
    lost.add(url);
    return route.abort();
  });
  for (const name of ['COMPARE', 'CHEAPESTMIX', 'LOADPLAN']) {
    const { examples } = described.find((f) => f.name === name)!;
    const grids = examples[0]!.arguments.map(exampleGrid);
    const failures: unknown[] = [];
    let reply: Reply | undefined;
    while (!reply?.ok && failures.length < 5) {
      reply = await call(other, { name, given: grids });
      if (!reply.ok) failures.push(reply.value);
    }
    expect(reply!.ok).toBe(true);
    expect(failures.length).toBeGreaterThan(0);
    for (const words of failures)
      expect(words).toMatch(/could not be loaded\. Go online and calculate again/);
  }
  expect([...lost].filter((url) => url.endsWith('.wasm'))).toHaveLength(1);
  expect((await planIn(other, 'summary'))[1]![2]).toBe('solved with HiGHS');
  await other.close();
});
