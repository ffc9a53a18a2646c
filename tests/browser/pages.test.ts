import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { described } from '../../src/worksheet/described';
import { launchBrowser } from './chromium';
import { freshPage, leave, serveBuilt, watch } from './site';

let browser: Browser;
let server: RunningServer;
beforeAll(async () => {
  [browser, server] = await Promise.all([launchBrowser(), serveBuilt()]);
});
afterAll(async () => {
  await browser.close();
  await server.close();
});

const names = described.map(({ name }) => name);

/** How far a page's content runs past the window's right edge. */
const overflow = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);

test('the workbench page opens without an error and asks nothing of any other machine', async () => {
  const page = await browser.newPage();
  const seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  expect(await page.title()).toBe('Pinset workbench');
  expect(seen).toEqual({ errors: [], strayed: [] });
});

describe.each([
  [1280, 800],
  [390, 844],
])('the guide at %i × %i', (width, height) => {
  test('has a place for every function, fits, and keeps what cells hold as text', async () => {
    const page = await browser.newPage({ viewport: { width, height } });
    const seen = await watch(page);
    await page.goto(`${server.url}guide.html`);
    const places = await page.locator('article[id]').evaluateAll((all) => all.map(({ id }) => id));
    expect(places.sort()).toEqual([...names].sort());
    expect(await overflow(page)).toBe(0);
    const text = await page.locator('body').innerText();
    for (const { examples } of described) expect(text).toContain(examples[0]!.title);
    expect(text).not.toMatch(/undefined|\[object|&#/);
    expect(seen).toEqual({ errors: [], strayed: [] });
  });

  test('has a page of blanks and zeros that fits, and leads back to each function', async () => {
    const page = await browser.newPage({ viewport: { width, height } });
    const seen = await watch(page);
    await page.goto(`${server.url}blanks.html`);
    expect(await overflow(page)).toBe(0);
    await page.getByRole('link', { name: 'STRAINTABLE' }).click();
    expect(page.url()).toBe(`${server.url}guide.html#STRAINTABLE`);
    await page.getByRole('link', { name: 'Blanks and zeros' }).click();
    expect(page.url()).toBe(`${server.url}blanks.html`);
    expect(seen).toEqual({ errors: [], strayed: [] });
  });
});

// Which host script office.js loads follows from what Excel puts into the page's address. "Outside of Office client" is
// what it says in a browser; on the web it looks for the Excel around it and finds none.
test.each([
  [
    'Web',
    'excel-web-16.00.js',
    ['Sys.ArgumentNullException: Value cannot be null.\nParameter name: conversationId'],
  ],
  ['Win32', 'excel-win32-16.01.js', []],
  ['Mac', 'excel-mac-16.00.js', []],
])('as a page of Excel for %s it loads %s, against no rule of its policy', async (host, script, errors) => {
  const page = await freshPage(browser);
  const seen = await watch(page);
  const came = (file: string): Promise<{ status: () => number }> =>
    page.waitForResponse((response) => response.url().endsWith(file));
  const files = Promise.all([came(`/office/${script}`), came('office_strings.js')]);
  await page.goto(`${server.url}taskpane.html?_host_Info=Excel$${host}$16.01$en-US$$$$0`);
  expect((await files).map((file) => file.status())).toEqual([200, 200]);
  const associated = await page.evaluate(
    () =>
      (window as unknown as { CustomFunctions: { _association: { mappings: object } } }).CustomFunctions
        ._association.mappings,
  );
  expect(Object.keys(associated).sort()).toEqual([...names].sort());
  expect(seen).toEqual({ errors, strayed: [] });
  await leave(page);
});
