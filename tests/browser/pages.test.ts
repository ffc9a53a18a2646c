import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import type { RunningServer } from '../../src/hosts/excel/serve/staticServer';
import { described } from '../../src/worksheet/described';
import { addAxe, lookedAt, seriousFaults } from './axe';
import { freshPage, leave, openBrowser, serveBuilt, watch } from './site';

let browser: Browser;
let server: RunningServer;
beforeAll(async () => {
  [browser, server] = await Promise.all([openBrowser(), serveBuilt()]);
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
  const page = await freshPage(browser);
  const seen = await watch(page);
  await page.goto(`${server.url}workbench.html`);
  expect(await page.title()).toBe('Pinset workbench');
  expect(seen).toEqual({ errors: [], strayed: [] });
  await leave(page);
});

describe.each([
  [1280, 800],
  [390, 844],
])('the guide at %i × %i', (width, height) => {
  test('has a place for every function, fits, and keeps what cells hold as text', async () => {
    const page = await freshPage(browser, { viewport: { width, height } });
    const seen = await watch(page);
    await page.goto(`${server.url}guide.html`);
    const places = await page.locator('article[id]').evaluateAll((all) => all.map(({ id }) => id));
    expect(places.sort()).toEqual([...names].sort());
    expect(await overflow(page)).toBe(0);
    const text = await page.locator('body').innerText();
    for (const { examples } of described) expect(text).toContain(examples[0]!.title);
    expect(text).not.toMatch(/undefined|\[object|&#/);
    expect(seen).toEqual({ errors: [], strayed: [] });
    await leave(page);
  });

  test('has a page of blanks and zeros that fits, and leads back to each function', async () => {
    const page = await freshPage(browser, { viewport: { width, height } });
    const seen = await watch(page);
    await page.goto(`${server.url}blanks.html`);
    expect(await overflow(page)).toBe(0);
    await page.getByRole('link', { name: 'STRAINTABLE' }).click();
    expect(page.url()).toBe(`${server.url}guide.html#STRAINTABLE`);
    await page.getByRole('link', { name: 'Blanks and zeros' }).click();
    expect(page.url()).toBe(`${server.url}blanks.html`);
    expect(seen).toEqual({ errors: [], strayed: [] });
    await leave(page);
  });
});

describe('the search of the guide', () => {
  test('finds by plain words, says how many it found, and is used from the keyboard', async () => {
    const page = await freshPage(browser);
    const seen = await watch(page);
    await page.goto(`${server.url}errors.html`);
    const field = page.getByRole('searchbox', { name: 'What do you want to know?' });
    await field.focus();
    await page.keyboard.type('how much water');
    const first = page.locator('#found a').first();
    await first.waitFor();
    expect(await page.getByRole('status').innerText()).toMatch(/^5 answers/);
    expect(await page.locator('#found').innerText()).toContain('MIXWATER');
    await page.keyboard.press('ArrowDown');
    expect(await first.evaluate((link) => link === document.activeElement)).toBe(true);
    await page.keyboard.press('ArrowUp');
    await page.keyboard.press('Escape');
    await page.locator('#found a').first().waitFor({ state: 'detached' });
    await page.keyboard.type('mixwater');
    await page
      .getByRole('link', { name: /^MIXWATER/ })
      .first()
      .waitFor();
    await page.keyboard.press('Enter');
    await page.waitForURL(`${server.url}guide.html#MIXWATER`);
    expect(seen).toEqual({ errors: [], strayed: [] });
    await leave(page);
  });

  test('is not there without a script, and all that it finds is', async () => {
    const page = await browser.newPage({ javaScriptEnabled: false });
    await page.goto(`${server.url}guide.html`);
    expect(await page.locator('#search').isVisible()).toBe(false);
    expect(await page.locator('#READYLOTS').isVisible()).toBe(true);
    await page.getByRole('link', { name: 'Plan my loading' }).click();
    expect(await page.locator('code').first().innerText()).toContain(
      '=PINSET.LOADPLAN(Lots[#All],Strains[#All]',
    );
    await page.close();
  });
});

test.each(['guide', 'blanks', 'errors', 'ready', 'plan', 'audit', 'mix'])(
  'the page %s fits a phone, and axe finds nothing in it, light or dark',
  async (name) => {
    const page = await freshPage(browser, { viewport: { width: 390, height: 844 }, bypassCSP: true });
    await page.goto(`${server.url}${name}.html`);
    expect(await overflow(page)).toBe(0);
    await addAxe(page);
    for (const look of ['light', 'dark'] as const) {
      await lookedAt(page, { colorScheme: look });
      expect(await seriousFaults(page)).toEqual([]);
    }
    await leave(page);
  },
);

test('the guide is light or dark as a person chose, on each of its pages and on the next visit', async () => {
  const page = await freshPage(browser);
  await page.goto(`${server.url}guide.html`);
  const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const light = await ground();
  await page.getByRole('radio', { name: 'dark', exact: true }).check();
  const dark = await ground();
  expect(dark).not.toBe(light);
  // Before anything is drawn: the choice is made by the time that the body begins.
  for (const name of ['guide', 'privacy', 'mix']) {
    await page.goto(`${server.url}${name}.html`, { waitUntil: 'commit' });
    await page.waitForFunction(() => document.body !== null);
    expect([name, await ground()]).toEqual([name, dark]);
    await page.waitForLoadState('domcontentloaded');
    expect(await page.getByRole('radio', { name: 'dark', exact: true }).isChecked()).toBe(true);
  }
  await page.getByRole('radio', { name: 'as this device' }).check();
  expect(await ground()).toBe(light);
  await lookedAt(page, { colorScheme: 'dark' });
  expect(await ground()).toBe(dark);
  await leave(page);
});

test('a printed page is black on white, without what only leads about', async () => {
  const page = await freshPage(browser, { colorScheme: 'dark' });
  await page.goto(`${server.url}plan.html`);
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
  const colours = await page.evaluate(() => {
    const { color, backgroundColor } = getComputedStyle(document.body);
    return { color, backgroundColor };
  });
  expect(colours).toEqual({ color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(255, 255, 255)' });
  expect(await page.locator('#search').isVisible()).toBe(false);
  expect(await page.locator('.to-index').isVisible()).toBe(false);
  await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
  await leave(page);
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
