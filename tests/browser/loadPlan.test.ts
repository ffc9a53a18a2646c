import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { catalogue } from '../../src/worksheet/catalogue';
import type { Grid } from '../../src/worksheet/cells/cell';
import { plainValues } from '../../src/worksheet/examples';
import { calendar, lots, orders, rooms, standing, START, strains } from '../worksheet/loadingFarm';
import { launchBrowser } from './chromium';
import { call, openAddIn } from './excelHost';
import { serveBuilt, watch, type Watch } from './site';

// The plan in a real browser, under the policy of the add-in's own page: the solver's WebAssembly is fetched, compiled
// and run there, and gives what it gives in Node.

const planner = catalogue.find(({ name }) => name === 'LOADPLAN')!;

let browser: Browser;
let server: RunningServer;
let page: Page;
let seen: Watch;

beforeAll(async () => {
  await planner.prepare!();
  [browser, server] = await Promise.all([launchBrowser(), serveBuilt()]);
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

const inBrowser = async (view: string): Promise<unknown[][]> =>
  (await call(page, { name: 'LOADPLAN', given: given(view) })).value as unknown[][];

/** The last digits of a number may differ between machines. */
const rounded = (rows: unknown[][]): unknown[][] =>
  rows.map((row) => row.map((cell) => (typeof cell === 'number' ? Math.round(cell * 1e6) / 1e6 : cell)));

test.each(['plan', 'picks', 'orders', 'lots'])(
  'the view %s is the same in the browser and in Node',
  async (view) => {
    const here = plainValues(planner.evaluate(given(view)));
    expect(here.length).toBeGreaterThan(4);
    expect(rounded(await inBrowser(view))).toEqual(rounded(here));
  },
);

test('it is solved by the WebAssembly solver, with no error on the page and no request elsewhere', async () => {
  const summary = await inBrowser('summary');
  expect(summary[1]).toEqual(['method', 'linear programme', 'solved with HiGHS']);
  // The vendor's runtime tries a telemetry frame, which the page's own policy stops before any request.
  const errors = seen.errors.filter(
    (error) => !/^Framing 'https:\/\/telemetryservice\..*Content Security/.test(error),
  );
  expect({ ...seen, errors }).toEqual({ errors: [], strayed: [] });
});

test('where WebAssembly is missing a plan is given all the same, and the summary says how', async () => {
  const bare = await browser.newPage();
  await bare.addInitScript(() => {
    delete (window as { WebAssembly?: unknown }).WebAssembly;
  });
  await watch(bare);
  await openAddIn(bare, server.url);
  const without = async (view: string): Promise<unknown[][]> =>
    (await call(bare, { name: 'LOADPLAN', given: given(view) })).value as unknown[][];
  expect((await without('plan')).length).toBeGreaterThan(4);
  expect((await without('summary'))[1]![2]).toMatch(/WebAssembly cannot run here/);
  await bare.close();
});
